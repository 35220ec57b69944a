/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The pillow follows lines in the ground itself, over stitches that aren't worked, so that it
 * doesn't depend on how the filling has linked its stitches.
 */
#include "pillow.h"

#include <math.h>
#include <string.h>

typedef enum { WOUND, AT_STITCH, AT_EDGE, ALONG_EDGE, CUT } Where;

/* A pair of bobbins, and where it hangs. */
typedef struct {
  Where where;
  PfStitchId stitch;  /* AT_STITCH: the last it worked, ... */
  int side;           /* ... and out of which side */
  guint32 goes_to;    /* AT_EDGE: the worked stitch it was sewn in for */
  int twists;         /* since then */
  guint32 bobbins[2]; /* left, right */
  size_t stitches;    /* that it has worked */
} Pair;

struct Pillow {
  const PfFilling *filling;
  const PfGround *ground;
  int sewings_per_pinhole;
  bool may_crowd;
  Pair *pairs;
  bool *worked, *pin_set, *pin_closed; /* per worked stitch */
  GHashTable *in_pinhole;              /* how many sewings, by loop and pinhole */
  guint32 (*came)[2];                  /* per end: the bobbins that came there */
  size_t on_pillow, most;
};

Pillow *
pillow_new (const PfFilling *filling, const PfGround *ground, int sewings_per_pinhole,
            bool may_crowd)
{
  Pillow *pillow = g_new0 (Pillow, 1);
  *pillow = (Pillow){ filling,
                      ground,
                      sewings_per_pinhole,
                      may_crowd,
                      g_new0 (Pair, filling->n_pairs + 1),
                      g_new0 (bool, filling->n_stitches + 1),
                      g_new0 (bool, filling->n_stitches + 1),
                      g_new0 (bool, filling->n_stitches + 1),
                      g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL),
                      g_malloc0 ((filling->n_ends + 1) * sizeof (guint32[2])),
                      0,
                      0 };
  for (guint32 p = 0; p < filling->n_pairs; p++)
    {
      pillow->pairs[p].bobbins[0] = 2 * p;
      pillow->pairs[p].bobbins[1] = 2 * p + 1;
    }
  return pillow;
}

void
pillow_free (Pillow *pillow)
{
  g_free (pillow->pairs);
  g_free (pillow->worked);
  g_free (pillow->pin_set);
  g_free (pillow->pin_closed);
  g_hash_table_unref (pillow->in_pinhole);
  g_free (pillow->came);
  g_free (pillow);
}

/* The worked stitch of that name, looked for one by one; or PF_NONE. */
static guint32
find_stitch (const PfFilling *filling, PfStitchId id)
{
  size_t low = 0, high = filling->n_stitches;
  while (high - low > 0)
    {
      const size_t middle = (low + high) / 2;
      const PfStitchId at = filling->stitches[middle].id;
      if (at.k == id.k && at.i == id.i && at.j == id.j)
        return (guint32) middle;
      if (at.k < id.k || (at.k == id.k && (at.j < id.j || (at.j == id.j && at.i < id.i))))
        low = middle + 1;
      else
        high = middle;
    }
  return PF_NONE;
}

/* In a plain repeat the core isn't there, and pairs pass straight on. */
static bool
is_passed (const Pillow *pillow, PfStitchId id)
{
  if (!pillow->ground->stitches[id.k].core)
    return false;
  for (size_t r = 0; r < pillow->filling->n_repeats; r++)
    if (pillow->filling->repeats[r].i == id.i && pillow->filling->repeats[r].j == id.j)
      return pillow->filling->repeats[r].state == PF_REPEAT_PLAIN;
  return false;
}

/* The exit that the ground's line to one side of a stitch comes from, and its twists. */
static PfStitchId
line_from (const Pillow *pillow, PfStitchId id, int side, int *from_side, int *twists)
{
  *twists = 0;
  do
    for (int l = 0; l < pillow->ground->n_lines; l++)
      {
        const PfPairLine *line = &pillow->ground->lines[l];
        if (line->to.stitch != id.k || (int) line->to.side != side)
          continue;
        id = (PfStitchId){ line->from.stitch, id.i - line->da, id.j - line->db };
        side = (int) line->from.side;
        *twists += line->twists;
        break;
      }
  while (is_passed (pillow, id));
  *from_side = side;
  return id;
}

/* How often the ground twists the pair from an exit on its way to where it isn't passed on. */
static int
twists_to (const Pillow *pillow, PfStitchId id, int side)
{
  int twists = 0;
  do
    for (int l = 0; l < pillow->ground->n_lines; l++)
      {
        const PfPairLine *line = &pillow->ground->lines[l];
        if (line->from.stitch != id.k || (int) line->from.side != side)
          continue;
        id = (PfStitchId){ line->to.stitch, id.i + line->da, id.j + line->db };
        side = (int) line->to.side;
        twists += line->twists;
        break;
      }
  while (is_passed (pillow, id));
  return twists;
}

static char *
name_of (const Pillow *pillow, PfStitchId id)
{
  return g_strdup_printf ("%s (%d, %d)", pillow->ground->stitches[id.k].name, id.i, id.j);
}

static char *
sew (Pillow *pillow, guint32 s)
{
  const PfSewing *sewing = &pillow->filling->sewings[s];
  if (sewing->pinhole == PF_NONE)
    return NULL;
  const gint64 key = (gint64) sewing->place.loop * 1000000 + sewing->pinhole;
  const int n = GPOINTER_TO_INT (g_hash_table_lookup (pillow->in_pinhole, &key)) + 1;
  g_hash_table_insert (pillow->in_pinhole, g_memdup2 (&key, sizeof key), GINT_TO_POINTER (n));
  if (n > pillow->sewings_per_pinhole && !pillow->may_crowd)
    return g_strdup_printf ("pinhole %u holds %d sewings", sewing->pinhole + 1, n);
  return NULL;
}

/* A pair comes to the edge from the stitch it worked last: its line must be cut there. */
static char *
leave (Pillow *pillow, const PfWorkStep *step)
{
  const PfSewing *sewing = &pillow->filling->sewings[step->sewing];
  const Pair *pair = &pillow->pairs[step->pair];
  if (pair->where != AT_STITCH)
    return g_strdup_printf ("pair %u doesn't hang at a stitch", step->pair + 1);
  if (sewing->leaving == PF_NONE)
    return g_strdup_printf ("sewing %u ends no line", step->sewing + 1);
  const PfCrossing *crossing = &pillow->filling->crossings[sewing->leaving];
  const PfStitchId at = pillow->filling->stitches[crossing->stitch].id;
  if (at.k != pair->stitch.k || at.i != pair->stitch.i || at.j != pair->stitch.j ||
      (int) crossing->side != pair->side)
    return g_strdup_printf ("pair %u hangs elsewhere than sewing %u says", step->pair + 1,
                            step->sewing + 1);
  if (pair->twists != twists_to (pillow, at, pair->side))
    return g_strdup_printf ("pair %u has %d twists at the edge", step->pair + 1, pair->twists);
  return NULL;
}

static char *
sew_in (Pillow *pillow, const PfWorkStep *step, Where from)
{
  Pair *pair = &pillow->pairs[step->pair];
  if (pair->where != from)
    return g_strdup_printf ("pair %u can't be sewn in: it is %s", step->pair + 1,
                            pair->where == CUT ? "cut" : "on the pillow");
  pair->where = AT_EDGE;
  pair->goes_to = step->stitch;
  pair->twists = 0;
  pillow->on_pillow += from == WOUND;
  return sew (pillow, step->sewing);
}

/* The pair is sewn, and from then on is `where`. */
static char *
sew_away (Pillow *pillow, const PfWorkStep *step, Where where)
{
  char *trouble = leave (pillow, step);
  if (trouble != NULL)
    return trouble;
  pillow->pairs[step->pair].where = where;
  return sew (pillow, step->sewing);
}

static char *
turn (Pillow *pillow, const PfWorkStep *step)
{
  char *trouble = sew_away (pillow, step, AT_EDGE);
  pillow->pairs[step->pair].goes_to = step->stitch;
  pillow->pairs[step->pair].twists = 0;
  return trouble;
}

static char *
carry (Pillow *pillow, const PfWorkStep *step)
{
  return sew_away (pillow, step, ALONG_EDGE);
}

static char *
sew_out (Pillow *pillow, const PfWorkStep *step)
{
  pillow->on_pillow--;
  return sew_away (pillow, step, CUT);
}

static char *
twist (Pillow *pillow, const PfWorkStep *step)
{
  Pair *pair = &pillow->pairs[step->pair];
  if (pair->where != AT_STITCH && pair->where != AT_EDGE)
    return g_strdup_printf ("pair %u isn't there to be twisted", step->pair + 1);
  pair->twists += step->twists;
  if (step->twists % 2 != 0)
    {
      const guint32 left = pair->bobbins[0];
      pair->bobbins[0] = pair->bobbins[1];
      pair->bobbins[1] = left;
    }
  return NULL;
}

/* Does the pair hang where the ground has the line to that side of the stitch begin? */
static char *
comes_here (const Pillow *pillow, const Pair *pair, guint32 number, guint32 s, int side)
{
  const PfStitchId id = pillow->filling->stitches[s].id;
  int from_side, twists;
  const PfStitchId from = line_from (pillow, id, side, &from_side, &twists);
  g_autofree char *name = name_of (pillow, id);
  if (pair->where == AT_EDGE && pair->goes_to == s)
    return pair->twists == twists
               ? NULL
               : g_strdup_printf ("pair %u has %d twists at %s", number + 1, pair->twists, name);
  if (pair->where != AT_STITCH)
    return g_strdup_printf ("pair %u isn't there for %s", number + 1, name);
  if (pair->stitch.k != from.k || pair->stitch.i != from.i || pair->stitch.j != from.j ||
      pair->side != from_side)
    return g_strdup_printf ("pair %u hangs elsewhere than at %s", number + 1, name);
  if (pair->twists != twists)
    return g_strdup_printf ("pair %u has %d twists at %s", number + 1, pair->twists, name);
  return NULL;
}

static char *
set_pin (Pillow *pillow, guint32 s)
{
  const PfStitchId id = pillow->filling->stitches[s].id;
  const int closes = pillow->ground->stitches[id.k].closes;
  if (closes >= 0)
    {
      const guint32 pin = find_stitch (pillow->filling, (PfStitchId){ closes, id.i, id.j });
      if (pin == PF_NONE || !pillow->pin_set[pin] || pillow->pin_closed[pin])
        return g_strdup_printf ("there is no pin to close at %s (%d, %d)",
                                pillow->ground->stitches[id.k].name, id.i, id.j);
      pillow->pin_closed[pin] = true;
    }
  const char *work =
      pf_filling_work (pillow->filling, pillow->ground, &pillow->filling->stitches[s]);
  if (strchr (work, 'p') != NULL)
    pillow->pin_set[s] = true;
  return NULL;
}

/* Moves bobbins as one letter says: a cross takes the second over the third, a twist in each half
 * the right over the left; of four pairs, pair by pair. A leadwork brings all back. */
static void
move_bobbins (guint32 *bobbins, int n_pairs, char letter)
{
  const int whole = n_pairs / 2; /* bobbins that move as one */
  guint32 was[2 * PF_STITCH_MAX_PAIRS];
  memcpy (was, bobbins, sizeof (guint32) * (size_t) (2 * n_pairs));
  static const int cross[] = { 0, 2, 1, 3 }, twist[] = { 1, 0, 3, 2 };
  const int *order = letter == 'c' ? cross : letter == 't' ? twist : NULL;
  for (int n = 0; order != NULL && n < 4; n++)
    for (int b = 0; b < whole; b++)
      bobbins[n * whole + b] = was[order[n] * whole + b];
}

static char *
work_stitch (Pillow *pillow, const PfWorkStep *step)
{
  const PfWorkedStitch *stitch = &pillow->filling->stitches[step->stitch];
  const PfWorkedEnd *ends = pf_worked_ends (pillow->filling, stitch);
  const int n_pairs = (int) stitch->n_sides;
  guint32 bobbins[2 * PF_STITCH_MAX_PAIRS];
  if (pillow->worked[step->stitch])
    return g_strdup ("the stitch is worked already");
  for (int side = 0; side < n_pairs; side++)
    {
      Pair *pair = &pillow->pairs[ends[side].pair];
      char *trouble = comes_here (pillow, pair, ends[side].pair, step->stitch, side);
      if (trouble != NULL)
        return trouble;
      for (int b = 0; b < 2; b++)
        {
          bobbins[2 * side + b] = pair->bobbins[b];
          pillow->came[stitch->first_end + (guint32) side][b] = pair->bobbins[b];
        }
    }
  char *trouble = set_pin (pillow, step->stitch);
  for (const char *letter = pf_filling_work (pillow->filling, pillow->ground, stitch); *letter;
       letter++)
    move_bobbins (bobbins, n_pairs, *letter);
  for (int side = 0; side < n_pairs; side++)
    {
      Pair *pair = &pillow->pairs[ends[side].pair];
      *pair = (Pair){ AT_STITCH,         stitch->id, side,
                      PF_NONE,           0,          { bobbins[2 * side], bobbins[2 * side + 1] },
                      pair->stitches + 1 };
    }
  pillow->worked[step->stitch] = true;
  pillow->most = MAX (pillow->most, pillow->on_pillow);
  return trouble;
}

char *
pillow_do (Pillow *pillow, const PfWorkStep *step)
{
  if (step->kind != PF_WORK_STITCH && step->pair >= pillow->filling->n_pairs)
    return g_strdup ("a step without a pair");
  switch (step->kind)
    {
    case PF_WORK_SEW_IN:
      return sew_in (pillow, step, WOUND);
    case PF_WORK_CARRY_IN:
      return sew_in (pillow, step, ALONG_EDGE);
    case PF_WORK_TWIST:
      return twist (pillow, step);
    case PF_WORK_TURN:
      return turn (pillow, step);
    case PF_WORK_CARRY:
      return carry (pillow, step);
    case PF_WORK_STITCH:
      return work_stitch (pillow, step);
    case PF_WORK_SEW_OUT:
      return sew_out (pillow, step);
    }
  return g_strdup ("an unknown step");
}

char *
pillow_left (const Pillow *pillow)
{
  for (guint32 p = 0; p < pillow->filling->n_pairs; p++)
    if (pillow->pairs[p].where != CUT)
      return g_strdup_printf ("pair %u is %s", p + 1,
                              pillow->pairs[p].where == WOUND ? "never sewn in"
                                                              : "still on the pillow");
  for (guint32 s = 0; s < pillow->filling->n_stitches; s++)
    {
      g_autofree char *name = name_of (pillow, pillow->filling->stitches[s].id);
      if (!pillow->worked[s])
        return g_strdup_printf ("stitch %s isn't worked", name);
      if (pillow->ground->stitches[pillow->filling->stitches[s].id.k].pin && !pillow->pin_set[s])
        return g_strdup_printf ("pin %s isn't set", name);
    }
  return NULL;
}

bool
pillow_bobbins_agree (const Pillow *pillow, const PfThreads *threads)
{
  for (size_t e = 0; e < pillow->filling->n_ends; e++)
    if (pillow->came[e][0] != threads->in[e][0] || pillow->came[e][1] != threads->in[e][1])
      return false;
  return true;
}

size_t
pillow_most (const Pillow *pillow)
{
  return pillow->most;
}
