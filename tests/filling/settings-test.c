/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What the maker chooses: the defaults, the range of each number, and regions that hold too much.
 */
#include <math.h>
#include <stddef.h>
#include <string.h>

#include "samples.h"

/* A number among the settings, its range, and what its error must name. */
typedef struct {
  size_t offset;
  double min, max;
  const char *named;
} Number;

static const Number numbers[] = {
  { offsetof (PfFillingSettings, placement.gap), 0.2, 100, "gap" },
  { offsetof (PfFillingSettings, placement.turn), -3600, 3600, "turn" },
  { offsetof (PfFillingSettings, placement.origin.x), -1e5, 1e5, "x" },
  { offsetof (PfFillingSettings, placement.origin.y), -1e5, 1e5, "y" },
  { offsetof (PfFillingSettings, clearance), 0, 10, "clearance" },
  { offsetof (PfFillingSettings, carry), 0, 100, "carry" },
  { offsetof (PfFillingSettings, reach), 0, 10, "reach" },
  { offsetof (PfFillingSettings, off_line), 0, 180, "off-line" },
};

static bool
accepts (const Number *number, double value)
{
  PfFillingSettings settings = pf_filling_settings_default ();
  memcpy ((char *) &settings + number->offset, &value, sizeof value);
  g_autoptr (GError) error = NULL;
  if (pf_filling_settings_check (&settings, &error))
    {
      g_assert_no_error (error);
      return true;
    }
  g_assert_error (error, PF_ERROR, PF_ERROR_SETTING);
  g_assert_nonnull (strstr (error->message, number->named));
  return false;
}

static void
test_ranges (void)
{
  for (size_t n = 0; n < G_N_ELEMENTS (numbers); n++)
    {
      const Number *number = &numbers[n];
      g_assert_true (accepts (number, number->min));
      g_assert_true (accepts (number, number->max));
      g_assert_true (accepts (number, (number->min + number->max) / 2));
      g_assert_false (accepts (number, nextafter (number->min, -INFINITY)));
      g_assert_false (accepts (number, nextafter (number->max, INFINITY)));
      g_assert_false (accepts (number, NAN));
      g_assert_false (accepts (number, INFINITY));
      g_assert_false (accepts (number, -INFINITY));
      g_assert_false (accepts (number, 1e9));
      g_assert_false (accepts (number, -1e9));
      g_assert_true (accepts (number, 0) == (number->min <= 0));
      g_assert_true (accepts (number, -0.0) == (number->min <= 0));
    }
}

static void
test_sewings_per_pinhole (void)
{
  static const struct {
    int value;
    bool accepted;
  } cases[] = { { 1, true },   { 2, true },   { 20, true },        { 0, false },
                { -1, false }, { 21, false }, { G_MAXINT, false }, { G_MININT, false } };
  for (size_t c = 0; c < G_N_ELEMENTS (cases); c++)
    {
      PfFillingSettings settings = pf_filling_settings_default ();
      settings.sewings_per_pinhole = cases[c].value;
      g_assert_true (pf_filling_settings_check (&settings, NULL) == cases[c].accepted);
    }
}

/* Values of enumerations that don't exist, and places that aren't finite. */
static void
test_choices (void)
{
  static const struct {
    PfSewingChoice choice;
    bool accepted;
  } sewings[] = {
    { { .kind = PF_SEW_ALONE }, true },
    { { .kind = PF_SEW_ALONE, .place.along = NAN }, true }, /* it has no place */
    { { .kind = PF_SEW_TURN }, true },
    { { .kind = PF_SEW_PINHOLE, .place.along = 1e9 }, true }, /* told when it is filled */
    { { .kind = PF_SEW_BAR, .place = { 99, -1 } }, true },
    { { .kind = (PfSewingChoiceKind) 4 }, false },
    { { .kind = (PfSewingChoiceKind) -1 }, false },
    { { .kind = PF_SEW_ALONE, .line.side = (PfSide) 4 }, false },
    { { .kind = PF_SEW_TURN, .other.side = (PfSide) 4 }, false },
    { { .kind = PF_SEW_PINHOLE, .place.along = NAN }, false },
    { { .kind = PF_SEW_BAR, .place.along = INFINITY }, false },
    { { .kind = PF_SEW_BAR, .line.stitch.k = G_MAXINT, .place.along = NAN }, false },
  };
  for (size_t c = 0; c < G_N_ELEMENTS (sewings); c++)
    {
      PfFillingSettings settings = pf_filling_settings_default ();
      const PfSewingChoice choices[] = { { .kind = PF_SEW_ALONE }, sewings[c].choice };
      settings.sewing_choices = choices;
      settings.n_sewing_choices = 2;
      g_autoptr (GError) error = NULL;
      g_assert_true (pf_filling_settings_check (&settings, &error) == sewings[c].accepted);
      if (!sewings[c].accepted)
        g_assert_error (error, PF_ERROR, PF_ERROR_SETTING);
    }
  for (int state = -1; state <= PF_REPEAT_LEFT_OUT + 1; state++)
    {
      PfFillingSettings settings = pf_filling_settings_default ();
      const PfRepeatChoice choice = { 3, -4, (PfRepeatState) state };
      settings.choices = &choice;
      settings.n_choices = 1;
      g_assert_true (pf_filling_settings_check (&settings, NULL) ==
                     (state >= PF_REPEAT_KEPT && state <= PF_REPEAT_LEFT_OUT));
    }
  for (int beads = -1; beads <= PF_BEADS_KEPT + 1; beads++)
    {
      PfFillingSettings settings = pf_filling_settings_default ();
      settings.beads = (PfBeads) beads;
      g_assert_true (pf_filling_settings_check (&settings, NULL) ==
                     (beads >= PF_BEADS_NONE && beads <= PF_BEADS_KEPT));
    }
}

static void
test_defaults (void)
{
  const PfFillingSettings settings = pf_filling_settings_default ();
  g_assert_cmpfloat (settings.placement.gap, ==, 5);
  g_assert_cmpfloat (settings.clearance, ==, 0.25);
  g_assert_cmpfloat (settings.carry, ==, 1);
  g_assert_cmpfloat (settings.reach, ==, 0.25);
  g_assert_cmpfloat (settings.off_line, ==, 8);
  g_assert_cmpint (settings.sewings_per_pinhole, ==, 2);
  g_assert_cmpint (settings.beads, ==, PF_BEADS_NONE);
  g_assert_false (settings.all_plain);
  g_assert_cmpuint (settings.n_choices, ==, 0);
  g_assert_true (pf_filling_settings_check (&settings, NULL));
}

/* --- Fillings that can't be made, and those at the limits ---------------------------------------
 */

typedef struct {
  const char *name;
  double width, height; /* mm */
  PfFillingSettings settings;
  int code; /* of the error, or -1: it can be filled */
} Case;

#define SETTINGS(gap_mm, turn_degrees, x, y)                                                       \
  {                                                                                                \
    .placement = { gap_mm, turn_degrees, { x, y }, false }, .clearance = 0.25, .carry = 1,         \
    .reach = 0.25, .off_line = 8, .sewings_per_pinhole = 2                                         \
  }

static const Case cases[] = {
  { "gap not a number", 50, 50, SETTINGS (NAN, 0, 0, 0), PF_ERROR_SETTING },
  { "no gap", 50, 50, SETTINGS (0, 0, 0, 0), PF_ERROR_SETTING },
  { "negative gap", 50, 50, SETTINGS (-5, 0, 0, 0), PF_ERROR_SETTING },
  { "turn not a number", 50, 50, SETTINGS (5, NAN, 0, 0), PF_ERROR_SETTING },
  { "endless turn", 50, 50, SETTINGS (5, INFINITY, 0, 0), PF_ERROR_SETTING },
  { "origin not a number", 50, 50, SETTINGS (5, 0, NAN, 0), PF_ERROR_SETTING },
  { "origin far off", 50, 50, SETTINGS (5, 0, 0, 1e9), PF_ERROR_SETTING },
  { "just too many stitches", 408, 408, SETTINGS (0.2, 0, 0, 0), PF_ERROR_TOO_BIG },
  { "very many stitches", 10000, 10000, SETTINGS (0.2, 0, 0, 0), PF_ERROR_TOO_BIG },
  { "as large as an outline can be", 1e5, 1e5, SETTINGS (0.2, 33, 0, 0), PF_ERROR_TOO_BIG },
  { "as large, and as coarse", 1e5, 1e5, SETTINGS (100, 33, 0, 0), -1 },
  { "many turns", 50, 50, SETTINGS (5, 3600, 0, 0), -1 },
  { "origin as far off as can be", 50, 50, SETTINGS (0.2, 0, -1e5, 1e5), -1 },
  { "long and thin, across the lattice", 2e4, 1, SETTINGS (2, 30, 0, 0), -1 },
  { "smaller than a gap", 0.01, 0.01, SETTINGS (100, 0, 0, 0), -1 },
};

static void
test_filling (gconstpointer data)
{
  const Case *c = data;
  const PfPoint corners[] = {
    { 0, 0 }, { c->width, 0 }, { c->width, c->height }, { 0, c->height }
  };
  g_autoptr (PfRegion) region = sample_polygon (corners, 4);
  g_autoptr (PfGround) ground = sample_ground ("torchon");
  PfEdge edge;
  g_assert_true (pf_edge_init_even (&edge, &region->loops[0], PF_EDGE_HALF_STITCH, 100, NULL));
  g_autoptr (GError) error = NULL;
  g_autoptr (PfFilling) filling = pf_filling_new (region, &edge, ground, &c->settings, &error);
  if (c->code >= 0)
    {
      g_assert_error (error, PF_ERROR, c->code);
      g_assert_null (filling);
    }
  else
    {
      g_assert_no_error (error);
      g_assert_cmpuint (filling->n_stitches, ==, filling->counts.stitches);
    }
  pf_edge_clear (&edge);
}

/* A ground turned by quarters keeps whole numbers whole: no stitch leaves the outline that it
 * stands on. */
static void
test_quarter_turns (void)
{
  static const struct {
    double turn;
    PfPoint to; /* where (3, 5) goes */
  } turns[] = { { 0, { 3, 5 } },    { 90, { -5, 3 } },    { 180, { -3, -5 } },  { 270, { 5, -3 } },
                { 360, { 3, 5 } },  { -90, { 5, -3 } },   { -180, { -3, -5 } }, { -270, { -5, 3 } },
                { 3600, { 3, 5 } }, { -3510, { -5, 3 } }, { 450, { -5, 3 } } };
  g_autoptr (PfGround) ground = sample_ground ("torchon");
  for (size_t t = 0; t < G_N_ELEMENTS (turns); t++)
    {
      const PfPlacement placement = { .gap = ground->spacing, .turn = turns[t].turn };
      const PfPoint at = pf_affine_map (pf_placement_map (ground, placement), (PfPoint){ 3, 5 });
      g_assert_cmpfloat (at.x, ==, turns[t].to.x);
      g_assert_cmpfloat (at.y, ==, turns[t].to.y);
    }
}

/* Mirrored first, then scaled, turned and moved. */
static void
test_placement (void)
{
  g_autoptr (PfGround) ground = sample_ground ("torchon");
  const PfPlacement placement = {
    .gap = 2 * ground->spacing, .turn = 90, .origin = { 10, 20 }, .mirror = true
  };
  const PfPoint at = pf_affine_map (pf_placement_map (ground, placement), (PfPoint){ 3, 5 });
  g_assert_cmpfloat (at.x, ==, 10 - 2 * 5);
  g_assert_cmpfloat (at.y, ==, 20 - 2 * 3);
}

/* Torchon at 60 degrees: the gap between the nearest pins stays, the diagonals stand at the angle
 * asked for, and pins along the footside are a gap apart (trigonometry). */
static void
test_angle (void)
{
  g_autoptr (PfGround) ground = sample_ground ("torchon");
  const PfPlacement placement = { .gap = 5, .angle = 60 };
  const PfPoint a = pf_affine_map (pf_placement_map (ground, placement), ground->a);
  g_assert_cmpfloat_with_epsilon (hypot (a.x, a.y), 5, 1e-9);
  g_assert_cmpfloat_with_epsilon (atan2 (a.x, a.y) * 180 / G_PI, 60, 1e-9);
  g_assert_cmpfloat_with_epsilon (pf_placement_footside (ground, placement), 5, 1e-9);
}

static void
test_angle_range (void)
{
  static const Number angle = { offsetof (PfFillingSettings, placement.angle), 20, 80, "angle" };
  g_assert_true (accepts (&angle, 0));
  g_assert_true (accepts (&angle, angle.min));
  g_assert_true (accepts (&angle, angle.max));
  g_assert_false (accepts (&angle, nextafter (angle.min, 0)));
  g_assert_false (accepts (&angle, nextafter (angle.max, 90)));
  g_assert_false (accepts (&angle, NAN));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/settings/defaults", test_defaults);
  g_test_add_func ("/settings/ranges", test_ranges);
  g_test_add_func ("/settings/choices", test_choices);
  g_test_add_func ("/settings/sewings-per-pinhole", test_sewings_per_pinhole);
  for (size_t c = 0; c < G_N_ELEMENTS (cases); c++)
    {
      g_autofree char *path = g_strdup_printf ("/settings/filling/%s", cases[c].name);
      g_test_add_data_func (path, &cases[c], test_filling);
    }
  g_test_add_func ("/settings/quarter-turns", test_quarter_turns);
  g_test_add_func ("/settings/placement", test_placement);
  g_test_add_func ("/settings/angle", test_angle);
  g_test_add_func ("/settings/angle-range", test_angle_range);
  return g_test_run ();
}
