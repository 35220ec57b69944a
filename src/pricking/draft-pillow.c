/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Where the maker is at the pillow, and her notes, while the draft is one's own copy.
 *
 * Steps are kept by names, not by numbers or by the ground's indices: so a mirror image, which has
 * no ground of its own, keeps its place too, and with another ground nothing is lost or taken for a
 * step of that one.
 */
#include <string.h>

#include "document-private.h"

/* --- Steps by name --- */

static void
step_clear (PfPillowStep *step)
{
  g_clear_pointer (&step->ground, g_free);
  g_clear_pointer (&step->stitch, g_free);
}

static PfPillowStep
step_copy (const PfPillowStep *step)
{
  PfPillowStep copy = *step;
  copy.ground = g_strdup (step->ground);
  copy.stitch = g_strdup (step->stitch);
  return copy;
}

static PfPillowStep
step_named (const PfGround *ground, const PfStepId *id)
{
  const PfStitch *stitch = &ground->stitches[id->line.stitch.k];
  return (PfPillowStep){
    .kind = id->kind,
    .ground = g_strdup (ground->name != NULL ? ground->name : ""),
    .stitch = g_strdup (stitch->name),
    .i = id->line.stitch.i,
    .j = id->line.stitch.j,
    .side = pf_side_name (stitch->n_pairs, id->line.side),
    .leaves = id->line.leaves,
  };
}

/* The step in a ground; false if it speaks of another ground, or of a stitch that isn't there. */
static bool
step_find (const PfPillowStep *step, const PfGround *ground, PfStepId *id)
{
  if (step->ground == NULL || g_strcmp0 (step->ground, ground->name) != 0)
    return false;
  int k = 0;
  while (k < ground->n_stitches && g_strcmp0 (ground->stitches[k].name, step->stitch) != 0)
    k++;
  *id = (PfStepId){ step->kind, { { k, step->i, step->j }, PF_LEFT, step->leaves } };
  return k < ground->n_stitches &&
         pf_side_find (ground->stitches[k].n_pairs, step->side, &id->line.side);
}

static bool
step_equal (const PfPillowStep *a, const PfPillowStep *b)
{
  return a->kind == b->kind && a->i == b->i && a->j == b->j && a->side == b->side &&
         a->leaves == b->leaves && g_strcmp0 (a->stitch, b->stitch) == 0 &&
         g_strcmp0 (a->ground, b->ground) == 0;
}

/* --- All of it --- */

PfPillow
pf_pillow_copy (const PfPillow *pillow)
{
  PfPillow copy = *pillow;
  copy.at = step_copy (&pillow->at);
  copy.notes = g_memdup2 (pillow->notes, pillow->n_notes * sizeof *pillow->notes);
  for (size_t n = 0; n < copy.n_notes; n++)
    copy.notes[n] =
        (PfPillowNote){ step_copy (&pillow->notes[n].step), g_strdup (pillow->notes[n].text) };
  return copy;
}

static void
note_clear (PfPillowNote *note)
{
  step_clear (&note->step);
  g_free (note->text);
}

void
pf_pillow_clear (PfPillow *pillow)
{
  step_clear (&pillow->at);
  for (size_t n = 0; n < pillow->n_notes; n++)
    note_clear (&pillow->notes[n]);
  g_free (pillow->notes);
  *pillow = (PfPillow){ .state = PF_PILLOW_NOT_BEGUN };
}

void
pf_draft_set_pillow (PfDraft *draft, PfPillowState state, const PfGround *ground,
                     const PfStepId *at)
{
  PfPillow *pillow = &draft->pillow;
  step_clear (&pillow->at);
  pillow->at = state == PF_PILLOW_BEGUN ? step_named (ground, at) : (PfPillowStep){ .i = 0 };
  pillow->state = state;
}

void
pf_draft_remove_pillow_note (PfDraft *draft, size_t note)
{
  PfPillow *pillow = &draft->pillow;
  g_return_if_fail (note < pillow->n_notes);
  note_clear (&pillow->notes[note]);
  memmove (&pillow->notes[note], &pillow->notes[note + 1],
           (--pillow->n_notes - note) * sizeof *pillow->notes);
}

static size_t
find_note (const PfPillow *pillow, const PfPillowStep *named)
{
  size_t n = 0;
  while (n < pillow->n_notes && !step_equal (&pillow->notes[n].step, named))
    n++;
  return n;
}

void
pf_draft_set_pillow_note (PfDraft *draft, const PfGround *ground, const PfStepId *step,
                          const char *text)
{
  PfPillow *pillow = &draft->pillow;
  PfPillowStep named = step_named (ground, step);
  g_autofree char *copy = g_strdup (text);
  const size_t n = find_note (pillow, &named);
  if (*copy == '\0')
    {
      step_clear (&named);
      if (n < pillow->n_notes)
        pf_draft_remove_pillow_note (draft, n);
      return;
    }
  if (n == pillow->n_notes)
    {
      pillow->notes = g_renew (PfPillowNote, pillow->notes, ++pillow->n_notes);
      pillow->notes[n].text = NULL;
    }
  else
    step_clear (&pillow->notes[n].step);
  g_free (pillow->notes[n].text);
  pillow->notes[n] = (PfPillowNote){ named, g_steal_pointer (&copy) };
}

/* --- Back again --- */

const char *
pf_pillow_find_note (const PfPillow *pillow, const PfGround *ground, const PfStepId *step)
{
  PfPillowStep named = step_named (ground, step);
  const size_t n = find_note (pillow, &named);
  step_clear (&named);
  return n < pillow->n_notes ? pillow->notes[n].text : NULL;
}

size_t
pf_pillow_position (const PfPillow *pillow, const PfMotif *motif)
{
  const PfWorkingSteps *steps = pf_motif_steps (motif);
  PfStepId id;
  if (pillow->state == PF_PILLOW_DONE)
    return steps->n_steps;
  if (pillow->state == PF_PILLOW_NOT_BEGUN || !step_find (&pillow->at, motif->ground, &id))
    return 0;
  return pf_working_steps_find_near (steps, motif->filling, motif->ground, id);
}

size_t
pf_pillow_note_position (const PfPillow *pillow, size_t note, const PfMotif *motif)
{
  const PfWorkingSteps *steps = pf_motif_steps (motif);
  PfStepId id;
  if (!step_find (&pillow->notes[note].step, motif->ground, &id))
    return steps->n_steps;
  return pf_working_steps_find (steps, motif->filling, id);
}
