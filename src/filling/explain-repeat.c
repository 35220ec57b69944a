/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Why a repeat is worked as it is, and what becomes of its cut pairs, in words.
 *
 * The maker counts pins: a stitch that closes a pin isn't one of its own. What is missing of a core
 * is told as the state of the middle, pin by pin only what is round it.
 */
#include "repeat-kinds.h"
#include "words.h"

#include <glib/gi18n-lib.h>

/* What stands round the core of a repeat. */
typedef struct {
  int n_pins, pins_inside;
  int n_places, places_inside; /* with stitches that have no pin */
  GString *missing_pins, *missing_stitches;
  int n_missing_pins, n_missing_stitches;
} Round;

static bool
is_worked (const PfFilling *filling, int k, int i, int j)
{
  return pf_filling_find_stitch (filling, (PfStitchId){ k, i, j }) != PF_NONE;
}

/* Is it the stitch that stands for its place: its pin, or the first where there is no pin? */
static bool
stands_for_place (const PfGround *ground, int k)
{
  const PfStitch *stitch = &ground->stitches[k];
  if (stitch->pin)
    return true;
  for (int other = 0; other < ground->n_stitches; other++)
    if (ground->stitches[other].pin && ground->stitches[other].place == stitch->place)
      return false;
  return stitch->place == k;
}

static void
add_name (GString *list, const char *name)
{
  if (list->len > 0)
    /* Translators: between the items of a list, as in “pins 2, 3 are missing”. */
    g_string_append (list, _ (", "));
  g_string_append (list, name);
}

static Round
look_round (const PfFilling *filling, const PfGround *ground, int i, int j)
{
  Round r = { .missing_pins = g_string_new (NULL), .missing_stitches = g_string_new (NULL) };
  for (int k = 0; k < ground->n_stitches; k++)
    {
      const PfStitch *stitch = &ground->stitches[k];
      if (stitch->core || !stands_for_place (ground, k))
        continue;
      const bool inside = is_worked (filling, k, i, j);
      r.n_places++;
      r.places_inside += inside;
      r.n_pins += stitch->pin;
      r.pins_inside += stitch->pin && inside;
      if (inside)
        continue;
      add_name (stitch->pin ? r.missing_pins : r.missing_stitches, stitch->name);
      r.n_missing_pins += stitch->pin;
      r.n_missing_stitches += !stitch->pin;
    }
  return r;
}

static void
round_clear (Round *r)
{
  g_string_free (r->missing_pins, TRUE);
  g_string_free (r->missing_stitches, TRUE);
}

/* "pin 3 is missing", "pins 1, 2 are missing and stitch nw is missing", or NULL. */
static char *
missing_words (const Round *r)
{
  g_autofree char *pins = g_strdup_printf (
      ngettext ("pin %s is missing", "pins %s are missing", (gulong) r->n_missing_pins),
      r->missing_pins->str);
  g_autofree char *stitches = g_strdup_printf (
      ngettext ("stitch %s is missing", "stitches %s are missing", (gulong) r->n_missing_stitches),
      r->missing_stitches->str);
  if (r->n_missing_pins > 0 && r->n_missing_stitches > 0)
    /* Translators: “pin 3 is missing and stitch nw is missing”. */
    return g_strdup_printf (_ ("%s and %s"), pins, stitches);
  if (r->n_missing_pins > 0)
    return g_steal_pointer (&pins);
  return r->n_missing_stitches > 0 ? g_steal_pointer (&stitches) : NULL;
}

static char *
kept_words (const PfRepeat *repeat, const Round *r)
{
  g_autofree char *missing = missing_words (r);
  const int i = repeat->i, j = repeat->j;
  if (missing == NULL)
    return g_strdup_printf (_ ("Repeat (%d, %d) is kept: its middle is worked."), i, j);
  if (repeat->chosen)
    return g_strdup_printf (_ ("Repeat (%d, %d) is kept, as you chose: its middle and %d of its %d "
                               "pins are inside; %s."),
                            i, j, r->pins_inside, r->n_pins, missing);
  return g_strdup_printf (
      _ ("Repeat (%d, %d) is kept: its middle and %d of its %d pins are inside; %s."), i, j,
      r->pins_inside, r->n_pins, missing);
}

/* Why the core of a repeat is dropped. */
static char *
plain_words (const PfRepeat *repeat, const PfGround *ground, const Round *r)
{
  int n_core = 0;
  for (int k = 0; k < ground->n_stitches; k++)
    n_core += ground->stitches[k].core;
  if (repeat->chosen)
    return g_strdup_printf (_ ("Repeat (%d, %d) is plain, as you chose: its middle is dropped."),
                            repeat->i, repeat->j);
  if (repeat->core_inside == 0)
    return g_strdup_printf (_ ("Repeat (%d, %d) is plain: its middle is missing."), repeat->i,
                            repeat->j);
  if (repeat->core_inside < n_core)
    return g_strdup_printf (_ ("Repeat (%d, %d) is plain: part of its middle is missing, so it is "
                               "dropped."),
                            repeat->i, repeat->j);
  if (r->pins_inside < 2)
    return g_strdup_printf (_ ("Repeat (%d, %d) is plain: with fewer than two pins its middle is "
                               "dropped."),
                            repeat->i, repeat->j);
  return g_strdup_printf (_ ("Repeat (%d, %d) is plain, as all partial repeats are: its middle is "
                             "dropped."),
                          repeat->i, repeat->j);
}

/* How much of what is round the core is inside. */
static char *
round_words (const Round *r)
{
  g_autofree char *missing = missing_words (r);
  if (missing == NULL)
    return g_strdup (_ ("All its pins are inside."));
  if (r->n_pins == 0)
    return g_strdup_printf (ngettext ("%d of its %d stitches is inside; %s.",
                                      "%d of its %d stitches are inside; %s.",
                                      (gulong) r->places_inside),
                            r->places_inside, r->n_places, missing);
  return g_strdup_printf (ngettext ("%d of its %d pins is inside; %s.",
                                    "%d of its %d pins are inside; %s.", (gulong) r->pins_inside),
                          r->pins_inside, r->n_pins, missing);
}

/* A repeat that isn't among the partial and left out ones. */
static char *
whole_words (const PfFilling *filling, const PfGround *ground, int i, int j)
{
  for (int k = 0; k < ground->n_stitches; k++)
    if (is_worked (filling, k, i, j))
      return g_strdup_printf (_ ("Repeat (%d, %d) is whole: all its stitches are inside."), i, j);
  return g_strdup_printf (_ ("Repeat (%d, %d) has no stitch inside the shape."), i, j);
}

static char *
state_words (const PfRepeat *repeat, const PfGround *ground, const Round *r)
{
  g_autofree char *state = NULL, *rest = round_words (r);
  switch (repeat->state)
    {
    case PF_REPEAT_KEPT:
      return kept_words (repeat, r);
    case PF_REPEAT_LEFT_OUT:
      return repeat->chosen
                 ? g_strdup_printf (_ ("Repeat (%d, %d) is left out, as you chose."), repeat->i,
                                    repeat->j)
                 : g_strdup_printf (_ ("Repeat (%d, %d) is left out: none of its pins is inside."),
                                    repeat->i, repeat->j);
    case PF_REPEAT_PLAIN:
      state = plain_words (repeat, ground, r);
      break;
    default:
      state = g_strdup_printf (_ ("Repeat (%d, %d) is partial."), repeat->i, repeat->j);
    }
  return g_strdup_printf ("%s %s", state, rest);
}

static int
compare_numbers (gconstpointer a, gconstpointer b)
{
  const guint32 p = *(const guint32 *) a, q = *(const guint32 *) b;
  return (p > q) - (p < q);
}

/* The sewings of the cut lines of a repeat's stitches, each once, in the order of work. */
static GArray *
sewings_of (const PfFilling *filling, const PfGround *ground, int i, int j)
{
  GArray *sewings = g_array_new (FALSE, FALSE, sizeof (guint32));
  for (int k = 0; k < ground->n_stitches; k++)
    for (int end = 0; end < 2 * ground->stitches[k].n_pairs; end++)
      {
        const PfLineId line = { { k, i, j }, (PfSide) (end / 2), end % 2 != 0 };
        const guint32 crossing = pf_filling_find_crossing (filling, line);
        if (crossing != PF_NONE)
          g_array_append_val (sewings, filling->crossings[crossing].sewing);
      }
  g_array_sort (sewings, compare_numbers);
  return sewings;
}

/* What becomes of the middle. */
static const char *
middle_words (const PfFilling *filling, const PfGround *ground, int i, int j)
{
  if (!ground->has_core)
    return NULL;
  switch (pf_filling_repeat_state (filling, i, j))
    {
    case PF_REPEAT_KEPT:
      return _ ("The middle is worked.");
    case PF_REPEAT_PLAIN:
      return _ ("The middle is not worked: pairs pass straight on where it would be, and each pin "
                "gets half stitch, pin, half stitch.");
    default:
      return NULL;
    }
}

char *
pf_explain_difference (const PfFilling *filling, const PfGround *ground, int i, int j)
{
  Round r = look_round (filling, ground, i, j);
  const char *middle = middle_words (filling, ground, i, j);
  g_autoptr (GArray) sewings = sewings_of (filling, ground, i, j);
  const bool all = r.n_missing_pins == 0 && r.n_missing_stitches == 0;
  g_autofree char *rest =
      all && sewings->len > 0
          ? g_strdup (_ ("All its pins are inside, but pairs of it are sewn at the edge."))
          : round_words (&r);
  round_clear (&r);
  return middle != NULL ? g_strdup_printf ("%s %s", rest, middle) : g_steal_pointer (&rest);
}

char *
pf_explain_repeat (const PfFilling *filling, const PfGround *ground, int i, int j)
{
  const PfRepeat *repeat = pf_filling_find_repeat (filling, i, j);
  Round r = look_round (filling, ground, i, j);
  g_autofree char *state =
      repeat != NULL ? state_words (repeat, ground, &r) : whole_words (filling, ground, i, j);
  GString *text = g_string_new (state);
  g_autoptr (GArray) sewings = sewings_of (filling, ground, i, j);
  for (guint s = 0; s < sewings->len; s++)
    {
      const guint32 sewing = g_array_index (sewings, guint32, s);
      if (s > 0 && sewing == g_array_index (sewings, guint32, s - 1))
        continue;
      g_autofree char *words = pf_words_sewing (filling, ground, sewing);
      g_string_append_printf (text, "\n%s", words);
    }
  round_clear (&r);
  return g_string_free (text, FALSE);
}
