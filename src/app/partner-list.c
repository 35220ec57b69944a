/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The list is made anew each time it is opened. While it is open the tool marks the lines, and it
 * goes on marking them if the maker would rather choose on the canvas.
 */
#include "partner-list.h"

#include <glib/gi18n-lib.h>

#include "sewing-work.h"

struct _PfPartnerList {
  GtkPopover parent_instance;

  PfEditor *editor;
  PfSewingsTool *tool;
  bool on_canvas;
};

G_DEFINE_FINAL_TYPE (PfPartnerList, pf_partner_list, GTK_TYPE_POPOVER)

static guint chosen_signal;

static guint
number_of (GtkWidget *button)
{
  return GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "crossing"));
}

static void
partner_clicked (PfPartnerList *self, GtkWidget *button)
{
  const guint crossing = number_of (button);
  gtk_popover_popdown (GTK_POPOVER (self));
  g_signal_emit (self, chosen_signal, 0, crossing);
}

static void
canvas_clicked (PfPartnerList *self)
{
  self->on_canvas = true;
  gtk_popover_popdown (GTK_POPOVER (self));
}

/* As the list is closed GTK hands the keyboard from one of its buttons to the next: that isn't the
 * maker, and nothing would put the light out again. */
static void
light_up (PfPartnerList *self, GtkWidget *button)
{
  const PfMotif *motif = pf_sewing_motif (self->editor);
  const guint crossing = number_of (button);
  if (!gtk_widget_get_visible (GTK_WIDGET (self)) || motif == NULL ||
      crossing >= motif->filling->n_crossings)
    return;
  pf_editor_hover (self->editor, (PfPick){ .kind = PF_PICK_PAIR,
                                           .draft = (size_t) pf_editor_active (self->editor),
                                           .index = motif->filling->crossings[crossing].pair });
}

static void
entered (GtkEventControllerMotion *motion, double x G_GNUC_UNUSED, double y G_GNUC_UNUSED,
         PfPartnerList *self)
{
  light_up (self, gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (motion)));
}

static void
focused (GtkEventControllerFocus *focus, PfPartnerList *self)
{
  light_up (self, gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (focus)));
}

static void
closed (PfPartnerList *self)
{
  pf_editor_hover (self->editor, PF_PICK_NOTHING);
  if (!self->on_canvas)
    pf_sewings_tool_set_choosing (self->tool, false);
}

static GtkWidget *
partner_button (PfPartnerList *self, const PfMotif *motif, guint32 sewing, guint32 crossing)
{
  g_autofree char *name =
      pf_sewing_partner_name (motif, sewing, crossing, pf_editor_units (self->editor));
  GtkWidget *button = gtk_button_new_with_label (name);
  GtkEventController *motion = gtk_event_controller_motion_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();
  gtk_button_set_has_frame (GTK_BUTTON (button), FALSE);
  gtk_widget_set_halign (gtk_button_get_child (GTK_BUTTON (button)), GTK_ALIGN_START);
  g_object_set_data (G_OBJECT (button), "crossing", GUINT_TO_POINTER (crossing));
  g_signal_connect_object (button, "clicked", G_CALLBACK (partner_clicked), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (motion, "enter", G_CALLBACK (entered), self, 0);
  g_signal_connect_object (focus, "enter", G_CALLBACK (focused), self, 0);
  gtk_widget_add_controller (button, motion);
  gtk_widget_add_controller (button, focus);
  return button;
}

static void
pf_partner_list_dispose (GObject *object)
{
  PfPartnerList *self = PF_PARTNER_LIST (object);
  g_clear_object (&self->editor);
  g_clear_object (&self->tool);
  G_OBJECT_CLASS (pf_partner_list_parent_class)->dispose (object);
}

static void
pf_partner_list_class_init (PfPartnerListClass *class)
{
  G_OBJECT_CLASS (class)->dispose = pf_partner_list_dispose;
  chosen_signal = g_signal_new ("chosen", PF_TYPE_PARTNER_LIST, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                NULL, G_TYPE_NONE, 1, G_TYPE_UINT);
}

static void
pf_partner_list_init (PfPartnerList *self)
{
  g_signal_connect (self, "closed", G_CALLBACK (closed), NULL);
}

GtkWidget *
pf_partner_list_new (PfEditor *editor, PfSewingsTool *tool, guint32 sewing)
{
  PfPartnerList *self = g_object_new (PF_TYPE_PARTNER_LIST, NULL);
  const PfMotif *motif = pf_sewing_motif (editor);
  g_autoptr (GArray) partners = pf_sewing_partners (motif, sewing);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *canvas = gtk_button_new_with_mnemonic (_ ("Choose on the _canvas"));
  self->editor = g_object_ref (editor);
  self->tool = g_object_ref (tool);
  for (guint p = 0; p < partners->len; p++)
    gtk_box_append (GTK_BOX (box),
                    partner_button (self, motif, sewing, g_array_index (partners, guint32, p)));
  gtk_widget_set_margin_top (canvas, 6);
  g_signal_connect_object (canvas, "clicked", G_CALLBACK (canvas_clicked), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (box), canvas);
  gtk_popover_set_child (GTK_POPOVER (self), box);
  pf_sewings_tool_set_choosing (tool, true);
  return GTK_WIDGET (self);
}
