/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ground-facts.h"

#include <glib/gi18n-lib.h>

static int
count_pins (const PfGround *ground)
{
  int pins = 0;
  for (int k = 0; k < ground->n_stitches; k++)
    pins += ground->stitches[k].pin;
  return pins;
}

/* Takes over the parts. */
static char *
joined (char *pairs, char *threads, char *stitches, char *pins)
{
  char *parts[] = { pairs, threads, stitches, pins, NULL };
  char *all = g_strjoinv (", ", parts);
  for (char **part = parts; *part != NULL; part++)
    g_free (*part);
  return all;
}

char *
pf_ground_repeat_words (const PfGround *ground)
{
  const int pairs = pf_ground_pairs (ground), threads = 2 * pairs;
  const int stitches = ground->n_stitches, pins = count_pins (ground);
  return joined (
      g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%d pair", "%d pairs", (gulong) pairs), pairs),
      g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%d thread", "%d threads", (gulong) threads),
                       threads),
      g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%d stitch", "%d stitches", (gulong) stitches),
                       stitches),
      g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%d pin", "%d pins", (gulong) pins), pins));
}

static bool
is_given (const char *text)
{
  return text != NULL && *text != '\0';
}

char *
pf_ground_usual_words (const PfGround *ground, PfUnits units)
{
  const PfUsualGap *usual = &ground->usual;
  if (usual->gap_mm <= 0)
    return NULL;
  g_autofree char *gap = pf_format_fixed_length (usual->gap_mm, 2, units);
  g_autofree char *wraps =
      usual->wraps_per_cm > 0 ? g_strdup_printf (_ ("%g wraps per cm"), usual->wraps_per_cm) : NULL;
  g_autofree char *thread = is_given (usual->thread) && wraps != NULL
                                ? g_strdup_printf ("%s (%s)", usual->thread, wraps)
                                : g_strdup (is_given (usual->thread) ? usual->thread : wraps);
  /* Translators: a length, a thread, and a sentence that names the source. */
  return g_strdup_printf (_ ("%s for %s. %s"), gap, thread, usual->source);
}

char *
pf_ground_bead_words (const PfGround *ground)
{
  g_autoptr (GString) names = g_string_new (NULL);
  for (int k = 0; k < ground->n_stitches; k++)
    if (ground->stitches[k].bead)
      {
        g_string_append (names, names->len > 0 ? ", " : "");
        /* Translators: the name of a stitch. */
        g_string_append_printf (names, _ ("“%s”"), ground->stitches[k].name);
      }
  return names->len == 0
             ? NULL
             : g_strdup_printf (_ ("A bead can sit at %s. Keep beads out of the reach of small "
                                   "children."),
                                names->str);
}

char *
pf_ground_steps_words (const PfGround *ground)
{
  g_auto (GStrv) steps = pf_ground_working (ground);
  g_autoptr (GString) lines = g_string_new (NULL);
  for (int n = 0; steps[n] != NULL; n++)
    g_string_append_printf (lines, "%s%d. %s", n > 0 ? "\n" : "", n + 1, steps[n]);
  return g_string_free (g_steal_pointer (&lines), FALSE);
}

char *
pf_ground_drawing_words (const PfGround *ground)
{
  g_autofree char *repeat = pf_ground_repeat_words (ground);
  return g_strdup_printf (_ ("Drawing of %s: its pins, stitches and pair lines, one repeat on a "
                             "tint with the names of its stitches. In the repeat: %s."),
                          ground->title, repeat);
}

char *
pf_ground_threads_words (const PfGround *ground)
{
  return g_strdup_printf (_ ("%s close up: its threads as they lie over and under each other, "
                             "round the pins."),
                          ground->title);
}
