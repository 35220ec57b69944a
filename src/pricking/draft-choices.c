/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The maker's choices for repeats and sewings, while the draft is one's own copy. At most one
 * choice stands for a repeat, and one of pair and one of place for a line.
 */
#include <string.h>

#include "document-private.h"

void
pf_settings_own (PfFillingSettings *settings)
{
  settings->choices =
      g_memdup2 (settings->choices, settings->n_choices * sizeof *settings->choices);
  settings->sewing_choices = g_memdup2 (
      settings->sewing_choices, settings->n_sewing_choices * sizeof *settings->sewing_choices);
}

void
pf_settings_clear (PfFillingSettings *settings)
{
  g_free ((void *) settings->choices);
  g_free ((void *) settings->sewing_choices);
  settings->choices = NULL;
  settings->sewing_choices = NULL;
  settings->n_choices = settings->n_sewing_choices = 0;
}

static size_t
find_repeat (const PfFillingSettings *settings, int i, int j)
{
  size_t n = 0;
  while (n < settings->n_choices && (settings->choices[n].i != i || settings->choices[n].j != j))
    n++;
  return n;
}

void
pf_draft_set_repeat (PfDraft *draft, int i, int j, PfRepeatState state)
{
  PfFillingSettings *s = &draft->settings;
  PfRepeatChoice *choices = (PfRepeatChoice *) s->choices; /* the draft's own */
  const size_t n = find_repeat (s, i, j);
  if (state == PF_REPEAT_WHOLE)
    {
      if (n < s->n_choices)
        memmove (&choices[n], &choices[n + 1], (--s->n_choices - n) * sizeof *choices);
      return;
    }
  if (n == s->n_choices)
    s->choices = choices = g_renew (PfRepeatChoice, choices, ++s->n_choices);
  choices[n] = (PfRepeatChoice){ i, j, state };
}

static bool
is_same_line (PfLineId a, PfLineId b)
{
  return a.stitch.k == b.stitch.k && a.stitch.i == b.stitch.i && a.stitch.j == b.stitch.j &&
         a.side == b.side && a.leaves == b.leaves;
}

static bool
is_of_pair (const PfSewingChoice *choice)
{
  return choice->kind == PF_SEW_ALONE || choice->kind == PF_SEW_TURN;
}

/* Does the choice say something of `line`? A turn speaks of both of its lines. */
static bool
speaks_of (const PfSewingChoice *choice, PfLineId line)
{
  return is_same_line (choice->line, line) ||
         (choice->kind == PF_SEW_TURN && is_same_line (choice->other, line));
}

/* Would both choices say something of one line's pair, or of its place? */
static bool
stands_against (const PfSewingChoice *old, const PfSewingChoice *new)
{
  return is_of_pair (old) == is_of_pair (new) &&
         (speaks_of (old, new->line) || (new->kind == PF_SEW_TURN &&speaks_of (old, new->other)));
}

void
pf_draft_set_sewing (PfDraft *draft, const PfSewingChoice *choice)
{
  PfFillingSettings *s = &draft->settings;
  PfSewingChoice *choices = (PfSewingChoice *) s->sewing_choices;
  size_t kept = 0;
  for (size_t n = 0; n < s->n_sewing_choices; n++)
    if (!stands_against (&choices[n], choice))
      choices[kept++] = choices[n];
  choices = g_renew (PfSewingChoice, choices, kept + 1);
  choices[kept] = *choice;
  s->sewing_choices = choices;
  s->n_sewing_choices = kept + 1;
}

void
pf_draft_reset_sewing (PfDraft *draft, PfLineId line)
{
  PfFillingSettings *s = &draft->settings;
  PfSewingChoice *choices = (PfSewingChoice *) s->sewing_choices;
  size_t kept = 0;
  for (size_t n = 0; n < s->n_sewing_choices; n++)
    if (!speaks_of (&choices[n], line))
      choices[kept++] = choices[n];
  s->n_sewing_choices = kept;
}

void
pf_draft_reset_choices (PfDraft *draft)
{
  pf_settings_clear (&draft->settings);
  draft->thread.n_colours = 0;
}
