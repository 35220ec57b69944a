/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Each change asks for a new layout; only one is in work at a time, and what it was asked for is
 * compared when it comes out, so that the last wish is always the one shown in the end. Until then
 * the page is dimmed.
 */
#include "sheet-preview.h"

#include <math.h>

#include <glib/gi18n.h>
#include <librsvg/rsvg.h>

/* Of a page's longer side. */
#define PAGE_PIXELS 1600.0

struct _PfSheetPreview {
  GtkBox parent_instance;

  PfEditor *editor;
  GCancellable *quit;
  PfPrinterRules printer;
  PfBook *book; /* of the last layout */
  guint page;   /* shown, from 0 */
  guint wish;   /* grows with each change */
  guint shown;  /* the wish that the layout came from */
  bool in_work;

  GtkPicture *picture;
  GtkLabel *number, *trouble;
  GtkWidget *back, *on;
};

G_DEFINE_FINAL_TYPE (PfSheetPreview, pf_sheet_preview, GTK_TYPE_BOX)

typedef struct {
  PfPricking *pricking;
  PfSheetSettings settings;
  PfBookParts parts;
  bool pair_colours;
  PfBook *book; /* to be laid out, or given */
  guint page, wish;
  char *date;
  GdkTexture *texture;
} Layout;

static void
layout_free (gpointer data)
{
  Layout *layout = data;
  g_clear_pointer (&layout->pricking, pf_pricking_free);
  g_clear_pointer (&layout->book, pf_book_free);
  g_clear_object (&layout->texture);
  g_free (layout->date);
  g_free (layout);
}

static GdkTexture *
render_page (const PfBook *book, guint page, GError **error)
{
  double width, height;
  pf_book_page (book, page, &width, &height);
  const double scale = PAGE_PIXELS / fmax (width, height);
  const int columns = (int) ceil (width * scale), rows = (int) ceil (height * scale);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, columns, rows);
  cairo_t *cr = cairo_create (surface);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_scale (cr, scale, scale);
  const bool drawn = pf_book_draw_page (book, page, cr, error);
  cairo_destroy (cr);
  GdkTexture *texture = NULL;
  if (drawn)
    {
      cairo_surface_flush (surface);
      const gsize stride = (gsize) cairo_image_surface_get_stride (surface);
      g_autoptr (GBytes) bytes =
          g_bytes_new (cairo_image_surface_get_data (surface), stride * (gsize) rows);
      texture = gdk_memory_texture_new (columns, rows, GDK_MEMORY_DEFAULT, bytes, stride);
    }
  cairo_surface_destroy (surface);
  return texture;
}

static void
lay_out_in_thread (GTask *task, gpointer source G_GNUC_UNUSED, gpointer data,
                   GCancellable *cancellable G_GNUC_UNUSED)
{
  Layout *layout = data;
  GError *error = NULL;
  if (layout->book == NULL)
    layout->book = pf_book_new (layout->pricking, layout->parts, &layout->settings,
                                layout->pair_colours, &error);
  if (layout->book != NULL)
    {
      const guint last = (guint) pf_book_n_pages (layout->book) - 1;
      layout->page = MIN (layout->page, last);
      layout->texture = render_page (layout->book, layout->page, &error);
    }
  if (error != NULL)
    g_task_return_error (task, error);
  else
    g_task_return_boolean (task, TRUE);
}

static void lay_out (PfSheetPreview *preview);

static void
show_trouble (PfSheetPreview *preview, const char *text)
{
  gtk_label_set_label (preview->trouble, text);
  gtk_widget_set_visible (GTK_WIDGET (preview->trouble), *text != '\0');
  gtk_widget_set_visible (GTK_WIDGET (preview->picture), *text == '\0');
}

static void
show_page (PfSheetPreview *preview, GdkTexture *texture)
{
  const guint n = (guint) pf_book_n_pages (preview->book);
  g_autofree char *text = g_strdup_printf (_ ("Page %u of %u"), preview->page + 1, n);
  gtk_label_set_label (preview->number, text);
  gtk_picture_set_paintable (preview->picture, GDK_PAINTABLE (texture));
  gtk_picture_set_alternative_text (preview->picture, text);
  gtk_widget_set_sensitive (preview->back, preview->page > 0);
  gtk_widget_set_sensitive (preview->on, preview->page + 1 < n);
  show_trouble (preview, "");
}

static void
laid_out (GObject *source, GAsyncResult *result, gpointer data G_GNUC_UNUSED)
{
  PfSheetPreview *preview = PF_SHEET_PREVIEW (source);
  Layout *layout = g_task_get_task_data (G_TASK (result));
  g_autoptr (GError) error = NULL;
  const bool done = g_task_propagate_boolean (G_TASK (result), &error);
  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    return;
  preview->in_work = false;
  preview->shown = layout->wish;
  g_clear_pointer (&preview->book, pf_book_free);
  preview->book = g_steal_pointer (&layout->book);
  preview->page = layout->page;
  if (done)
    show_page (preview, layout->texture);
  else
    show_trouble (preview, error->message);
  if (preview->wish != preview->shown)
    lay_out (preview);
  else
    gtk_widget_remove_css_class (GTK_WIDGET (preview->picture), "out-of-date");
}

static void
start (PfSheetPreview *preview, Layout *layout)
{
  layout->page = preview->page;
  layout->wish = preview->wish;
  preview->in_work = true;
  g_autoptr (GTask) task = g_task_new (preview, preview->quit, laid_out, NULL);
  g_task_set_task_data (task, layout, layout_free);
  g_task_run_in_thread (task, lay_out_in_thread);
}

/* Nothing to lay out: says what is missing. */
static bool
is_empty (PfSheetPreview *preview)
{
  const PfDocument *document = pf_editor_document (preview->editor);
  for (size_t n = 0; n < document->n_drafts; n++)
    {
      const PfMotif *motif = pf_editor_motif (preview->editor, n);
      if (motif != NULL && motif->filling != NULL)
        return false;
    }
  return true;
}

static void
lay_out (PfSheetPreview *preview)
{
  if (preview->in_work || !gtk_widget_get_mapped (GTK_WIDGET (preview)))
    return;
  if (is_empty (preview))
    {
      preview->shown = preview->wish;
      gtk_label_set_label (preview->number, "");
      gtk_widget_set_sensitive (preview->back, FALSE);
      gtk_widget_set_sensitive (preview->on, FALSE);
      show_trouble (preview, pf_editor_busy (preview->editor)
                                 ? _ ("The filling is being worked out…")
                                 : _ ("There is nothing to print yet: draw or import a motif, and "
                                      "choose its ground."));
      return;
    }
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();
  const PfDocument *document = pf_editor_document (preview->editor);
  Layout *layout = g_new0 (Layout, 1);
  layout->pricking = pf_editor_filled (preview->editor);
  layout->settings = pf_sheet_settings_of (document);
  layout->settings.printer = preview->printer;
  layout->parts = document->page.parts;
  layout->pair_colours = document->page.pair_colours;
  layout->date = g_date_time_format (now, "%Y-%m-%d");
  layout->settings.date = layout->date;
  start (preview, layout);
}

static void
something_changed (PfSheetPreview *preview)
{
  preview->wish++;
  gtk_widget_add_css_class (GTK_WIDGET (preview->picture), "out-of-date");
  lay_out (preview);
}

static void
leaf (PfSheetPreview *preview, int by)
{
  if (preview->in_work || preview->book == NULL)
    return;
  preview->page = (guint) ((int) preview->page + by);
  Layout *layout = g_new0 (Layout, 1);
  layout->book = g_steal_pointer (&preview->book);
  start (preview, layout);
}

static void
leaf_back (PfSheetPreview *preview)
{
  leaf (preview, -1);
}

static void
leaf_on (PfSheetPreview *preview)
{
  leaf (preview, 1);
}

/* --- The widget ---------------------------------------------------------------------------------
 */

static void
pf_sheet_preview_map (GtkWidget *widget)
{
  PfSheetPreview *preview = PF_SHEET_PREVIEW (widget);
  GTK_WIDGET_CLASS (pf_sheet_preview_parent_class)->map (widget);
  if (preview->wish != preview->shown)
    lay_out (preview);
}

static void
pf_sheet_preview_dispose (GObject *object)
{
  PfSheetPreview *preview = PF_SHEET_PREVIEW (object);
  if (preview->quit != NULL)
    g_cancellable_cancel (preview->quit);
  g_clear_object (&preview->quit);
  g_clear_pointer (&preview->book, pf_book_free);
  g_clear_object (&preview->editor);
  G_OBJECT_CLASS (pf_sheet_preview_parent_class)->dispose (object);
}

static void
pf_sheet_preview_class_init (PfSheetPreviewClass *class)
{
  G_OBJECT_CLASS (class)->dispose = pf_sheet_preview_dispose;
  GTK_WIDGET_CLASS (class)->map = pf_sheet_preview_map;
}

static GtkWidget *
make_leaf_button (PfSheetPreview *preview, const char *icon, const char *label, GCallback clicked)
{
  GtkWidget *button = gtk_button_new_from_icon_name (icon);
  gtk_widget_set_tooltip_text (button, label);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, label,
                                  -1);
  g_signal_connect_swapped (button, "clicked", clicked, preview);
  return button;
}

static void
pf_sheet_preview_init (PfSheetPreview *preview)
{
  GtkWidget *bar = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  preview->quit = g_cancellable_new ();
  preview->wish = 1;
  preview->picture = GTK_PICTURE (gtk_picture_new ());
  preview->trouble = GTK_LABEL (gtk_label_new (""));
  preview->number = GTK_LABEL (gtk_label_new (""));
  preview->back = make_leaf_button (preview, "go-previous-symbolic", _ ("The page before"),
                                    G_CALLBACK (leaf_back));
  preview->on =
      make_leaf_button (preview, "go-next-symbolic", _ ("The next page"), G_CALLBACK (leaf_on));
  gtk_orientable_set_orientation (GTK_ORIENTABLE (preview), GTK_ORIENTATION_VERTICAL);
  gtk_widget_add_css_class (GTK_WIDGET (preview), "desk");
  gtk_widget_add_css_class (GTK_WIDGET (preview->picture), "page");
  gtk_widget_set_vexpand (GTK_WIDGET (preview->picture), TRUE);
  gtk_widget_set_vexpand (GTK_WIDGET (preview->trouble), TRUE);
  gtk_label_set_wrap (preview->trouble, TRUE);
  gtk_label_set_max_width_chars (preview->trouble, 50);
  gtk_widget_set_visible (GTK_WIDGET (preview->trouble), FALSE);
  gtk_widget_set_halign (bar, GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (bar, "leaf-bar");
  gtk_box_append (GTK_BOX (bar), preview->back);
  gtk_box_append (GTK_BOX (bar), GTK_WIDGET (preview->number));
  gtk_box_append (GTK_BOX (bar), preview->on);
  gtk_box_append (GTK_BOX (preview), GTK_WIDGET (preview->picture));
  gtk_box_append (GTK_BOX (preview), GTK_WIDGET (preview->trouble));
  gtk_box_append (GTK_BOX (preview), bar);
}

GtkWidget *
pf_sheet_preview_new (PfEditor *editor)
{
  PfSheetPreview *preview = g_object_new (PF_TYPE_SHEET_PREVIEW, NULL);
  preview->editor = g_object_ref (editor);
  g_signal_connect_object (editor, "worked-out", G_CALLBACK (something_changed), preview,
                           G_CONNECT_SWAPPED);
  return GTK_WIDGET (preview);
}

void
pf_sheet_preview_set_printer (PfSheetPreview *preview, PfPrinterRules printer)
{
  if (preview->printer.short_side == printer.short_side &&
      preview->printer.long_side == printer.long_side)
    return;
  preview->printer = printer;
  something_changed (preview);
}
