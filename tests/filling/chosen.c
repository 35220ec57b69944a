/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Most choices are for lines that are cut, so that they can be kept to; some for lines that aren't.
 */
#include "chosen.h"

#include <math.h>

PfFilling *
chosen_fill (const Chosen *f, const PfSewingChoice *choices, size_t n)
{
  PfFillingSettings settings = f->settings;
  settings.sewing_choices = choices;
  settings.n_sewing_choices = n;
  g_autoptr (GError) error = NULL;
  PfFilling *filling = pf_filling_new (f->region, f->edges, f->ground, &settings, &error);
  g_assert_no_error (error);
  return filling;
}

static PfLineId
random_line (const PfFilling *filling)
{
  if (filling->n_crossings > 0 && g_test_rand_int_range (0, 12) > 0)
    return pf_crossing_line (filling,
                             (guint32) g_test_rand_int_range (0, (int) filling->n_crossings));
  return (PfLineId){ { g_test_rand_int_range (-1, 9), g_test_rand_int_range (-3, 4),
                       g_test_rand_int_range (-3, 4) },
                     g_test_rand_bit () ? PF_LEFT : PF_RIGHT,
                     g_test_rand_bit () };
}

/* A line that leaves and one that enters; often near one another, so that they can be turned. */
static PfSewingChoice
random_turn (const PfFilling *filling)
{
  PfSewingChoice choice = { .kind = PF_SEW_TURN,
                            .line = random_line (filling),
                            .other = random_line (filling) };
  const guint32 c = pf_filling_find_crossing (filling, choice.line);
  if (c == PF_NONE || g_test_rand_int_range (0, 5) == 0)
    return choice;
  const guint32 n = (guint32) filling->n_crossings;
  for (guint32 k = 1; k < n; k++)
    if (filling->crossings[(c + k) % n].leaves != filling->crossings[c].leaves)
      {
        choice.other = pf_crossing_line (filling, (c + k) % n);
        break;
      }
  if (choice.line.leaves)
    return choice;
  return (PfSewingChoice){ .kind = PF_SEW_TURN, .line = choice.other, .other = choice.line };
}

PfSewingChoice
chosen_random_place (const Chosen *f)
{
  const PfFilling *filling = f->without;
  PfSewingChoice choice = { .kind = g_test_rand_bit () ? PF_SEW_PINHOLE : PF_SEW_BAR,
                            .line = random_line (filling) };
  const guint32 c = pf_filling_find_crossing (filling, choice.line);
  if (c == PF_NONE)
    return choice;
  choice.place = filling->sewings[filling->crossings[c].sewing].target;
  const double length = pf_loop_length (&f->region->loops[choice.place.loop]);
  choice.place.along = fmod (
      choice.place.along + length + g_test_rand_double_range (-1, 1) * MIN (8, length / 2), length);
  return choice;
}

Chosen
chosen_new (int trial)
{
  Chosen f = { .region = sample_star ((PfPoint){ 0, 0 }, 10, 25,
                                      (size_t) g_test_rand_int_range (7, 30), (size_t) trial % 3),
               .ground = sample_ground (trial % 2 == 0 ? "armure" : "torchon"),
               .settings = pf_filling_settings_default () };
  f.settings.placement = sample_placement (4, 6);
  f.settings.carry = g_test_rand_int_range (0, 4);
  for (size_t l = 0; l < f.region->n_loops; l++)
    {
      const PfLoop *loop = &f.region->loops[l];
      g_assert_true (
          pf_edge_init_even (&f.edges[l], loop, (PfEdgeKind) g_test_rand_bit (), 2, NULL));
      const PfEdgeStretch stretch = { g_test_rand_double_range (0, pf_loop_length (loop)),
                                      g_test_rand_double_range (0, pf_loop_length (loop)),
                                      (PfEdgeKind) g_test_rand_bit () };
      g_assert_true (pf_edge_set_stretches (&f.edges[l], loop, &stretch, 1, NULL));
    }
  f.without = chosen_fill (&f, NULL, 0);
  for (size_t c = 0; c < MOST_CHOICES; c++)
    switch (g_test_rand_int_range (0, 3))
      {
      case 0:
        f.choices[c] = (PfSewingChoice){ .kind = PF_SEW_ALONE, .line = random_line (f.without) };
        break;
      case 1:
        f.choices[c] = random_turn (f.without);
        break;
      default:
        f.choices[c] = chosen_random_place (&f);
      }
  f.filling = chosen_fill (&f, f.choices, MOST_CHOICES);
  return f;
}

void
chosen_clear (Chosen *f)
{
  pf_filling_free (f->without);
  pf_filling_free (f->filling);
  for (size_t l = 0; l < f->region->n_loops; l++)
    pf_edge_clear (&f->edges[l]);
  pf_region_free (f->region);
  pf_ground_free (f->ground);
}

bool
chosen_unheeded (const PfFilling *filling, size_t index)
{
  for (size_t u = 0; u < filling->n_unheeded; u++)
    if (filling->unheeded[u].of_sewing && filling->unheeded[u].index == index)
      return true;
  return false;
}

double
chosen_time (const Chosen *f, PfLineId line)
{
  return pf_ground_time (f->ground, line.stitch.k, line.stitch.i, line.stitch.j);
}
