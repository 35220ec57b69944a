/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Lists the working steps.
 *
 * Sewings come just before the stitch that needs the pair, or just after the one that ends it; the
 * twists that the ground adds to a line just before the stitch that it leads to, or, if it is cut
 * at the edge, before its sewing. A group ends where the next stitch is of another repeat.
 */
#include "working-steps.h"

#include "filling-private.h"
#include "rows.h"
#include "threads.h"

typedef struct {
  const PfFilling *filling;
  const PfGround *ground;
  GArray *steps, *groups;
  GHashTable *repeats, *rows; /* their numbers, plus 1 */
  PfRow row;
  bool twists; /* the ground adds some */
} Lister;

static void
add_step (Lister *lister, PfWorkStep step)
{
  g_array_append_val (lister->steps, step);
  g_array_index (lister->groups, PfWorkGroup, lister->groups->len - 1).n_steps++;
}

/* The number that `key` has in the order in which keys come. Takes over `key`. */
static guint32
number_of (GHashTable *numbers, gint64 key)
{
  const guint known = GPOINTER_TO_UINT (g_hash_table_lookup (numbers, &key));
  if (known > 0)
    return known - 1;
  const guint n = g_hash_table_size (numbers);
  g_hash_table_insert (numbers, g_memdup2 (&key, sizeof key), GUINT_TO_POINTER (n + 1));
  return n;
}

static void
enter_repeat (Lister *lister, int i, int j)
{
  const guint n = lister->groups->len;
  const PfWorkGroup *last = n > 0 ? &g_array_index (lister->groups, PfWorkGroup, n - 1) : NULL;
  if (last != NULL && !last->sews_in && last->i == i && last->j == j)
    return;
  const gint64 repeat = (gint64) i * G_GINT64_CONSTANT (0x100000000) + j;
  const PfWorkGroup group = {
    .i = i,
    .j = j,
    .repeat = number_of (lister->repeats, repeat),
    .row = number_of (lister->rows, pf_row_number (lister->row, i, j)),
    .first_step = lister->steps->len,
  };
  g_array_append_val (lister->groups, group);
}

static void
add_twists (Lister *lister, guint32 s, unsigned side, guint32 pair, int twists)
{
  if (twists > 0)
    add_step (lister, (PfWorkStep){ .kind = PF_WORK_TWIST,
                                    .side = (guint8) side,
                                    .twists = (guint8) MIN (twists, G_MAXUINT8),
                                    .stitch = s,
                                    .sewing = PF_NONE,
                                    .pair = pair });
}

static void
add_sewing (Lister *lister, PfWorkKind kind, guint32 s, const PfCrossing *crossing)
{
  add_step (lister,
            (PfWorkStep){
                .kind = kind, .stitch = s, .sewing = crossing->sewing, .pair = crossing->pair });
}

/* How the pair comes to one side of a stitch. */
static void
bring_pair (Lister *lister, guint32 s, unsigned side, const PfWorkedEnd *end)
{
  const PfFilling *filling = lister->filling;
  if (end->entering != PF_NONE)
    {
      const PfCrossing *crossing = &filling->crossings[end->entering];
      if (crossing->kind == PF_PAIR_TURNED)
        add_sewing (lister, PF_WORK_TURN, s, crossing);
      else if (crossing->kind == PF_PAIR_CARRIED)
        add_sewing (lister, PF_WORK_CARRY_IN, s, crossing);
      else if (!filling->habits.sew_in_first)
        add_sewing (lister, PF_WORK_SEW_IN, s, crossing);
    }
  if (lister->twists)
    add_twists (lister, s, side, end->pair,
                pf_twists_before (filling, lister->ground, s, (PfSide) side));
}

/* What becomes of the pair at one side if its line is cut. */
static void
take_pair (Lister *lister, guint32 s, unsigned side, const PfWorkedEnd *end)
{
  if (end->leaving == PF_NONE)
    return;
  const PfCrossing *crossing = &lister->filling->crossings[end->leaving];
  if (lister->twists)
    add_twists (lister, s, side, end->pair,
                pf_twists_after (lister->filling, lister->ground, s, (PfSide) side));
  if (crossing->kind == PF_PAIR_CARRIED)
    add_sewing (lister, PF_WORK_CARRY, s, crossing);
  else if (crossing->kind == PF_PAIR_FINISHED)
    add_sewing (lister, PF_WORK_SEW_OUT, s, crossing);
}

static void
work_stitch (Lister *lister, guint32 s, const PfWorkedStitch *stitch)
{
  const PfWorkedEnd *ends = pf_worked_ends (lister->filling, stitch);
  enter_repeat (lister, stitch->id.i, stitch->id.j);
  for (unsigned side = 0; side < stitch->n_sides; side++)
    bring_pair (lister, s, side, &ends[side]);
  add_step (lister, (PfWorkStep){
                        .kind = PF_WORK_STITCH, .stitch = s, .sewing = PF_NONE, .pair = PF_NONE });
  for (unsigned side = 0; side < stitch->n_sides; side++)
    take_pair (lister, s, side, &ends[side]);
}

/* New pairs have the first sewings, if all are sewn in first. */
static void
sew_all_in (Lister *lister)
{
  const PfFilling *filling = lister->filling;
  const PfWorkGroup group = { .sews_in = true };
  g_array_append_val (lister->groups, group);
  for (size_t n = 0; n < filling->n_sewings && filling->sewings[n].kind == PF_PAIR_NEW; n++)
    {
      const PfCrossing *crossing = &filling->crossings[filling->sewings[n].entering];
      add_sewing (lister, PF_WORK_SEW_IN, crossing->stitch, crossing);
    }
}

static bool
adds_twists (const PfGround *ground)
{
  for (int l = 0; l < ground->n_lines; l++)
    if (ground->lines[l].twists > 0)
      return true;
  return false;
}

PfWorkingSteps *
pf_working_steps_new (const PfFilling *filling, const PfGround *ground)
{
  g_autoptr (GHashTable) repeats =
      g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
  g_autoptr (GHashTable) rows = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
  Lister lister = { filling,
                    ground,
                    g_array_new (FALSE, FALSE, sizeof (PfWorkStep)),
                    g_array_new (FALSE, FALSE, sizeof (PfWorkGroup)),
                    repeats,
                    rows,
                    pf_row_of (ground, filling->habits.right_first),
                    adds_twists (ground) };
  if (filling->habits.sew_in_first && filling->n_stitches > 0)
    sew_all_in (&lister);
  for (size_t n = 0; n < filling->n_stitches; n++)
    work_stitch (&lister, filling->order[n], pf_stitch_in_order (filling, n));
  PfWorkingSteps *steps = g_new (PfWorkingSteps, 1);
  *steps = (PfWorkingSteps){ .n_steps = lister.steps->len,
                             .n_groups = lister.groups->len,
                             .n_repeats = g_hash_table_size (repeats),
                             .n_rows = g_hash_table_size (rows) };
  steps->steps = (PfWorkStep *) (void *) g_array_free (lister.steps, FALSE);
  steps->groups = (PfWorkGroup *) (void *) g_array_free (lister.groups, FALSE);
  return steps;
}

void
pf_working_steps_free (PfWorkingSteps *steps)
{
  if (steps == NULL)
    return;
  g_free (steps->steps);
  g_free (steps->groups);
  g_free (steps);
}
