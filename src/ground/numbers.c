/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A ground counted: stitches, pins, lines and meshes of a repeat, pairs across it, and the ways of
 * pairs and threads.
 *
 * The ends of a pair line that goes to repeat (da, db) lie on two sides of |db| cuts along a, and
 * of |da| along b. Since every stitch has as many pairs out as in, a cut may be moved over it, and
 * bent, without changing what crosses it one way less what crosses it the other. On its closed walk
 * a thread passes from row to row of repeats as often as its walk leads rows down.
 */
#include <math.h>
#include <stdlib.h>

#include "drawing.h"
#include "walks.h"

/* --- Rows ---------------------------------------------------------------------------------------
 */

/* The repeats that lie level with each other are those moved by i·(a, b) repeats, and the row of
 * repeat (da, db) is a · db - b · da, or less that if `sign` is negative. */
typedef struct {
  int a, b, sign;
} Rows;

static bool
find_rows (const PfGround *ground, Rows *rows)
{
  for (int size = 1; size <= 2 * PF_GROUND_MAX_REACH; size++)
    for (int a = 0; a <= size; a++)
      for (int sign = -1; sign <= 1; sign += 2)
        {
          const int b = sign * (size - a);
          if (fabs (a * ground->a.y + b * ground->b.y) > PF_GROUND_TOUCH)
            continue;
          *rows = (Rows){ a, b, a * ground->b.y - b * ground->a.y < 0 ? -1 : 1 };
          return true;
        }
  return false;
}

static int
rows_down (const Rows *rows, int da, int db)
{
  return rows->sign * (rows->a * db - rows->b * da);
}

/* The least common multiple of the rows that threads' walks lead down; 0 if it is too large. */
static gint64
count_rows (const Rows *rows, const PfGroundWalks *threads)
{
  gint64 multiple = 1;
  for (int w = 0; w < threads->n; w++)
    {
      const gint64 n = rows_down (rows, threads->walks[w].da, threads->walks[w].db);
      if (n <= 0)
        return 0;
      gint64 divisor = multiple, rest = n;
      while (rest)
        {
          const gint64 next = divisor % rest;
          divisor = rest;
          rest = next;
        }
      if (multiple / divisor > G_MAXINT64 / n)
        return 0;
      multiple = multiple / divisor * n;
    }
  return multiple;
}

/* --- All ----------------------------------------------------------------------------------------
 */

static int
compare_ints (const void *x, const void *y)
{
  return *(const int *) x - *(const int *) y;
}

static void
count_meshes (const PfGround *ground, PfGroundNumbers *numbers)
{
  g_autofree PfMesh *meshes = g_new (PfMesh, 2 * ground->n_lines);
  const int n = pf_ground_trace_meshes (ground, meshes);
  numbers->degrees = g_new (int, n);
  for (int m = 0; m < n; m++)
    if (meshes[m].da == 0 && meshes[m].db == 0)
      numbers->degrees[numbers->n_meshes++] = meshes[m].degree;
  qsort (numbers->degrees, (size_t) numbers->n_meshes, sizeof (int), compare_ints);
}

static void
count_lines (const PfGround *ground, const Rows *rows, PfGroundNumbers *numbers)
{
  int da = 0, db = 0;
  for (int e = 0; e < ground->n_lines; e++)
    {
      da += ground->lines[e].da;
      db += ground->lines[e].db;
    }
  numbers->across_a = abs (db);
  numbers->across_b = abs (da);
  numbers->n_pairs = rows ? rows_down (rows, da, db) : 0;
}

PfGroundNumbers *
pf_ground_count (const PfGround *ground)
{
  PfGroundNumbers *numbers = g_new0 (PfGroundNumbers, 1);
  Rows found;
  const Rows *rows = find_rows (ground, &found) ? &found : NULL;
  numbers->n_stitches = ground->n_stitches;
  numbers->n_lines = ground->n_lines;
  for (int k = 0; k < ground->n_stitches; k++)
    numbers->n_pins += ground->stitches[k].pin;
  count_meshes (ground, numbers);
  count_lines (ground, rows, numbers);
  g_auto (PfGroundWalks) pairs = pf_ground_walk_pairs (ground);
  g_auto (PfGroundWalks) threads = pf_ground_walk_threads (ground);
  numbers->pair_walks = g_memdup2 (pairs.walks, (gsize) pairs.n * sizeof *pairs.walks);
  numbers->n_pair_walks = pairs.n;
  numbers->thread_walks = g_memdup2 (threads.walks, (gsize) threads.n * sizeof *threads.walks);
  numbers->n_thread_walks = threads.n;
  numbers->rows = rows ? count_rows (rows, &threads) : 0;
  return numbers;
}

void
pf_ground_numbers_free (PfGroundNumbers *numbers)
{
  g_free (numbers->degrees);
  g_free (numbers->pair_walks);
  g_free (numbers->thread_walks);
  g_free (numbers);
}

bool
pf_ground_prove (const PfGround *ground, GError **error)
{
  return pf_ground_check_tops (ground, error) && pf_ground_check_undone (ground, error) &&
         pf_ground_check_layers (ground, error);
}
