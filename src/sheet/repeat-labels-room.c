/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Finds room for the labels of a repeat, near what they belong to or, with a leader, where there is
 * any; and tells which find none.
 */
#include <math.h>
#include <string.h>

#include <glib/gi18n-lib.h>

#include "wanted-labels.h"

#define FARTHEST 5.5 /* font sizes from what a label belongs to, without a search */

static bool
is_within (PfBox box, gconstpointer data)
{
  const PfBox *all = data;
  return box.min.x >= all->min.x && box.max.x <= all->max.x && box.min.y >= all->min.y &&
         box.max.y <= all->max.y;
}

/* In the drawing, with no line under it. */
static bool
is_clear (PfBox box, gconstpointer data)
{
  const PfLabels *labels = data;
  return is_within (box, &labels->box) && pf_placer_is_free (labels->placer, box, PF_BLOCK_SOFT);
}

static bool
is_inside (PfBox box, gconstpointer data)
{
  return is_within (box, &((const PfLabels *) data)->box);
}

/* Tries the wanted side first, then those turned away from it, up to `reach` font sizes away. */
static void
try_sides (PfLabels *labels, PfWantedLabel *wanted, double reach, PfLabelAllowed allowed)
{
  static const double turns[] = { 0, 180, 45, -45, 90, -90, 135, -135 };
  const bool any = wanted->outward.x == 0 && wanted->outward.y == 0;
  const PfPoint out = any ? (PfPoint){ 1, 0 } : wanted->outward;
  for (size_t t = 0; t < G_N_ELEMENTS (turns) && !wanted->placed; t++)
    {
      const double a = turns[t] * G_PI / 180;
      const PfPoint side = { cos (a) * out.x - sin (a) * out.y, sin (a) * out.x + cos (a) * out.y };
      wanted->placed = pf_label_place (labels->placer, wanted->text, pf_wanted_room (wanted->shape),
                                       wanted->colour, wanted->anchor, side, reach, allowed, labels,
                                       &wanted->label);
    }
}

/* Near before far, and rather a little farther off than over a line. */
static void
find_room (PfLabels *labels, PfWantedLabel *wanted)
{
  static const struct {
    double reach;
    PfLabelAllowed allowed;
  } tries[] = {
    { 0.9, is_clear },  { 1.8, is_clear },  { 3.1, is_clear },       { 0.9, is_inside },
    { 1.8, is_inside }, { 3.1, is_inside }, { FARTHEST, is_inside },
  };
  for (size_t t = 0; t < G_N_ELEMENTS (tries) && !wanted->placed; t++)
    try_sides (labels, wanted, tries[t].reach, tries[t].allowed);
}

/* Steps of a search over the whole drawing, mm, and how far it goes. */
#define STEP 0.8
#define SEARCH_MOST 24.0

typedef struct {
  PfPoint centre;
  double distance;
} Spot;

static int
compare_spots (gconstpointer a, gconstpointer b)
{
  const double x = ((const Spot *) a)->distance, y = ((const Spot *) b)->distance;
  return (x > y) - (x < y);
}

/* All spots of the drawing that aren't too far from a point, the nearest first. */
static GArray *
spots_near (PfBox box, PfPoint anchor)
{
  GArray *spots = g_array_new (FALSE, FALSE, sizeof (Spot));
  const int n = (int) (SEARCH_MOST / STEP);
  for (int i = -n; i <= n; i++)
    for (int j = -n; j <= n; j++)
      {
        const PfPoint centre = { anchor.x + i * STEP, anchor.y + j * STEP };
        const Spot spot = { centre, hypot (i, j) * STEP };
        if (spot.distance <= SEARCH_MOST && is_within ((PfBox){ centre, centre }, &box))
          g_array_append_val (spots, spot);
      }
  g_array_sort (spots, compare_spots);
  return spots;
}

/* What finds no room near by takes the nearest that there is, with a leader; clear of lines, if it
 * can be. */
static void
find_far_room (PfLabels *labels, PfWantedLabel *wanted)
{
  static const int passes[] = { PF_BLOCK_HARD | PF_BLOCK_SOFT, PF_BLOCK_HARD };
  g_autoptr (GArray) spots = spots_near (labels->box, wanted->anchor);
  const double size = pf_wanted_room (wanted->shape);
  for (size_t pass = 0; pass < G_N_ELEMENTS (passes) && !wanted->placed; pass++)
    for (guint i = 0; i < spots->len && !wanted->placed; i++)
      {
        const PfBox box = pf_label_box (wanted->text, size, g_array_index (spots, Spot, i).centre);
        if (!is_within (box, &labels->box) ||
            !pf_placer_is_free (labels->placer, box, passes[pass]))
          continue;
        pf_placer_block_box (labels->placer, box, PF_BLOCK_HARD);
        wanted->label = pf_label_in_box (box, size, g_strdup (wanted->text), wanted->colour,
                                         wanted->anchor, true);
        wanted->placed = true;
      }
}

void
pf_labels_find_room (PfLabels *labels)
{
  for (PfLabelShape shape = PF_NAME_OF_PIN; shape < PF_LABEL_N_SHAPES; shape++)
    for (guint n = 0; n < labels->wanted->len; n++)
      {
        PfWantedLabel *wanted = &g_array_index (labels->wanted, PfWantedLabel, n);
        if (wanted->shape != shape ||
            !is_within ((PfBox){ wanted->anchor, wanted->anchor }, &labels->box))
          continue;
        find_room (labels, wanted);
        wanted->far = !wanted->placed;
        if (wanted->far)
          find_far_room (labels, wanted);
        wanted->covers =
            wanted->placed && !pf_placer_is_free (labels->placer, wanted->label.box, PF_BLOCK_SOFT);
      }
}

double
pf_labels_crowding (const PfLabels *labels)
{
  guint crowding = 0;
  for (guint n = 0; n < labels->wanted->len; n++)
    {
      const PfWantedLabel *wanted = &g_array_index (labels->wanted, PfWantedLabel, n);
      if (!wanted->placed)
        crowding += 4;
      else
        crowding += (guint) wanted->covers + (guint) wanted->label.leader + (guint) wanted->far;
    }
  return (double) crowding / MAX (labels->wanted->len, 1);
}

/* --- What found none ----------------------------------------------------------------------------
 */

/* A pair's number may stand at both ends of its way. */
static bool
is_told (const PfLabels *labels, const PfWantedLabel *wanted)
{
  for (guint n = 0; n < labels->wanted->len; n++)
    {
      const PfWantedLabel *other = &g_array_index (labels->wanted, PfWantedLabel, n);
      if (other->placed && other->shape == wanted->shape && strcmp (other->text, wanted->text) == 0)
        return true;
    }
  return false;
}

/* The texts of one shape that are nowhere, "3, 9" for all; NULL for none. One may hold the numbers
 * of several steps. */
static char *
left_out (const PfLabels *labels, PfLabelShape shape, guint *n_left_out)
{
  g_autoptr (GPtrArray) texts = g_ptr_array_new ();
  for (guint n = 0; n < labels->wanted->len; n++)
    {
      const PfWantedLabel *wanted = &g_array_index (labels->wanted, PfWantedLabel, n);
      if (wanted->shape == shape && !wanted->placed && !is_told (labels, wanted) &&
          !g_ptr_array_find_with_equal_func (texts, wanted->text, g_str_equal, NULL))
        g_ptr_array_add (texts, wanted->text);
    }
  *n_left_out = 0;
  if (texts->len == 0)
    return NULL;
  g_ptr_array_add (texts, NULL);
  char *all = g_strjoinv (", ", (char **) texts->pdata);
  g_auto (GStrv) each = g_strsplit (all, ", ", -1);
  *n_left_out = g_strv_length (each);
  return all;
}

static char *
sentence (PfLabelShape shape, const char *texts, guint n)
{
  switch (shape)
    {
    case PF_NAME_OF_PIN:
      return g_strdup_printf (
          g_dngettext (GETTEXT_PACKAGE, "There is no room in the drawing for the name of pin %s.",
                       "There is no room in the drawing for the names of pins %s.", n),
          texts);
    case PF_LETTERS_OF_SEWING:
      return g_strdup_printf (
          g_dngettext (GETTEXT_PACKAGE,
                       "There is no room in the drawing for the letter of sewing %s.",
                       "There is no room in the drawing for the letters of sewings %s.", n),
          texts);
    case PF_NUMBER_OF_PAIR:
      return g_strdup_printf (
          g_dngettext (GETTEXT_PACKAGE,
                       "There is no room in the drawing for the number of pair %s.",
                       "There is no room in the drawing for the numbers of pairs %s.", n),
          texts);
    default:
      return g_strdup_printf (
          g_dngettext (GETTEXT_PACKAGE,
                       "There is no room in the drawing for the number of step %s.",
                       "There is no room in the drawing for the numbers of steps %s.", n),
          texts);
    }
}

char *
pf_labels_left_out_words (const PfLabels *labels)
{
  g_autoptr (GPtrArray) sentences = g_ptr_array_new_with_free_func (g_free);
  for (PfLabelShape shape = PF_NAME_OF_PIN; shape < PF_LABEL_N_SHAPES; shape++)
    {
      guint n;
      g_autofree char *texts = left_out (labels, shape, &n);
      if (texts != NULL)
        g_ptr_array_add (sentences, sentence (shape, texts, n));
    }
  g_ptr_array_add (sentences, NULL);
  return sentences->len > 1 ? g_strjoinv (" ", (char **) sentences->pdata) : NULL;
}
