/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What the maker chose for pairs: sewn alone, or turned.
 *
 * Choices are looked at from the last to the first, so that of those that can't go together the
 * later one counts. Whether a choice makes sense depends on the ground and the shape alone, never
 * on other choices: one that makes none changes nothing.
 */
#include "words.h"

#include <glib/gi18n-lib.h>

typedef struct {
  PfFilling *filling;
  const PfGround *ground;
} Choosing;

static double
time_of (const Choosing *c, PfLineId line)
{
  return pf_ground_time (c->ground, line.stitch.k, line.stitch.i, line.stitch.j);
}

static char *
why_no_turn (const Choosing *c, const PfSewingChoice *choice)
{
  const PfCrossing *crossings = c->filling->crossings;
  const guint32 from = pf_filling_find_crossing (c->filling, choice->line);
  const guint32 to = pf_filling_find_crossing (c->filling, choice->other);
  g_autofree char *start = pf_words_stitch_of (c->ground, choice->line.stitch);
  g_autofree char *end = pf_words_stitch_of (c->ground, choice->other.stitch);
  if (!choice->line.leaves || choice->other.leaves)
    return g_strdup_printf (
        _ ("A turn joins a pair that leaves with one that enters; the choice for "
           "%s and %s doesn’t. Reset it."),
        start, end);
  if (crossings[from].place.loop != crossings[to].place.loop)
    return g_strdup_printf (_ ("The pair from %s can’t turn and go to %s: one line meets another "
                               "outline of the shape than the other. Reset the choice."),
                            start, end);
  if (!(time_of (c, choice->line) < time_of (c, choice->other) - PF_TIME_SLACK))
    return g_strdup_printf (_ ("The pair from %s can’t turn and go to %s, which isn’t worked after "
                               "it. Reset the choice."),
                            start, end);
  return NULL;
}

char *
pf_why_not_cut (const PfFilling *filling, const PfGround *ground, PfLineId line)
{
  if (line.stitch.k < 0 || line.stitch.k >= ground->n_stitches)
    return g_strdup_printf (
        _ ("This ground has no stitch number %ld. Reset the choice: it was made "
           "for another ground."),
        (long) line.stitch.k + 1);
  if (pf_filling_find_crossing (filling, line) != PF_NONE)
    return NULL;
  g_autofree char *words = pf_words_line (ground, line);
  return g_strdup_printf (_ ("The edge doesn’t cut %s where the ground lies now. Reset the choice, "
                             "or move the ground."),
                          words);
}

static char *
why_not (const Choosing *c, const PfSewingChoice *choice)
{
  char *why = pf_why_not_cut (c->filling, c->ground, choice->line);
  if (why == NULL && choice->kind == PF_SEW_TURN)
    why = pf_why_not_cut (c->filling, c->ground, choice->other);
  if (why == NULL && choice->kind == PF_SEW_TURN)
    why = why_no_turn (c, choice);
  return why;
}

static void
take_choice (PfFilling *filling, const PfSewingChoice *choice)
{
  const guint32 c = pf_filling_find_crossing (filling, choice->line);
  PfCrossing *crossing = &filling->crossings[c];
  if (crossing->chosen)
    return;
  if (choice->kind == PF_SEW_ALONE)
    {
      crossing->chosen = true;
      return;
    }
  const guint32 o = pf_filling_find_crossing (filling, choice->other);
  PfCrossing *other = &filling->crossings[o];
  if (other->chosen)
    return;
  crossing->chosen = other->chosen = true;
  crossing->kind = other->kind = PF_PAIR_TURNED;
  crossing->match = o;
  other->match = c;
}

void
pf_choose_pairs (PfFilling *filling, const PfGround *ground, const PfFillingSettings *settings)
{
  const Choosing choosing = { filling, ground };
  for (size_t n = settings->n_sewing_choices; n > 0; n--)
    {
      const PfSewingChoice *choice = &settings->sewing_choices[n - 1];
      if (choice->kind != PF_SEW_ALONE && choice->kind != PF_SEW_TURN)
        continue;
      char *why = why_not (&choosing, choice);
      if (why != NULL)
        pf_filling_note_unheeded (filling, true, n - 1, why);
      else
        take_choice (filling, choice);
    }
}
