/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The meshes of a ground, found from the order of the pairs round each stitch.
 *
 * Rolled up, the ground is a graph with V stitches and E lines on a torus: E = 2V, where each
 * stitch has two pairs. If all its pairs hang together and it is drawn there without crossings,
 * Euler's formula V - E + F = 0 leaves F = E - V meshes, each of which closes in the endless
 * ground, and together they cover the repeat once. Columns that don't hang together with their
 * repeats lie each on a ring, where F = E - V + 2. Fewer meshes, and the order can't be drawn at
 * all. See V. Irvine, F. Ruskey (2014), as in ground.h.
 */
#include <math.h>

#include <glib/gi18n-lib.h>

#include "drawing.h"

int
pf_end_clockwise (const PfGround *ground, int end)
{
  const PfPairLine *line = &ground->lines[end / 2];
  const int k = pf_end_stitch (ground, end);
  const int last = ground->stitches[k].n_pairs - 1;
  if (end % 2)
    return (int) line->to.side < last ? 2 * ground->entries[k][line->to.side + 1] + 1
                                      : 2 * ground->exits[k][last];
  return line->from.side > PF_LEFT ? 2 * ground->exits[k][line->from.side - 1]
                                   : 2 * ground->entries[k][PF_LEFT] + 1;
}

static PfMesh
walk_round (const PfGround *ground, int start, bool *walked)
{
  PfMesh mesh = { .stitch = pf_end_stitch (ground, start) };
  PfPoint at = { 0, 0 }; /* from the walk's start */
  int end = start;
  do
    {
      const PfPoint way = pf_end_way (ground, end);
      const PfPairLine *line = &ground->lines[end / 2];
      const int sign = end % 2 ? -1 : 1;
      walked[end] = true;
      mesh.degree++;
      mesh.da += sign * line->da;
      mesh.db += sign * line->db;
      mesh.area -= pf_cross (at, way) / 2;
      at = (PfPoint){ at.x + way.x, at.y + way.y };
      const int next = pf_end_clockwise (ground, end ^ 1);
      mesh.tops += end % 2 && next % 2 == 0;
      mesh.feet += end % 2 == 0 && next % 2;
      end = next;
  } while (end != start);
  return mesh;
}

int
pf_ground_trace_meshes (const PfGround *ground, PfMesh *meshes)
{
  g_autofree bool *walked = g_new0 (bool, 2 * ground->n_lines);
  int n = 0;
  for (int end = 0; end < 2 * ground->n_lines; end++)
    if (!walked[end])
      meshes[n++] = walk_round (ground, end, walked);
  return n;
}

/* Numbers the parts that hang together: `part[k]` is the least stitch that k hangs together with.
 */
static void
find_parts (const PfGround *ground, int *part)
{
  for (int k = 0; k < ground->n_stitches; k++)
    part[k] = k;
  for (bool changed = true; changed;)
    {
      changed = false;
      for (int e = 0; e < ground->n_lines; e++)
        {
          int *u = &part[ground->lines[e].from.stitch], *v = &part[ground->lines[e].to.stitch];
          changed |= *u != *v;
          *u = *v = MIN (*u, *v);
        }
    }
}

/* The first stitch of a part that can't be drawn as its order says; -1 if there is none. */
static int
find_tangle (const PfGround *ground)
{
  g_autofree PfMesh *meshes = g_new (PfMesh, 2 * ground->n_lines);
  const int n = pf_ground_trace_meshes (ground, meshes);
  int part[PF_GROUND_MAX_STITCHES], surplus[PF_GROUND_MAX_STITCHES] = { 0 };
  double covered[PF_GROUND_MAX_STITCHES] = { 0 };
  find_parts (ground, part);
  for (int k = 0; k < ground->n_stitches; k++)
    surplus[part[k]] -= ground->stitches[k].n_pairs - 1;
  for (int m = 0; m < n; m++)
    {
      surplus[part[meshes[m].stitch]]++;
      covered[part[meshes[m].stitch]] += meshes[m].area;
    }
  const double repeat = fabs (pf_cross (ground->a, ground->b));
  for (int k = 0; k < ground->n_stitches; k++)
    if (part[k] == k && (surplus[k] < 0 || (!surplus[k] && round (covered[k] / repeat) != 1)))
      return k;
  for (int m = 0; m < n; m++)
    if (!surplus[part[meshes[m].stitch]] && (meshes[m].da || meshes[m].db))
      return meshes[m].stitch;
  return -1;
}

bool
pf_ground_check_meshes (const PfGround *ground, GError **error)
{
  const int k = find_tangle (ground);
  if (k < 0)
    return true;
  g_set_error (error, PF_ERROR, PF_ERROR_GROUND,
               _ ("The pairs near stitch “%s” can't be drawn without crossing between stitches: "
                  "check left and right at the ends of the pair lines there, and their repeats."),
               ground->stitches[k].name);
  return false;
}
