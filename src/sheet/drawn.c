/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What the layers of one motif share, worked out once for all pages.
 */
#include "layers.h"

#include <math.h>

static void
clear_repeat_shape (gpointer shape)
{
  g_free (((PfRepeatShape *) shape)->points);
}

static void
clear_label (gpointer label)
{
  g_free (((PfLabel *) label)->text);
}

static double *
find_outward (const PfRegion *region)
{
  double *outward = g_new (double, region->n_loops);
  for (size_t i = 0; i < region->n_loops; i++)
    {
      const PfLoop *loop = &region->loops[i];
      const bool clockwise = pf_chain_area (loop->points, loop->n_points) > 0;
      outward[i] = clockwise == (i == 0) ? 1 : -1;
    }
  return outward;
}

static bool *
find_pin_places (const PfGround *ground)
{
  bool *has_pin = g_new0 (bool, ground->n_stitches);
  for (int pass = 0; pass < 2; pass++)
    for (int k = 0; k < ground->n_stitches; k++)
      {
        const int place = ground->stitches[k].place;
        if (pass == 0 && ground->stitches[k].pin)
          has_pin[place] = true;
        else if (pass == 1)
          has_pin[k] = has_pin[place];
      }
  return has_pin;
}

PfDrawn *
pf_drawn_new_bare (const PfMotif *motif, double enlarge)
{
  PfDrawn *drawn = g_new0 (PfDrawn, 1);
  drawn->motif = motif;
  drawn->ground = motif->ground;
  drawn->sizes = pf_sizes (motif->settings.placement.gap, enlarge);
  drawn->look = pf_look_printed ();
  drawn->lines = drawn->sizes;
  drawn->outward = find_outward (motif->region);
  drawn->has_pin = motif->ground ? find_pin_places (motif->ground) : NULL;
  drawn->repeats = g_array_new (FALSE, FALSE, sizeof (PfRepeatShape));
  g_array_set_clear_func (drawn->repeats, clear_repeat_shape);
  drawn->left_out = g_array_new (FALSE, FALSE, sizeof (PfPoint));
  drawn->labels = g_array_new (FALSE, FALSE, sizeof (PfLabel));
  g_array_set_clear_func (drawn->labels, clear_label);
  drawn->close_up = g_array_new (FALSE, FALSE, sizeof (PfLabel));
  g_array_set_clear_func (drawn->close_up, clear_label);
  if (motif->filling && motif->thread.n_colours > 0)
    drawn->threads = pf_thread_colours (&motif->thread, motif->filling, NULL);
  return drawn;
}

PfDrawn *
pf_drawn_new (const PfMotif *motif, double enlarge)
{
  PfDrawn *drawn = pf_drawn_new_bare (motif, enlarge);
  if (motif->filling)
    pf_repeats_find (drawn);
  return drawn;
}

void
pf_drawn_free (PfDrawn *drawn)
{
  g_free (drawn->outward);
  g_free (drawn->has_pin);
  g_array_unref (drawn->repeats);
  g_array_unref (drawn->left_out);
  g_array_unref (drawn->labels);
  g_free (drawn->threads);
  g_array_unref (drawn->close_up);
  g_free (drawn);
}

PfPoint
pf_drawn_outward (const PfDrawn *drawn, PfPlace place)
{
  /* Taken across a short stretch, so that a corner looks both ways. */
  const PfRegion *region = drawn->motif->region;
  const double length = pf_loop_length (&region->loops[place.loop]);
  const double half = fmin (0.3, length / 8);
  const PfPlace before = { place.loop, fmod (place.along - half + length, length) };
  const PfPlace after = { place.loop, fmod (place.along + half, length) };
  const PfPoint d =
      pf_point_towards (pf_region_point (region, before), pf_region_point (region, after));
  const double sign = drawn->outward[place.loop];
  return (PfPoint){ sign * d.y, -sign * d.x };
}
