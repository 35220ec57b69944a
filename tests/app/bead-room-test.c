/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * How large a bead finds room. Derived by hand from the drawing of the eight-thread armure: pins 1
 * to 4 stand on the sides of a square of one gap, the bead in its middle, so that the nearest
 * stitches are gap / √2 away.
 */
#include <bead-room.h>

#include <math.h>
#include <string.h>

#include "motif-samples.h"

static double
distance (const char *name, PfPlacement placement)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (PfGround) ground = pf_ground_load (name, &error);
  g_assert_no_error (error);
  return pf_bead_distance (ground, placement);
}

static void
test_distance (void)
{
  for (double gap = 2; gap < 8; gap += 1.5)
    {
      g_assert_cmpfloat_with_epsilon (distance ("armure", (PfPlacement){ .gap = gap }),
                                      gap / G_SQRT2, 1e-9);
      g_assert_cmpfloat_with_epsilon (
          distance ("armure", (PfPlacement){ .gap = gap, .turn = 33, .mirror = true }),
          gap / G_SQRT2, 1e-9);
    }
  g_assert_cmpfloat (distance ("torchon", (PfPlacement){ .gap = 4 }), ==, 0);
}

/* Steeper, the square is a rhombus with a corner of 2 · 30 degrees at its top, and the gap its
 * side: half of the short diagonal is gap · sin 30°. */
static void
test_angle (void)
{
  g_assert_cmpfloat_with_epsilon (distance ("armure", (PfPlacement){ .gap = 4, .angle = 30 }),
                                  4 * sin (30 * G_PI / 180), 1e-9);
}

static PfDraft *
draft_of (PfEditor *editor, double gap, double wraps_per_cm)
{
  PfDraft *draft = pf_editor_edit (editor);
  PfThreadUse thread = pf_thread_use_default ();
  draft->settings.placement.gap = gap;
  thread.wraps_per_cm = wraps_per_cm;
  pf_draft_set_thread (draft, &thread);
  pf_thread_use_clear (&thread);
  return draft;
}

/* The rule for a thread that suits the gap: 10 wraps at least from pin to pin along the footside,
 * here √2 gaps; see thread-fit.h. */
static void
test_thread (void)
{
  g_autoptr (PfEditor) editor = sample_editor (sample_rectangle (40, 30, "armure"));
  g_autoptr (PfDraft) chosen = draft_of (editor, 4, 20), draft = draft_of (editor, 4, 0);
  g_assert_cmpfloat_with_epsilon (pf_bead_thread (chosen), 0.5, 1e-9);
  g_assert_cmpfloat_with_epsilon (pf_bead_thread (draft), 4 * G_SQRT2 / 10, 1e-9);
}

static void
test_words (void)
{
  static const struct {
    const char *ground;
    double gap, wraps_per_cm;
    PfUnits units;
    const char *said;
  } rows[] = {
    { "armure", 4, 20, PF_UNITS_MM, "about 2.3 mm " }, /* 2.83 - 0.5 */
    { "armure", 4, 0, PF_UNITS_MM, "about 2.2 mm " },  /* 2.83 - 0.57 */
    { "armure", 4, 20, PF_UNITS_INCH, "about 0.09 in " },
    { "armure", 1, 10, PF_UNITS_MM, "no room" }, /* 0.71 - 1 */
    { "torchon", 4, 20, PF_UNITS_MM, "no place for a bead" },
  };
  for (size_t r = 0; r < G_N_ELEMENTS (rows); r++)
    {
      g_autoptr (PfEditor) editor = sample_editor (sample_rectangle (40, 30, rows[r].ground));
      g_autoptr (PfDraft) draft = draft_of (editor, rows[r].gap, rows[r].wraps_per_cm);
      pf_editor_set_units (editor, rows[r].units);
      g_autofree char *words = pf_bead_room_words (editor, draft);
      g_test_message ("%s", words);
      g_assert_nonnull (strstr (words, rows[r].said));
    }
  g_autoptr (PfEditor) editor = sample_editor (sample_rectangle (40, 30, NULL));
  g_autofree char *none = pf_bead_room_words (editor, pf_editor_draft (editor));
  g_assert_cmpstr (none, ==, "");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/bead-room/distance", test_distance);
  g_test_add_func ("/bead-room/angle", test_angle);
  g_test_add_func ("/bead-room/thread", test_thread);
  g_test_add_func ("/bead-room/words", test_words);
  return g_test_run ();
}
