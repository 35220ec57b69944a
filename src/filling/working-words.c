/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A working step in words.
 *
 * Each sentence is whole, so that it can be translated as one; only names are put into it.
 */
#include <string.h>

#include <glib/gi18n-lib.h>

#include "words.h"
#include "working-steps.h"

static guint32
place_in (const guint32 *list, size_t n, guint32 wanted)
{
  for (size_t k = 0; k < n; k++)
    if (list[k] == wanted)
      return (guint32) k;
  return PF_NONE;
}

guint32
pf_step_pair_number (const PfStepNames *names, guint32 pair)
{
  if (names->pairs == NULL)
    return pair + 1;
  const guint32 at = place_in (names->pairs, names->n_pairs, pair);
  return at == PF_NONE ? 0 : at + 1;
}

char *
pf_step_sewing_letters (const PfStepNames *names, guint32 sewing)
{
  guint32 at = place_in (names->sewings, names->n_sewings, sewing);
  if (at == PF_NONE)
    return NULL;
  GString *letters = g_string_new (NULL);
  for (at++; at > 0; at = (at - 1) / 26)
    g_string_prepend_c (letters, (char) ('a' + (at - 1) % 26));
  return g_string_free (letters, FALSE);
}

/* "pinhole 12", "the bar between pinholes 3 and 4"; or "the pinhole at a", "the bar at a". */
static char *
place_words (const PfFilling *filling, guint32 s, const PfStepNames *names)
{
  const PfSewing *sewing = &filling->sewings[s];
  if (names->sewings == NULL)
    return pf_words_place (sewing);
  g_autofree char *letters = pf_step_sewing_letters (names, s);
  return sewing->pinhole != PF_NONE
             /* Translators: after “sewn into”, “from”, “to” or “at”; %s is a letter. */
             ? g_strdup_printf (_ ("the pinhole at %s"), letters)
             /* Translators: after “sewn round”, “from”, “to” or “at”; %s is a letter. */
             : g_strdup_printf (_ ("the bar at %s"), letters);
}

/* --- Sewings ------------------------------------------------------------------------------------
 */

typedef struct {
  const PfFilling *filling;
  const PfGround *ground;
  const PfWorkStep *step;
  const PfStepNames *names;
  const PfSewing *sewing;
  char *place;
  guint32 pair; /* as it is called */
} Said;

/* A missing place as seen from a stitch, at the start of a sentence: "Pin 2", "Pin 2 of the repeat
 * below left". */
static char *
missing_from_words (const Said *s, PfStitchId missing, PfStitchId from)
{
  g_autofree char *stitch = pf_words_stitch_first (s->ground, missing.k);
  return pf_words_of_repeat (s->ground, s->filling->placement.mirror, missing.i - from.i,
                             missing.j - from.j, stitch);
}

/* The missing place of the same repeat that a new pair comes as if from, or NULL. */
static char *
missing_origin_words (const Said *s)
{
  const PfCrossing *in = &s->filling->crossings[s->sewing->entering];
  const PfStitchId at = s->filling->stitches[in->stitch].id;
  if (!in->has_missing || in->missing.i != at.i || in->missing.j != at.j)
    return NULL;
  return missing_from_words (s, in->missing, at);
}

static char *
sew_in_words (const Said *s)
{
  g_autofree char *missing = missing_origin_words (s);
  if (missing != NULL)
    return s->sewing->pinhole != PF_NONE
               ? g_strdup_printf (_ ("%s is missing: sew new pair %u into %s, and twist it twice."),
                                  missing, s->pair, s->place)
               : g_strdup_printf (
                     _ ("%s is missing: sew new pair %u in round %s, and twist it twice."), missing,
                     s->pair, s->place);
  return s->sewing->pinhole != PF_NONE
             ? g_strdup_printf (_ ("Sew new pair %u into %s, and twist it twice."), s->pair,
                                s->place)
             : g_strdup_printf (_ ("Sew new pair %u in round %s, and twist it twice."), s->pair,
                                s->place);
}

/* The missing place where a pair turns, or NULL if its two lines lead to different ones. */
static char *
missing_words (const Said *s)
{
  const PfCrossing *out = &s->filling->crossings[s->sewing->leaving];
  const PfCrossing *in = &s->filling->crossings[s->sewing->entering];
  if (!out->has_missing || !in->has_missing || out->missing.i != in->missing.i ||
      out->missing.j != in->missing.j ||
      s->ground->stitches[out->missing.k].place != s->ground->stitches[in->missing.k].place)
    return NULL;
  return missing_from_words (s, out->missing, s->filling->stitches[in->stitch].id);
}

static char *
turn_words (const Said *s)
{
  g_autofree char *missing = missing_words (s);
  const bool at_pinhole = s->sewing->pinhole != PF_NONE;
  if (missing == NULL)
    return at_pinhole
               ? g_strdup_printf (_ ("Twist pair %u once more, sew it into %s, and take it back."),
                                  s->pair, s->place)
               : g_strdup_printf (_ ("Twist pair %u once more, sew it round %s, and take it back."),
                                  s->pair, s->place);
  return at_pinhole ? g_strdup_printf (_ ("%s is missing: twist pair %u once more, sew it into "
                                          "%s, and take it back."),
                                       missing, s->pair, s->place)
                    : g_strdup_printf (_ ("%s is missing: twist pair %u once more, sew it round "
                                          "%s, and take it back."),
                                       missing, s->pair, s->place);
}

static char *
carry_words (const Said *s)
{
  const PfCrossing *out = &s->filling->crossings[s->sewing->leaving];
  g_autofree char *to =
      place_words (s->filling, s->filling->crossings[out->match].sewing, s->names);
  return s->sewing->pinhole != PF_NONE
             ? g_strdup_printf (_ ("Sew pair %u into %s, and lay it along the edge to %s."),
                                s->pair, s->place, to)
             : g_strdup_printf (_ ("Sew pair %u round %s, and lay it along the edge to %s."),
                                s->pair, s->place, to);
}

static char *
carry_in_words (const Said *s)
{
  return s->sewing->pinhole != PF_NONE
             ? g_strdup_printf (_ ("Sew pair %u, which was laid along the edge, into %s, and twist "
                                   "it twice."),
                                s->pair, s->place)
             : g_strdup_printf (_ ("Sew pair %u, which was laid along the edge, round %s, and "
                                   "twist it twice."),
                                s->pair, s->place);
}

static char *
sew_out_words (const Said *s)
{
  return s->sewing->pinhole != PF_NONE
             ? g_strdup_printf (_ ("Sew pair %u into %s, tie it off and cut it."), s->pair,
                                s->place)
             : g_strdup_printf (_ ("Sew pair %u round %s, tie it off and cut it."), s->pair,
                                s->place);
}

static char *
sewing_words (const PfFilling *filling, const PfGround *ground, const PfWorkStep *step,
              const PfStepNames *names)
{
  g_autofree char *place = place_words (filling, step->sewing, names);
  const Said said = {
    filling,
    ground,
    step,
    names,
    &filling->sewings[step->sewing],
    place,
    pf_step_pair_number (names, step->pair),
  };
  switch (step->kind)
    {
    case PF_WORK_SEW_IN:
      return sew_in_words (&said);
    case PF_WORK_TURN:
      return turn_words (&said);
    case PF_WORK_CARRY:
      return carry_words (&said);
    case PF_WORK_CARRY_IN:
      return carry_in_words (&said);
    default:
      return sew_out_words (&said);
    }
}

static char *
twist_words (const PfWorkStep *step, const PfStepNames *names)
{
  const guint32 pair = pf_step_pair_number (names, step->pair);
  if (step->twists == 1)
    return g_strdup_printf (_ ("Twist pair %u once."), pair);
  if (step->twists == 2)
    return g_strdup_printf (_ ("Twist pair %u twice."), pair);
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "Twist pair %u: %u time.",
                                       "Twist pair %u: %u times.", step->twists),
                          pair, (guint) step->twists);
}

/* --- Stitches -----------------------------------------------------------------------------------
 */

/* "pairs 5 and 6", as they lie from the left. */
static char *
pairs_words (const PfFilling *filling, const PfWorkedStitch *stitch, const PfStepNames *names)
{
  const PfWorkedEnd *ends = pf_worked_ends (filling, stitch);
  guint32 n[PF_STITCH_MAX_PAIRS];
  for (unsigned side = 0; side < stitch->n_sides; side++)
    {
      /* Where the ground is mirrored, its own left lies on the right. */
      const unsigned from_left = filling->placement.mirror ? stitch->n_sides - 1 - side : side;
      n[from_left] = pf_step_pair_number (names, ends[side].pair);
    }
  if (stitch->n_sides == 2)
    /* Translators: after “half stitch with” or “pin between”. */
    return g_strdup_printf (_ ("pairs %u and %u"), n[0], n[1]);
  /* Translators: after “cloth stitch with” or “pin between”. */
  return g_strdup_printf (_ ("pairs %u, %u, %u and %u, each as if it were one thread"), n[0], n[1],
                          n[2], n[3]);
}

/* Is the pin that stitch k sets closed by another stitch that is worked in this repeat? In a plain
 * repeat too, as that one then works the second half stitch. */
static bool
is_closed_later (const PfFilling *filling, const PfGround *ground, PfStitchId id)
{
  for (int k = 0; k < ground->n_stitches; k++)
    if (ground->stitches[k].closes == id.k &&
        pf_filling_find_stitch (filling, (PfStitchId){ k, id.i, id.j }) != PF_NONE)
      return true;
  return false;
}

/* A stitch that sets a pin between `before` and `after`, which may be NULL. */
static char *
pin_words (const char *name, const char *before, const char *pairs, const char *after, bool closed,
           bool later)
{
  if (before == NULL && after == NULL)
    return g_strdup_printf (_ ("%s: set the pin between %s."), name, pairs);
  if (before == NULL)
    return g_strdup_printf (_ ("%s: set the pin between %s; %s."), name, pairs, after);
  if (after == NULL)
    return later ? g_strdup_printf (_ ("%s: %s with %s; set the pin, to be closed later."), name,
                                    before, pairs)
                 : g_strdup_printf (_ ("%s: %s with %s; set the pin, which stays open."), name,
                                    before, pairs);
  if (closed)
    return g_strdup_printf (_ ("%s: %s with %s; set the pin, and close it: %s."), name, before,
                            pairs, after);
  return later ? g_strdup_printf (_ ("%s: %s with %s; set the pin, to be closed later; %s."), name,
                                  before, pairs, after)
               : g_strdup_printf (_ ("%s: %s with %s; set the pin, which stays open; %s."), name,
                                  before, pairs, after);
}

static bool
has_bead (const PfFilling *filling, guint32 stitch)
{
  size_t low = 0, high = filling->counts.beads;
  while (low < high)
    {
      const size_t middle = low + (high - low) / 2;
      if (filling->beads[middle] < stitch)
        low = middle + 1;
      else
        high = middle;
    }
  return low < filling->counts.beads && filling->beads[low] == stitch;
}

static char *
work_words (const PfFilling *filling, const PfGround *ground, const PfWorkedStitch *stitch,
            const PfStepNames *names)
{
  const PfStitch *drawn = &ground->stitches[stitch->id.k];
  const char *work = pf_filling_work (filling, ground, stitch);
  const char *end = work + strlen (work), *pin = strchr (work, 'p');
  g_autofree char *pairs = pairs_words (filling, stitch, names);
  g_autofree char *before = pf_work_words (work, pin != NULL ? pin : end);
  g_autofree char *after = pin != NULL ? pf_work_words (pin + 1, end) : NULL;
  if (drawn->closes >= 0 && pin == NULL)
    return g_strdup_printf (_ ("Close pin %s: %s with %s."), ground->stitches[drawn->closes].name,
                            before, pairs);
  g_autofree char *name = pf_words_stitch_first (ground, stitch->id.k);
  if (pin == NULL)
    return g_strdup_printf (_ ("%s: %s with %s."), name, before, pairs);
  return pin_words (name, before, pairs, after, strpbrk (pin, "cl") != NULL,
                    is_closed_later (filling, ground, stitch->id));
}

static char *
stitch_words (const PfFilling *filling, const PfGround *ground, const PfWorkStep *step,
              const PfStepNames *names)
{
  g_autofree char *words = work_words (filling, ground, &filling->stitches[step->stitch], names);
  if (!has_bead (filling, step->stitch))
    return g_steal_pointer (&words);
  /* Translators: what is done at a stitch, and that a bead goes there. */
  return g_strdup_printf (_ ("%s Add the bead here."), words);
}

char *
pf_explain_step (const PfFilling *filling, const PfGround *ground, const PfWorkStep *step,
                 const PfStepNames *names)
{
  switch (step->kind)
    {
    case PF_WORK_STITCH:
      return stitch_words (filling, ground, step, names);
    case PF_WORK_TWIST:
      return twist_words (step, names);
    default:
      return sewing_words (filling, ground, step, names);
    }
}

const char *
pf_explain_pair_numbers (void)
{
  return _ (
      "A pair has its number by where it hangs, whichever bobbins it is made of: of the pairs "
      "that leave a stitch, the left one is called as the one that came from the left, the "
      "right one as the one from the right. Where pairs are named together, the left one "
      "comes first.");
}

char **
pf_explain_sewing_habits (void)
{
  const char *const sentences[] = {
    _ ("To sew a pair in or out: draw one of its threads through the pinhole, or round the bar, as "
       "a loop, pass the other bobbin through the loop, and pull both up evenly."),
    _ ("A pair that is sewn in is twisted twice after. A pair that turns at the edge is twisted "
       "once more before it is sewn, as a sewing tends to lose a twist; the loop itself isn’t "
       "twisted."),
    _ ("A pair that is finished is sewn, tied off and cut once the knot holds."),
    pf_explain_pair_numbers (),
    NULL,
  };
  return g_strdupv ((char **) sentences);
}
