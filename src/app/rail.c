/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * One toggle button a stage. What stands under its name is worked out from the editor each time
 * something changes there.
 */
#include "rail.h"

#include <glib/gi18n.h>

struct _PfRail {
  GtkBox parent_instance;

  PfEditor *editor;
  GtkToggleButton *buttons[PF_N_STAGES];
  GtkLabel *states[PF_N_STAGES];
  bool updating;
};

G_DEFINE_FINAL_TYPE (PfRail, pf_rail, GTK_TYPE_BOX)

static const struct {
  const char *name, *tooltip;
} stages[PF_N_STAGES] = {
  { N_ ("Outline"), N_ ("Draw or import the motifs (Alt+1)") },
  { N_ ("Edge"), N_ ("Half or cloth stitch edge, and its pinholes (Alt+2)") },
  { N_ ("Ground"), N_ ("Choose a ground and place it (Alt+3)") },
  { N_ ("Sewings"), N_ ("See what happens at the edge, and correct it (Alt+4)") },
  { N_ ("Sheet"), N_ ("Print the pricking, export it, save the report (Alt+5)") },
};

static char *
outline_state (PfEditor *editor)
{
  const PfDocument *document = pf_editor_document (editor);
  for (size_t n = 0; n < document->n_drafts; n++)
    if (pf_editor_is_open (editor, n))
      return g_strdup (_ ("still open"));
    else if (pf_editor_trouble (editor, n, NULL) != NULL)
      return g_strdup (_ ("to be mended"));
  if (document->n_drafts == 0)
    return g_strdup (_ ("nothing yet"));
  return g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE, "%zu motif", "%zu motifs", document->n_drafts),
      document->n_drafts);
}

static char *
edge_state (PfEditor *editor)
{
  const int active = pf_editor_active (editor);
  const PfMotif *motif = active >= 0 ? pf_editor_motif (editor, (size_t) active) : NULL;
  if (motif == NULL)
    return g_strdup ("–");
  bool half = false, cloth = false;
  for (size_t l = 0; l < motif->region->n_loops; l++)
    {
      const PfEdge *edge = &motif->edges[l];
      half |= edge->kind == PF_EDGE_HALF_STITCH;
      cloth |= edge->kind == PF_EDGE_CLOTH_STITCH;
      for (size_t s = 0; s < edge->n_stretches; s++)
        {
          half |= edge->stretches[s].kind == PF_EDGE_HALF_STITCH;
          cloth |= edge->stretches[s].kind == PF_EDGE_CLOTH_STITCH;
        }
    }
  return g_strdup (half && cloth ? _ ("both stitches")
                   : cloth       ? _ ("cloth stitch")
                                 : _ ("half stitch"));
}

static char *
ground_state (PfEditor *editor)
{
  const PfDraft *draft = pf_editor_draft (editor);
  const int active = pf_editor_active (editor);
  const PfMotif *motif = active >= 0 ? pf_editor_motif (editor, (size_t) active) : NULL;
  const PfGround *ground = motif != NULL ? motif->ground : draft != NULL ? draft->ground : NULL;
  return g_strdup (ground != NULL ? ground->title : _ ("none yet"));
}

static char *
sewings_state (PfEditor *editor)
{
  const int active = pf_editor_active (editor);
  const PfMotif *motif = active >= 0 ? pf_editor_motif (editor, (size_t) active) : NULL;
  if (motif == NULL || motif->filling == NULL)
    return g_strdup (pf_editor_busy (editor) ? _ ("in work…") : "–");
  const size_t sewings = motif->filling->counts.sewings;
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%zu sewing", "%zu sewings", sewings),
                          sewings);
}

static char *
sheet_state (PfEditor *editor)
{
  return g_strdup (pf_editor_document (editor)->page.paper->name);
}

static void
update (PfRail *rail)
{
  static char *(*const find_state[PF_N_STAGES]) (
      PfEditor *) = { outline_state, edge_state, ground_state, sewings_state, sheet_state };
  rail->updating = true;
  gtk_toggle_button_set_active (rail->buttons[pf_editor_stage (rail->editor)], TRUE);
  for (int s = 0; s < PF_N_STAGES; s++)
    {
      g_autofree char *state = find_state[s](rail->editor);
      g_autofree char *spoken = g_strdup_printf (_ ("%s: %s"), _ (stages[s].name), state);
      gtk_label_set_label (rail->states[s], state);
      gtk_accessible_update_property (GTK_ACCESSIBLE (rail->buttons[s]),
                                      GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
    }
  rail->updating = false;
}

static void
toggled (PfRail *rail, GtkToggleButton *button)
{
  if (rail->updating || !gtk_toggle_button_get_active (button))
    return;
  for (int s = 0; s < PF_N_STAGES; s++)
    if (rail->buttons[s] == button)
      pf_editor_set_stage (rail->editor, (PfStage) s);
}

static GtkWidget *
make_label (const char *text, const char *class)
{
  GtkWidget *label = gtk_label_new (text);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_label_set_width_chars (GTK_LABEL (label), 13);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 13);
  gtk_widget_add_css_class (label, class);
  return label;
}

static void
add_button (PfRail *rail, int stage)
{
  GtkWidget *button = gtk_toggle_button_new ();
  GtkWidget *grid = gtk_grid_new ();
  g_autofree char *digit = g_strdup_printf ("%d", stage + 1);
  GtkWidget *number = gtk_label_new (digit);
  gtk_widget_add_css_class (number, "step-number");
  gtk_widget_set_valign (number, GTK_ALIGN_CENTER);
  gtk_grid_set_column_spacing (GTK_GRID (grid), 8);
  gtk_grid_attach (GTK_GRID (grid), number, 0, 0, 1, 2);
  gtk_grid_attach (GTK_GRID (grid), make_label (_ (stages[stage].name), "step-name"), 1, 0, 1, 1);
  rail->states[stage] = GTK_LABEL (make_label ("", "caption"));
  gtk_grid_attach (GTK_GRID (grid), GTK_WIDGET (rail->states[stage]), 1, 1, 1, 1);
  gtk_button_set_child (GTK_BUTTON (button), grid);
  gtk_button_set_has_frame (GTK_BUTTON (button), FALSE);
  gtk_widget_set_tooltip_text (button, _ (stages[stage].tooltip));
  rail->buttons[stage] = GTK_TOGGLE_BUTTON (button);
  if (stage > 0)
    gtk_toggle_button_set_group (rail->buttons[stage], rail->buttons[0]);
  g_signal_connect_swapped (button, "toggled", G_CALLBACK (toggled), rail);
  gtk_box_append (GTK_BOX (rail), button);
}

static void
pf_rail_dispose (GObject *object)
{
  g_clear_object (&PF_RAIL (object)->editor);
  G_OBJECT_CLASS (pf_rail_parent_class)->dispose (object);
}

static void
pf_rail_class_init (PfRailClass *class)
{
  G_OBJECT_CLASS (class)->dispose = pf_rail_dispose;
}

static void
pf_rail_init (PfRail *rail)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (rail), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (rail), 4);
  gtk_widget_add_css_class (GTK_WIDGET (rail), "rail");
  gtk_accessible_update_property (GTK_ACCESSIBLE (rail), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Steps of the job"), -1);
  for (int s = 0; s < PF_N_STAGES; s++)
    add_button (rail, s);
}

GtkWidget *
pf_rail_new (PfEditor *editor)
{
  static const char *const changes[] = { "document-changed", "worked-out", "selection-changed",
                                         "stage-changed" };
  PfRail *rail = g_object_new (PF_TYPE_RAIL, NULL);
  rail->editor = g_object_ref (editor);
  for (gsize c = 0; c < G_N_ELEMENTS (changes); c++)
    g_signal_connect_object (editor, changes[c], G_CALLBACK (update), rail, G_CONNECT_SWAPPED);
  update (rail);
  return GTK_WIDGET (rail);
}
