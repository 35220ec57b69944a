/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * One repeat by itself: its steps, the pairs and sewings in them, and where its pairs come from.
 */
#include <glib/gi18n-lib.h>

#include "repeat-kinds.h"
#include "words.h"

static void
add_once (GArray *list, guint32 number)
{
  for (guint n = 0; n < list->len; n++)
    if (g_array_index (list, guint32, n) == number)
      return;
  g_array_append_val (list, number);
}

static void
add_step (PfRepeatWork *work, const PfFilling *filling, PfWorkStep step)
{
  g_array_append_val (work->steps, step);
  if (step.pair != PF_NONE)
    add_once (work->pairs, step.pair);
  if (step.kind == PF_WORK_STITCH)
    {
      const PfWorkedStitch *stitch = &filling->stitches[step.stitch];
      for (unsigned side = 0; side < stitch->n_sides; side++)
        add_once (work->pairs, pf_worked_ends (filling, stitch)[side].pair);
    }
  if (step.sewing == PF_NONE)
    return;
  add_once (work->sewings, step.sewing);
  if (step.kind == PF_WORK_CARRY)
    {
      const guint32 match = filling->crossings[filling->sewings[step.sewing].leaving].match;
      add_once (work->sewings, filling->crossings[match].sewing);
    }
}

/* The steps that sew in new pairs of a stitch, where that was done before the first stitch. They
 * come before all others of the stitch: on its way from the edge a pair may be twisted. */
static void
add_sewn_in (PfRepeatWork *work, const PfFilling *filling, guint32 s)
{
  const PfWorkedStitch *stitch = &filling->stitches[s];
  const PfWorkedEnd *ends = pf_worked_ends (filling, stitch);
  for (unsigned side = 0; side < stitch->n_sides; side++)
    {
      if (ends[side].entering == PF_NONE)
        continue;
      const PfCrossing *crossing = &filling->crossings[ends[side].entering];
      if (crossing->kind == PF_PAIR_NEW)
        add_step (work, filling,
                  (PfWorkStep){ .kind = PF_WORK_SEW_IN,
                                .stitch = s,
                                .sewing = crossing->sewing,
                                .pair = crossing->pair });
    }
}

PfRepeatWork *
pf_repeat_work_new (const PfFilling *filling, const PfGround *ground, const PfWorkingSteps *steps,
                    int i, int j)
{
  g_return_val_if_fail (ground != NULL, NULL);
  PfRepeatWork *work = g_new (PfRepeatWork, 1);
  *work = (PfRepeatWork){ g_array_new (FALSE, FALSE, sizeof (PfWorkStep)),
                          g_array_new (FALSE, FALSE, sizeof (guint32)),
                          g_array_new (FALSE, FALSE, sizeof (guint32)) };
  for (size_t g = 0; g < steps->n_groups; g++)
    {
      const PfWorkGroup *group = &steps->groups[g];
      if (group->sews_in || group->i != i || group->j != j)
        continue;
      guint32 stitch = PF_NONE;
      for (size_t n = 0; n < group->n_steps; n++)
        {
          const PfWorkStep step = steps->steps[group->first_step + n];
          if (step.stitch != stitch && filling->habits.sew_in_first)
            add_sewn_in (work, filling, step.stitch);
          stitch = step.stitch;
          add_step (work, filling, step);
        }
    }
  return work;
}

void
pf_repeat_work_free (PfRepeatWork *work)
{
  if (work == NULL)
    return;
  g_array_unref (work->steps);
  g_array_unref (work->pairs);
  g_array_unref (work->sewings);
  g_free (work);
}

PfStepNames
pf_repeat_work_names (const PfRepeatWork *work)
{
  static const guint32 none;
  return (PfStepNames){
    work->pairs->len > 0 ? (const guint32 *) (const void *) work->pairs->data : &none,
    work->pairs->len,
    work->sewings->len > 0 ? (const guint32 *) (const void *) work->sewings->data : &none,
    work->sewings->len,
  };
}

static char *
origin_words (const PfFilling *filling, const PfGround *ground, guint32 from, int i, int j,
              guint32 number)
{
  const PfStitchId id = filling->stitches[from].id;
  g_autofree char *stitch = pf_words_stitch (ground, id.k);
  g_autofree char *place =
      pf_words_of_repeat (ground, filling->placement.mirror, id.i - i, id.j - j, stitch);
  return g_strdup_printf (_ ("Pair %u comes from %s."), number, place);
}

/* The stitch that a pair comes from, by its line or by way of the edge; PF_NONE if it is new. */
static guint32
stitch_before (const PfFilling *filling, const PfWorkedEnd *entry)
{
  if (entry->entering == PF_NONE)
    return entry->from;
  const guint32 match = filling->crossings[entry->entering].match;
  return match == PF_NONE ? PF_NONE : filling->crossings[match].stitch;
}

char **
pf_explain_origins (const PfFilling *filling, const PfGround *ground, const PfRepeatWork *work,
                    int i, int j)
{
  const PfStepNames names = pf_repeat_work_names (work);
  GPtrArray *sentences = g_ptr_array_new ();
  for (guint n = 0; n < work->steps->len; n++)
    {
      const PfWorkStep *step = &g_array_index (work->steps, PfWorkStep, n);
      if (step->kind != PF_WORK_STITCH)
        continue;
      const PfWorkedStitch *stitch = &filling->stitches[step->stitch];
      const PfWorkedEnd *ends = pf_worked_ends (filling, stitch);
      for (unsigned side = 0; side < stitch->n_sides; side++)
        {
          const guint32 from = stitch_before (filling, &ends[side]);
          if (from == PF_NONE ||
              (filling->stitches[from].id.i == i && filling->stitches[from].id.j == j))
            continue;
          g_ptr_array_add (sentences, origin_words (filling, ground, from, i, j,
                                                    pf_step_pair_number (&names, ends[side].pair)));
        }
    }
  g_ptr_array_add (sentences, NULL);
  return (char **) g_ptr_array_free (sentences, FALSE);
}
