/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What can be said of each stitch by itself: its numbers are finite, it joins two pairs or four,
 * its work is a word in c, t, p and l. All later checks rely on this one.
 */
#include <math.h>
#include <string.h>

#include <glib/gi18n-lib.h>

#include "drawing.h"
#include "moves.h"

/* The longest word of the shipped grounds has eight letters. */
#define MAX_WORD PF_WORD_MAX
/* Repeat vectors at a smaller angle (as a sine) are taken to lie on one line. */
#define MIN_SINE 1e-6
#define MIN_VECTOR 1e-3

static bool
in_range (PfPoint p)
{
  return fabs (p.x) <= PF_GROUND_LIMIT && fabs (p.y) <= PF_GROUND_LIMIT;
}

static bool
check_vectors (const PfGround *ground, GError **error)
{
  const PfPoint a = ground->a, b = ground->b;
  if (!in_range (a) || !in_range (b))
    {
      g_set_error (error, PF_ERROR, PF_ERROR_GROUND,
                   _ ("A repeat vector is too long: write numbers from -%g to %g."),
                   PF_GROUND_LIMIT, PF_GROUND_LIMIT);
      return false;
    }
  const double la = hypot (a.x, a.y), lb = hypot (b.x, b.y);
  if (la < MIN_VECTOR || lb < MIN_VECTOR || fabs (pf_cross (a, b)) < MIN_SINE * la * lb)
    {
      g_set_error_literal (
          error, PF_ERROR, PF_ERROR_GROUND,
          _ ("The repeat vectors a and b lie on one line, so the repeats can't fill "
             "an area: give them different directions."));
      return false;
    }
  return true;
}

static bool
check_word (const PfStitch *stitch, GError **error)
{
  const char *work = stitch->work ? stitch->work : "";
  const size_t n = strlen (work);
  const char *pin = strchr (work, 'p');
  const char *problem = NULL;
  if (n > MAX_WORD)
    problem = _ ("That is too long: split the stitch.");
  else if (strspn (work, "ctpl") < n)
    problem = _ ("Only c (cross), t (twist), p (pin) and l (leadwork) can stand there.");
  else if (stitch->n_pairs != 2 && strchr (work, 'l'))
    problem = _ ("A leadwork (l) is made with two pairs.");
  else if (pin && strchr (pin + 1, 'p'))
    problem = _ ("It sets a pin twice: take one p out.");
  else if (!strpbrk (work, "ctl"))
    problem = _ ("It moves no thread: add its crosses and twists.");
  if (problem)
    {
      g_set_error (error, PF_ERROR, PF_ERROR_GROUND, _ ("The work of stitch “%s” is “%s”. %s"),
                   stitch->name, n > MAX_WORD ? "…" : work, problem);
      return false;
    }
  return true;
}

static bool
check_n_pairs (const PfStitch *stitch, GError **error)
{
  if (stitch->n_pairs == 2 || stitch->n_pairs == 4)
    return true;
  g_set_error (error, PF_ERROR, PF_ERROR_GROUND,
               _ ("Stitch “%s” joins %d pairs. Only two pairs can meet in a stitch, or four."),
               stitch->name, stitch->n_pairs);
  return false;
}

static bool
check_closing (const PfGround *ground, int k, GError **error)
{
  const PfStitch *stitch = &ground->stitches[k];
  if (stitch->closes < 0)
    return true;
  g_return_val_if_fail (stitch->closes < ground->n_stitches, false);
  const PfStitch *setting = &ground->stitches[stitch->closes];
  if (stitch->pin || !setting->pin)
    {
      g_set_error (
          error, PF_ERROR, PF_ERROR_GROUND,
          _ ("Stitch “%s” closes the pin of “%s”: then “%s” must set a pin, and “%s” must not."),
          stitch->name, setting->name, setting->name, stitch->name);
      return false;
    }
  const PfPoint apart = pf_minus (stitch->at, setting->at);
  if (hypot (apart.x, apart.y) > PF_GROUND_TOUCH)
    {
      g_set_error (
          error, PF_ERROR, PF_ERROR_GROUND,
          _ ("Stitch “%s” closes the pin of “%s”, so both must stand at the same position."),
          stitch->name, setting->name);
      return false;
    }
  for (int l = 0; l < k; l++)
    if (ground->stitches[l].closes == stitch->closes)
      {
        g_set_error (
            error, PF_ERROR, PF_ERROR_GROUND,
            _ ("Stitches “%s” and “%s” both close the pin of “%s”: take one “closes” out."),
            ground->stitches[l].name, stitch->name, setting->name);
        return false;
      }
  return true;
}

bool
pf_ground_check_words (PfGround *ground, GError **error)
{
  if (ground->n_stitches < 1 || ground->n_stitches > PF_GROUND_MAX_STITCHES)
    {
      g_set_error (error, PF_ERROR, PF_ERROR_GROUND,
                   _ ("A ground has 1 to %d stitches in its repeat, this one has %d."),
                   PF_GROUND_MAX_STITCHES, ground->n_stitches);
      return false;
    }
  if (!check_vectors (ground, error))
    return false;
  ground->has_pins = ground->has_core = false;
  for (int k = 0; k < ground->n_stitches; k++)
    {
      PfStitch *stitch = &ground->stitches[k];
      if (!in_range (stitch->at))
        {
          g_set_error (error, PF_ERROR, PF_ERROR_GROUND,
                       _ ("Stitch “%s” stands too far away: write numbers from -%g to %g."),
                       stitch->name, PF_GROUND_LIMIT, PF_GROUND_LIMIT);
          return false;
        }
      if (!check_n_pairs (stitch, error) || !check_word (stitch, error))
        return false;
      stitch->pin = strchr (stitch->work, 'p') != NULL;
      stitch->closed = false;
      ground->has_pins |= stitch->pin;
      ground->has_core |= stitch->core;
    }
  for (int k = 0; k < ground->n_stitches; k++)
    {
      if (!check_closing (ground, k, error))
        return false;
      if (ground->stitches[k].closes >= 0)
        ground->stitches[ground->stitches[k].closes].closed = true;
    }
  return true;
}
