/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Three choices; each is one change of the motif.
 */
#include "habits-box.h"

#include <glib/gi18n.h>

#include "form.h"

struct _PfHabitsBox {
  GtkBox parent_instance;

  GtkDropDown *side, *way, *pairs;
};

G_DEFINE_FINAL_TYPE (PfHabitsBox, pf_habits_box, GTK_TYPE_BOX)

void
pf_habits_box_show (PfHabitsBox *box, const PfDraft *draft)
{
  gtk_widget_set_sensitive (GTK_WIDGET (box), draft != NULL);
  if (draft == NULL)
    return;
  const PfWorkingHabits habits = draft->settings.habits;
  gtk_drop_down_set_selected (box->side, habits.right_first ? 1 : 0);
  gtk_drop_down_set_selected (box->way, (guint) habits.by);
  gtk_drop_down_set_selected (box->pairs, habits.sew_in_first ? 1 : 0);
}

static void
choice_changed (PfHabitsBox *box)
{
  GtkWidget *parent = gtk_widget_get_ancestor (GTK_WIDGET (box), PF_TYPE_PANEL);
  if (parent == NULL || pf_panel_updating (PF_PANEL (parent)))
    return;
  PfDraft *draft = pf_panel_edit (PF_PANEL (parent));
  if (draft == NULL)
    return;
  draft->settings.habits = (PfWorkingHabits){
    .right_first = gtk_drop_down_get_selected (box->side) == 1,
    .by = (PfWorkBy) gtk_drop_down_get_selected (box->way),
    .sew_in_first = gtk_drop_down_get_selected (box->pairs) == 1,
  };
  pf_editor_change (pf_panel_editor (PF_PANEL (parent)), draft, _ ("Working order"));
}

static GtkDropDown *
choice_new (PfHabitsBox *box, GtkGrid *form, const char *mnemonic, const char *const *items)
{
  GtkDropDown *choice = GTK_DROP_DOWN (gtk_drop_down_new_from_strings (items));
  gtk_widget_set_hexpand (GTK_WIDGET (choice), TRUE);
  pf_form_add_row (form, mnemonic, GTK_WIDGET (choice));
  pf_name_choice (choice, mnemonic);
  g_signal_connect_swapped (choice, "notify::selected", G_CALLBACK (choice_changed), box);
  return choice;
}

static void
pf_habits_box_class_init (PfHabitsBoxClass *class G_GNUC_UNUSED)
{
}

static void
pf_habits_box_init (PfHabitsBox *box)
{
  const char *const sides[] = { _ ("The left"), _ ("The right"), NULL };
  const char *const ways[] = { _ ("Repeat by repeat"), _ ("In diagonal rows"), NULL };
  const char *const pairs[] = { _ ("As they are needed"), _ ("All of them first"), NULL };
  GtkWidget *form = pf_form_new ();
  box->side = choice_new (box, GTK_GRID (form), _ ("_First"), sides);
  box->way = choice_new (box, GTK_GRID (form), _ ("_Way of working"), ways);
  box->pairs = choice_new (box, GTK_GRID (form), _ ("Pairs are sewn _in"), pairs);
  gtk_widget_set_tooltip_text (
      GTK_WIDGET (box->side),
      _ ("Of two stitches that are equally early; diagonal rows run down to this side. Left and "
         "right are the ground’s own: where it is mirrored, they are exchanged"));
  gtk_box_append (GTK_BOX (box), form);
}
