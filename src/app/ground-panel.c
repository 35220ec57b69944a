/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The stage "Ground": which one, at which gap and turn, where it lies, and what that comes to.
 *
 * Every number is a row of one table: the widget, the field of the draft it stands for, and the
 * name of the change.
 */
#include "panel.h"

#include <math.h>

#include <glib/gi18n-lib.h>

#include "bead-room.h"
#include "ground-gallery.h"
#include "ground-tool.h"
#include "habits-box.h"
#include "resources.h"
#include "thread-box.h"

typedef struct {
  GtkSpinButton *spin;
  gsize field; /* offset of a double in PfFillingSettings */
  const char *change;
} Number;

enum { N_NUMBERS = 8 };

struct _PfGroundPanel {
  PfPanel parent_instance;

  PfGroundGallery *gallery;
  GtkSpinButton *gap, *turn, *origin_x, *origin_y;
  GtkSpinButton *clearance, *carry, *reach, *off_line, *per_pinhole;
  GtkSpinButton *angle;
  GtkCheckButton *mirror;
  GtkLabel *footside;
  PfThreadBox *thread_box;
  PfHabitsBox *habits_box;
  GtkDropDown *partial, *beads;
  GtkLabel *bead_room;
  GtkLabel *count_repeats, *count_partial, *count_left_out, *count_stitches, *count_pins;
  GtkLabel *count_beads, *count_pairs, *count_at_once, *count_turned, *count_carried;
  GtkLabel *count_sewings, *count_pinholes, *count_bars, *count_off;
  Number numbers[N_NUMBERS];
};

#define PF_TYPE_GROUND_PANEL (pf_ground_panel_get_type ())
G_DECLARE_FINAL_TYPE (PfGroundPanel, pf_ground_panel, PF, GROUND_PANEL, PfPanel)
G_DEFINE_FINAL_TYPE (PfGroundPanel, pf_ground_panel, PF_TYPE_PANEL)

static double *
field_of (PfFillingSettings *settings, const Number *number)
{
  return (double *) (void *) ((char *) settings + number->field);
}

/* --- From the document to the widgets -----------------------------------------------------------
 */

static void
show_settings (PfGroundPanel *panel, const PfDraft *draft)
{
  PfFillingSettings settings = draft->settings;
  pf_ground_gallery_set_chosen (panel->gallery, draft->ground != NULL && draft->ground_json == NULL
                                                    ? draft->ground->name
                                                    : NULL);
  for (int n = 0; n < N_NUMBERS; n++)
    gtk_spin_button_set_value (panel->numbers[n].spin, *field_of (&settings, &panel->numbers[n]));
  gtk_spin_button_set_value (panel->per_pinhole, settings.sewings_per_pinhole);
  gtk_check_button_set_active (panel->mirror, settings.placement.mirror);
  gtk_drop_down_set_selected (panel->partial, settings.all_plain ? 1 : 0);
  gtk_drop_down_set_selected (panel->beads, (guint) settings.beads);
}

/* The ground's own angle where the maker chose none; and how far apart pins along the footside
 * stand. */
static void
show_angle (PfGroundPanel *panel, const PfDraft *draft)
{
  const PfGround *ground = draft->ground;
  const PfPlacement placement = draft->settings.placement;
  gtk_widget_set_sensitive (GTK_WIDGET (panel->angle), ground != NULL);
  if (ground == NULL)
    {
      gtk_label_set_label (panel->footside, "");
      return;
    }
  const double own = pf_ground_angle (ground);
  const double footside = pf_placement_footside (ground, placement);
  g_autofree char *length = pf_editor_length (pf_panel_editor (PF_PANEL (panel)), footside, 2);
  g_autofree char *words =
      footside > 0 ? g_strdup_printf (_ ("Drawn at %.3g degrees; pins along the footside %s apart"),
                                      own, length)
                   : g_strdup_printf (_ ("Drawn at %.3g degrees"), own);
  gtk_spin_button_set_value (panel->angle, placement.angle != 0 ? placement.angle : own);
  gtk_label_set_label (panel->footside, words);
}

static void
show_bead_room (PfGroundPanel *panel, PfEditor *editor, const PfDraft *draft)
{
  g_autofree char *words = pf_bead_room_words (editor, draft);
  gtk_label_set_label (panel->bead_room, words);
  gtk_widget_set_visible (GTK_WIDGET (panel->bead_room), *words != '\0');
}

static void
show_count (GtkLabel *label, const PfCounts *counts, size_t count)
{
  g_autofree char *text = counts != NULL ? g_strdup_printf ("%zu", count) : g_strdup ("–");
  gtk_label_set_label (label, text);
}

static void
show_counts (PfGroundPanel *panel, const PfMotif *motif)
{
  static const PfCounts none = { 0 };
  const PfCounts *counts = motif != NULL && motif->filling != NULL ? &motif->filling->counts : NULL;
  const PfCounts *c = counts != NULL ? counts : &none;
  const struct {
    GtkLabel *label;
    size_t count;
  } rows[] = {
    { panel->count_repeats, c->whole },        { panel->count_left_out, c->left_out },
    { panel->count_stitches, c->stitches },    { panel->count_pins, c->pins },
    { panel->count_beads, c->beads },          { panel->count_pairs, c->new_pairs },
    { panel->count_at_once, c->most_at_once }, { panel->count_turned, c->turned },
    { panel->count_carried, c->carried },      { panel->count_sewings, c->sewings },
    { panel->count_pinholes, c->at_pinhole },  { panel->count_bars, c->round_bar },
    { panel->count_off, c->off_line },
  };
  for (gsize r = 0; r < G_N_ELEMENTS (rows); r++)
    show_count (rows[r].label, counts, rows[r].count);
  if (counts == NULL || !motif->ground->has_core)
    {
      show_count (panel->count_partial, counts, c->partial);
      return;
    }
  g_autofree char *text =
      g_strdup_printf (_ ("%zu (%zu kept, %zu plain)"), c->partial, c->kept, c->plain);
  gtk_label_set_label (panel->count_partial, text);
}

static void
update (PfPanel *base)
{
  PfGroundPanel *panel = PF_GROUND_PANEL (base);
  PfEditor *editor = pf_panel_editor (base);
  const PfDraft *draft = pf_editor_draft (editor);
  const int active = pf_editor_active (editor);
  const PfMotif *motif = active >= 0 ? pf_editor_motif (editor, (size_t) active) : NULL;
  if (draft != NULL)
    {
      show_settings (panel, draft);
      show_angle (panel, draft);
      show_bead_room (panel, editor, draft);
    }
  pf_ground_gallery_set_units (panel->gallery, pf_editor_units (editor));
  pf_thread_box_show (panel->thread_box, draft, motif);
  pf_habits_box_show (panel->habits_box, draft);
  show_counts (panel, motif);
}

/* --- From the widgets to the document -----------------------------------------------------------
 */

/* The ground's origin in the middle of the motif. */
static void
centre_origin (PfDraft *draft)
{
  if (draft->n_curves == 0)
    return;
  const PfBox box = pf_curve_box (draft->curves[0]);
  draft->settings.placement.origin =
      (PfPoint){ (box.min.x + box.max.x) / 2, (box.min.y + box.max.y) / 2 };
}

static void
number_changed (PfGroundPanel *panel, GtkSpinButton *spin)
{
  if (pf_panel_updating (PF_PANEL (panel)))
    return;
  PfDraft *draft = pf_panel_edit (PF_PANEL (panel));
  if (draft == NULL)
    return;
  const char *change = _ ("Sewings to a pinhole");
  for (int n = 0; n < N_NUMBERS; n++)
    if (panel->numbers[n].spin == spin)
      {
        *field_of (&draft->settings, &panel->numbers[n]) = gtk_spin_button_get_value (spin);
        change = _ (panel->numbers[n].change);
      }
  if (spin == panel->per_pinhole)
    draft->settings.sewings_per_pinhole = gtk_spin_button_get_value_as_int (spin);
  pf_editor_change_merged (pf_panel_editor (PF_PANEL (panel)), draft, change);
}

/* The ground's own angle is kept as such, whatever ground comes after it. */
static void
angle_changed (PfGroundPanel *panel, GtkSpinButton *spin)
{
  if (pf_panel_updating (PF_PANEL (panel)))
    return;
  PfDraft *draft = pf_panel_edit (PF_PANEL (panel));
  if (draft == NULL || draft->ground == NULL)
    {
      g_clear_pointer (&draft, pf_draft_unref);
      return;
    }
  const double angle = gtk_spin_button_get_value (spin);
  const bool own = fabs (angle - pf_ground_angle (draft->ground)) < 0.06;
  draft->settings.placement.angle = own ? 0 : angle;
  pf_editor_change_merged (pf_panel_editor (PF_PANEL (panel)), draft, _ ("Angle of the ground"));
}

static void
mirror_toggled (PfGroundPanel *panel)
{
  if (pf_panel_updating (PF_PANEL (panel)))
    return;
  PfDraft *draft = pf_panel_edit (PF_PANEL (panel));
  if (draft == NULL)
    return;
  draft->settings.placement.mirror = gtk_check_button_get_active (panel->mirror);
  pf_editor_change (pf_panel_editor (PF_PANEL (panel)), draft, _ ("Mirror the ground"));
}

static void
choice_changed (PfGroundPanel *panel, GParamSpec *spec G_GNUC_UNUSED, GtkDropDown *drop_down)
{
  if (pf_panel_updating (PF_PANEL (panel)))
    return;
  PfDraft *draft = pf_panel_edit (PF_PANEL (panel));
  if (draft == NULL)
    return;
  const guint selected = gtk_drop_down_get_selected (drop_down);
  if (drop_down == panel->beads)
    draft->settings.beads = (PfBeads) selected;
  else
    draft->settings.all_plain = selected == 1;
  pf_editor_change (pf_panel_editor (PF_PANEL (panel)), draft,
                    drop_down == panel->beads ? _ ("Beads") : _ ("Partial repeats"));
}

static void
centre_clicked (PfGroundPanel *panel)
{
  PfDraft *draft = pf_panel_edit (PF_PANEL (panel));
  if (draft == NULL)
    return;
  centre_origin (draft);
  pf_editor_change (pf_panel_editor (PF_PANEL (panel)), draft, _ ("Centre the ground"));
}

/* A copy of `to` filled like `from`, at its own place. */
static PfDraft *
filled_alike (const PfDraft *to, const PfDraft *from)
{
  PfDraft *draft = pf_draft_copy (to);
  const bool had_ground = to->ground != NULL;
  const PfPoint origin = to->settings.placement.origin;
  pf_draft_set_ground (draft, from->ground, from->ground_json);
  const PfFillingSettings own = draft->settings;
  draft->settings = from->settings;
  draft->settings.choices = own.choices;
  draft->settings.n_choices = own.n_choices;
  draft->settings.sewing_choices = own.sewing_choices;
  draft->settings.n_sewing_choices = own.n_sewing_choices;
  draft->settings.placement.origin = origin;
  if (!had_ground)
    centre_origin (draft);
  return draft;
}

static void
all_clicked (PfGroundPanel *panel)
{
  PfEditor *editor = pf_panel_editor (PF_PANEL (panel));
  const PfDraft *from = pf_editor_draft (editor);
  if (from == NULL || from->ground == NULL)
    {
      pf_panel_say (PF_PANEL (panel), _ ("Choose a ground for this motif first."));
      return;
    }
  PfDocument *document = pf_document_ref (pf_editor_document (editor));
  for (size_t n = 0; n < document->n_drafts; n++)
    if (document->drafts[n] != from && document->drafts[n]->mirror_of == NULL)
      {
        g_autoptr (PfDocument) before = document;
        document = pf_document_with_draft (before, n, filled_alike (before->drafts[n], from));
      }
  pf_editor_change_document (editor, document, _ ("The same ground for all motifs"));
}

/* Takes over `ground`. */
static void
use_ground (PfGroundPanel *panel, PfGround *ground, const char *json)
{
  PfDraft *draft = pf_panel_edit (PF_PANEL (panel));
  if (draft != NULL)
    {
      g_autofree char *change = g_strdup_printf (_ ("Choose the ground “%s”"), ground->title);
      if (draft->ground == NULL)
        centre_origin (draft);
      pf_draft_set_ground (draft, ground, json);
      pf_editor_change (pf_panel_editor (PF_PANEL (panel)), draft, change);
    }
  pf_ground_free (ground);
}

static void
ground_chosen (PfGroundPanel *panel, const char *name)
{
  g_autoptr (GError) error = NULL;
  PfGround *ground = pf_ground_load (name, &error);
  if (ground != NULL)
    use_ground (panel, ground, NULL);
  else
    pf_panel_say (PF_PANEL (panel), error->message);
}

static void
file_chosen (PfGroundPanel *panel, int response, GtkFileChooserNative *chooser)
{
  g_autoptr (GFile) file = response == GTK_RESPONSE_ACCEPT
                               ? gtk_file_chooser_get_file (GTK_FILE_CHOOSER (chooser))
                               : NULL;
  g_autofree char *path = file != NULL ? g_file_get_path (file) : NULL;
  g_autofree char *json = NULL;
  g_autoptr (GError) error = NULL;
  g_object_unref (chooser);
  if (path == NULL)
    return;
  PfGround *ground = pf_ground_load (path, &error);
  if (ground != NULL && g_file_get_contents (path, &json, NULL, &error))
    use_ground (panel, g_steal_pointer (&ground), json);
  else
    pf_panel_say (PF_PANEL (panel), error->message);
  pf_ground_free (ground);
}

static void
file_clicked (PfGroundPanel *panel)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (panel));
  GtkFileChooserNative *chooser =
      gtk_file_chooser_native_new (_ ("A ground of your own"), GTK_WINDOW (root),
                                   GTK_FILE_CHOOSER_ACTION_OPEN, _ ("_Open"), _ ("_Cancel"));
  g_autoptr (GtkFileFilter) filter = gtk_file_filter_new ();
  gtk_file_filter_set_name (filter, _ ("Grounds (.json)"));
  gtk_file_filter_add_pattern (filter, "*.json");
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (chooser), filter);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (chooser), TRUE);
  g_signal_connect_object (chooser, "response", G_CALLBACK (file_chosen), panel, G_CONNECT_SWAPPED);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}

/* --- The widget ---------------------------------------------------------------------------------
 */

static void
pf_ground_panel_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), PF_TYPE_GROUND_PANEL);
  G_OBJECT_CLASS (pf_ground_panel_parent_class)->dispose (object);
}

static void
bind_counts (GtkWidgetClass *class)
{
  gtk_widget_class_bind_template_child (class, PfGroundPanel, count_repeats);
  gtk_widget_class_bind_template_child (class, PfGroundPanel, count_partial);
  gtk_widget_class_bind_template_child (class, PfGroundPanel, count_left_out);
  gtk_widget_class_bind_template_child (class, PfGroundPanel, count_stitches);
  gtk_widget_class_bind_template_child (class, PfGroundPanel, count_pins);
  gtk_widget_class_bind_template_child (class, PfGroundPanel, count_beads);
  gtk_widget_class_bind_template_child (class, PfGroundPanel, count_pairs);
  gtk_widget_class_bind_template_child (class, PfGroundPanel, count_at_once);
  gtk_widget_class_bind_template_child (class, PfGroundPanel, count_turned);
  gtk_widget_class_bind_template_child (class, PfGroundPanel, count_carried);
  gtk_widget_class_bind_template_child (class, PfGroundPanel, count_sewings);
  gtk_widget_class_bind_template_child (class, PfGroundPanel, count_pinholes);
  gtk_widget_class_bind_template_child (class, PfGroundPanel, count_bars);
  gtk_widget_class_bind_template_child (class, PfGroundPanel, count_off);
}

static void
pf_ground_panel_class_init (PfGroundPanelClass *class)
{
  GtkWidgetClass *widget = GTK_WIDGET_CLASS (class);
  G_OBJECT_CLASS (class)->dispose = pf_ground_panel_dispose;
  PF_PANEL_CLASS (class)->update = update;
  g_type_ensure (PF_TYPE_GROUND_GALLERY);
  g_type_ensure (PF_TYPE_THREAD_BOX);
  g_type_ensure (PF_TYPE_HABITS_BOX);
  gtk_widget_class_set_template_from_resource (widget, PF_RESOURCES "ground-panel.ui");
  gtk_widget_class_bind_template_child (widget, PfGroundPanel, gallery);
  gtk_widget_class_bind_template_child (widget, PfGroundPanel, gap);
  gtk_widget_class_bind_template_child (widget, PfGroundPanel, turn);
  gtk_widget_class_bind_template_child (widget, PfGroundPanel, origin_x);
  gtk_widget_class_bind_template_child (widget, PfGroundPanel, origin_y);
  gtk_widget_class_bind_template_child (widget, PfGroundPanel, clearance);
  gtk_widget_class_bind_template_child (widget, PfGroundPanel, carry);
  gtk_widget_class_bind_template_child (widget, PfGroundPanel, reach);
  gtk_widget_class_bind_template_child (widget, PfGroundPanel, off_line);
  gtk_widget_class_bind_template_child (widget, PfGroundPanel, per_pinhole);
  gtk_widget_class_bind_template_child (widget, PfGroundPanel, mirror);
  gtk_widget_class_bind_template_child (widget, PfGroundPanel, angle);
  gtk_widget_class_bind_template_child (widget, PfGroundPanel, footside);
  gtk_widget_class_bind_template_child (widget, PfGroundPanel, thread_box);
  gtk_widget_class_bind_template_child (widget, PfGroundPanel, habits_box);
  gtk_widget_class_bind_template_child (widget, PfGroundPanel, partial);
  gtk_widget_class_bind_template_child (widget, PfGroundPanel, beads);
  gtk_widget_class_bind_template_child (widget, PfGroundPanel, bead_room);
  bind_counts (widget);
  gtk_widget_class_bind_template_callback (widget, centre_clicked);
  gtk_widget_class_bind_template_callback (widget, all_clicked);
  gtk_widget_class_bind_template_callback (widget, file_clicked);
  gtk_widget_class_bind_template_callback (widget, ground_chosen);
  gtk_widget_class_bind_template_callback (widget, angle_changed);
  gtk_widget_class_bind_template_callback (widget, mirror_toggled);
  gtk_widget_class_bind_template_callback (widget, choice_changed);
  gtk_widget_class_bind_template_callback (widget, number_changed);
}

#define FIELD(field) G_STRUCT_OFFSET (PfFillingSettings, field)

static void
pf_ground_panel_init (PfGroundPanel *panel)
{
  gtk_widget_init_template (GTK_WIDGET (panel));
  const Number numbers[N_NUMBERS] = {
    { panel->gap, FIELD (placement.gap), N_ ("Gap") },
    { panel->turn, FIELD (placement.turn), N_ ("Turn the ground") },
    { panel->origin_x, FIELD (placement.origin.x), N_ ("Move the ground") },
    { panel->origin_y, FIELD (placement.origin.y), N_ ("Move the ground") },
    { panel->clearance, FIELD (clearance), N_ ("Clearance") },
    { panel->carry, FIELD (carry), N_ ("Carry") },
    { panel->reach, FIELD (reach), N_ ("Reach") },
    { panel->off_line, FIELD (off_line), N_ ("Off line") },
  };
  for (int n = 0; n < N_NUMBERS; n++)
    panel->numbers[n] = numbers[n];
}

GtkWidget *
pf_ground_panel_new (PfEditor *editor, PfCanvas *canvas)
{
  g_autoptr (PfTool) tool = pf_ground_tool_new (editor);
  return g_object_new (PF_TYPE_GROUND_PANEL, "editor", editor, "canvas", canvas, "tool", tool,
                       NULL);
}
