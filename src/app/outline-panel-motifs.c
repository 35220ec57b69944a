/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The list of motifs: choosing, naming, ordering, removing; which ones follow another, and what is
 * wrong. Rows are made anew only when what they show has changed.
 */
#include "outline-panel-private.h"

#include <glib/gi18n-lib.h>

#include "outline-edit.h"

/* --- The list -----------------------------------------------------------------------------------
 */

/* The name of the motif that this one is a mirror image of, or NULL. */
static const char *
followed_name (const PfDocument *document, const PfDraft *draft)
{
  const int n = draft->mirror_of != NULL ? pf_document_find (document, draft->mirror_of) : -1;
  return n >= 0 ? document->drafts[n]->name : NULL;
}

/* What stands below a motif's name, or NULL. */
static char *
remark (PfEditor *editor, size_t n)
{
  const PfDocument *document = pf_editor_document (editor);
  if (pf_outline_open_curve (document->drafts[n]) != NULL)
    return g_strdup (_ ("is being drawn"));
  if (pf_editor_trouble (editor, n, NULL) != NULL)
    return g_strdup (_ ("something is wrong with it"));
  const char *followed = followed_name (document, document->drafts[n]);
  return followed != NULL ? g_strdup_printf (_ ("follows “%s” as its mirror image"), followed)
                          : NULL;
}

static GtkWidget *
new_row (PfEditor *editor, size_t n)
{
  const PfDraft *draft = pf_editor_document (editor)->drafts[n];
  g_autofree char *below = remark (editor, n);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *name = gtk_label_new (draft->name);
  gtk_label_set_xalign (GTK_LABEL (name), 0);
  gtk_label_set_ellipsize (GTK_LABEL (name), PANGO_ELLIPSIZE_END);
  gtk_widget_set_margin_start (box, 6);
  gtk_widget_set_margin_end (box, 6);
  gtk_widget_set_margin_top (box, 4);
  gtk_widget_set_margin_bottom (box, 4);
  gtk_box_append (GTK_BOX (box), name);
  if (below != NULL)
    {
      GtkWidget *label = gtk_label_new (below);
      gtk_label_set_xalign (GTK_LABEL (label), 0);
      gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
      gtk_widget_add_css_class (label, "caption");
      gtk_box_append (GTK_BOX (box), label);
    }
  GtkWidget *row = gtk_list_box_row_new ();
  g_autofree char *spoken =
      below != NULL ? g_strdup_printf ("%s, %s", draft->name, below) : g_strdup (draft->name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  return row;
}

/* All that the rows show. */
static char *
list_text (PfEditor *editor)
{
  const PfDocument *document = pf_editor_document (editor);
  GString *text = g_string_new (NULL);
  for (size_t n = 0; n < document->n_drafts; n++)
    {
      g_autofree char *below = remark (editor, n);
      g_string_append_printf (text, "%s\n%s\n%s\n", document->drafts[n]->id,
                              document->drafts[n]->name, below != NULL ? below : "");
    }
  return g_string_free (text, FALSE);
}

static void
update_list (PfOutlinePanel *panel)
{
  PfEditor *editor = pf_outline_panel_editor (panel);
  const int active = pf_editor_active (editor);
  g_autofree char *text = list_text (editor);
  if (g_strcmp0 (text, panel->listed) != 0)
    {
      GtkListBoxRow *row;
      while ((row = gtk_list_box_get_row_at_index (panel->motif_list, 0)) != NULL)
        gtk_list_box_remove (panel->motif_list, GTK_WIDGET (row));
      for (size_t n = 0; n < pf_editor_document (editor)->n_drafts; n++)
        gtk_list_box_append (panel->motif_list, new_row (editor, n));
      g_free (panel->listed);
      panel->listed = g_steal_pointer (&text);
    }
  gtk_list_box_select_row (panel->motif_list,
                           active >= 0 ? gtk_list_box_get_row_at_index (panel->motif_list, active)
                                       : NULL);
}

static void
motif_selected (GtkListBox *list G_GNUC_UNUSED, GtkListBoxRow *row, PfOutlinePanel *panel)
{
  if (row != NULL && !pf_panel_updating (PF_PANEL (panel)))
    pf_editor_set_active (pf_outline_panel_editor (panel), gtk_list_box_row_get_index (row));
}

/* --- Changing it --------------------------------------------------------------------------------
 */

/* Return was pressed, or the entry was left. */
static void
name_given (GObject *source G_GNUC_UNUSED, PfOutlinePanel *panel)
{
  PfEditor *editor = pf_outline_panel_editor (panel);
  const PfDraft *draft = pf_editor_draft (editor);
  g_autofree char *name = g_strstrip (g_strdup (gtk_editable_get_text (panel->name_entry)));
  if (draft == NULL || pf_panel_updating (PF_PANEL (panel)) || *name == '\0' ||
      g_strcmp0 (name, draft->name) == 0)
    return;
  PfDraft *copy = pf_draft_copy (draft);
  pf_draft_set_name (copy, name);
  pf_editor_change (editor, copy, _ ("Name the motif"));
}

static void
new_motif (GtkButton *button G_GNUC_UNUSED, PfOutlinePanel *panel)
{
  const PfDraft *draft = pf_editor_draft (pf_outline_panel_editor (panel));
  if (pf_outline_open_curve (draft) != NULL)
    pf_panel_say (PF_PANEL (panel), _ ("An outline is still open. Close it or remove it before you "
                                       "draw another one."));
  gtk_check_button_set_active (panel->motif_check, TRUE);
  pf_outline_panel_use (panel, panel->pen);
  pf_outline_panel_to_canvas (panel);
}

/* The active motif changes places with the one before or after it. */
static void
move_motif (PfOutlinePanel *panel, int by)
{
  PfEditor *editor = pf_outline_panel_editor (panel);
  const PfDocument *document = pf_editor_document (editor);
  const int from = pf_editor_active (editor), to = from + by;
  if (from < 0 || to < 0 || to >= (int) document->n_drafts)
    return;
  PfDocument *copy = pf_document_copy (document);
  PfDraft *moved = copy->drafts[from];
  copy->drafts[from] = copy->drafts[to];
  copy->drafts[to] = moved;
  pf_editor_change_document (editor, copy, _ ("Order the motifs"));
}

static void
motif_up (GtkButton *button G_GNUC_UNUSED, PfOutlinePanel *panel)
{
  move_motif (panel, -1);
}

static void
motif_down (GtkButton *button G_GNUC_UNUSED, PfOutlinePanel *panel)
{
  move_motif (panel, 1);
}

static void
remove_motif (GtkButton *button G_GNUC_UNUSED, PfOutlinePanel *panel)
{
  PfEditor *editor = pf_outline_panel_editor (panel);
  const int active = pf_editor_active (editor);
  if (active >= 0)
    pf_editor_change_document (
        editor, pf_document_without_draft (pf_editor_document (editor), (size_t) active),
        _ ("Remove the motif"));
}

static void
stop_following (GtkButton *button G_GNUC_UNUSED, PfOutlinePanel *panel)
{
  PfEditor *editor = pf_outline_panel_editor (panel);
  if (!pf_editor_follows (editor))
    return;
  const size_t n = (size_t) pf_editor_active (editor);
  pf_editor_change_document (
      editor,
      pf_document_with_draft (pf_editor_document (editor), n,
                              pf_document_resolve (pf_editor_document (editor), n)),
      _ ("Stop following"));
}

/* --- Up to date ---------------------------------------------------------------------------------
 */

static void
update_trouble (PfOutlinePanel *panel)
{
  PfEditor *editor = pf_outline_panel_editor (panel);
  const int active = pf_editor_active (editor);
  const char *trouble = active >= 0 && pf_outline_open_curve (pf_editor_draft (editor)) == NULL
                            ? pf_editor_trouble (editor, (size_t) active, NULL)
                            : NULL;
  gtk_label_set_label (panel->trouble_label, trouble != NULL ? trouble : "");
  gtk_widget_set_visible (GTK_WIDGET (panel->trouble_label), trouble != NULL);
}

static void
update_name (PfOutlinePanel *panel, const PfDraft *draft)
{
  const char *name = draft != NULL ? draft->name : "";
  if (g_strcmp0 (gtk_editable_get_text (panel->name_entry), name) != 0)
    gtk_editable_set_text (panel->name_entry, name);
  gtk_widget_set_visible (panel->motif_name_row, draft != NULL);
}

void
pf_outline_panel_update_motifs (PfOutlinePanel *panel)
{
  PfEditor *editor = pf_outline_panel_editor (panel);
  const PfDocument *document = pf_editor_document (editor);
  const PfDraft *draft = pf_editor_draft (editor);
  const int active = pf_editor_active (editor);
  update_list (panel);
  update_name (panel, draft);
  update_trouble (panel);
  const char *followed = draft != NULL ? followed_name (document, draft) : NULL;
  g_autofree char *text =
      followed != NULL
          ? g_strdup_printf (_ ("This motif follows “%s” as its mirror image."), followed)
          : NULL;
  gtk_label_set_label (panel->follow_label, text != NULL ? text : "");
  gtk_widget_set_visible (panel->follow_row, text != NULL);
  gtk_widget_set_visible (panel->no_motif_label, draft == NULL);
  gtk_widget_set_visible (panel->list_scroller, draft != NULL);
  gtk_widget_set_sensitive (panel->up_button, active > 0);
  gtk_widget_set_sensitive (panel->down_button, active + 1 < (int) document->n_drafts);
  gtk_widget_set_sensitive (panel->remove_button, draft != NULL);
}

void
pf_outline_panel_bind_motifs (GtkWidgetClass *class)
{
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, list_scroller);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, motif_list);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, no_motif_label);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, motif_name_row);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, name_entry);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, up_button);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, down_button);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, remove_button);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, follow_row);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, follow_label);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, trouble_label);
  gtk_widget_class_bind_template_callback (class, motif_selected);
  gtk_widget_class_bind_template_callback (class, name_given);
  gtk_widget_class_bind_template_callback (class, new_motif);
  gtk_widget_class_bind_template_callback (class, motif_up);
  gtk_widget_class_bind_template_callback (class, motif_down);
  gtk_widget_class_bind_template_callback (class, remove_motif);
  gtk_widget_class_bind_template_callback (class, stop_following);
}
