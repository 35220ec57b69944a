/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The drawings are the sheet's own drawings of grounds, rendered once when the gallery is first
 * seen, a few at each idle moment so that nothing waits for them.
 */
#include "ground-gallery.h"

#include <string.h>

#include <glib/gi18n-lib.h>
#include <librsvg/rsvg.h>

#include <sheet.h>

/* The side of a drawing, in pixels. */
#define TILE 84

struct _PfGroundGallery {
  GtkBox parent_instance;

  GtkFlowBox *box;
  GPtrArray *grounds;  /* of PfGround, as they stand in the box */
  GPtrArray *pictures; /* of GtkImage, borrowed */
  guint drawn;         /* so many pictures have their drawing */
  guint idle;
  guint chosen; /* or the first */
  bool updating;
};

G_DEFINE_FINAL_TYPE (PfGroundGallery, pf_ground_gallery, GTK_TYPE_BOX)

static guint chosen_signal;

static GdkTexture *
draw_ground (const PfGround *ground, int side)
{
  g_autofree char *svg = pf_ground_tile_svg (ground);
  RsvgHandle *handle = rsvg_handle_new_from_data ((const guint8 *) svg, strlen (svg), NULL);
  if (handle == NULL)
    return NULL;
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, side, side);
  cairo_t *cr = cairo_create (surface);
  const RsvgRectangle viewport = { 0, 0, side, side };
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  rsvg_handle_render_document (handle, cr, &viewport, NULL);
  g_object_unref (handle);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  const gsize stride = (gsize) cairo_image_surface_get_stride (surface);
  g_autoptr (GBytes) bytes =
      g_bytes_new (cairo_image_surface_get_data (surface), stride * (gsize) side);
  cairo_surface_destroy (surface);
  return gdk_memory_texture_new (side, side, GDK_MEMORY_DEFAULT, bytes, stride);
}

static gboolean
draw_next (gpointer data)
{
  PfGroundGallery *gallery = data;
  if (gallery->drawn == gallery->grounds->len)
    {
      gallery->idle = 0;
      return G_SOURCE_REMOVE;
    }
  const PfGround *ground = g_ptr_array_index (gallery->grounds, gallery->drawn);
  const int scale = gtk_widget_get_scale_factor (GTK_WIDGET (gallery));
  g_autoptr (GdkTexture) texture = draw_ground (ground, TILE * scale);
  gtk_image_set_from_paintable (g_ptr_array_index (gallery->pictures, gallery->drawn),
                                GDK_PAINTABLE (texture));
  gallery->drawn++;
  return G_SOURCE_CONTINUE;
}

static void
chosen (PfGroundGallery *gallery, GtkFlowBoxChild *child)
{
  if (gallery->updating)
    return;
  const guint n = (guint) gtk_flow_box_child_get_index (child);
  const PfGround *ground = g_ptr_array_index (gallery->grounds, n);
  g_signal_emit (gallery, chosen_signal, 0, ground->name);
}

void
pf_ground_gallery_set_chosen (PfGroundGallery *gallery, const char *name)
{
  gallery->updating = true;
  for (guint n = 0; n < gallery->grounds->len; n++)
    {
      const PfGround *ground = g_ptr_array_index (gallery->grounds, n);
      GtkWidget *child = GTK_WIDGET (gtk_flow_box_get_child_at_index (gallery->box, (int) n));
      const bool is_it = g_strcmp0 (ground->name, name) == 0;
      if (is_it)
        {
          gallery->chosen = n;
          gtk_widget_add_css_class (child, "chosen");
        }
      else
        gtk_widget_remove_css_class (child, "chosen");
      gtk_accessible_update_state (GTK_ACCESSIBLE (child), GTK_ACCESSIBLE_STATE_SELECTED, is_it,
                                   -1);
    }
  gallery->updating = false;
}

static void
add_tile (PfGroundGallery *gallery, PfGround *ground)
{
  GtkWidget *tile = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  GtkWidget *picture = gtk_image_new ();
  GtkWidget *label = gtk_label_new (ground->title);
  GtkWidget *child = gtk_flow_box_child_new ();
  gtk_image_set_pixel_size (GTK_IMAGE (picture), TILE);
  gtk_widget_set_halign (picture, GTK_ALIGN_CENTER);
  gtk_accessible_update_property (GTK_ACCESSIBLE (picture), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  ground->title, -1);
  gtk_widget_add_css_class (picture, "ground-tile");
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_lines (GTK_LABEL (label), 2);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_label_set_width_chars (GTK_LABEL (label), 12);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 12);
  gtk_label_set_justify (GTK_LABEL (label), GTK_JUSTIFY_CENTER);
  gtk_widget_add_css_class (label, "caption");
  gtk_label_set_yalign (GTK_LABEL (label), 0);
  gtk_box_append (GTK_BOX (tile), picture);
  gtk_box_append (GTK_BOX (tile), label);
  gtk_flow_box_child_set_child (GTK_FLOW_BOX_CHILD (child), tile);
  gtk_widget_set_tooltip_text (child, ground->title);
  gtk_accessible_update_property (GTK_ACCESSIBLE (child), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  ground->title, -1);
  gtk_flow_box_append (gallery->box, child);
  g_ptr_array_add (gallery->grounds, ground);
  g_ptr_array_add (gallery->pictures, picture);
}

static void
add_tiles (PfGroundGallery *gallery)
{
  g_auto (GStrv) names = pf_ground_names ();
  for (char **name = names; *name != NULL; name++)
    {
      PfGround *ground = pf_ground_load (*name, NULL);
      if (ground != NULL)
        add_tile (gallery, ground);
    }
}

static void
pf_ground_gallery_map (GtkWidget *widget)
{
  PfGroundGallery *gallery = PF_GROUND_GALLERY (widget);
  GTK_WIDGET_CLASS (pf_ground_gallery_parent_class)->map (widget);
  if (gallery->idle == 0 && gallery->drawn < gallery->grounds->len)
    gallery->idle = g_idle_add (draw_next, gallery);
}

/* One stop for Tab, at the chosen ground: arrow keys go from one to the next. */
static gboolean
pf_ground_gallery_focus (GtkWidget *widget, GtkDirectionType direction)
{
  PfGroundGallery *gallery = PF_GROUND_GALLERY (widget);
  if (direction != GTK_DIR_TAB_FORWARD && direction != GTK_DIR_TAB_BACKWARD)
    return GTK_WIDGET_CLASS (pf_ground_gallery_parent_class)->focus (widget, direction);
  if (gtk_widget_get_focus_child (widget) != NULL)
    return FALSE;
  GtkFlowBoxChild *child = gtk_flow_box_get_child_at_index (gallery->box, (int) gallery->chosen);
  return child != NULL && gtk_widget_grab_focus (GTK_WIDGET (child));
}

static void
pf_ground_gallery_dispose (GObject *object)
{
  PfGroundGallery *gallery = PF_GROUND_GALLERY (object);
  g_clear_handle_id (&gallery->idle, g_source_remove);
  g_clear_pointer (&gallery->grounds, g_ptr_array_unref);
  g_clear_pointer (&gallery->pictures, g_ptr_array_unref);
  G_OBJECT_CLASS (pf_ground_gallery_parent_class)->dispose (object);
}

static void
pf_ground_gallery_class_init (PfGroundGalleryClass *class)
{
  G_OBJECT_CLASS (class)->dispose = pf_ground_gallery_dispose;
  GTK_WIDGET_CLASS (class)->map = pf_ground_gallery_map;
  GTK_WIDGET_CLASS (class)->focus = pf_ground_gallery_focus;
  chosen_signal = g_signal_new ("chosen", PF_TYPE_GROUND_GALLERY, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
}

static void
pf_ground_gallery_init (PfGroundGallery *gallery)
{
  gallery->grounds = g_ptr_array_new_with_free_func ((GDestroyNotify) pf_ground_free);
  gallery->pictures = g_ptr_array_new ();
  gallery->box = GTK_FLOW_BOX (gtk_flow_box_new ());
  gtk_flow_box_set_selection_mode (gallery->box, GTK_SELECTION_NONE);
  gtk_flow_box_set_min_children_per_line (gallery->box, 3);
  gtk_flow_box_set_max_children_per_line (gallery->box, 3);
  gtk_flow_box_set_homogeneous (gallery->box, TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (gallery->box), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Grounds"), -1);
  g_signal_connect_swapped (gallery->box, "child-activated", G_CALLBACK (chosen), gallery);
  add_tiles (gallery);
  GtkWidget *scroller = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER,
                                  GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_min_content_height (GTK_SCROLLED_WINDOW (scroller), 264);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), GTK_WIDGET (gallery->box));
  gtk_widget_set_hexpand (scroller, TRUE);
  gtk_box_append (GTK_BOX (gallery), scroller);
}

GtkWidget *
pf_ground_gallery_new (void)
{
  return g_object_new (PF_TYPE_GROUND_GALLERY, NULL);
}
