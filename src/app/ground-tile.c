/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ground-tile.h"

#include <glib/gi18n-lib.h>

#define SIDE 84   /* of the picture, pixels */
#define WIDTH 104 /* of all tiles, whatever their titles */

struct _PfGroundTile {
  GtkFlowBoxChild parent_instance;

  PfGround *ground;
  GtkImage *image;
  GdkTexture *pictures[2]; /* PF_GROUND_TILE_DRAWING, _THREADS */
  bool failed[2];
  PfGroundPicture shown;
  GCancellable *cancellable; /* of the picture in work */
};

G_DEFINE_FINAL_TYPE (PfGroundTile, pf_ground_tile, GTK_TYPE_FLOW_BOX_CHILD)

static guint drawn_signal;

PfGround *
pf_ground_tile_ground (PfGroundTile *tile)
{
  return tile->ground;
}

void
pf_ground_tile_set_chosen (PfGroundTile *tile, bool chosen)
{
  if (chosen)
    gtk_widget_add_css_class (GTK_WIDGET (tile), "chosen");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (tile), "chosen");
  gtk_accessible_update_state (GTK_ACCESSIBLE (tile), GTK_ACCESSIBLE_STATE_SELECTED, chosen, -1);
}

/* --- The picture --------------------------------------------------------------------------------
 */

void
pf_ground_tile_show (PfGroundTile *tile, PfGroundPicture picture)
{
  GdkTexture *texture = tile->pictures[picture];
  tile->shown = picture;
  gtk_image_set_from_paintable (tile->image, texture != NULL ? GDK_PAINTABLE (texture) : NULL);
}

bool
pf_ground_tile_lacks_picture (PfGroundTile *tile)
{
  return tile->pictures[tile->shown] == NULL && !tile->failed[tile->shown];
}

typedef struct {
  PfGroundTile *tile; /* referenced */
  PfGroundPicture picture;
  int scale;
} Drawing;

static void
drawn (GObject *source G_GNUC_UNUSED, GAsyncResult *result, gpointer data)
{
  g_autofree Drawing *drawing = data;
  g_autoptr (PfGroundTile) tile = drawing->tile;
  g_autoptr (GError) error = NULL;
  g_autoptr (GdkTexture) texture = pf_ground_picture_finish (result, &error);
  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    return;
  g_clear_object (&tile->cancellable);
  tile->failed[drawing->picture] = texture == NULL;
  if (drawing->scale == gtk_widget_get_scale_factor (GTK_WIDGET (tile)))
    g_set_object (&tile->pictures[drawing->picture], texture);
  pf_ground_tile_show (tile, tile->shown);
  g_signal_emit (tile, drawn_signal, 0);
}

void
pf_ground_tile_draw (PfGroundTile *tile)
{
  const int scale = gtk_widget_get_scale_factor (GTK_WIDGET (tile));
  Drawing *drawing = g_new (Drawing, 1);
  *drawing = (Drawing){ g_object_ref (tile), tile->shown, scale };
  g_clear_object (&tile->cancellable);
  tile->cancellable = g_cancellable_new ();
  pf_ground_picture_draw (tile->ground, tile->shown, SIDE * scale, tile->cancellable, drawn,
                          drawing);
}

static void
scale_changed (PfGroundTile *tile)
{
  g_clear_object (&tile->pictures[0]);
  g_clear_object (&tile->pictures[1]);
  pf_ground_tile_show (tile, tile->shown);
}

/* --- The widget ---------------------------------------------------------------------------------
 */

static void
pf_ground_tile_dispose (GObject *object)
{
  PfGroundTile *tile = PF_GROUND_TILE (object);
  g_cancellable_cancel (tile->cancellable);
  g_clear_object (&tile->cancellable);
  g_clear_object (&tile->pictures[0]);
  g_clear_object (&tile->pictures[1]);
  g_clear_pointer (&tile->ground, pf_ground_free);
  G_OBJECT_CLASS (pf_ground_tile_parent_class)->dispose (object);
}

static void
pf_ground_tile_class_init (PfGroundTileClass *class)
{
  G_OBJECT_CLASS (class)->dispose = pf_ground_tile_dispose;
  drawn_signal = g_signal_new ("drawn", PF_TYPE_GROUND_TILE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                               G_TYPE_NONE, 0);
}

static void
pf_ground_tile_init (PfGroundTile *tile)
{
  tile->image = GTK_IMAGE (gtk_image_new ());
  g_signal_connect (tile, "notify::scale-factor", G_CALLBACK (scale_changed), NULL);
}

static GtkWidget *
label_new (const char *title)
{
  GtkWidget *label = gtk_label_new (title);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_lines (GTK_LABEL (label), 3);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_label_set_width_chars (GTK_LABEL (label), 12);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 12);
  gtk_label_set_justify (GTK_LABEL (label), GTK_JUSTIFY_CENTER);
  gtk_label_set_yalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "caption");
  return label;
}

GtkWidget *
pf_ground_tile_new (PfGround *ground)
{
  PfGroundTile *tile = g_object_new (PF_TYPE_GROUND_TILE, NULL);
  GtkWidget *image = GTK_WIDGET (tile->image), *column = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  g_autofree char *tip = g_strdup_printf (_ ("%s\nFamily: %s"), ground->title, ground->family);
  tile->ground = pf_ground_ref (ground);
  gtk_image_set_pixel_size (tile->image, SIDE);
  gtk_widget_set_halign (image, GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (image, "ground-tile");
  gtk_accessible_update_property (GTK_ACCESSIBLE (image), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  ground->title, -1);
  gtk_box_append (GTK_BOX (column), image);
  gtk_box_append (GTK_BOX (column), label_new (ground->title));
  gtk_widget_set_size_request (column, WIDTH, -1);
  gtk_flow_box_child_set_child (GTK_FLOW_BOX_CHILD (tile), column);
  gtk_widget_set_tooltip_text (GTK_WIDGET (tile), tip);
  gtk_accessible_update_property (GTK_ACCESSIBLE (tile), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  ground->title, -1);
  return GTK_WIDGET (tile);
}
