/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "thread.h"

#include <math.h>
#include <string.h>

#include <glib/gi18n-lib.h>

#define SPARE_USUAL 300.0 /* mm */

PfThreadUse
pf_thread_use_default (void)
{
  return (PfThreadUse){ .name = g_strdup (""), .spare = SPARE_USUAL, .rule = PF_FIT_USUAL };
}

PfThreadUse
pf_thread_use_copy (const PfThreadUse *use)
{
  PfThreadUse copy = *use;
  copy.name = g_strdup (use->name);
  copy.colours = g_memdup2 (use->colours, use->n_colours * sizeof *use->colours);
  return copy;
}

void
pf_thread_use_clear (PfThreadUse *use)
{
  g_clear_pointer (&use->name, g_free);
  g_clear_pointer (&use->colours, g_free);
  use->n_colours = 0;
}

/* NaN is outside every range. */
static bool
refuse_range (const char *what, double value, double min, double max, GError **error)
{
  if (value >= min && value <= max)
    return false;
  g_set_error (error, PF_ERROR, PF_ERROR_SETTING, _ ("The %s is %g; choose a value from %g to %g."),
               what, value, min, max);
  return true;
}

static bool
is_colour (const char *text)
{
  return text[0] == '#' && strspn (text + 1, "0123456789abcdef") == 6 && text[7] == '\0';
}

bool
pf_thread_use_check (const PfThreadUse *use, GError **error)
{
  if ((use->wraps_per_cm != 0 &&
       refuse_range (_ ("number of wraps per cm"), use->wraps_per_cm, 1, 200, error)) ||
      refuse_range (_ ("thread to spare at a bobbin (mm)"), use->spare, 0, 10000, error) ||
      refuse_range (_ ("least number of wraps from pin to pin"), use->rule.from, 1, 100, error) ||
      refuse_range (_ ("largest number of wraps from pin to pin"), use->rule.to, use->rule.from,
                    100, error))
    return false;
  for (size_t c = 0; c < use->n_colours; c++)
    if (!is_colour (use->colours[c].colour))
      {
        g_set_error (
            error, PF_ERROR, PF_ERROR_SETTING,
            _ ("A colour is written “%s”; write it as # and six digits or letters a to f."),
            use->colours[c].colour);
        return false;
      }
  return true;
}

static bool
is_same_line (PfLineId a, PfLineId b)
{
  return a.stitch.k == b.stitch.k && a.stitch.i == b.stitch.i && a.stitch.j == b.stitch.j &&
         a.side == b.side && a.leaves == b.leaves;
}

/* Takes `bobbins` out of all that is said of the line. */
static void
take_away (PfThreadUse *use, PfLineId line, PfBobbins bobbins)
{
  size_t kept = 0;
  for (size_t c = 0; c < use->n_colours; c++)
    {
      PfThreadColour colour = use->colours[c];
      if (is_same_line (colour.line, line))
        colour.bobbins &= ~bobbins;
      if (colour.bobbins != 0)
        use->colours[kept++] = colour;
    }
  use->n_colours = kept;
}

void
pf_thread_use_set_colour (PfThreadUse *use, PfLineId line, PfBobbins bobbins, const char *colour)
{
  take_away (use, line, bobbins);
  if (colour == NULL)
    return;
  use->colours = g_renew (PfThreadColour, use->colours, use->n_colours + 1);
  PfThreadColour *added = &use->colours[use->n_colours++];
  *added = (PfThreadColour){ .line = line, .bobbins = bobbins };
  g_strlcpy (added->colour, colour, sizeof added->colour);
}

const char **
pf_thread_colours (const PfThreadUse *use, const PfFilling *filling, size_t *n_unused)
{
  const char **colours = g_new0 (const char *, 2 * filling->n_pairs + 1);
  size_t unused = 0;
  for (size_t c = 0; c < use->n_colours; c++)
    {
      const PfThreadColour *colour = &use->colours[c];
      const guint32 crossing = pf_filling_find_crossing (filling, colour->line);
      if (crossing == PF_NONE || filling->crossings[crossing].kind != PF_PAIR_NEW)
        {
          unused++;
          continue;
        }
      const guint32 pair = filling->crossings[crossing].pair;
      for (guint32 bobbin = 0; bobbin < 2; bobbin++)
        if (colour->bobbins & (bobbin == 0 ? PF_BOBBIN_LEFT : PF_BOBBIN_RIGHT))
          colours[2 * pair + bobbin] = colour->colour;
    }
  if (n_unused != NULL)
    *n_unused = unused;
  return colours;
}
