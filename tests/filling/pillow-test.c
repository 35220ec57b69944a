/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Working steps, replayed on an abstract pillow: every ground that comes with the program on every
 * demo motif, and two hundred random regions and placements, with all habits. And that the pillow
 * does refuse what can't be done.
 */
#include "pillow.h"
#include "samples.h"

enum { PER_PINHOLE = 2 };

static PfWorkingHabits
habits_of (int n)
{
  return (PfWorkingHabits){ n % 2 != 0, n / 2 % 2 != 0 ? PF_WORK_BY_ROW : PF_WORK_BY_REPEAT,
                            n / 4 % 2 != 0 };
}

/* Every row is a straight line of repeats, and no two rows share one. */
static void
check_groups (const PfFilling *filling, const PfWorkingSteps *steps)
{
  size_t next = 0, n_repeats = 0, n_rows = 0;
  for (size_t g = 0; g < steps->n_groups; g++)
    {
      const PfWorkGroup *group = &steps->groups[g];
      g_assert_cmpuint (group->first_step, ==, next);
      g_assert_cmpuint (group->n_steps, >, 0);
      next += group->n_steps;
      if (group->sews_in)
        continue;
      g_assert_cmpuint (group->repeat, <=, n_repeats);
      n_repeats = MAX (n_repeats, (size_t) group->repeat + 1);
      g_assert_cmpuint (group->row, <=, n_rows);
      n_rows = MAX (n_rows, (size_t) group->row + 1);
      for (size_t n = 0; n < group->n_steps; n++)
        {
          const PfStitchId id = filling->stitches[steps->steps[group->first_step + n].stitch].id;
          g_assert_cmpint (id.i, ==, group->i);
          g_assert_cmpint (id.j, ==, group->j);
        }
    }
  g_assert_cmpuint (next, ==, steps->n_steps);
  g_assert_cmpuint (n_repeats, ==, steps->n_repeats);
  g_assert_cmpuint (n_rows, ==, steps->n_rows);
}

static bool
adds_twists (const PfGround *ground)
{
  for (int l = 0; l < ground->n_lines; l++)
    if (ground->lines[l].twists > 0)
      return true;
  return false;
}

/* A crowded cloth stitch edge may take more sewings to a pinhole, and says so. */
static bool
may_crowd (const PfFilling *filling)
{
  for (size_t w = 0; w < filling->n_warnings; w++)
    if (filling->warnings[w].kind == PF_WARNING_CROWDED_EDGE)
      return true;
  return false;
}

static void
replay (const PfFilling *filling, const PfGround *ground, const PfWorkingSteps *steps)
{
  g_autoptr (Pillow) pillow = pillow_new (filling, ground, PER_PINHOLE, may_crowd (filling));
  for (size_t n = 0; n < steps->n_steps; n++)
    {
      g_autofree char *trouble = pillow_do (pillow, &steps->steps[n]);
      if (trouble == NULL)
        continue;
      const PfStepNames names = { 0 };
      g_autofree char *words = pf_explain_step (filling, ground, &steps->steps[n], &names);
      g_test_message ("step %zu, “%s”: %s", n + 1, words, trouble);
      g_assert_cmpstr (trouble, ==, NULL);
    }
  g_autofree char *left = pillow_left (pillow);
  g_assert_cmpstr (left, ==, NULL);
  g_assert_cmpuint (pillow_most (pillow), ==, filling->counts.most_at_once);
  if (adds_twists (ground))
    return;
  g_autoptr (PfThreads) threads = pf_threads_new (filling, ground);
  g_assert_true (pillow_bobbins_agree (pillow, threads));
}

static bool
has_pair (const PfFilling *filling, const PfWorkStep *step, guint32 pair)
{
  if (step->kind != PF_WORK_STITCH)
    return step->pair == pair;
  const PfWorkedStitch *stitch = &filling->stitches[step->stitch];
  for (unsigned side = 0; side < stitch->n_sides; side++)
    if (pf_worked_ends (filling, stitch)[side].pair == pair)
      return true;
  return false;
}

/* In a repeat by itself, too, nothing is done with a new pair before it is sewn in. */
static void
check_sewn_in_first (const PfFilling *filling, const PfRepeatWork *work)
{
  for (guint s = 0; s < work->steps->len; s++)
    {
      const PfWorkStep *step = &g_array_index (work->steps, PfWorkStep, s);
      for (guint before = 0; step->kind == PF_WORK_SEW_IN && before < s; before++)
        g_assert_false (
            has_pair (filling, &g_array_index (work->steps, PfWorkStep, before), step->pair));
    }
}

/* Kinds: each repeat has one, and all of one kind have as many steps, pairs and sewings, and are
 * told in the same words. */
static void
check_kinds (const PfFilling *filling, const PfGround *ground, const PfWorkingSteps *steps)
{
  g_autoptr (PfRepeatKinds) kinds = pf_repeat_kinds_new (filling, ground, steps);
  g_assert_cmpuint (kinds->n_repeats, ==, steps->n_repeats);
  size_t n_repeats = 0;
  for (size_t k = 0; k < kinds->n_kinds; k++)
    {
      const PfRepeatKind *kind = &kinds->kinds[k];
      g_autoptr (GString) told = NULL;
      n_repeats += kind->n_repeats;
      for (size_t n = 0; n < MIN (kind->n_repeats, 3); n++)
        {
          const PfWorkedRepeat *repeat = &kinds->repeats[kind->repeats[n]];
          g_assert_cmpuint (repeat->kind, ==, k);
          g_autoptr (PfRepeatWork) work =
              pf_repeat_work_new (filling, ground, steps, repeat->i, repeat->j);
          check_sewn_in_first (filling, work);
          const PfStepNames names = pf_repeat_work_names (work);
          GString *words = g_string_new (NULL);
          for (guint s = 0; s < work->steps->len; s++)
            {
              g_autofree char *step = pf_explain_step (
                  filling, ground, &g_array_index (work->steps, PfWorkStep, s), &names);
              g_string_append_printf (words, "%s\n", step);
            }
          if (told != NULL)
            {
              g_assert_cmpstr (words->str, ==, told->str);
              g_string_free (words, TRUE);
            }
          else
            told = words;
        }
    }
  g_assert_cmpuint (n_repeats, ==, kinds->n_repeats);
}

static void
check (const PfRegion *region, const PfGround *ground, const PfFillingSettings *settings,
       PfEdgeKind kind)
{
  g_autoptr (GError) error = NULL;
  g_autofree PfEdge *edges = g_new0 (PfEdge, region->n_loops);
  for (size_t l = 0; l < region->n_loops; l++)
    g_assert_true (pf_edge_init_even (&edges[l], &region->loops[l], kind, 2, &error));
  g_autoptr (PfFilling) filling = pf_filling_new (region, edges, ground, settings, &error);
  g_assert_no_error (error);
  g_autoptr (PfWorkingSteps) steps = pf_working_steps_new (filling, ground);
  check_groups (filling, steps);
  replay (filling, ground, steps);
  check_kinds (filling, ground, steps);
  for (size_t l = 0; l < region->n_loops; l++)
    pf_edge_clear (&edges[l]);
}

static void
test_ground (gconstpointer name)
{
  static const char *const drawings[] = { "pond.svg", "quince-flower.svg", "quince-leaf.svg",
                                          "runner-end.svg", "swift.svg" };
  g_autoptr (PfGround) ground = sample_ground (name);
  int n = g_test_rand_int_range (0, 8);
  for (size_t d = 0; d < G_N_ELEMENTS (drawings); d++)
    {
      g_autofree char *path = g_build_filename (DEMO_FOLDER, drawings[d], NULL);
      g_autoptr (GError) error = NULL;
      g_autoptr (PfDrawing) drawing = pf_drawing_load (path, NULL, &error);
      g_assert_no_error (error);
      for (guint m = 0; m < drawing->outlines->len; m++)
        {
          const PfRegion *region =
              ((const PfOutline *) g_ptr_array_index (drawing->outlines, m))->region;
          PfFillingSettings settings = pf_filling_settings_default ();
          settings.placement.gap = 4;
          settings.placement.origin = region->box.min;
          settings.beads = PF_BEADS_KEPT;
          settings.habits = habits_of (n++);
          check (region, ground, &settings,
                 n % 3 == 0 ? PF_EDGE_CLOTH_STITCH : PF_EDGE_HALF_STITCH);
        }
    }
}

/* Two hundred regions and placements, all habits. */
static void
test_random (void)
{
  g_auto (GStrv) names = pf_ground_names ();
  const int n_names = (int) g_strv_length (names);
  for (int trial = 0; trial < 200; trial++)
    {
      g_autoptr (PfGround) ground = sample_ground (names[g_test_rand_int_range (0, n_names)]);
      const PfPoint centre = { g_test_rand_double_range (-50, 50),
                               g_test_rand_double_range (-50, 50) };
      g_autoptr (PfRegion) region =
          sample_star (centre, 12, 35, (size_t) g_test_rand_int_range (7, 40), (size_t) trial % 3);
      PfFillingSettings settings = pf_filling_settings_default ();
      settings.placement = sample_placement (2.5, 6);
      settings.placement.origin = centre;
      settings.clearance = g_test_rand_double_range (0, 0.6);
      settings.carry = g_test_rand_double_range (0, 3);
      settings.all_plain = g_test_rand_int_range (0, 4) == 0;
      settings.habits = habits_of (trial);
      check (region, ground, &settings,
             g_test_rand_bit () ? PF_EDGE_HALF_STITCH : PF_EDGE_CLOTH_STITCH);
    }
}

/* --- The pillow itself --------------------------------------------------------------------------
 */

/* What the pillow says of changed steps: the first trouble, or what is left. NULL if nothing is
 * wrong. */
static char *
trouble_with (const PfFilling *filling, const PfGround *ground, const GArray *steps)
{
  g_autoptr (Pillow) pillow = pillow_new (filling, ground, PER_PINHOLE, false);
  for (guint n = 0; n < steps->len; n++)
    {
      char *trouble = pillow_do (pillow, &g_array_index (steps, PfWorkStep, n));
      if (trouble != NULL)
        return trouble;
    }
  return pillow_left (pillow);
}

/* Any step left out is missed, and any done twice is one too many. */
static void
test_refuses (void)
{
  g_autoptr (PfGround) ground = sample_ground ("armure");
  const PfPoint centre = { 0, 0 };
  g_autoptr (PfRegion) region = sample_star (centre, 14, 16, 9, 0);
  PfFillingSettings settings = pf_filling_settings_default ();
  settings.carry = 2;
  PfEdge edge;
  g_assert_true (pf_edge_init_even (&edge, &region->loops[0], PF_EDGE_HALF_STITCH, 2, NULL));
  g_autoptr (PfFilling) filling = pf_filling_new (region, &edge, ground, &settings, NULL);
  g_autoptr (PfWorkingSteps) working = pf_working_steps_new (filling, ground);
  g_autoptr (GArray) steps = g_array_new (FALSE, FALSE, sizeof (PfWorkStep));
  g_array_append_vals (steps, working->steps, (guint) working->n_steps);
  g_assert_cmpstr (trouble_with (filling, ground, steps), ==, NULL);
  for (guint n = 0; n < steps->len; n++)
    {
      const PfWorkStep step = g_array_index (steps, PfWorkStep, n);
      g_array_remove_index (steps, n);
      g_autofree char *without = trouble_with (filling, ground, steps);
      g_assert_nonnull (without);
      g_array_insert_val (steps, n, step);
      g_array_insert_val (steps, n, step);
      g_autofree char *twice = trouble_with (filling, ground, steps);
      g_assert_nonnull (twice);
      g_array_remove_index (steps, n);
      if (step.kind != PF_WORK_STITCH)
        continue;
      /* A stitch before the first one: no pair is there yet. */
      g_array_insert_val (steps, 0, step);
      g_autofree char *early = trouble_with (filling, ground, steps);
      g_assert_nonnull (early);
      g_array_remove_index (steps, 0);
    }
  pf_edge_clear (&edge);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_auto (GStrv) names = pf_ground_names ();
  for (char **name = names; *name != NULL; name++)
    {
      g_autofree char *path = g_strdup_printf ("/pillow/%s", *name);
      g_test_add_data_func_full (path, g_strdup (*name), test_ground, g_free);
    }
  g_test_add_func ("/pillow/random", test_random);
  g_test_add_func ("/pillow/refuses", test_refuses);
  return g_test_run ();
}
