/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * How a repeat is worked, in sentences made from its stitches: each of them in the order of the
 * working times, with the pairs it takes and the stitches by their names in the craft.
 */
#include <string.h>

#include <glib/gi18n-lib.h>

#include "drawing.h"

/* --- The names of stitches ---------------------------------------------------------------------
 */

/* How often `part` follows itself from `work` on, up to `end`, with nothing else. 0 if not so. */
static size_t
times_over (const char *work, const char *end, const char *part)
{
  const size_t n = strlen (part), length = (size_t) (end - work);
  if (length == 0 || length % n != 0)
    return 0;
  for (const char *p = work; p < end; p += n)
    if (strncmp (p, part, n) != 0)
      return 0;
  return length / n;
}

/* Crosses and twists that have a name of their own; else NULL. */
static char *
named (const char *work, const char *end)
{
  static const struct {
    const char *work, *name;
  } names[] = {
    { "ct", N_ ("half stitch") },
    { "ctc", N_ ("cloth stitch") },
    { "ctct", N_ ("double stitch (cloth stitch and twist)") },
    { "ctt", N_ ("half stitch and twist") },
    { "cttt", N_ ("half stitch and two twists") },
    { "cttc", N_ ("turning stitch") },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (names); i++)
    if (times_over (work, end, names[i].work) == 1)
      return g_strdup (_ (names[i].name));
  const size_t halves = times_over (work, end, "ct");
  if (halves < 3)
    return NULL;
  return g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE, "%zu half stitch", "%zu half stitches", halves), halves);
}

static char *
twists (size_t n)
{
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%zu twist", "%zu twists", n), n);
}

/* A run of crosses and twists: the longest start with a name after which only twists are left, else
 * its letters. */
static void
add_crosses (GPtrArray *names, const char *work, const char *end)
{
  const char *rest = end;
  char *name = named (work, rest);
  while (name == NULL && rest > work + 1 && rest[-1] == 't')
    name = named (work, --rest);
  if (name == NULL)
    {
      g_ptr_array_add (names, g_strndup (work, (size_t) (end - work)));
      return;
    }
  g_ptr_array_add (names, name);
  if (rest < end)
    g_ptr_array_add (names, twists ((size_t) (end - rest)));
}

char *
pf_work_words (const char *work, const char *end)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);
  while (work < end)
    {
      const char *next = work;
      if (*work == 't')
        {
          while (next < end && *next == 't')
            next++;
          g_ptr_array_add (names, twists ((size_t) (next - work)));
        }
      else if (*work == 'l')
        {
          next++;
          g_ptr_array_add (names, g_strdup (_ ("leadwork")));
        }
      else
        {
          while (next < end && (*next == 'c' || *next == 't'))
            next++;
          add_crosses (names, work, next);
        }
      work = next;
    }
  if (names->len == 0)
    return NULL;
  g_ptr_array_add (names, NULL);
  return g_strjoinv (", ", (char **) names->pdata);
}

/* --- Where the pairs come from -----------------------------------------------------------------
 */

char *
pf_words_of_repeat (const PfGround *ground, bool mirrored, int da, int db, const char *names)
{
  if (da == 0 && db == 0)
    return g_strdup (names);
  const double x = (mirrored ? -1 : 1) * (da * ground->a.x + db * ground->b.x);
  const double y = da * ground->a.y + db * ground->b.y;
  if (y > PF_GROUND_TOUCH && x < -PF_GROUND_TOUCH)
    return g_strdup_printf (_ ("%s of the repeat below left"), names);
  if (y > PF_GROUND_TOUCH && x > PF_GROUND_TOUCH)
    return g_strdup_printf (_ ("%s of the repeat below right"), names);
  if (y > PF_GROUND_TOUCH)
    return g_strdup_printf (_ ("%s of the repeat below"), names);
  if (y > -PF_GROUND_TOUCH)
    return g_strdup_printf (
        x < 0 ? _ ("%s of the repeat on the left") : _ ("%s of the repeat on the right"), names);
  if (x < -PF_GROUND_TOUCH)
    return g_strdup_printf (_ ("%s of the repeat above left"), names);
  if (x > PF_GROUND_TOUCH)
    return g_strdup_printf (_ ("%s of the repeat above right"), names);
  return g_strdup_printf (_ ("%s of the repeat above"), names);
}

/* `names`, which line e comes from, as seen from the stitch that it reaches. */
static char *
origin (const PfGround *ground, int e, const char *names)
{
  return pf_words_of_repeat (ground, false, -ground->lines[e].da, -ground->lines[e].db, names);
}

static const char *
from_name (const PfGround *ground, int e)
{
  return ground->stitches[ground->lines[e].from.stitch].name;
}

/* "the pairs from 1 and 4" */
static char *
two_pairs_words (const PfGround *ground, const int *entries)
{
  const int left = entries[PF_LEFT], right = entries[PF_RIGHT];
  const PfPairLine *l = &ground->lines[left], *r = &ground->lines[right];
  g_autofree char *from_left = origin (ground, left, from_name (ground, left));
  g_autofree char *from_right = origin (ground, right, from_name (ground, right));
  const bool same_repeat = l->da == r->da && l->db == r->db;
  if (same_repeat && l->from.stitch == r->from.stitch)
    /* Translators: after “half stitch with” or “pin between”. */
    return g_strdup_printf (_ ("the two pairs from %s"), from_left);
  const char *one = same_repeat ? from_name (ground, left) : from_left;
  const char *other = same_repeat ? from_name (ground, right) : from_right;
  /* Translators: two stitches, “1 and 4”, or “1 of the repeat above left and 4”. */
  g_autofree char *names = g_strdup_printf (_ ("%s and %s"), one, other);
  g_autofree char *from = same_repeat ? origin (ground, left, names) : g_strdup (names);
  /* Translators: after “half stitch with” or “pin between”. */
  return g_strdup_printf (_ ("the pairs from %s"), from);
}

/* The same of four pairs, which come two by two. */
static char *
pairs_words (const PfGround *ground, int k)
{
  g_autofree char *left = two_pairs_words (ground, ground->entries[k]);
  if (ground->stitches[k].n_pairs == 2)
    return g_steal_pointer (&left);
  g_autofree char *right = two_pairs_words (ground, &ground->entries[k][PF_THIRD]);
  /* Translators: “the two pairs from 1 and the two pairs from 4”, after “cloth stitch with”. */
  return g_strdup_printf (_ ("%s and %s, each pair as if it were one thread"), left, right);
}

/* --- Steps -------------------------------------------------------------------------------------
 */

/* Two pair lines from one stitch to one other, with as many twists. */
static bool
are_alike (const PfPairLine *l, const PfPairLine *m)
{
  return l->from.stitch == m->from.stitch && l->da == m->da && l->db == m->db &&
         l->twists == m->twists;
}

static char *
twist_step (const PfGround *ground, int e, bool both)
{
  const PfPairLine *line = &ground->lines[e];
  const int n = line->twists;
  const char *to = ground->stitches[line->to.stitch].name;
  g_autofree char *from = origin (ground, e, from_name (ground, e));
  if (n == 1)
    return both ? g_strdup_printf (_ ("Twist both pairs that go from %s to %s."), from, to)
                : g_strdup_printf (_ ("Twist the pair that goes from %s to %s."), from, to);
  return both ? g_strdup_printf (
                    g_dngettext (GETTEXT_PACKAGE, "Twist %d time both pairs that go from %s to %s.",
                                 "Twist %d times both pairs that go from %s to %s.", (gulong) n),
                    n, from, to)
              : g_strdup_printf (
                    g_dngettext (GETTEXT_PACKAGE, "Twist %d time the pair that goes from %s to %s.",
                                 "Twist %d times the pair that goes from %s to %s.", (gulong) n),
                    n, from, to);
}

/* Pairs that are twisted on their way to stitch k. */
static void
add_twists (GPtrArray *steps, const PfGround *ground, int k)
{
  const int *entries = ground->entries[k];
  for (int side = 0; side < ground->stitches[k].n_pairs; side++)
    {
      const PfPairLine *line = &ground->lines[entries[side]];
      if (line->twists == 0)
        continue;
      const bool both = side % 2 == 0 && are_alike (line, &ground->lines[entries[side + 1]]);
      g_ptr_array_add (steps, twist_step (ground, entries[side], both));
      side += both;
    }
}

static bool
is_closed_later (const PfGround *ground, int k)
{
  for (int other = 0; other < ground->n_stitches; other++)
    if (ground->stitches[other].closes == k)
      return true;
  return false;
}

/* The step of a stitch whose pin is set after `before`; `after` follows it, or is NULL. */
static char *
pin_step (const PfGround *ground, int k, const char *before, const char *pairs, const char *after)
{
  const char *name = ground->stitches[k].name;
  const bool closed = strpbrk (strchr (ground->stitches[k].work, 'p'), "cl") != NULL;
  if (after == NULL)
    return is_closed_later (ground, k)
               ? g_strdup_printf (_ ("Stitch %s: %s with %s; pin, to be closed later."), name,
                                  before, pairs)
               : g_strdup_printf (_ ("Stitch %s: %s with %s; pin, which stays open."), name, before,
                                  pairs);
  if (closed || is_closed_later (ground, k))
    return g_strdup_printf (_ ("Stitch %s: %s with %s; pin; %s."), name, before, pairs, after);
  return g_strdup_printf (_ ("Stitch %s: %s with %s; pin, which stays open; %s."), name, before,
                          pairs, after);
}

static char *
stitch_step (const PfGround *ground, int k)
{
  const PfStitch *stitch = &ground->stitches[k];
  const char *end = stitch->work + strlen (stitch->work);
  const char *pin = strchr (stitch->work, 'p');
  g_autofree char *pairs = pairs_words (ground, k);
  g_autofree char *before = pf_work_words (stitch->work, pin ? pin : end);
  g_autofree char *after = pin ? pf_work_words (pin + 1, end) : NULL;
  if (pin && before)
    return pin_step (ground, k, before, pairs, after);
  if (pin)
    return g_strdup_printf (_ ("Stitch %s: pin between %s; %s."), stitch->name, pairs, after);
  if (stitch->closes >= 0)
    return g_strdup_printf (_ ("Stitch %s: %s with %s, to close the pin of %s."), stitch->name,
                            before, pairs, ground->stitches[stitch->closes].name);
  return g_strdup_printf (_ ("Stitch %s: %s with %s."), stitch->name, before, pairs);
}

static bool
is_worked_before (const PfStitch *s, const PfStitch *t)
{
  if (s->time != t->time)
    return s->time < t->time;
  return s->at.x < t->at.x || (s->at.x == t->at.x && s < t);
}

char **
pf_ground_working (const PfGround *ground)
{
  g_autofree int *order = g_new (int, ground->n_stitches);
  for (int n = 0; n < ground->n_stitches; n++)
    {
      int at = n;
      for (; at > 0 && is_worked_before (&ground->stitches[n], &ground->stitches[order[at - 1]]);
           at--)
        order[at] = order[at - 1];
      order[at] = n;
    }
  GPtrArray *steps = g_ptr_array_new ();
  for (int n = 0; n < ground->n_stitches; n++)
    {
      add_twists (steps, ground, order[n]);
      g_ptr_array_add (steps, stitch_step (ground, order[n]));
    }
  g_ptr_array_add (steps, NULL);
  return (char **) g_ptr_array_free (steps, FALSE);
}
