/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The stage "Sewings": what will happen at each repeat and each sewing at the edge, why, and the
 * maker's own choices.
 *
 * Everything here is about the editor's selection. Nothing is asked before a change: all can be
 * undone.
 */
#include "panel.h"

#include <glib/gi18n-lib.h>

#include "partner-list.h"
#include "remark-list.h"
#include "sewing-walk.h"
#include "sewing-work.h"
#include "sewings-tool.h"

struct _PfSewingsPanel {
  PfPanel parent_instance;

  GtkDropDown *walk;
  GtkLabel *count_label, *title_label, *words, *pair_words, *choices_label;
  GtkWidget *repeat_box, *sewing_box, *pair_box, *unheeded_box, *warnings_box;
  GtkCheckButton *state_default, *state_kept, *state_plain, *state_left_out;
  GtkWidget *previous_button, *next_button, *back_button, *on_button, *bar_button, *alone_button;
  GtkWidget *turn_button, *reset_button, *pair_button, *reset_all_button;
  GtkBox *unheeded, *warnings;
  PfMotif *listed; /* whose warnings and choices are listed */
  PfPick shown;    /* what was selected at the last update */
};

#define PF_TYPE_SEWINGS_PANEL (pf_sewings_panel_get_type ())
G_DECLARE_FINAL_TYPE (PfSewingsPanel, pf_sewings_panel, PF, SEWINGS_PANEL, PfPanel)
G_DEFINE_FINAL_TYPE (PfSewingsPanel, pf_sewings_panel, PF_TYPE_PANEL)

static PfEditor *
editor_of (PfSewingsPanel *panel)
{
  return pf_panel_editor (PF_PANEL (panel));
}

static PfSewingsTool *
tool_of (PfSewingsPanel *panel)
{
  return PF_SEWINGS_TOOL (pf_panel_tool (PF_PANEL (panel)));
}

/* --- From the document to the widgets -----------------------------------------------------------
 */

static void
show_walk (PfSewingsPanel *panel)
{
  const PfWalk walk = pf_sewings_tool_walk (tool_of (panel));
  g_autoptr (GArray) steps = pf_walk_steps (editor_of (panel), walk);
  const int now = pf_walk_find (steps, pf_editor_selected (editor_of (panel)));
  g_autofree char *count =
      steps->len == 0 ? g_strdup (_ ("There is none."))
      : now >= 0
          ? g_strdup_printf (_ ("%d of %u"), now + 1, steps->len)
          : g_strdup_printf (_ ("%u in all. Click one on the canvas, or walk to it."), steps->len);
  gtk_drop_down_set_selected (panel->walk, (guint) walk);
  gtk_label_set_label (panel->count_label, count);
  gtk_widget_set_sensitive (panel->previous_button, steps->len > 0);
  gtk_widget_set_sensitive (panel->next_button, steps->len > 0);
}

static char *
title_of (PfPick pick, const PfMotif *motif)
{
  switch (pick.kind)
    {
    case PF_PICK_REPEAT:
      return g_strdup_printf (_ ("Repeat %d, %d"), pick.i, pick.j);
    case PF_PICK_SEWING:
      return g_strdup_printf (_ ("Sewing %u, pair %u"), pick.index + 1,
                              motif->filling->sewings[pick.index].pair + 1);
    case PF_PICK_PAIR:
      return g_strdup_printf (_ ("Pair %u"), pick.index + 1);
    case PF_PICK_PINHOLE:
      return g_strdup_printf (_ ("Pinhole %u"), pick.index + 1);
    default:
      return g_strdup (_ ("What happens at the edge"));
    }
}

/* Why there is nothing to say. */
static char *
words_for_nothing (PfEditor *editor)
{
  const int active = pf_editor_active (editor);
  const char *trouble = active >= 0 ? pf_editor_trouble (editor, (size_t) active, NULL) : NULL;
  const PfMotif *motif = active >= 0 ? pf_editor_motif (editor, (size_t) active) : NULL;
  if (active < 0)
    return g_strdup (_ ("There is no motif yet. Draw one or import a drawing first."));
  if (trouble != NULL)
    return g_strdup (trouble);
  if (pf_editor_busy (editor))
    return g_strdup (_ ("The filling is being worked out…"));
  if (motif != NULL && motif->filling == NULL)
    return g_strdup (_ ("The motif isn’t filled yet. Choose a ground first."));
  return g_strdup (_ ("Click a sewing, a pair or a repeat, and read here what will happen there, "
                      "and why."));
}

static void
show_words (PfSewingsPanel *panel, PfPick pick, const PfMotif *motif)
{
  PfEditor *editor = editor_of (panel);
  g_autofree char *title = title_of (pick, motif);
  g_autofree char *words =
      pick.kind != PF_PICK_NONE ? pf_editor_describe (editor, pick) : words_for_nothing (editor);
  gtk_label_set_label (panel->title_label, title);
  gtk_label_set_label (panel->words, words);
}

static void
show_repeat (PfSewingsPanel *panel, PfPick pick, const PfMotif *motif)
{
  gtk_widget_set_visible (panel->repeat_box, pick.kind == PF_PICK_REPEAT);
  if (pick.kind != PF_PICK_REPEAT)
    return;
  const PfRepeatState state = pf_repeat_choice (motif, pick.i, pick.j);
  GtkCheckButton *chosen = state == PF_REPEAT_KEPT       ? panel->state_kept
                           : state == PF_REPEAT_PLAIN    ? panel->state_plain
                           : state == PF_REPEAT_LEFT_OUT ? panel->state_left_out
                                                         : panel->state_default;
  gtk_check_button_set_active (chosen, TRUE);
  gtk_widget_set_visible (GTK_WIDGET (panel->state_kept), motif->ground->has_core);
  gtk_widget_set_visible (GTK_WIDGET (panel->state_plain), motif->ground->has_core);
}

static void
show_sewing (PfSewingsPanel *panel, PfPick pick, const PfMotif *motif)
{
  gtk_widget_set_visible (panel->sewing_box, pick.kind == PF_PICK_SEWING);
  if (pick.kind != PF_PICK_SEWING)
    return;
  const PfSewing *sewing = &motif->filling->sewings[pick.index];
  const bool paired = sewing->kind == PF_PAIR_TURNED || sewing->kind == PF_PAIR_CARRIED;
  g_autoptr (GArray) partners = pf_sewing_partners (motif, pick.index);
  gtk_widget_set_sensitive (panel->back_button,
                            pf_sewing_next_pinhole (motif, pick.index, -1) != PF_NONE);
  gtk_widget_set_sensitive (panel->on_button,
                            pf_sewing_next_pinhole (motif, pick.index, 1) != PF_NONE);
  gtk_widget_set_sensitive (panel->bar_button, pf_sewing_can_be_round_bar (motif, pick.index));
  gtk_widget_set_sensitive (panel->alone_button, paired);
  gtk_widget_set_sensitive (panel->turn_button, partners->len > 0);
  gtk_widget_set_sensitive (panel->reset_button, pf_sewing_has_choice (motif, pick.index));
}

static void
show_pair (PfSewingsPanel *panel, PfPick pick, const PfMotif *motif)
{
  gtk_widget_set_visible (panel->pair_box, pick.kind == PF_PICK_SEWING);
  if (pick.kind != PF_PICK_SEWING)
    return;
  g_autofree char *words =
      pf_explain_pair (motif->filling, motif->ground, motif->filling->sewings[pick.index].pair);
  gtk_label_set_label (panel->pair_words, words);
}

static void
show_choices (PfSewingsPanel *panel)
{
  const PfDraft *draft = pf_editor_draft (editor_of (panel));
  const size_t repeats = draft != NULL ? draft->settings.n_choices : 0;
  const size_t sewings = draft != NULL ? draft->settings.n_sewing_choices : 0;
  g_autofree char *text =
      g_strdup_printf (_ ("Choices of your own: %zu of repeats, %zu of sewings"), repeats, sewings);
  gtk_label_set_label (panel->choices_label, text);
  gtk_widget_set_sensitive (panel->reset_all_button, repeats + sewings > 0);
}

static void warning_clicked (guint warning, gpointer panel);
static void unheeded_clicked (guint unheeded, gpointer panel);

static void
list_remarks (PfSewingsPanel *panel, const PfMotif *motif)
{
  const PfFilling *filling = motif != NULL ? motif->filling : NULL;
  const size_t n_warnings = filling != NULL ? filling->n_warnings : 0;
  const size_t n_unheeded = filling != NULL ? filling->n_unheeded : 0;
  if (motif == panel->listed)
    return;
  g_clear_pointer (&panel->listed, pf_motif_unref);
  panel->listed = motif != NULL ? pf_motif_ref ((PfMotif *) motif) : NULL;
  pf_remark_list_clear (panel->warnings);
  pf_remark_list_clear (panel->unheeded);
  for (guint w = 0; w < n_warnings; w++)
    pf_remark_list_add_place (panel->warnings, w, filling->warnings[w].text, warning_clicked,
                              panel);
  for (guint u = 0; u < n_unheeded; u++)
    pf_remark_list_add_button (panel->unheeded, u, filling->unheeded[u].why,
                               _ ("Remove this choice"), unheeded_clicked, panel);
  gtk_widget_set_visible (panel->warnings_box, n_warnings > 0);
  gtk_widget_set_visible (panel->unheeded_box, n_unheeded > 0);
}

static void
show_place (PfSewingsPanel *panel, PfPick pick)
{
  PfPoint place;
  if (!pf_pick_equal (pick, panel->shown) && pf_pick_place (editor_of (panel), pick, &place))
    pf_canvas_show_place (pf_panel_canvas (PF_PANEL (panel)), place);
  panel->shown = pick;
}

/* What is selected, if it is something that this stage is about and that is worked out. */
static PfPick
get_pick (PfEditor *editor)
{
  const PfPick pick = pf_editor_selected (editor);
  const bool ours =
      pick.kind == PF_PICK_REPEAT || pick.kind == PF_PICK_SEWING || pick.kind == PF_PICK_PAIR;
  return ours && pf_sewing_motif (editor) != NULL ? pick : PF_PICK_NOTHING;
}

static void
update (PfPanel *base)
{
  PfSewingsPanel *panel = PF_SEWINGS_PANEL (base);
  const PfMotif *motif = pf_sewing_motif (pf_panel_editor (base));
  const PfPick pick = get_pick (pf_panel_editor (base));
  show_walk (panel);
  show_words (panel, pick, motif);
  show_repeat (panel, pick, motif);
  show_sewing (panel, pick, motif);
  show_pair (panel, pick, motif);
  show_choices (panel);
  list_remarks (panel, motif);
  show_place (panel, pick);
}

/* --- From the widgets to the document -----------------------------------------------------------
 */

static void
walk_chosen (PfSewingsPanel *panel)
{
  const guint walk = gtk_drop_down_get_selected (panel->walk);
  if (pf_panel_updating (PF_PANEL (panel)) || walk == GTK_INVALID_LIST_POSITION)
    return;
  pf_sewings_tool_set_walk (tool_of (panel), (PfWalk) walk);
  pf_panel_update (PF_PANEL (panel));
}

static void
previous_clicked (PfSewingsPanel *panel)
{
  pf_walk_go (editor_of (panel), pf_sewings_tool_walk (tool_of (panel)), -1, true);
}

static void
next_clicked (PfSewingsPanel *panel)
{
  pf_walk_go (editor_of (panel), pf_sewings_tool_walk (tool_of (panel)), 1, true);
}

/* A copy to change, if a thing of that kind is selected; if it can't be changed, the widgets go
 * back. */
static PfDraft *
edit (PfSewingsPanel *panel, PfPickKind kind, PfPick *pick)
{
  *pick = get_pick (editor_of (panel));
  if (pf_panel_updating (PF_PANEL (panel)) || pick->kind != kind)
    return NULL;
  PfDraft *draft = pf_panel_edit (PF_PANEL (panel));
  if (draft == NULL)
    pf_panel_update (PF_PANEL (panel));
  return draft;
}

static void
state_toggled (PfSewingsPanel *panel, GtkCheckButton *button)
{
  PfPick pick;
  PfDraft *draft =
      gtk_check_button_get_active (button) ? edit (panel, PF_PICK_REPEAT, &pick) : NULL;
  if (draft == NULL)
    return;
  const PfRepeatState state = button == panel->state_kept       ? PF_REPEAT_KEPT
                              : button == panel->state_plain    ? PF_REPEAT_PLAIN
                              : button == panel->state_left_out ? PF_REPEAT_LEFT_OUT
                                                                : PF_REPEAT_WHOLE;
  pf_repeat_choose (editor_of (panel), draft, pick.i, pick.j, state);
}

static void
back_clicked (PfSewingsPanel *panel)
{
  PfPick pick;
  PfDraft *draft = edit (panel, PF_PICK_SEWING, &pick);
  if (draft != NULL)
    pf_sewing_move (editor_of (panel), draft, pick.index, -1);
}

static void
on_clicked (PfSewingsPanel *panel)
{
  PfPick pick;
  PfDraft *draft = edit (panel, PF_PICK_SEWING, &pick);
  if (draft != NULL)
    pf_sewing_move (editor_of (panel), draft, pick.index, 1);
}

static void
bar_clicked (PfSewingsPanel *panel)
{
  PfPick pick;
  PfDraft *draft = edit (panel, PF_PICK_SEWING, &pick);
  if (draft != NULL)
    pf_sewing_go_round_bar (editor_of (panel), draft, pick.index);
}

static void
alone_clicked (PfSewingsPanel *panel)
{
  PfPick pick;
  PfDraft *draft = edit (panel, PF_PICK_SEWING, &pick);
  if (draft != NULL)
    pf_sewing_make_alone (editor_of (panel), draft, pick.index);
}

static void
reset_clicked (PfSewingsPanel *panel)
{
  PfPick pick;
  PfDraft *draft = edit (panel, PF_PICK_SEWING, &pick);
  if (draft != NULL)
    pf_sewing_reset (editor_of (panel), draft, pick.index);
}

/* The crossing that was chosen, in the list or on the canvas. */
static void
partner_chosen (PfSewingsPanel *panel, guint crossing)
{
  PfPick pick;
  PfDraft *draft = edit (panel, PF_PICK_SEWING, &pick);
  if (draft != NULL)
    pf_sewing_turn_with (editor_of (panel), draft, pick.index, crossing);
}

static void
make_partner_list (GtkMenuButton *button, gpointer data)
{
  PfSewingsPanel *panel = data;
  const PfPick pick = get_pick (editor_of (panel));
  if (pick.kind != PF_PICK_SEWING)
    return;
  GtkWidget *list = pf_partner_list_new (editor_of (panel), tool_of (panel), pick.index);
  g_signal_connect_object (list, "chosen", G_CALLBACK (partner_chosen), panel, G_CONNECT_SWAPPED);
  gtk_menu_button_set_popover (button, list);
}

static void
reset_all_clicked (PfSewingsPanel *panel)
{
  PfDraft *draft = pf_panel_edit (PF_PANEL (panel));
  if (draft != NULL)
    pf_choices_reset_all (editor_of (panel), draft);
}

static void
pair_clicked (PfSewingsPanel *panel)
{
  PfPick pick = get_pick (editor_of (panel));
  const PfMotif *motif = pf_sewing_motif (editor_of (panel));
  if (pick.kind != PF_PICK_SEWING)
    return;
  pick.index = motif->filling->sewings[pick.index].pair;
  pick.kind = PF_PICK_PAIR;
  pf_editor_select (editor_of (panel), pick);
}

/* --- Remarks ------------------------------------------------------------------------------------
 */

/* Goes to the place of a warning and selects what is there. */
static void
warning_clicked (guint warning, gpointer data)
{
  PfSewingsPanel *panel = data;
  const PfMotif *motif = pf_sewing_motif (editor_of (panel));
  if (motif == NULL || warning >= motif->filling->n_warnings)
    return;
  const PfPoint at = motif->filling->warnings[warning].at;
  pf_editor_select (editor_of (panel),
                    pf_find_pick (editor_of (panel), at, motif->filling->placement.gap,
                                  1u << PF_PICK_SEWING | 1u << PF_PICK_REPEAT));
  pf_canvas_show_place (pf_panel_canvas (PF_PANEL (panel)), at);
}

static void
unheeded_clicked (guint unheeded, gpointer data)
{
  PfSewingsPanel *panel = data;
  const PfMotif *motif = pf_sewing_motif (editor_of (panel));
  if (motif == NULL || unheeded >= motif->filling->n_unheeded)
    return;
  PfDraft *draft = pf_panel_edit (PF_PANEL (panel));
  if (draft != NULL)
    pf_choice_remove (editor_of (panel), draft, &motif->filling->unheeded[unheeded]);
}

/* --- The widget ---------------------------------------------------------------------------------
 */

static void
pf_sewings_panel_dispose (GObject *object)
{
  g_clear_pointer (&PF_SEWINGS_PANEL (object)->listed, pf_motif_unref);
  gtk_widget_dispose_template (GTK_WIDGET (object), PF_TYPE_SEWINGS_PANEL);
  G_OBJECT_CLASS (pf_sewings_panel_parent_class)->dispose (object);
}

static void
bind_words (GtkWidgetClass *class)
{
  gtk_widget_class_bind_template_child (class, PfSewingsPanel, walk);
  gtk_widget_class_bind_template_child (class, PfSewingsPanel, previous_button);
  gtk_widget_class_bind_template_child (class, PfSewingsPanel, next_button);
  gtk_widget_class_bind_template_child (class, PfSewingsPanel, count_label);
  gtk_widget_class_bind_template_child (class, PfSewingsPanel, title_label);
  gtk_widget_class_bind_template_child (class, PfSewingsPanel, words);
  gtk_widget_class_bind_template_child (class, PfSewingsPanel, pair_box);
  gtk_widget_class_bind_template_child (class, PfSewingsPanel, pair_words);
  gtk_widget_class_bind_template_child (class, PfSewingsPanel, pair_button);
  gtk_widget_class_bind_template_child (class, PfSewingsPanel, unheeded_box);
  gtk_widget_class_bind_template_child (class, PfSewingsPanel, unheeded);
  gtk_widget_class_bind_template_child (class, PfSewingsPanel, warnings_box);
  gtk_widget_class_bind_template_child (class, PfSewingsPanel, warnings);
  gtk_widget_class_bind_template_child (class, PfSewingsPanel, choices_label);
  gtk_widget_class_bind_template_child (class, PfSewingsPanel, reset_all_button);
}

static void
bind_choices (GtkWidgetClass *class)
{
  gtk_widget_class_bind_template_child (class, PfSewingsPanel, repeat_box);
  gtk_widget_class_bind_template_child (class, PfSewingsPanel, state_default);
  gtk_widget_class_bind_template_child (class, PfSewingsPanel, state_kept);
  gtk_widget_class_bind_template_child (class, PfSewingsPanel, state_plain);
  gtk_widget_class_bind_template_child (class, PfSewingsPanel, state_left_out);
  gtk_widget_class_bind_template_child (class, PfSewingsPanel, sewing_box);
  gtk_widget_class_bind_template_child (class, PfSewingsPanel, back_button);
  gtk_widget_class_bind_template_child (class, PfSewingsPanel, on_button);
  gtk_widget_class_bind_template_child (class, PfSewingsPanel, bar_button);
  gtk_widget_class_bind_template_child (class, PfSewingsPanel, alone_button);
  gtk_widget_class_bind_template_child (class, PfSewingsPanel, turn_button);
  gtk_widget_class_bind_template_child (class, PfSewingsPanel, reset_button);
}

static void
bind_callbacks (GtkWidgetClass *class)
{
  gtk_widget_class_bind_template_callback (class, walk_chosen);
  gtk_widget_class_bind_template_callback (class, previous_clicked);
  gtk_widget_class_bind_template_callback (class, next_clicked);
  gtk_widget_class_bind_template_callback (class, state_toggled);
  gtk_widget_class_bind_template_callback (class, back_clicked);
  gtk_widget_class_bind_template_callback (class, on_clicked);
  gtk_widget_class_bind_template_callback (class, bar_clicked);
  gtk_widget_class_bind_template_callback (class, alone_clicked);
  gtk_widget_class_bind_template_callback (class, reset_clicked);
  gtk_widget_class_bind_template_callback (class, reset_all_clicked);
  gtk_widget_class_bind_template_callback (class, pair_clicked);
}

static void
pf_sewings_panel_class_init (PfSewingsPanelClass *class)
{
  GtkWidgetClass *widget = GTK_WIDGET_CLASS (class);
  G_OBJECT_CLASS (class)->dispose = pf_sewings_panel_dispose;
  PF_PANEL_CLASS (class)->update = update;
  gtk_widget_class_set_template_from_resource (widget, "/org/pinfold/Pinfold/sewings-panel.ui");
  bind_words (widget);
  bind_choices (widget);
  bind_callbacks (widget);
}

static void
pf_sewings_panel_init (PfSewingsPanel *panel)
{
  gtk_widget_init_template (GTK_WIDGET (panel));
  gtk_menu_button_set_create_popup_func (GTK_MENU_BUTTON (panel->turn_button), make_partner_list,
                                         panel, NULL);
}

GtkWidget *
pf_sewings_panel_new (PfEditor *editor, PfCanvas *canvas)
{
  g_autoptr (PfTool) tool = pf_sewings_tool_new (editor);
  PfPanel *panel =
      g_object_new (PF_TYPE_SEWINGS_PANEL, "editor", editor, "canvas", canvas, "tool", tool, NULL);
  g_signal_connect_object (tool, "partner", G_CALLBACK (partner_chosen), panel, G_CONNECT_SWAPPED);
  return GTK_WIDGET (panel);
}
