/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Both get at least what they need; beyond that, the first has a part of the longer side.
 */
#include "pillow-split.h"

#define WIDE_PART 0.55
#define TALL_PART 0.5
/* The least heights. They aren't measured: words that wrap would be laid out several times for each
 * step, only to learn that they scroll. */
static const int least_height[2] = { 240, 260 };

struct _PfPillowSplit {
  GtkWidget parent_instance;
  GtkWidget *children[2];
};

G_DEFINE_FINAL_TYPE (PfPillowSplit, pf_pillow_split, GTK_TYPE_WIDGET)

static void
pf_pillow_split_measure (GtkWidget *widget, GtkOrientation orientation, int for_size G_GNUC_UNUSED,
                         int *minimum, int *natural, int *minimum_baseline, int *natural_baseline)
{
  PfPillowSplit *split = PF_PILLOW_SPLIT (widget);
  *minimum = *natural = 0;
  *minimum_baseline = *natural_baseline = -1;
  for (int c = 0; c < 2; c++)
    {
      int least = least_height[c], usual = least_height[c];
      if (orientation == GTK_ORIENTATION_HORIZONTAL)
        gtk_widget_measure (split->children[c], orientation, -1, &least, &usual, NULL, NULL);
      if (orientation == GTK_ORIENTATION_HORIZONTAL)
        *minimum = MAX (*minimum, least);
      else
        *minimum += least;
      *natural += usual;
    }
}

static int
least_width (GtkWidget *child)
{
  int least;
  gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  return least;
}

/* Beside each other if that is the longer side, and both have room. */
static void
pf_pillow_split_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  GtkWidget **child = PF_PILLOW_SPLIT (widget)->children;
  const int wide[2] = { least_width (child[0]), least_width (child[1]) };
  GtkAllocation part[2] = { { 0, 0, width, height }, { 0, 0, width, height } };
  if (width > height && width >= wide[0] + wide[1])
    {
      part[0].width = CLAMP ((int) (WIDE_PART * width), wide[0], width - wide[1]);
      part[1].width = width - part[0].width;
      part[1].x = part[0].width;
      if (gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL)
        {
          part[0].x = part[1].width;
          part[1].x = 0;
        }
    }
  else
    {
      part[0].height = MAX (MIN ((int) (TALL_PART * height), height - least_height[1]), 1);
      part[1].height = height - part[0].height;
      part[1].y = part[0].height;
    }
  for (int c = 0; c < 2; c++)
    gtk_widget_size_allocate (child[c], &part[c], baseline);
}

static void
pf_pillow_split_dispose (GObject *object)
{
  for (int c = 0; c < 2; c++)
    g_clear_pointer (&PF_PILLOW_SPLIT (object)->children[c], gtk_widget_unparent);
  G_OBJECT_CLASS (pf_pillow_split_parent_class)->dispose (object);
}

static void
pf_pillow_split_class_init (PfPillowSplitClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  G_OBJECT_CLASS (class)->dispose = pf_pillow_split_dispose;
  widget_class->measure = pf_pillow_split_measure;
  widget_class->size_allocate = pf_pillow_split_size_allocate;
}

static void
pf_pillow_split_init (PfPillowSplit *split)
{
  gtk_widget_set_hexpand (GTK_WIDGET (split), TRUE);
  gtk_widget_set_vexpand (GTK_WIDGET (split), TRUE);
}

GtkWidget *
pf_pillow_split_new (GtkWidget *first, GtkWidget *second)
{
  PfPillowSplit *split = g_object_new (PF_TYPE_PILLOW_SPLIT, NULL);
  split->children[0] = first;
  split->children[1] = second;
  for (int c = 0; c < 2; c++)
    gtk_widget_set_parent (split->children[c], GTK_WIDGET (split));
  return GTK_WIDGET (split);
}
