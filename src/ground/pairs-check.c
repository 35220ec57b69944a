/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Every stitch has one pair in and one pair out on each side. Fills in exits and entries.
 */
#include <glib/gi18n-lib.h>

#include "ground.h"

/* Twists on the way from one stitch to the next. */
#define MAX_TWISTS 20

typedef enum { EXIT, ENTRY } Way;

enum { N_SIDE_NAMES = PF_SIDE_RIGHT + 1 };

static const char *const missing_messages[2][N_SIDE_NAMES] = {
  [EXIT] = {
    [PF_SIDE_LEFT] = N_ ("No pair leaves it on its left: add the pair line that starts there."),
    [PF_SIDE_INNER_LEFT] = N_ ("No pair leaves it on its inner left: add the pair line that starts there."),
    [PF_SIDE_INNER_RIGHT] = N_ ("No pair leaves it on its inner right: add the pair line that starts there."),
    [PF_SIDE_RIGHT] = N_ ("No pair leaves it on its right: add the pair line that starts there."),
  },
  [ENTRY] = {
    [PF_SIDE_LEFT] = N_ ("No pair comes to it on its left: add the pair line that ends there."),
    [PF_SIDE_INNER_LEFT] = N_ ("No pair comes to it on its inner left: add the pair line that ends there."),
    [PF_SIDE_INNER_RIGHT] = N_ ("No pair comes to it on its inner right: add the pair line that ends there."),
    [PF_SIDE_RIGHT] = N_ ("No pair comes to it on its right: add the pair line that ends there."),
  },
};

static const char *const double_messages[2][N_SIDE_NAMES] = {
  [EXIT] = {
    [PF_SIDE_LEFT] = N_ ("Two pairs leave it on its left: start one of the two pair lines elsewhere."),
    [PF_SIDE_INNER_LEFT] = N_ ("Two pairs leave it on its inner left: start one of the two pair lines elsewhere."),
    [PF_SIDE_INNER_RIGHT] = N_ ("Two pairs leave it on its inner right: start one of the two pair lines elsewhere."),
    [PF_SIDE_RIGHT] = N_ ("Two pairs leave it on its right: start one of the two pair lines elsewhere."),
  },
  [ENTRY] = {
    [PF_SIDE_LEFT] = N_ ("Two pairs come to it on its left: end one of the two pair lines elsewhere."),
    [PF_SIDE_INNER_LEFT] = N_ ("Two pairs come to it on its inner left: end one of the two pair lines elsewhere."),
    [PF_SIDE_INNER_RIGHT] = N_ ("Two pairs come to it on its inner right: end one of the two pair lines elsewhere."),
    [PF_SIDE_RIGHT] = N_ ("Two pairs come to it on its right: end one of the two pair lines elsewhere."),
  },
};

static bool
refuse (const PfGround *ground, PfEnd end, const char *const messages[N_SIDE_NAMES], GError **error)
{
  const PfStitch *stitch = &ground->stitches[end.stitch];
  g_set_error (error, PF_ERROR, PF_ERROR_GROUND, _ ("Stitch “%s”: %s"), stitch->name,
               _ (messages[pf_side_name (stitch->n_pairs, end.side)]));
  return false;
}

static bool
in_reach (int repeats)
{
  return repeats >= -PF_GROUND_MAX_REACH && repeats <= PF_GROUND_MAX_REACH;
}

static bool
check_line (const PfGround *ground, const PfPairLine *line, GError **error)
{
  const int n = ground->n_stitches;
  g_return_val_if_fail (line->from.stitch >= 0 && line->from.stitch < n, false);
  g_return_val_if_fail (line->to.stitch >= 0 && line->to.stitch < n, false);
  const char *from = ground->stitches[line->from.stitch].name;
  const char *to = ground->stitches[line->to.stitch].name;
  if (!in_reach (line->da) || !in_reach (line->db))
    {
      g_set_error (error, PF_ERROR, PF_ERROR_GROUND,
                   _ ("The pair line from “%s” to “%s” goes %d and %d repeats away; at most %d are "
                      "possible."),
                   from, to, line->da, line->db, PF_GROUND_MAX_REACH);
      return false;
    }
  if (line->twists < 0 || line->twists > MAX_TWISTS)
    {
      g_set_error (error, PF_ERROR, PF_ERROR_GROUND,
                   _ ("The pair line from “%s” to “%s” has %d twists; 0 to %d are possible."), from,
                   to, line->twists, MAX_TWISTS);
      return false;
    }
  return true;
}

/* The two ends lie on sides that their stitches have. */
static bool
check_sides (const PfGround *ground, const PfPairLine *line, GError **error)
{
  const PfEnd ends[] = { line->from, line->to };
  for (int e = 0; e < 2; e++)
    if ((int) ends[e].side < 0 || (int) ends[e].side >= ground->stitches[ends[e].stitch].n_pairs)
      {
        g_set_error (
            error, PF_ERROR, PF_ERROR_GROUND,
            _ ("The pair line from “%s” to “%s” ends at an inner side, but only where four "
               "pairs meet are there inner ones."),
            ground->stitches[line->from.stitch].name, ground->stitches[line->to.stitch].name);
        return false;
      }
  return true;
}

static bool
note_ends (PfGround *ground, int e, GError **error)
{
  const PfPairLine *line = &ground->lines[e];
  int *out = &ground->exits[line->from.stitch][line->from.side];
  int *in = &ground->entries[line->to.stitch][line->to.side];
  if (*out >= 0)
    return refuse (ground, line->from, double_messages[EXIT], error);
  if (*in >= 0)
    return refuse (ground, line->to, double_messages[ENTRY], error);
  *out = *in = e;
  return true;
}

static bool
check_all_there (const PfGround *ground, GError **error)
{
  for (int k = 0; k < ground->n_stitches; k++)
    for (int side = 0; side < ground->stitches[k].n_pairs; side++)
      {
        const PfEnd end = { k, (PfSide) side };
        if (ground->exits[k][side] < 0)
          return refuse (ground, end, missing_messages[EXIT], error);
        if (ground->entries[k][side] < 0)
          return refuse (ground, end, missing_messages[ENTRY], error);
      }
  return true;
}

bool
pf_ground_check_pairs (PfGround *ground, GError **error)
{
  for (int k = 0; k < ground->n_stitches; k++)
    for (int side = 0; side < PF_STITCH_MAX_PAIRS; side++)
      ground->exits[k][side] = ground->entries[k][side] = -1;
  for (int e = 0; e < ground->n_lines; e++)
    if (!check_line (ground, &ground->lines[e], error) ||
        !check_sides (ground, &ground->lines[e], error) || !note_ends (ground, e, error))
      return false;
  return check_all_there (ground, error);
}
