/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The stage "Sheet": the piece's title and notes, the paper, and what is printed.
 */
#include "panel.h"

#include <string.h>

#include <glib/gi18n-lib.h>

#include "resources.h"

struct _PfSheetPanel {
  PfPanel parent_instance;

  GtkEntry *title;
  GtkTextView *notes;
  GtkDropDown *paper;
  GtkSpinButton *enlarge, *copies;
  GtkCheckButton *pricking, *working_notes, *worksheet, *answers, *report; /* parts */
  GtkCheckButton *pair_colours;
  GtkWidget *on_pricking; /* what concerns that part alone */
  GtkCheckButton *pins_only, *mirror, *background, *strip;
  GtkLabel *absent;
};

#define PF_TYPE_SHEET_PANEL (pf_sheet_panel_get_type ())
G_DECLARE_FINAL_TYPE (PfSheetPanel, pf_sheet_panel, PF, SHEET_PANEL, PfPanel)
G_DEFINE_FINAL_TYPE (PfSheetPanel, pf_sheet_panel, PF_TYPE_PANEL)

/* A part of the book, and its button. */
typedef struct {
  PfBookParts part;
  GtkCheckButton *button;
} Part;

enum { N_PARTS = 5 };

static void
find_parts (PfSheetPanel *panel, Part parts[N_PARTS])
{
  const Part all[N_PARTS] = {
    { PF_BOOK_PRICKING, panel->pricking },   { PF_BOOK_NOTES, panel->working_notes },
    { PF_BOOK_WORKSHEET, panel->worksheet }, { PF_BOOK_ANSWERS, panel->answers },
    { PF_BOOK_REPORT, panel->report },
  };
  memcpy (parts, all, sizeof all);
}

static void
show_parts (PfSheetPanel *panel, const PfPageSetup *page)
{
  Part parts[N_PARTS];
  find_parts (panel, parts);
  for (size_t p = 0; p < N_PARTS; p++)
    gtk_check_button_set_active (parts[p].button, page->parts & parts[p].part);
  gtk_check_button_set_active (panel->pair_colours, page->pair_colours);
  gtk_widget_set_sensitive (GTK_WIDGET (panel->pair_colours),
                            page->parts & (PF_BOOK_NOTES | PF_BOOK_ANSWERS));
  gtk_widget_set_sensitive (panel->on_pricking, page->parts & PF_BOOK_PRICKING);
}

static PfBookParts
chosen_parts (PfSheetPanel *panel)
{
  Part parts[N_PARTS];
  guint chosen = 0;
  find_parts (panel, parts);
  for (size_t p = 0; p < N_PARTS; p++)
    if (gtk_check_button_get_active (parts[p].button))
      chosen |= parts[p].part;
  return (PfBookParts) chosen;
}

/* Names the motifs that aren't on the sheet, for they have no ground. */
static void
update_absent (PfSheetPanel *panel, PfEditor *editor)
{
  const PfDocument *document = pf_editor_document (editor);
  g_autoptr (GString) names = g_string_new (NULL);
  for (size_t n = 0; n < document->n_drafts; n++)
    {
      const PfMotif *motif = pf_editor_motif (editor, n);
      if (motif != NULL && motif->ground == NULL)
        g_string_append_printf (names, "%s“%s”", names->len > 0 ? ", " : "",
                                document->drafts[n]->name);
    }
  g_autofree char *text =
      g_strdup_printf (_ ("Without a ground, and so not on the sheet: %s."), names->str);
  gtk_label_set_label (panel->absent, text);
  gtk_widget_set_visible (GTK_WIDGET (panel->absent), names->len > 0);
}

/* Sets a text only if it is another one, so that the cursor stays where it is. */
static void
set_notes (PfSheetPanel *panel, const char *notes)
{
  GtkTextBuffer *buffer = gtk_text_view_get_buffer (panel->notes);
  g_autofree char *shown = NULL;
  g_object_get (buffer, "text", &shown, NULL);
  if (strcmp (shown, notes) != 0)
    gtk_text_buffer_set_text (buffer, notes, -1);
}

static void
update (PfPanel *base)
{
  PfSheetPanel *panel = PF_SHEET_PANEL (base);
  const PfDocument *document = pf_editor_document (pf_panel_editor (base));
  const PfPageSetup *page = &document->page;
  size_t n;
  const PfPaper *papers = pf_papers (&n);
  if (strcmp (gtk_editable_get_text (GTK_EDITABLE (panel->title)), document->title) != 0)
    gtk_editable_set_text (GTK_EDITABLE (panel->title), document->title);
  set_notes (panel, document->notes);
  gtk_drop_down_set_selected (panel->paper, (guint) (page->paper - papers));
  gtk_spin_button_set_value (panel->enlarge, page->enlarge);
  gtk_spin_button_set_value (panel->copies, page->copies);
  show_parts (panel, page);
  gtk_check_button_set_active (panel->pins_only, page->pins_only);
  gtk_check_button_set_active (panel->mirror, page->mirror);
  gtk_check_button_set_active (panel->background, page->background);
  gtk_check_button_set_active (panel->strip, page->edge_strip);
  update_absent (panel, pf_panel_editor (base));
}

/* Takes over `document`. */
static void
change (PfSheetPanel *panel, PfDocument *document, const char *name)
{
  PfEditor *editor = pf_panel_editor (PF_PANEL (panel));
  pf_history_change (pf_editor_history (editor), document, name, true);
}

static PfDocument *
copy_document (PfSheetPanel *panel)
{
  return pf_document_copy (pf_editor_document (pf_panel_editor (PF_PANEL (panel))));
}

static void
page_changed (PfSheetPanel *panel)
{
  if (pf_panel_updating (PF_PANEL (panel)))
    return;
  PfDocument *document = copy_document (panel);
  PfPageSetup *page = &document->page;
  size_t n;
  const PfPaper *papers = pf_papers (&n);
  page->paper = &papers[MIN (gtk_drop_down_get_selected (panel->paper), n - 1)];
  page->enlarge = gtk_spin_button_get_value (panel->enlarge);
  page->copies = gtk_spin_button_get_value_as_int (panel->copies);
  page->parts = chosen_parts (panel);
  page->pair_colours = gtk_check_button_get_active (panel->pair_colours);
  page->pins_only = gtk_check_button_get_active (panel->pins_only);
  page->mirror = gtk_check_button_get_active (panel->mirror);
  page->background = gtk_check_button_get_active (panel->background);
  page->edge_strip = gtk_check_button_get_active (panel->strip);
  change (panel, document, _ ("Page setup"));
}

static void
title_changed (PfSheetPanel *panel)
{
  if (pf_panel_updating (PF_PANEL (panel)))
    return;
  PfDocument *document = copy_document (panel);
  g_free (document->title);
  document->title = g_strdup (gtk_editable_get_text (GTK_EDITABLE (panel->title)));
  change (panel, document, _ ("Title"));
}

static void
notes_changed (PfSheetPanel *panel)
{
  if (pf_panel_updating (PF_PANEL (panel)))
    return;
  PfDocument *document = copy_document (panel);
  g_free (document->notes);
  g_object_get (gtk_text_view_get_buffer (panel->notes), "text", &document->notes, NULL);
  change (panel, document, _ ("Notes"));
}

static void
pf_sheet_panel_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), PF_TYPE_SHEET_PANEL);
  G_OBJECT_CLASS (pf_sheet_panel_parent_class)->dispose (object);
}

static void
pf_sheet_panel_class_init (PfSheetPanelClass *class)
{
  GtkWidgetClass *widget = GTK_WIDGET_CLASS (class);
  G_OBJECT_CLASS (class)->dispose = pf_sheet_panel_dispose;
  PF_PANEL_CLASS (class)->update = update;
  gtk_widget_class_set_template_from_resource (widget, PF_RESOURCES "sheet-panel.ui");
  gtk_widget_class_bind_template_child (widget, PfSheetPanel, title);
  gtk_widget_class_bind_template_child (widget, PfSheetPanel, notes);
  gtk_widget_class_bind_template_child (widget, PfSheetPanel, paper);
  gtk_widget_class_bind_template_child (widget, PfSheetPanel, enlarge);
  gtk_widget_class_bind_template_child (widget, PfSheetPanel, copies);
  gtk_widget_class_bind_template_child (widget, PfSheetPanel, pricking);
  gtk_widget_class_bind_template_child (widget, PfSheetPanel, working_notes);
  gtk_widget_class_bind_template_child (widget, PfSheetPanel, worksheet);
  gtk_widget_class_bind_template_child (widget, PfSheetPanel, answers);
  gtk_widget_class_bind_template_child (widget, PfSheetPanel, report);
  gtk_widget_class_bind_template_child (widget, PfSheetPanel, pair_colours);
  gtk_widget_class_bind_template_child (widget, PfSheetPanel, on_pricking);
  gtk_widget_class_bind_template_child (widget, PfSheetPanel, pins_only);
  gtk_widget_class_bind_template_child (widget, PfSheetPanel, mirror);
  gtk_widget_class_bind_template_child (widget, PfSheetPanel, background);
  gtk_widget_class_bind_template_child (widget, PfSheetPanel, strip);
  gtk_widget_class_bind_template_child (widget, PfSheetPanel, absent);
  gtk_widget_class_bind_template_callback (widget, page_changed);
  gtk_widget_class_bind_template_callback (widget, title_changed);
}

static void
pf_sheet_panel_init (PfSheetPanel *panel)
{
  size_t n;
  const PfPaper *papers = pf_papers (&n);
  gtk_widget_init_template (GTK_WIDGET (panel));
  GtkStringList *names = GTK_STRING_LIST (gtk_drop_down_get_model (panel->paper));
  for (size_t p = 0; p < n; p++)
    gtk_string_list_append (names, papers[p].name);
  gtk_drop_down_set_selected (panel->paper, 0);
  g_signal_connect_object (panel->paper, "notify::selected", G_CALLBACK (page_changed), panel,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (gtk_text_view_get_buffer (panel->notes), "changed",
                           G_CALLBACK (notes_changed), panel, G_CONNECT_SWAPPED);
}

GtkWidget *
pf_sheet_panel_new (PfEditor *editor, PfCanvas *canvas)
{
  return g_object_new (PF_TYPE_SHEET_PANEL, "editor", editor, "canvas", canvas, NULL);
}
