/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "thread-box.h"

#include <math.h>
#include <string.h>

#include <glib/gi18n-lib.h>

#include <report-thread.h>

#include "form.h"

/* Lengths are added up a moment after the last change, and not of larger fillings: a maker who
 * drags the ground doesn't wait for them. */
#define QUIET 300 /* ms */
#define MOST_STITCHES 30000

enum { NOT_CHOSEN, FIRST_OF_TABLE };

struct _PfThreadBox {
  GtkBox parent_instance;

  GtkDropDown *kind; /* not chosen, those of the table, another thickness */
  GtkSpinButton *wraps, *spare;
  GtkLabel *fit, *needs, *coloured;
  GtkSpinButton *pair;
  GtkDropDown *bobbins;
  GtkColorButton *colour;
  GtkWidget *give, *take;
  PfMotif *motif; /* whose thread is to be added up */
  PfUnits units;
  guint timer;
};

G_DEFINE_FINAL_TYPE (PfThreadBox, pf_thread_box, GTK_TYPE_BOX)

static PfPanel *
panel_of (PfThreadBox *box)
{
  return PF_PANEL (gtk_widget_get_ancestor (GTK_WIDGET (box), PF_TYPE_PANEL));
}

static guint
other_thickness (void)
{
  size_t n;
  pf_thread_table (&n);
  return (guint) n + FIRST_OF_TABLE;
}

/* --- From the document to the widgets -----------------------------------------------------------
 */

static guint
kind_of (const PfThreadUse *use)
{
  size_t n;
  const PfThreadKind *kinds = pf_thread_table (&n);
  for (size_t k = 0; k < n; k++)
    if (g_str_equal (kinds[k].name, use->name) && kinds[k].wraps_per_cm == use->wraps_per_cm)
      return (guint) k + FIRST_OF_TABLE;
  return use->wraps_per_cm > 0 ? other_thickness () : NOT_CHOSEN;
}

static void
show_fit (PfThreadBox *box, const PfDraft *draft)
{
  const PfThreadUse *use = &draft->thread;
  g_autofree char *words =
      draft->ground != NULL && use->wraps_per_cm > 0
          ? pf_explain_fit (draft->ground, draft->settings.placement, use->wraps_per_cm, use->rule)
          : g_strdup (_ ("Choose a thread, or count how many turns of it lie side by side on 1 cm "
                         "of a ruler: then it is judged against the gap."));
  gtk_label_set_label (box->fit, words);
}

static void
show_needs (PfThreadBox *box)
{
  PfThreadNeeds needs;
  if (box->motif == NULL || !pf_thread_needs (&needs, box->motif))
    return;
  const size_t n = 2 * box->motif->filling->n_pairs;
  double least = INFINITY, most = 0;
  for (size_t b = 0; b < n; b++)
    {
      least = fmin (least, needs.bobbins[b]);
      most = fmax (most, needs.bobbins[b]);
    }
  g_autofree char *shortest = pf_format_thread (least, 2, box->units);
  g_autofree char *longest = pf_format_thread (most, 2, box->units);
  g_autofree char *total = pf_format_thread (needs.total, 1, box->units);
  g_autofree char *words =
      n == 0 ? g_strdup ("")
             : g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%zu bobbin with %s to %s, %s in all",
                                             "%zu bobbins with %s to %s, %s in all", n),
                                n, shortest, longest, total);
  gtk_label_set_label (box->needs, words);
  pf_thread_needs_clear (&needs);
}

static gboolean
quiet (gpointer data)
{
  PfThreadBox *box = data;
  box->timer = 0;
  show_needs (box);
  return G_SOURCE_REMOVE;
}

static void
show_needs_soon (PfThreadBox *box, const PfMotif *motif, PfUnits units)
{
  const bool countable = motif != NULL && motif->filling != NULL &&
                         motif->thread.wraps_per_cm > 0 &&
                         motif->filling->n_stitches <= MOST_STITCHES;
  const bool same_units = units == box->units;
  box->units = units;
  if (motif != NULL && motif == box->motif)
    {
      if (!same_units && box->timer == 0)
        show_needs (box);
      return;
    }
  g_clear_pointer (&box->motif, pf_motif_unref);
  g_clear_handle_id (&box->timer, g_source_remove);
  gtk_label_set_label (box->needs, "");
  if (!countable)
    return;
  box->motif = pf_motif_ref ((PfMotif *) motif);
  box->timer = g_timeout_add (QUIET, quiet, box);
}

/* "3: both, 7: left" */
static void
show_coloured (PfThreadBox *box, const PfDraft *draft, const PfMotif *motif)
{
  g_autoptr (GString) words = g_string_new (NULL);
  const PfFilling *filling = motif != NULL ? motif->filling : NULL;
  size_t n_unused = 0;
  g_autofree const char **colours =
      filling != NULL ? pf_thread_colours (&draft->thread, filling, &n_unused) : NULL;
  for (size_t p = 0; filling != NULL && p < filling->n_pairs; p++)
    {
      const char *left = colours[2 * p], *right = colours[2 * p + 1];
      if (left == NULL && right == NULL)
        continue;
      g_string_append_printf (words, words->len > 0 ? ", " : "");
      if (left != NULL && right != NULL)
        g_string_append_printf (words, _ ("pair %zu"), p + 1);
      else
        g_string_append_printf (words, left != NULL ? _ ("pair %zu, left") : _ ("pair %zu, right"),
                                p + 1);
    }
  if (n_unused > 0)
    g_string_append_printf (
        words,
        g_dngettext (GETTEXT_PACKAGE, " (%zu more that isn’t sewn in where the ground lies now)",
                     " (%zu more that aren’t sewn in where the ground lies now)", n_unused),
        n_unused);
  gtk_label_set_label (box->coloured, words->len > 0 ? words->str : _ ("No bobbin is coloured."));
  const size_t n_pairs = filling != NULL ? filling->n_pairs : 0;
  gtk_spin_button_set_range (box->pair, 1, (double) MAX (n_pairs, 1));
  gtk_widget_set_sensitive (box->give, n_pairs > 0);
  gtk_widget_set_sensitive (box->take, draft->thread.n_colours > 0);
}

void
pf_thread_box_show (PfThreadBox *box, const PfDraft *draft, const PfMotif *motif)
{
  gtk_widget_set_sensitive (GTK_WIDGET (box), draft != NULL);
  show_needs_soon (box, motif, pf_editor_units (pf_panel_editor (panel_of (box))));
  if (draft == NULL)
    return;
  const guint kind = kind_of (&draft->thread);
  gtk_drop_down_set_selected (box->kind, kind);
  gtk_spin_button_set_value (box->wraps, draft->thread.wraps_per_cm);
  gtk_spin_button_set_value (box->spare, draft->thread.spare);
  gtk_widget_set_sensitive (GTK_WIDGET (box->spare), kind != NOT_CHOSEN);
  show_fit (box, draft);
  show_coloured (box, draft, motif);
}

/* --- From the widgets to the document -----------------------------------------------------------
 */

static void
take_kind (PfThreadUse *use, guint kind)
{
  size_t n;
  const PfThreadKind *kinds = pf_thread_table (&n);
  const bool known = kind >= FIRST_OF_TABLE && kind < other_thickness ();
  g_free (use->name);
  use->name = g_strdup (known ? kinds[kind - FIRST_OF_TABLE].name : "");
  if (known)
    use->wraps_per_cm = kinds[kind - FIRST_OF_TABLE].wraps_per_cm;
  else if (kind == NOT_CHOSEN)
    use->wraps_per_cm = 0;
  else if (use->wraps_per_cm == 0)
    use->wraps_per_cm = kinds[0].wraps_per_cm;
}

static void
kind_chosen (PfThreadBox *box)
{
  PfPanel *panel = panel_of (box);
  PfDraft *draft = panel != NULL && !pf_panel_updating (panel) ? pf_panel_edit (panel) : NULL;
  if (draft == NULL)
    return;
  take_kind (&draft->thread, gtk_drop_down_get_selected (box->kind));
  pf_editor_change (pf_panel_editor (panel), draft, _ ("Choose a thread"));
}

static void
number_changed (PfThreadBox *box, GtkSpinButton *spin)
{
  PfPanel *panel = panel_of (box);
  PfDraft *draft = panel != NULL && !pf_panel_updating (panel) ? pf_panel_edit (panel) : NULL;
  if (draft == NULL)
    return;
  const double value = gtk_spin_button_get_value (spin);
  if (spin == box->spare)
    draft->thread.spare = value;
  else
    {
      g_free (draft->thread.name);
      draft->thread.name = g_strdup ("");
      draft->thread.wraps_per_cm = value < 1 ? 0 : value;
    }
  pf_editor_change_merged (pf_panel_editor (panel), draft,
                           spin == box->spare ? _ ("Thread to spare") : _ ("Thread thickness"));
}

/* The line where the pair of that number is sewn in; false if there is none now. */
static bool
line_of_pair (PfPanel *panel, guint pair, PfLineId *line)
{
  PfEditor *editor = pf_panel_editor (panel);
  const PfMotif *motif = pf_editor_motif (editor, (size_t) pf_editor_active (editor));
  if (motif == NULL || motif->filling == NULL || pair == 0 || pair > motif->filling->n_pairs)
    return false;
  const PfSewing *sewing = &motif->filling->sewings[motif->filling->pairs[pair - 1].sewn_in];
  *line = pf_crossing_line (motif->filling, sewing->entering);
  return true;
}

static void
colour_pair (PfThreadBox *box, const char *colour)
{
  static const PfBobbins bobbins[] = { PF_BOBBIN_BOTH, PF_BOBBIN_LEFT, PF_BOBBIN_RIGHT };
  PfPanel *panel = panel_of (box);
  PfLineId line;
  if (panel == NULL ||
      !line_of_pair (panel, (guint) gtk_spin_button_get_value_as_int (box->pair), &line))
    return;
  PfDraft *draft = pf_panel_edit (panel);
  if (draft == NULL)
    return;
  pf_thread_use_set_colour (&draft->thread, line,
                            bobbins[gtk_drop_down_get_selected (box->bobbins)], colour);
  pf_editor_change (pf_panel_editor (panel), draft,
                    colour != NULL ? _ ("Colour a pair") : _ ("Take a colour away"));
}

static void
give_clicked (PfThreadBox *box)
{
  GdkRGBA rgba;
  gtk_color_chooser_get_rgba (GTK_COLOR_CHOOSER (box->colour), &rgba);
  g_autofree char *colour = g_strdup_printf (
      "#%02x%02x%02x", (guint) lround (rgba.red * 255) & 0xFF,
      (guint) lround (rgba.green * 255) & 0xFF, (guint) lround (rgba.blue * 255) & 0xFF);
  colour_pair (box, colour);
}

static void
take_clicked (PfThreadBox *box)
{
  colour_pair (box, NULL);
}

/* --- The widget ---------------------------------------------------------------------------------
 */

static GtkDropDown *
kinds_new (void)
{
  size_t n;
  const PfThreadKind *kinds = pf_thread_table (&n);
  GtkStringList *names = gtk_string_list_new (NULL);
  gtk_string_list_append (names, _ ("Not chosen yet"));
  for (size_t k = 0; k < n; k++)
    gtk_string_list_append (names, kinds[k].name);
  gtk_string_list_append (names, _ ("Another thickness"));
  return GTK_DROP_DOWN (gtk_drop_down_new (G_LIST_MODEL (names), NULL));
}

static GtkSpinButton *
spin_new (double least, double most, double step, guint digits)
{
  GtkWidget *spin = gtk_spin_button_new_with_range (least, most, step);
  gtk_spin_button_set_digits (GTK_SPIN_BUTTON (spin), digits);
  gtk_spin_button_set_update_policy (GTK_SPIN_BUTTON (spin), GTK_UPDATE_IF_VALID);
  gtk_editable_set_width_chars (GTK_EDITABLE (spin), 8);
  gtk_widget_set_hexpand (spin, TRUE);
  return GTK_SPIN_BUTTON (spin);
}

static GtkLabel *
words_new (void)
{
  return GTK_LABEL (pf_hint_new (""));
}

static GtkWidget *
colour_form (PfThreadBox *box)
{
  const char *const which[] = { _ ("Both bobbins"), _ ("The left one"), _ ("The right one"), NULL };
  GtkWidget *form = pf_form_new (), *buttons = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  const GdkRGBA red = { 0.67F, 0.1F, 0.1F, 1 };
  box->pair = spin_new (1, 1, 1, 0);
  box->bobbins = GTK_DROP_DOWN (gtk_drop_down_new_from_strings (which));
  box->colour = GTK_COLOR_BUTTON (gtk_color_button_new_with_rgba (&red));
  gtk_color_button_set_title (box->colour, _ ("Colour of the bobbins"));
  box->give = gtk_button_new_with_mnemonic (_ ("Gi_ve the colour"));
  box->take = gtk_button_new_with_mnemonic (_ ("Ta_ke it away"));
  box->coloured = words_new ();
  gtk_box_set_homogeneous (GTK_BOX (buttons), TRUE);
  gtk_box_append (GTK_BOX (buttons), box->give);
  gtk_box_append (GTK_BOX (buttons), box->take);
  pf_form_add_row (GTK_GRID (form), _ ("Pair nu_mber"), GTK_WIDGET (box->pair));
  pf_form_add_row (GTK_GRID (form), _ ("Of this pair"), GTK_WIDGET (box->bobbins));
  pf_name_choice (box->bobbins, _ ("Of this pair"));
  pf_form_add_row (GTK_GRID (form), _ ("Colour"), GTK_WIDGET (box->colour));
  pf_form_add_wide (GTK_GRID (form), buttons);
  pf_form_add_wide (GTK_GRID (form), GTK_WIDGET (box->coloured));
  g_signal_connect_swapped (box->give, "clicked", G_CALLBACK (give_clicked), box);
  g_signal_connect_swapped (box->take, "clicked", G_CALLBACK (take_clicked), box);
  return form;
}

static void
pf_thread_box_dispose (GObject *object)
{
  PfThreadBox *box = PF_THREAD_BOX (object);
  g_clear_handle_id (&box->timer, g_source_remove);
  g_clear_pointer (&box->motif, pf_motif_unref);
  G_OBJECT_CLASS (pf_thread_box_parent_class)->dispose (object);
}

static void
pf_thread_box_class_init (PfThreadBoxClass *class)
{
  G_OBJECT_CLASS (class)->dispose = pf_thread_box_dispose;
}

static void
pf_thread_box_init (PfThreadBox *box)
{
  GtkWidget *form = pf_form_new ();
  GtkWidget *expander = gtk_expander_new_with_mnemonic (_ ("Coloured bobbins"));
  gtk_orientable_set_orientation (GTK_ORIENTABLE (box), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (box), 6);
  box->kind = kinds_new ();
  box->wraps = spin_new (0, 200, 1, 1);
  box->spare = spin_new (0, 10000, 10, 0);
  box->fit = words_new ();
  box->needs = words_new ();
  gtk_widget_add_css_class (GTK_WIDGET (box->spare), "length");
  gtk_widget_set_tooltip_text (GTK_WIDGET (box->wraps),
                               _ ("How many turns of the thread lie side by side on 1 cm"));
  gtk_widget_set_tooltip_text (
      GTK_WIDGET (box->spare),
      _ ("What each bobbin has more than lies in the lace: for hitching and handling"));
  pf_form_add_row (GTK_GRID (form), _ ("Thread"), GTK_WIDGET (box->kind));
  pf_form_add_row (GTK_GRID (form), _ ("Wraps per cm"), GTK_WIDGET (box->wraps));
  pf_form_add_row (GTK_GRID (form), _ ("To spare"), GTK_WIDGET (box->spare));
  gtk_expander_set_child (GTK_EXPANDER (expander), colour_form (box));
  gtk_accessible_update_property (GTK_ACCESSIBLE (expander), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Coloured bobbins"), -1);
  gtk_box_append (GTK_BOX (box), form);
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (box->fit));
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (box->needs));
  gtk_box_append (GTK_BOX (box), expander);
  g_signal_connect_swapped (box->kind, "notify::selected", G_CALLBACK (kind_chosen), box);
  g_signal_connect_swapped (box->wraps, "value-changed", G_CALLBACK (number_changed), box);
  g_signal_connect_swapped (box->spare, "value-changed", G_CALLBACK (number_changed), box);
}
