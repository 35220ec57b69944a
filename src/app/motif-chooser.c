/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A drop-down with the names of the document's motifs, filled anew only when one of them changed.
 */
#include "motif-chooser.h"

#include <string.h>

#include <glib/gi18n-lib.h>

struct _PfMotifChooser {
  GtkBox parent_instance;

  PfEditor *editor;
  GtkStringList *names;
  GtkDropDown *drop_down;
  bool everywhere;
  bool updating;
};

G_DEFINE_FINAL_TYPE (PfMotifChooser, pf_motif_chooser, GTK_TYPE_BOX)

static bool
names_are_right (PfMotifChooser *chooser, const PfDocument *document)
{
  if (g_list_model_get_n_items (G_LIST_MODEL (chooser->names)) != document->n_drafts)
    return false;
  for (size_t n = 0; n < document->n_drafts; n++)
    if (strcmp (gtk_string_list_get_string (chooser->names, (guint) n),
                document->drafts[n]->name) != 0)
      return false;
  return true;
}

static void
fill (PfMotifChooser *chooser, const PfDocument *document)
{
  const guint n_before = g_list_model_get_n_items (G_LIST_MODEL (chooser->names));
  g_autofree const char **names = g_new0 (const char *, document->n_drafts + 1);
  for (size_t n = 0; n < document->n_drafts; n++)
    names[n] = document->drafts[n]->name;
  gtk_string_list_splice (chooser->names, 0, n_before, names);
}

static void
update (PfMotifChooser *chooser)
{
  const PfDocument *document = pf_editor_document (chooser->editor);
  const PfStage stage = pf_editor_stage (chooser->editor);
  const int active = pf_editor_active (chooser->editor);
  chooser->updating = true;
  if (!names_are_right (chooser, document))
    fill (chooser, document);
  if (active >= 0)
    gtk_drop_down_set_selected (chooser->drop_down, (guint) active);
  chooser->updating = false;
  const bool useful = stage != PF_STAGE_OUTLINE && stage != PF_STAGE_SHEET;
  gtk_widget_set_visible (GTK_WIDGET (chooser),
                          document->n_drafts > 1 && (useful || chooser->everywhere));
}

static void
chosen (PfMotifChooser *chooser)
{
  const guint n = gtk_drop_down_get_selected (chooser->drop_down);
  if (!chooser->updating && n < pf_editor_document (chooser->editor)->n_drafts)
    pf_editor_set_active (chooser->editor, (int) n);
}

static void
pf_motif_chooser_dispose (GObject *object)
{
  g_clear_object (&PF_MOTIF_CHOOSER (object)->editor);
  G_OBJECT_CLASS (pf_motif_chooser_parent_class)->dispose (object);
}

static void
pf_motif_chooser_class_init (PfMotifChooserClass *class)
{
  G_OBJECT_CLASS (class)->dispose = pf_motif_chooser_dispose;
}

static void
pf_motif_chooser_init (PfMotifChooser *chooser)
{
  GtkWidget *label = gtk_label_new_with_mnemonic (_ ("Moti_f"));
  chooser->names = gtk_string_list_new (NULL);
  chooser->drop_down = GTK_DROP_DOWN (gtk_drop_down_new (G_LIST_MODEL (chooser->names), NULL));
  gtk_box_set_spacing (GTK_BOX (chooser), 12);
  gtk_widget_set_hexpand (GTK_WIDGET (chooser->drop_down), TRUE);
  gtk_label_set_mnemonic_widget (GTK_LABEL (label), GTK_WIDGET (chooser->drop_down));
  gtk_widget_set_tooltip_text (GTK_WIDGET (chooser->drop_down),
                               _ ("The motif that the panel below is about (Ctrl+Page Down)"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (chooser->drop_down),
                                  GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Motif"), -1);
  gtk_box_append (GTK_BOX (chooser), label);
  gtk_box_append (GTK_BOX (chooser), GTK_WIDGET (chooser->drop_down));
  g_signal_connect_object (chooser->drop_down, "notify::selected", G_CALLBACK (chosen), chooser,
                           G_CONNECT_SWAPPED);
}

static GtkWidget *
chooser_new (PfEditor *editor, bool everywhere)
{
  static const char *const changes[] = { "document-changed", "selection-changed", "stage-changed" };
  PfMotifChooser *chooser = g_object_new (PF_TYPE_MOTIF_CHOOSER, NULL);
  chooser->editor = g_object_ref (editor);
  chooser->everywhere = everywhere;
  for (gsize c = 0; c < G_N_ELEMENTS (changes); c++)
    g_signal_connect_object (editor, changes[c], G_CALLBACK (update), chooser, G_CONNECT_SWAPPED);
  update (chooser);
  return GTK_WIDGET (chooser);
}

GtkWidget *
pf_motif_chooser_new (PfEditor *editor)
{
  GtkWidget *chooser = chooser_new (editor, false);
  gtk_widget_add_css_class (chooser, "motif-chooser");
  return chooser;
}

GtkWidget *
pf_motif_chooser_new_everywhere (PfEditor *editor)
{
  GtkWidget *chooser = chooser_new (editor, true);
  gtk_widget_set_tooltip_text (GTK_WIDGET (PF_MOTIF_CHOOSER (chooser)->drop_down),
                               _ ("The motif that is worked (Ctrl+Page Down)"));
  return chooser;
}
