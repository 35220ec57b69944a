/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Every stitch has one pair in and one pair out on each side. Fills in exits and entries.
 */
#include <glib/gi18n-lib.h>

#include "ground.h"

/* Twists on the way from one stitch to the next. */
#define MAX_TWISTS 20

typedef enum { EXIT, ENTRY } Way;

static const char *const missing_messages[2][2] = {
  [EXIT] = {
    [PF_LEFT] = N_ ("No pair leaves it on its left: add the pair line that starts there."),
    [PF_RIGHT] = N_ ("No pair leaves it on its right: add the pair line that starts there."),
  },
  [ENTRY] = {
    [PF_LEFT] = N_ ("No pair comes to it on its left: add the pair line that ends there."),
    [PF_RIGHT] = N_ ("No pair comes to it on its right: add the pair line that ends there."),
  },
};

static const char *const double_messages[2][2] = {
  [EXIT] = {
    [PF_LEFT] = N_ ("Two pairs leave it on its left: start one of the two pair lines elsewhere."),
    [PF_RIGHT] = N_ ("Two pairs leave it on its right: start one of the two pair lines elsewhere."),
  },
  [ENTRY] = {
    [PF_LEFT] = N_ ("Two pairs come to it on its left: end one of the two pair lines elsewhere."),
    [PF_RIGHT] = N_ ("Two pairs come to it on its right: end one of the two pair lines elsewhere."),
  },
};

static bool
refuse (const PfGround *ground, int stitch, const char *message, GError **error)
{
  g_set_error (error, PF_ERROR, PF_ERROR_GROUND, _ ("Stitch “%s”: %s"),
               ground->stitches[stitch].name, _ (message));
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

bool
pf_ground_check_pairs (PfGround *ground, GError **error)
{
  for (int k = 0; k < ground->n_stitches; k++)
    for (int side = 0; side < 2; side++)
      ground->exits[k][side] = ground->entries[k][side] = -1;
  for (int e = 0; e < ground->n_lines; e++)
    {
      const PfPairLine *line = &ground->lines[e];
      if (!check_line (ground, line, error))
        return false;
      int *out = &ground->exits[line->from.stitch][line->from.side];
      int *in = &ground->entries[line->to.stitch][line->to.side];
      if (*out >= 0)
        return refuse (ground, line->from.stitch, double_messages[EXIT][line->from.side], error);
      if (*in >= 0)
        return refuse (ground, line->to.stitch, double_messages[ENTRY][line->to.side], error);
      *out = *in = e;
    }
  for (int k = 0; k < ground->n_stitches; k++)
    for (int side = 0; side < 2; side++)
      {
        if (ground->exits[k][side] < 0)
          return refuse (ground, k, missing_messages[EXIT][side], error);
        if (ground->entries[k][side] < 0)
          return refuse (ground, k, missing_messages[ENTRY][side], error);
      }
  return true;
}
