/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Places at the pillow. What a move asks for takes one walk along the steps at most, and no list is
 * made anew.
 */
#include "pillow-place.h"

#include <glib/gi18n-lib.h>

static guint32 *
numbers_new (size_t n)
{
  guint32 *numbers = g_new (guint32, MAX (n, 1));
  for (size_t k = 0; k < n; k++)
    numbers[k] = PF_NONE;
  return numbers;
}

PfPillowPlan *
pf_pillow_plan_new (const PfMotif *motif)
{
  const PfFilling *filling = motif->filling;
  PfPillowPlan *plan = g_new (PfPillowPlan, 1);
  *plan = (PfPillowPlan){ .motif = pf_motif_ref ((PfMotif *) motif),
                          .steps = pf_motif_steps (motif),
                          .of_stitch = numbers_new (filling->n_stitches),
                          .of_sewing = numbers_new (filling->n_sewings),
                          .sewn_in_at = numbers_new (filling->n_pairs),
                          .sewn_out_at = numbers_new (filling->n_pairs) };
  for (guint32 n = 0; n < plan->steps->n_steps; n++)
    {
      const PfWorkStep *step = &plan->steps->steps[n];
      if (step->kind == PF_WORK_STITCH)
        plan->of_stitch[step->stitch] = n;
      if (step->sewing != PF_NONE)
        plan->of_sewing[step->sewing] = n;
      if (step->kind == PF_WORK_SEW_IN)
        plan->sewn_in_at[step->pair] = n;
      if (step->kind == PF_WORK_SEW_OUT)
        plan->sewn_out_at[step->pair] = n;
    }
  return plan;
}

void
pf_pillow_plan_free (PfPillowPlan *plan)
{
  if (plan == NULL)
    return;
  pf_motif_unref (plan->motif);
  g_free (plan->of_stitch);
  g_free (plan->of_sewing);
  g_free (plan->sewn_in_at);
  g_free (plan->sewn_out_at);
  g_free (plan);
}

/* --- Steps and groups ---------------------------------------------------------------------------
 */

static size_t
group_at (const PfPillowPlan *plan, size_t place)
{
  size_t low = 0, high = plan->steps->n_groups;
  while (high - low > 1)
    {
      const size_t middle = low + (high - low) / 2;
      if (plan->steps->groups[middle].first_step <= place)
        low = middle;
      else
        high = middle;
    }
  return low;
}

const PfWorkGroup *
pf_pillow_group (const PfPillowPlan *plan, size_t place)
{
  return &plan->steps->groups[group_at (plan, place)];
}

PfPillowSpan
pf_pillow_span (const PfPillowPlan *plan, size_t place, bool whole)
{
  if (place >= plan->steps->n_steps)
    return (PfPillowSpan){ plan->steps->n_steps, 0 };
  if (!whole)
    return (PfPillowSpan){ place, 1 };
  const PfWorkGroup *group = pf_pillow_group (plan, place);
  return (PfPillowSpan){ group->first_step, group->n_steps };
}

size_t
pf_pillow_next (const PfPillowPlan *plan, size_t place, bool whole)
{
  const PfPillowSpan span = pf_pillow_span (plan, place, whole);
  return span.first + span.n;
}

size_t
pf_pillow_before (const PfPillowPlan *plan, size_t place, bool whole)
{
  if (place == 0)
    return 0;
  return pf_pillow_span (plan, place - 1, whole).first;
}

size_t
pf_pillow_repeat (const PfPillowPlan *plan, size_t number)
{
  for (size_t g = 0; g < plan->steps->n_groups; g++)
    if (!plan->steps->groups[g].sews_in && plan->steps->groups[g].repeat == number)
      return plan->steps->groups[g].first_step;
  return G_MAXSIZE;
}

/* --- What is left, and what is there ------------------------------------------------------------
 */

PfPillowLeft
pf_pillow_left (const PfPillowPlan *plan, size_t place)
{
  PfPillowLeft left = { .steps = plan->steps->n_steps - place };
  for (size_t n = place; n < plan->steps->n_steps; n++)
    {
      const PfWorkStep *step = &plan->steps->steps[n];
      left.stitches += step->kind == PF_WORK_STITCH;
      left.sewings += step->sewing != PF_NONE;
      left.new_pairs += step->kind == PF_WORK_SEW_IN;
    }
  return left;
}

static bool
is_on_pillow (const PfPillowPlan *plan, size_t pair, size_t place)
{
  return plan->sewn_in_at[pair] < place && plan->sewn_out_at[pair] >= place;
}

char *
pf_pillow_pairs (const PfPillowPlan *plan, size_t place, size_t *n)
{
  const size_t n_pairs = plan->motif->filling->n_pairs;
  GString *text = g_string_new (NULL);
  *n = 0;
  for (size_t from = 0; from < n_pairs; from++)
    {
      size_t to = from;
      while (to < n_pairs && is_on_pillow (plan, to, place))
        to++;
      if (to == from)
        continue;
      *n += to - from;
      g_string_append_printf (text, text->len > 0 ? ", %zu" : "%zu", from + 1);
      if (to - from > 1)
        g_string_append_printf (text, to - from > 2 ? "–%zu" : ", %zu", to);
      from = to;
    }
  return g_string_free (text, FALSE);
}

/* --- The editor ---------------------------------------------------------------------------------
 */

size_t
pf_pillow_place (PfEditor *editor, const PfPillowPlan *plan)
{
  return pf_pillow_position (&pf_editor_draft (editor)->pillow, plan->motif);
}

static PfPillowState
state_at (const PfPillowPlan *plan, size_t place)
{
  if (place == 0)
    return PF_PILLOW_NOT_BEGUN;
  return place < plan->steps->n_steps ? PF_PILLOW_BEGUN : PF_PILLOW_DONE;
}

void
pf_pillow_go (PfEditor *editor, const PfPillowPlan *plan, size_t place, bool leap)
{
  if (place == pf_pillow_place (editor, plan))
    return;
  PfDraft *draft = pf_draft_copy (pf_editor_draft (editor));
  const PfPillowState state = state_at (plan, place);
  PfStepId id = { .kind = PF_WORK_STITCH };
  if (state == PF_PILLOW_BEGUN)
    id = pf_working_step_id (plan->steps, plan->motif->filling, place);
  pf_draft_set_pillow (draft, state, plan->motif->ground, &id);
  g_autofree char *name = leap ? g_strdup (_ ("Go elsewhere at the pillow"))
                               /* Translators: %s is the name of a motif. */
                               : g_strdup_printf (_ ("Work on “%s” at the pillow"), draft->name);
  if (leap)
    pf_editor_change (editor, draft, name);
  else
    pf_editor_change_merged (editor, draft, name);
}

/* --- Notes --- */

const char *
pf_pillow_note (PfEditor *editor, const PfPillowPlan *plan, size_t place)
{
  if (place >= plan->steps->n_steps)
    return NULL;
  const PfStepId id = pf_working_step_id (plan->steps, plan->motif->filling, place);
  return pf_pillow_find_note (&pf_editor_draft (editor)->pillow, plan->motif->ground, &id);
}

void
pf_pillow_set_note (PfEditor *editor, const PfPillowPlan *plan, size_t place, const char *text)
{
  const char *old = pf_pillow_note (editor, plan, place);
  if (place >= plan->steps->n_steps || g_strcmp0 (old != NULL ? old : "", text) == 0)
    return;
  const PfStepId id = pf_working_step_id (plan->steps, plan->motif->filling, place);
  PfDraft *draft = pf_draft_copy (pf_editor_draft (editor));
  pf_draft_set_pillow_note (draft, plan->motif->ground, &id, text);
  pf_editor_change_merged (editor, draft, _ ("Note at the pillow"));
}

void
pf_pillow_remove_note (PfEditor *editor, size_t note)
{
  PfDraft *draft = pf_draft_copy (pf_editor_draft (editor));
  pf_draft_remove_pillow_note (draft, note);
  pf_editor_change (editor, draft, _ ("Remove a note"));
}
