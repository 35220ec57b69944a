/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The import dialog: a list of the drawing's shapes, each with a box to tick, beside the whole
 * drawing, in which shapes can be clicked. Both show one array of flags, in the list's items.
 */
#include "import-dialog.h"

#include <math.h>

#include <glib/gi18n-lib.h>

#include "form.h"
#include "outline-preview.h"

/* --- One shape ----------------------------------------------------------------------------------
 */

#define PF_TYPE_SHAPE_ITEM (pf_shape_item_get_type ())
G_DECLARE_FINAL_TYPE (PfShapeItem, pf_shape_item, PF, SHAPE_ITEM, GObject)

struct _PfShapeItem {
  GObject parent;
  const PfOutline *outline;
  gboolean chosen;
};

G_DEFINE_FINAL_TYPE (PfShapeItem, pf_shape_item, G_TYPE_OBJECT)

enum { PROP_NONE, PROP_CHOSEN, N_PROPS };
static GParamSpec *props[N_PROPS];

static void
item_get_property (GObject *object, guint prop, GValue *value, GParamSpec *pspec)
{
  (void) prop;
  (void) pspec;
  g_value_set_boolean (value, PF_SHAPE_ITEM (object)->chosen);
}

static void
item_set_property (GObject *object, guint prop, const GValue *value, GParamSpec *pspec)
{
  (void) prop;
  PfShapeItem *item = PF_SHAPE_ITEM (object);
  if (item->chosen == g_value_get_boolean (value))
    return;
  item->chosen = g_value_get_boolean (value);
  g_object_notify_by_pspec (object, pspec);
}

static void
pf_shape_item_init (PfShapeItem *item)
{
  item->chosen = TRUE;
}

static void
pf_shape_item_class_init (PfShapeItemClass *class)
{
  G_OBJECT_CLASS (class)->get_property = item_get_property;
  G_OBJECT_CLASS (class)->set_property = item_set_property;
  props[PROP_CHOSEN] =
      g_param_spec_boolean ("chosen", NULL, NULL, TRUE,
                            G_PARAM_READWRITE | G_PARAM_EXPLICIT_NOTIFY | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (G_OBJECT_CLASS (class), N_PROPS, props);
}

/* --- The dialog ---------------------------------------------------------------------------------
 */

typedef struct {
  const PfDrawing *drawing;
  PfUnits units;
  GListStore *items;
  GtkWidget *window, *all, *picture, *count, *import;
  GTask *task; /* NULL once it is answered */
  gulong cancelled_id;
  bool many; /* flags change together: count them at the end */
} Import;

static PfShapeItem *
item_at (const Import *import, guint n)
{
  g_autoptr (PfShapeItem) item = g_list_model_get_item (G_LIST_MODEL (import->items), n);
  return item; /* the list holds it */
}

static guint
n_items (const Import *import)
{
  return g_list_model_get_n_items (G_LIST_MODEL (import->items));
}

static guint
n_chosen (const Import *import)
{
  guint n = 0;
  for (guint i = 0; i < n_items (import); i++)
    n += item_at (import, i)->chosen;
  return n;
}

static void
update (Import *import)
{
  if (import->many)
    return;
  const guint n = n_chosen (import), all = n_items (import);
  g_autofree char *words = g_strdup_printf (
      ngettext ("%u of %u shape becomes a motif.", "%u of %u shapes become motifs.", all), n, all);
  gtk_label_set_text (GTK_LABEL (import->count), words);
  gtk_widget_set_sensitive (import->import, n > 0);
  import->many = true; /* the box for all follows, it doesn't lead */
  gtk_check_button_set_active (GTK_CHECK_BUTTON (import->all), n == all);
  gtk_check_button_set_inconsistent (GTK_CHECK_BUTTON (import->all), n > 0 && n < all);
  import->many = false;
  gtk_widget_queue_draw (import->picture);
}

static void
choose_all (Import *import)
{
  if (import->many)
    return;
  const bool chosen = n_chosen (import) < n_items (import);
  import->many = true;
  for (guint i = 0; i < n_items (import); i++)
    g_object_set (item_at (import, i), "chosen", chosen, NULL);
  import->many = false;
  update (import);
}

/* --- The list -----------------------------------------------------------------------------------
 */

static void
draw_shape (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  GtkListItem *row = data;
  PfShapeItem *item = gtk_list_item_get_item (row);
  if (!item)
    return;
  GdkRGBA ink;
  gtk_style_context_get_color (gtk_widget_get_style_context (GTK_WIDGET (area)), &ink);
  pf_region_draw (cr, item->outline->region, width, height, &ink);
}

static void
setup_row (GtkListItemFactory *factory, GtkListItem *row)
{
  (void) factory;
  GtkWidget *check = gtk_check_button_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *shape = gtk_drawing_area_new ();
  GtkWidget *words = gtk_label_new (NULL);
  gtk_drawing_area_set_content_width (GTK_DRAWING_AREA (shape), 48);
  gtk_drawing_area_set_content_height (GTK_DRAWING_AREA (shape), 40);
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (shape), draw_shape, row, NULL);
  gtk_widget_set_margin_start (check, 4);
  gtk_widget_set_margin_end (check, 4);
  gtk_label_set_xalign (GTK_LABEL (words), 0);
  gtk_label_set_ellipsize (GTK_LABEL (words), PANGO_ELLIPSIZE_MIDDLE);
  gtk_label_set_max_width_chars (GTK_LABEL (words), 34);
  gtk_widget_set_hexpand (words, TRUE);
  gtk_box_append (GTK_BOX (box), shape);
  gtk_box_append (GTK_BOX (box), words);
  gtk_check_button_set_child (GTK_CHECK_BUTTON (check), box);
  gtk_list_item_set_child (row, check);
  gtk_list_item_set_activatable (row, FALSE);
}

/* "30 mm by 42.5 mm, area 9.2 cm²" */
static char *
size_words (const PfRegion *region, PfUnits units)
{
  g_autofree char *width = pf_format_length (region->box.max.x - region->box.min.x, units);
  g_autofree char *height = pf_format_length (region->box.max.y - region->box.min.y, units);
  const double area = pf_region_area (region);
  if (units == PF_UNITS_INCH)
    return g_strdup_printf (_ ("%s by %s, area %.2f sq in"), width, height,
                            area / (PF_MM_PER_INCH * PF_MM_PER_INCH));
  return g_strdup_printf (_ ("%s by %s, area %.1f cm²"), width, height, area / 100);
}

static void
bind_row (GtkListItemFactory *factory, GtkListItem *row, Import *import)
{
  (void) factory;
  PfShapeItem *item = gtk_list_item_get_item (row);
  GtkWidget *check = gtk_list_item_get_child (row);
  GtkWidget *shape =
      gtk_widget_get_first_child (gtk_check_button_get_child (GTK_CHECK_BUTTON (check)));
  GtkWidget *words = gtk_widget_get_next_sibling (shape);
  g_autofree char *size = size_words (item->outline->region, import->units);
  g_autofree char *name = g_markup_escape_text (item->outline->name, -1);
  g_autofree char *markup = g_strdup_printf ("<b>%s</b>\n<small>%s</small>", name, size);
  g_autofree char *spoken = g_strdup_printf ("%s, %s", item->outline->name, size);
  gtk_label_set_markup (GTK_LABEL (words), markup);
  gtk_accessible_update_property (GTK_ACCESSIBLE (check), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken,
                                  -1);
  GBinding *binding = g_object_bind_property (item, "chosen", check, "active",
                                              G_BINDING_SYNC_CREATE | G_BINDING_BIDIRECTIONAL);
  g_object_set_data (G_OBJECT (check), "pf-binding", binding);
  gtk_widget_queue_draw (shape);
}

static void
unbind_row (GtkListItemFactory *factory, GtkListItem *row)
{
  (void) factory;
  g_binding_unbind (g_object_steal_data (G_OBJECT (gtk_list_item_get_child (row)), "pf-binding"));
}

static GtkWidget *
list_new (Import *import)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
  g_signal_connect (factory, "setup", G_CALLBACK (setup_row), NULL);
  g_signal_connect (factory, "bind", G_CALLBACK (bind_row), import);
  g_signal_connect (factory, "unbind", G_CALLBACK (unbind_row), NULL);
  GtkNoSelection *model = gtk_no_selection_new (G_LIST_MODEL (g_object_ref (import->items)));
  GtkWidget *list = gtk_list_view_new (GTK_SELECTION_MODEL (model), factory);
  pf_name_widget (list, _ ("Shapes of the drawing"));
  GtkWidget *scrolled = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scrolled), GTK_POLICY_NEVER,
                                  GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_has_frame (GTK_SCROLLED_WINDOW (scrolled), TRUE);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), list);
  gtk_widget_set_size_request (scrolled, 330, 320);
  gtk_widget_set_vexpand (scrolled, TRUE);
  return scrolled;
}

/* --- The picture --------------------------------------------------------------------------------
 */

static PfAffine
picture_map (const Import *import, double width, double height)
{
  PfBox box = { { 0, 0 }, { import->drawing->width, import->drawing->height } };
  for (guint i = 0; i < n_items (import); i++)
    {
      const PfBox shape = item_at (import, i)->outline->region->box;
      box.min = (PfPoint){ fmin (box.min.x, shape.min.x), fmin (box.min.y, shape.min.y) };
      box.max = (PfPoint){ fmax (box.max.x, shape.max.x), fmax (box.max.y, shape.max.y) };
    }
  return pf_fit_box (box, width, height, 10);
}

static void
draw_outline (cairo_t *cr, const PfShapeItem *item, PfAffine map)
{
  cairo_matrix_t matrix;
  cairo_matrix_init (&matrix, map.xx, map.yx, map.xy, map.yy, map.x0, map.y0);
  cairo_save (cr);
  cairo_transform (cr, &matrix);
  cairo_new_path (cr);
  pf_region_path (cr, item->outline->region);
  cairo_restore (cr);
  static const double dash[] = { 3, 3 };
  cairo_set_dash (cr, dash, item->chosen ? 0 : 2, 0);
  if (item->chosen)
    {
      cairo_set_source_rgb (cr, 0.84, 0.89, 0.96);
      cairo_fill_preserve (cr);
      cairo_set_source_rgb (cr, 0.1, 0.29, 0.61);
    }
  else
    cairo_set_source_rgb (cr, 0.45, 0.45, 0.45);
  cairo_stroke (cr);
}

static void
draw_background (cairo_t *cr, const PfDrawing *drawing, PfAffine map)
{
  for (guint i = 0; i < drawing->background->len; i++)
    {
      const PfPolyline *line = g_ptr_array_index (drawing->background, i);
      for (size_t p = 0; p < line->n_points; p++)
        {
          const PfPoint at = pf_affine_map (map, line->points[p]);
          cairo_line_to (cr, at.x, at.y);
        }
      if (line->closed)
        cairo_close_path (cr);
      cairo_new_sub_path (cr);
    }
  cairo_set_source_rgb (cr, 0.8, 0.8, 0.8);
  cairo_stroke (cr);
}

/* The drawing is on paper, in dark windows too. */
static void
draw_picture (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  (void) area;
  const Import *import = data;
  const PfAffine map = picture_map (import, width, height);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_set_fill_rule (cr, CAIRO_FILL_RULE_EVEN_ODD);
  cairo_set_line_width (cr, 1.5);
  draw_background (cr, import->drawing, map);
  for (guint i = 0; i < n_items (import); i++)
    draw_outline (cr, item_at (import, i), map);
}

/* Of shapes that lie in one another the smallest is meant. */
static void
picture_pressed (GtkGestureClick *gesture, int n_press, double x, double y, Import *import)
{
  (void) gesture;
  (void) n_press;
  const PfAffine map = picture_map (import, gtk_widget_get_width (import->picture),
                                    gtk_widget_get_height (import->picture));
  const PfPoint at = pf_affine_map (pf_affine_invert (map), (PfPoint){ x, y });
  PfShapeItem *meant = NULL;
  for (guint i = 0; i < n_items (import); i++)
    {
      PfShapeItem *item = item_at (import, i);
      const PfRegion *region = item->outline->region;
      if (pf_region_contains (region, at) &&
          (!meant || pf_region_area (region) < pf_region_area (meant->outline->region)))
        meant = item;
    }
  if (meant)
    g_object_set (meant, "chosen", !meant->chosen, NULL);
}

static GtkWidget *
picture_new (Import *import)
{
  import->picture = gtk_drawing_area_new ();
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (import->picture), draw_picture, import, NULL);
  pf_name_widget (import->picture, _ ("The drawing, with the shapes that become motifs"));
  gtk_widget_set_hexpand (import->picture, TRUE);
  GtkGesture *click = gtk_gesture_click_new ();
  g_signal_connect (click, "pressed", G_CALLBACK (picture_pressed), import);
  gtk_widget_add_controller (import->picture, GTK_EVENT_CONTROLLER (click));
  GtkWidget *frame = gtk_frame_new (NULL);
  gtk_frame_set_child (GTK_FRAME (frame), import->picture);
  gtk_widget_set_size_request (frame, 360, -1);
  return frame;
}

/* --- Around them --------------------------------------------------------------------------------
 */

static GtkWidget *
remarks_new (const PfDrawing *drawing)
{
  const guint n = drawing->remarks->len;
  g_autofree char *title =
      g_strdup_printf (ngettext ("%u _remark on the drawing", "%u _remarks on the drawing", n), n);
  g_autoptr (GString) text = g_string_new (NULL);
  for (guint i = 0; i < n; i++)
    g_string_append_printf (text, "%s%s", i > 0 ? "\n" : "",
                            (const char *) g_ptr_array_index (drawing->remarks, i));
  GtkWidget *view = gtk_text_view_new ();
  gtk_text_buffer_set_text (gtk_text_view_get_buffer (GTK_TEXT_VIEW (view)), text->str, -1);
  gtk_text_view_set_editable (GTK_TEXT_VIEW (view), FALSE);
  gtk_text_view_set_cursor_visible (GTK_TEXT_VIEW (view), FALSE);
  gtk_text_view_set_accepts_tab (GTK_TEXT_VIEW (view), FALSE);
  gtk_text_view_set_wrap_mode (GTK_TEXT_VIEW (view), GTK_WRAP_WORD_CHAR);
  gtk_text_view_set_left_margin (GTK_TEXT_VIEW (view), 8);
  gtk_text_view_set_right_margin (GTK_TEXT_VIEW (view), 8);
  gtk_text_view_set_top_margin (GTK_TEXT_VIEW (view), 6);
  gtk_text_view_set_bottom_margin (GTK_TEXT_VIEW (view), 6);
  gtk_text_view_set_pixels_below_lines (GTK_TEXT_VIEW (view), 4);
  pf_name_widget (view, _ ("Remarks on the drawing"));
  GtkWidget *scrolled = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_has_frame (GTK_SCROLLED_WINDOW (scrolled), TRUE);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), view);
  gtk_widget_set_size_request (scrolled, -1, 90);
  gtk_widget_set_margin_top (scrolled, 6);
  GtkWidget *expander = gtk_expander_new_with_mnemonic (title);
  gtk_expander_set_expanded (GTK_EXPANDER (expander), TRUE);
  gtk_expander_set_child (GTK_EXPANDER (expander), scrolled);
  /* Or the keyboard looks for it where it isn't. */
  g_object_bind_property (expander, "expanded", scrolled, "visible", G_BINDING_SYNC_CREATE);
  return expander;
}

static GtkWidget *
content_new (Import *import)
{
  GtkWidget *left = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  import->all = gtk_check_button_new_with_mnemonic (_ ("A_ll shapes"));
  gtk_widget_set_margin_start (import->all, 1);
  g_signal_connect_swapped (import->all, "toggled", G_CALLBACK (choose_all), import);
  gtk_box_append (GTK_BOX (left), import->all);
  gtk_box_append (GTK_BOX (left), list_new (import));

  GtkWidget *both = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  gtk_box_append (GTK_BOX (both), left);
  gtk_box_append (GTK_BOX (both), picture_new (import));

  GtkWidget *content = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  gtk_widget_set_margin_start (content, 18);
  gtk_widget_set_margin_end (content, 18);
  gtk_widget_set_margin_top (content, 12);
  gtk_widget_set_margin_bottom (content, 18);
  import->count = pf_hint_new (NULL);
  gtk_box_append (GTK_BOX (content), both);
  gtk_box_append (GTK_BOX (content), import->count);
  if (import->drawing->remarks->len > 0)
    gtk_box_append (GTK_BOX (content), remarks_new (import->drawing));
  return content;
}

/* --- The answer ---------------------------------------------------------------------------------
 */

static void
import_free (gpointer data)
{
  Import *import = data;
  g_object_unref (import->items);
  g_free (import);
}

/* The window closes before the answer is given: the drawing may go with it. */
static void
answer (Import *import, bool *chosen)
{
  g_autoptr (GTask) task = g_steal_pointer (&import->task);
  if (!task)
    return;
  g_cancellable_disconnect (g_task_get_cancellable (task), import->cancelled_id);
  gtk_window_destroy (GTK_WINDOW (import->window));
  if (chosen)
    g_task_return_pointer (task, chosen, g_free);
  else
    g_task_return_new_error (task, G_IO_ERROR, G_IO_ERROR_CANCELLED, "%s",
                             _ ("Nothing was imported."));
}

static void
take (Import *import)
{
  bool *chosen = g_new (bool, n_items (import));
  for (guint i = 0; i < n_items (import); i++)
    chosen[i] = item_at (import, i)->chosen;
  answer (import, chosen);
}

static gboolean
close_requested (Import *import)
{
  answer (import, NULL);
  return TRUE;
}

static gboolean
cancelled_idle (gpointer window)
{
  gtk_window_close (window);
  return G_SOURCE_REMOVE;
}

static void
cancelled (GCancellable *cancellable, gpointer window)
{
  (void) cancellable;
  g_idle_add_full (G_PRIORITY_DEFAULT, cancelled_idle, g_object_ref (window), g_object_unref);
}

static void
fill_items (Import *import)
{
  import->items = g_list_store_new (PF_TYPE_SHAPE_ITEM);
  for (guint i = 0; i < import->drawing->outlines->len; i++)
    {
      g_autoptr (PfShapeItem) item = g_object_new (PF_TYPE_SHAPE_ITEM, NULL);
      item->outline = g_ptr_array_index (import->drawing->outlines, i);
      g_signal_connect_swapped (item, "notify::chosen", G_CALLBACK (update), import);
      g_list_store_append (import->items, item);
    }
}

void
pf_import_dialog_choose (GtkWindow *parent, const PfDrawing *drawing, const char *name,
                         PfUnits units, GCancellable *cancellable, GAsyncReadyCallback callback,
                         gpointer data)
{
  g_autofree char *title = g_strdup_printf (_ ("Import “%s”"), name);
  Import *import = g_new0 (Import, 1);
  import->drawing = drawing;
  import->units = units;
  import->task = g_task_new (NULL, cancellable, callback, data);
  import->window = pf_dialog_new (parent, title, true);
  g_object_set_data_full (G_OBJECT (import->window), "pf-import", import, import_free);
  fill_items (import);
  import->import = pf_dialog_add_button (GTK_WINDOW (import->window), _ ("_Import"), true);
  GtkWidget *cancel = pf_dialog_add_button (GTK_WINDOW (import->window), _ ("_Cancel"), false);
  gtk_header_bar_set_show_title_buttons (
      GTK_HEADER_BAR (gtk_window_get_titlebar (GTK_WINDOW (import->window))), FALSE);
  gtk_widget_add_css_class (import->import, "suggested-action");
  gtk_window_set_child (GTK_WINDOW (import->window), content_new (import));
  gtk_window_set_default_widget (GTK_WINDOW (import->window), import->import);
  gtk_window_set_default_size (GTK_WINDOW (import->window), 780, 520);
  update (import);
  g_signal_connect_swapped (import->import, "clicked", G_CALLBACK (take), import);
  g_signal_connect_swapped (cancel, "clicked", G_CALLBACK (gtk_window_close), import->window);
  g_signal_connect_swapped (import->window, "close-request", G_CALLBACK (close_requested), import);
  g_signal_connect_swapped (import->window, "destroy", G_CALLBACK (close_requested), import);
  if (cancellable)
    import->cancelled_id =
        g_cancellable_connect (cancellable, G_CALLBACK (cancelled), import->window, NULL);
  gtk_window_present (GTK_WINDOW (import->window));
}

bool *
pf_import_dialog_choose_finish (GAsyncResult *result, GError **error)
{
  return g_task_propagate_pointer (G_TASK (result), error);
}
