/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The steps for parts of an eight-thread armure, in words, against what makers of this ground are
 * taught (common practice; the counts behind them are those of armure-test.c): a missing side pin
 * is turned at twice, before the middle and after it, with one twist more before each; with pins 1
 * and 2 missing two pairs are sewn in, each twisted twice, and the second turns at missing pin 2;
 * one pin alone is half stitch, pin, half stitch.
 */
#include <string.h>

#include <repeat-kinds.h>

#include "armure.h"

typedef struct {
  const char *name;
  ArmureCut cut;
  const char *difference;
  const char *steps;
} Case;

#define PLAIN                                                                                      \
  " The middle is not worked: pairs pass straight on where it would be, and each pin gets half "   \
  "stitch, pin, half stitch."

static const Case cases[] = {
  { "1-2-4",
    { -1, 0, -0.7 },
    "3 of its 4 pins are inside; pin 3 is missing. The middle is worked.",
    "Sew new pair 1 into the pinhole at a, and twist it twice.\n"
    "Sew new pair 2 into the pinhole at b, and twist it twice.\n"
    "Pin 1: half stitch with pairs 1 and 2; set the pin, which stays open.\n"
    "Sew new pair 3 into the pinhole at c, and twist it twice.\n"
    "Pin 2: half stitch with pairs 3 and 1; set the pin, to be closed later.\n"
    "Pin 3 is missing: twist pair 2 once more, sew it into the pinhole at d, and take it back.\n"
    "The middle: half stitch with pairs 1 and 2.\n"
    "Close pin 2: half stitch with pairs 3 and 1.\n"
    "Sew pair 3 into the pinhole at e, tie it off and cut it.\n"
    "Pin 3 is missing: twist pair 2 once more, sew it into the pinhole at f, and take it back.\n"
    "Pin 4: half stitch with pairs 1 and 2; set the pin, which stays open.\n"
    "Sew pair 1 into the pinhole at g, tie it off and cut it.\n"
    "Sew pair 2 into the pinhole at h, tie it off and cut it.\n" },
  { "3-4",
    { 1, 1, -0.3 },
    "2 of its 4 pins are inside; pins 1, 2 are missing. The middle is worked.",
    "Pin 1 is missing: sew new pair 1 into the pinhole at a, and twist it twice.\n"
    "Sew new pair 2 in round the bar at b, and twist it twice.\n"
    "Pin 3: half stitch with pairs 1 and 2; set the pin, to be closed later.\n"
    "Pin 2 is missing: sew new pair 3 in round the bar at c, and twist it twice.\n"
    "The middle: half stitch with pairs 3 and 1.\n"
    "Close pin 3: half stitch with pairs 1 and 2.\n"
    "Sew pair 2 into the pinhole at d, tie it off and cut it.\n"
    "Pin 2 is missing: twist pair 3 once more, sew it into the pinhole at e, and take it back.\n"
    "Pin 4: half stitch with pairs 3 and 1; set the pin, which stays open.\n"
    "Sew pair 3 round the bar at f, tie it off and cut it.\n"
    "Sew pair 1 into the pinhole at g, tie it off and cut it.\n" },
  { "1",
    { 0, -1, 0.7 },
    "1 of its 4 pins is inside; pins 2, 3, 4 are missing." PLAIN,
    "Sew new pair 1 into the pinhole at a, and twist it twice.\n"
    "Sew new pair 2 into the pinhole at b, and twist it twice.\n"
    "Pin 1: half stitch with pairs 1 and 2; set the pin, and close it: half stitch.\n"
    "Sew pair 1 round the bar at c, tie it off and cut it.\n"
    "Sew pair 2 round the bar at d, tie it off and cut it.\n" },
  { "2",
    { -1, 0, 0.7 },
    "1 of its 4 pins is inside; pins 1, 3, 4 are missing." PLAIN,
    "Sew new pair 1 into the pinhole at a, and twist it twice.\n"
    "Pin 1 is missing: sew new pair 2 in round the bar at b, and twist it twice.\n"
    "Pin 2: half stitch with pairs 1 and 2; set the pin, to be closed later.\n"
    "Close pin 2: half stitch with pairs 1 and 2.\n"
    "Sew pair 1 into the pinhole at c, tie it off and cut it.\n"
    "Sew pair 2 round the bar at d, tie it off and cut it.\n" },
};

static char *
told (const PfFilling *filling, const PfGround *ground, const PfRepeatWork *work)
{
  const PfStepNames names = pf_repeat_work_names (work);
  GString *text = g_string_new (NULL);
  for (guint s = 0; s < work->steps->len; s++)
    {
      g_autofree char *step =
          pf_explain_step (filling, ground, &g_array_index (work->steps, PfWorkStep, s), &names);
      g_string_append_printf (text, "%s\n", step);
    }
  return g_string_free (text, FALSE);
}

/* The words for one part, whether pairs are sewn in when they are needed or all of them first: a
 * repeat by itself brings them where it needs them. */
static void
test_case (gconstpointer data)
{
  const Case *c = data;
  g_autoptr (PfGround) ground = sample_ground ("armure");
  for (int first = 0; first < 2; first++)
    {
      PfFillingSettings settings = armure_settings (ground);
      settings.habits.sew_in_first = first != 0;
      g_autoptr (PfFilling) filling = armure_fill (ground, c->cut, &settings);
      g_autofree char *difference = pf_explain_difference (filling, ground, 0, 0);
      g_assert_cmpstr (difference, ==, c->difference);
      g_autoptr (PfWorkingSteps) steps = pf_working_steps_new (filling, ground);
      g_autoptr (PfRepeatWork) work = pf_repeat_work_new (filling, ground, steps, 0, 0);
      g_autofree char *text = told (filling, ground, work);
      g_assert_cmpstr (text, ==, c->steps);
    }
}

/* As on the sheet: pairs and pinholes have the numbers they have in all of the motif. */
static void
test_numbers (void)
{
  g_autoptr (PfGround) ground = sample_ground ("armure");
  g_autoptr (PfFilling) filling = armure_fill (ground, (ArmureCut){ 0, -1, 0.7 }, NULL);
  g_autoptr (PfWorkingSteps) steps = pf_working_steps_new (filling, ground);
  g_assert_cmpuint (steps->n_steps, ==, 5);
  const PfStepNames names = { 0 };
  g_autofree char *words = pf_explain_step (filling, ground, &steps->steps[1], &names);
  const PfSewing *sewing = &filling->sewings[steps->steps[1].sewing];
  g_autofree char *wanted =
      g_strdup_printf ("Sew new pair 2 into pinhole %u, and twist it twice.", sewing->pinhole + 1);
  g_assert_cmpstr (words, ==, wanted);
}

/* A bead, and a closed pin, are told where they come. */
static void
test_whole (void)
{
  g_autoptr (PfGround) ground = sample_ground ("armure");
  PfFillingSettings settings = armure_settings (ground);
  settings.beads = PF_BEADS_WHOLE;
  g_autoptr (PfFilling) filling = armure_fill (ground, armure_whole, &settings);
  g_autoptr (PfWorkingSteps) steps = pf_working_steps_new (filling, ground);
  g_autoptr (PfRepeatWork) work = pf_repeat_work_new (filling, ground, steps, 0, 0);
  g_autofree char *text = told (filling, ground, work);
  g_assert_nonnull (
      strstr (text, "The middle: half stitch with pairs 1 and 2. Add the bead here.\n"));
  g_assert_nonnull (strstr (text, "Close pin 2: half stitch with pairs 3 and 1.\n"));
  g_assert_nonnull (strstr (text, "Close pin 3: half stitch with pairs 2 and 4.\n"));
}

/* Where pairs come from is told as the repeats lie on the sheet, mirrored or not. */
static void
test_origins (void)
{
  g_autoptr (PfGround) ground = sample_ground ("armure");
  const PfPoint centre = { 0, 0 };
  g_autoptr (PfRegion) region = sample_star (centre, 25, 30, 9, 0);
  PfEdge edge;
  g_assert_true (pf_edge_init_even (&edge, &region->loops[0], PF_EDGE_HALF_STITCH, 2, NULL));
  for (int mirror = 0; mirror < 2; mirror++)
    {
      PfFillingSettings settings = pf_filling_settings_default ();
      settings.placement.mirror = mirror != 0;
      g_autoptr (PfFilling) filling = pf_filling_new (region, &edge, ground, &settings, NULL);
      g_autoptr (PfWorkingSteps) steps = pf_working_steps_new (filling, ground);
      g_autoptr (PfRepeatWork) work = pf_repeat_work_new (filling, ground, steps, 0, 0);
      g_auto (GStrv) told = pf_explain_origins (filling, ground, work, 0, 0);
      guint n = 0;
      for (guint s = 0; s < work->steps->len; s++)
        {
          const PfWorkStep *step = &g_array_index (work->steps, PfWorkStep, s);
          g_assert_cmpint (step->kind, ==, PF_WORK_STITCH);
          const PfWorkedEnd *ends = pf_worked_ends (filling, &filling->stitches[step->stitch]);
          for (int side = 0; side < 2; side++)
            {
              const PfStitchId from = filling->stitches[ends[side].from].id;
              if (from.i == 0 && from.j == 0)
                continue;
              const double x =
                  pf_affine_map (filling->to_sheet, pf_ground_position (ground, 0, from.i, from.j))
                      .x -
                  pf_affine_map (filling->to_sheet, pf_ground_position (ground, 0, 0, 0)).x;
              g_assert_true (g_str_has_suffix (told[n++], x < 0 ? "above left." : "above right."));
            }
        }
      g_assert_cmpuint (n, ==, 4);
      g_assert_null (told[n]);
    }
  pf_edge_clear (&edge);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (size_t c = 0; c < G_N_ELEMENTS (cases); c++)
    {
      g_autofree char *path = g_strdup_printf ("/armure-steps/%s", cases[c].name);
      g_test_add_data_func (path, &cases[c], test_case);
    }
  g_test_add_func ("/armure-steps/numbers", test_numbers);
  g_test_add_func ("/armure-steps/whole", test_whole);
  g_test_add_func ("/armure-steps/origins", test_origins);
  return g_test_run ();
}
