/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What happens at a sewing and along a pair's way, in words.
 *
 * The first sentence says what is done, those after it why. Pairs and pinholes are numbered from 1,
 * as on the sheet.
 */
#include "words.h"

#include <glib/gi18n-lib.h>

/* The words that a sentence about one sewing is made of. */
typedef struct {
  const PfSewing *sewing;
  const PfCrossing *leaving, *entering; /* NULL where there is none */
  char *from, *to;                      /* the stitches there, or NULL */
  const char *on_side, *from_side;      /* the sides of these, or NULL */
  char *place;
  bool at_pinhole;
  guint32 pair; /* from 1 */
} Parts;

static char *
stitch_words (const PfFilling *filling, const PfGround *ground, const PfCrossing *crossing)
{
  return crossing == NULL ? NULL
                          : pf_words_stitch (ground, filling->stitches[crossing->stitch].id.k);
}

static Parts
parts_of (const PfFilling *filling, const PfGround *ground, guint32 s)
{
  const PfSewing *sewing = &filling->sewings[s];
  Parts p = { .sewing = sewing,
              .place = pf_words_place (sewing),
              .at_pinhole = sewing->pinhole != PF_NONE,
              .pair = sewing->pair + 1 };
  if (sewing->leaving != PF_NONE)
    p.leaving = &filling->crossings[sewing->leaving];
  if (sewing->entering != PF_NONE)
    p.entering = &filling->crossings[sewing->entering];
  p.from = stitch_words (filling, ground, p.leaving);
  p.to = stitch_words (filling, ground, p.entering);
  if (p.leaving != NULL)
    p.on_side =
        pf_words_on_side ((int) filling->stitches[p.leaving->stitch].n_sides, p.leaving->side);
  if (p.entering != NULL)
    p.from_side =
        pf_words_from_side ((int) filling->stitches[p.entering->stitch].n_sides, p.entering->side);
  return p;
}

static void
parts_clear (Parts *p)
{
  g_free (p->from);
  g_free (p->to);
  g_free (p->place);
}

static bool
same_missing_place (const PfGround *ground, const PfCrossing *a, const PfCrossing *b)
{
  return a->has_missing && b->has_missing && a->missing.i == b->missing.i &&
         a->missing.j == b->missing.j &&
         ground->stitches[a->missing.k].place == ground->stitches[b->missing.k].place;
}

static char *
turn_words (const PfFilling *filling, const PfGround *ground, const Parts *p)
{
  if (!same_missing_place (ground, p->leaving, p->entering))
    return p->at_pinhole ? g_strdup_printf (_ ("The pair from %s turns here, sewn into %s."),
                                            p->from, p->place)
                         : g_strdup_printf (_ ("The pair from %s turns here, sewn round %s."),
                                            p->from, p->place);
  g_autofree char *missing = pf_words_missing_first (ground, p->leaving->missing,
                                                     filling->stitches[p->leaving->stitch].id);
  return p->at_pinhole
             ? g_strdup_printf (_ ("%s is missing: the pair from %s turns here, sewn into %s."),
                                missing, p->from, p->place)
             : g_strdup_printf (_ ("%s is missing: the pair from %s turns here, sewn round %s."),
                                missing, p->from, p->place);
}

static char *
new_words (const Parts *p)
{
  return p->at_pinhole ? g_strdup_printf (_ ("New pair %u is sewn into %s, and goes to %s %s."),
                                          p->pair, p->place, p->to, p->from_side)
                       : g_strdup_printf (_ ("New pair %u is sewn in round %s, and goes to %s %s."),
                                          p->pair, p->place, p->to, p->from_side);
}

static char *
finished_words (const Parts *p)
{
  return p->at_pinhole
             ? g_strdup_printf (_ ("Pair %u leaves %s %s and is finished: sewn into %s, tied and "
                                   "cut."),
                                p->pair, p->from, p->on_side, p->place)
             : g_strdup_printf (_ ("Pair %u leaves %s %s and is finished: sewn round %s, tied and "
                                   "cut."),
                                p->pair, p->from, p->on_side, p->place);
}

/* The first sewing of a carried pair, if it leaves there, or the second. */
static char *
carried_words (const PfFilling *filling, const Parts *p)
{
  const PfCrossing *crossing = p->leaving != NULL ? p->leaving : p->entering;
  const PfSewing *sewing = &filling->sewings[filling->crossings[crossing->match].sewing];
  g_autofree char *other = pf_words_place (sewing);
  const double run = p->sewing->run;
  if (p->leaving != NULL)
    return p->at_pinhole ? g_strdup_printf (
                               _ ("Pair %u leaves %s %s, is sewn into %s, and runs %.2f mm along "
                                  "the edge to %s."),
                               p->pair, p->from, p->on_side, p->place, run, other)
                         : g_strdup_printf (
                               _ ("Pair %u leaves %s %s, is sewn round %s, and runs %.2f mm along "
                                  "the edge to %s."),
                               p->pair, p->from, p->on_side, p->place, run, other);
  return p->at_pinhole
             ? g_strdup_printf (_ ("Pair %u comes %.2f mm along the edge from %s, is sewn into %s, "
                                   "and goes to %s %s."),
                                p->pair, run, other, p->place, p->to, p->from_side)
             : g_strdup_printf (
                   _ ("Pair %u comes %.2f mm along the edge from %s, is sewn round %s, "
                      "and goes to %s %s."),
                   p->pair, run, other, p->place, p->to, p->from_side);
}

static char *
first_sentence (const PfFilling *filling, const PfGround *ground, const Parts *p)
{
  switch (p->sewing->kind)
    {
    case PF_PAIR_TURNED:
      return turn_words (filling, ground, p);
    case PF_PAIR_NEW:
      return new_words (p);
    case PF_PAIR_FINISHED:
      return finished_words (p);
    case PF_PAIR_CARRIED:
      return carried_words (filling, p);
    }
  g_assert_not_reached ();
}

char *
pf_words_sewing (const PfFilling *filling, const PfGround *ground, guint32 sewing)
{
  Parts p = parts_of (filling, ground, sewing);
  char *words = first_sentence (filling, ground, &p);
  parts_clear (&p);
  return words;
}

/* Takes over `sentence`. */
static void
add_sentence (GString *text, char *sentence)
{
  if (text->len > 0)
    g_string_append_c (text, ' ');
  g_string_append (text, sentence);
  g_free (sentence);
}

/* Where a turned pair goes on; why another one has no stitch to come from or go to. */
static void
add_reason (GString *text, const PfFilling *filling, const PfGround *ground, const Parts *p)
{
  if (p->sewing->kind == PF_PAIR_TURNED)
    {
      add_sentence (text, g_strdup_printf (_ ("It goes on to %s %s."), p->to, p->from_side));
      return;
    }
  const PfCrossing *crossing = p->leaving != NULL ? p->leaving : p->entering;
  if (!crossing->has_missing)
    {
      add_sentence (text,
                    g_strdup (p->leaving != NULL ? _ ("Its line runs out of the shape here.")
                                                 : _ ("Its line comes back into the shape here.")));
      return;
    }
  g_autofree char *missing =
      pf_words_missing (ground, crossing->missing, filling->stitches[crossing->stitch].id);
  add_sentence (text,
                p->leaving != NULL
                    ? g_strdup_printf (_ ("Its line leads to %s, which is missing."), missing)
                    : g_strdup_printf (_ ("Its line comes from %s, which is missing."), missing));
}

static void
add_choice (GString *text, const Parts *p)
{
  const bool pair =
      (p->leaving != NULL && p->leaving->chosen) || (p->entering != NULL && p->entering->chosen);
  if (pair)
    add_sentence (text, g_strdup (p->sewing->kind == PF_PAIR_TURNED
                                      ? _ ("You chose this turn.")
                                      : _ ("You chose to sew this pair alone.")));
  else if (p->sewing->chosen)
    add_sentence (text, g_strdup (_ ("You chose this place.")));
}

char *
pf_explain_sewing (const PfFilling *filling, const PfGround *ground, guint32 sewing)
{
  g_return_val_if_fail (sewing < filling->n_sewings, NULL);
  Parts p = parts_of (filling, ground, sewing);
  GString *text = g_string_new (NULL);
  add_sentence (text, first_sentence (filling, ground, &p));
  add_reason (text, filling, ground, &p);
  add_choice (text, &p);
  if (p.sewing->off_line)
    add_sentence (text, g_strdup_printf (_ ("The sewing pulls the pair %.1f degrees off its line."),
                                         p.sewing->angle));
  parts_clear (&p);
  return g_string_free (text, FALSE);
}

/* --- Pairs --------------------------------------------------------------------------------------
 */

typedef struct {
  size_t stitches, turns, carries;
} Steps;

static Steps
count_steps (const PfFilling *filling, const PfPair *pair)
{
  Steps steps = { 0, 0, 0 };
  for (size_t n = 0; n < pair->n_steps; n++)
    {
      const PfPathStep step = filling->path_steps[pair->first_step + n];
      if (step.kind == PF_STEP_STITCH)
        {
          steps.stitches++;
          continue;
        }
      const PfSewing *sewing = &filling->sewings[step.index];
      steps.turns += sewing->kind == PF_PAIR_TURNED;
      steps.carries += sewing->kind == PF_PAIR_CARRIED && sewing->leaving != PF_NONE;
    }
  return steps;
}

/* Its first and its last stitch. */
static void
add_ends (GString *text, const PfFilling *filling, const PfGround *ground, const PfPair *pair)
{
  const PfCrossing *in = &filling->crossings[filling->sewings[pair->sewn_in].entering];
  const PfCrossing *out = &filling->crossings[filling->sewings[pair->sewn_out].leaving];
  g_autofree char *first = pf_words_stitch_of (ground, filling->stitches[in->stitch].id);
  g_autofree char *last = pf_words_stitch_of (ground, filling->stitches[out->stitch].id);
  add_sentence (text, g_strdup_printf (_ ("Its first stitch is %s, its last is %s."), first, last));
}

char *
pf_explain_pair (const PfFilling *filling, const PfGround *ground, guint32 pair)
{
  g_return_val_if_fail (pair < filling->n_pairs, NULL);
  const PfPair *p = &filling->pairs[pair];
  const Steps steps = count_steps (filling, p);
  g_autofree char *begins = pf_words_place (&filling->sewings[p->sewn_in]);
  g_autofree char *ends = pf_words_place (&filling->sewings[p->sewn_out]);
  GString *text = g_string_new (NULL);
  add_sentence (
      text, g_strdup_printf (_ ("Pair %u begins at %s and ends at %s."), pair + 1, begins, ends));
  add_ends (text, filling, ground, p);
  add_sentence (text, g_strdup_printf (ngettext ("It works %zu stitch on a way of %.2f mm.",
                                                 "It works %zu stitches on a way of %.2f mm.",
                                                 steps.stitches),
                                       steps.stitches, pf_pair_length (filling, pair)));
  if (steps.turns > 0)
    add_sentence (text, g_strdup_printf (ngettext ("It turns once at the edge.",
                                                   "It turns %zu times at the edge.", steps.turns),
                                         steps.turns));
  if (steps.carries > 0)
    add_sentence (
        text, g_strdup_printf (ngettext ("It is carried once along the edge.",
                                         "It is carried %zu times along the edge.", steps.carries),
                               steps.carries));
  return g_string_free (text, FALSE);
}
