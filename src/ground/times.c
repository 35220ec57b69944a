/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Working times: the least ones with which every stitch comes after those its pairs come from.
 *
 * Each pass lets every pair line push the stitch that it ends at down to its least time (Bellman
 * and Ford's way to longest paths). `pushed_by` holds the line that pushed each stitch last. As
 * long as these lines form no loop, no time can grow beyond all bounds; if they form one, each
 * round of it would push its stitches further, and the ground can't be worked.
 */
#include <string.h>

#include <glib/gi18n-lib.h>

#include "ground.h"

/* From a stitch to the next one that its pair works. */
#define STEP (1.0 / 16)
/* Far below a step, far above what doubles lose. */
#define SMALLEST_PUSH 1e-12

static bool
push_all (PfGround *ground, int *pushed_by)
{
  bool pushed = false;
  for (int e = 0; e < ground->n_lines; e++)
    {
      const PfPairLine *line = &ground->lines[e];
      PfStitch *v = &ground->stitches[line->to.stitch];
      const double least = ground->stitches[line->from.stitch].time + STEP -
                           (line->da * ground->a.y + line->db * ground->b.y);
      if (least > v->time + SMALLEST_PUSH)
        {
          v->time = least;
          pushed_by[line->to.stitch] = e;
          pushed = true;
        }
    }
  return pushed;
}

/* A stitch on a loop of pushes, or -1. */
static int
find_loop (const PfGround *ground, const int *pushed_by)
{
  int seen_from[PF_GROUND_MAX_STITCHES];
  memset (seen_from, -1, sizeof seen_from);
  for (int start = 0; start < ground->n_stitches; start++)
    {
      int k = start;
      while (seen_from[k] < 0)
        {
          seen_from[k] = start;
          if (pushed_by[k] < 0)
            break;
          k = ground->lines[pushed_by[k]].from.stitch;
        }
      if (seen_from[k] == start && pushed_by[k] >= 0)
        return k;
    }
  return -1;
}

static void
refuse_loop (const PfGround *ground, const int *pushed_by, int start, GError **error)
{
  g_autoptr (GString) loop = g_string_new (NULL);
  int k = start;
  do
    {
      k = ground->lines[pushed_by[k]].from.stitch;
      g_autofree char *step = g_strdup_printf ("“%s”, ", ground->stitches[k].name);
      g_string_prepend (loop, step);
  } while (k != start);
  g_string_append_printf (loop, "“%s”", ground->stitches[start].name);
  g_set_error (
      error, PF_ERROR, PF_ERROR_GROUND,
      _ ("This ground can't be worked: each of these stitches needs the one before it, all "
         "the way round: %s. Check the ends and the repeats of the pair lines between them."),
      loop->str);
}

static bool
check_closings (const PfGround *ground, GError **error)
{
  for (int k = 0; k < ground->n_stitches; k++)
    {
      const PfStitch *stitch = &ground->stitches[k];
      if (stitch->closes < 0)
        continue;
      const PfStitch *setting = &ground->stitches[stitch->closes];
      if (stitch->time < setting->time + STEP - SMALLEST_PUSH)
        {
          g_set_error (
              error, PF_ERROR, PF_ERROR_GROUND,
              _ ("Stitch “%s” closes the pin of “%s”, but isn't worked after it: check the "
                 "pair lines between them."),
              stitch->name, setting->name);
          return false;
        }
    }
  return true;
}

bool
pf_ground_find_times (PfGround *ground, GError **error)
{
  int pushed_by[PF_GROUND_MAX_STITCHES];
  memset (pushed_by, -1, sizeof pushed_by);
  for (int k = 0; k < ground->n_stitches; k++)
    ground->stitches[k].time = ground->stitches[k].at.y;
  while (push_all (ground, pushed_by))
    {
      const int k = find_loop (ground, pushed_by);
      if (k >= 0)
        {
          refuse_loop (ground, pushed_by, k, error);
          return false;
        }
    }
  return check_closings (ground, error);
}
