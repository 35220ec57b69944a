/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * pinfold-cli threads: the table of threads, and at which size a pattern is redrawn for each.
 */
#include "commands.h"

#include <glib/gi18n.h>

enum { NAME_WIDTH = 24 };

static void
print_thread (const PfThreadKind *kind, double instead_of)
{
  const int width = (int) g_utf8_strlen (kind->name, -1);
  g_print ("%s%*s%5g", kind->name, MAX (NAME_WIDTH - width, 1), "", kind->wraps_per_cm);
  if (instead_of > 0)
    g_print ("  %6.1f %%", pf_fit_scale (instead_of, kind->wraps_per_cm));
  g_print ("  %s\n", kind->sure);
}

static void
print_sources (const PfThreadKind *kinds, size_t n)
{
  g_print ("\n");
  for (size_t k = 0; k < n; k++)
    {
      bool known = false;
      for (size_t before = 0; before < k; before++)
        known = known || g_str_equal (kinds[before].source, kinds[k].source);
      if (!known)
        g_print ("%s\n", kinds[k].source);
    }
}

int
pf_threads_command (int argc, char **argv)
{
  g_autofree char *instead_of = NULL;
  g_auto (GStrv) rest = NULL;
  const GOptionEntry entries[] = {
    { "instead-of", 0, 0, G_OPTION_ARG_STRING, &instead_of,
      N_ ("Wraps per cm of the thread that a pattern was drawn for: says at which size it is "
          "redrawn "
          "for each of these"),
      N_ ("N") },
    { G_OPTION_REMAINING, 0, 0, G_OPTION_ARG_STRING_ARRAY, &rest, NULL, NULL },
    G_OPTION_ENTRY_NULL,
  };
  g_autoptr (GOptionContext) context = g_option_context_new (NULL);
  g_option_context_add_main_entries (context, entries, GETTEXT_PACKAGE);
  g_option_context_set_summary (
      context, _ ("Lists threads with their thickness: how many turns of them lie side by side on "
                  "1 cm. For one that isn’t here, wind it round a ruler and count."));
  g_option_context_set_description (context,
                                    _ ("Example:\n  pinfold-cli threads --instead-of 27\n"));
  if (!pf_parse_options (context, argc, argv))
    return PF_EXIT_WRONG_USE;
  if (rest != NULL)
    {
      pf_say_error (_ ("“%s” is too much. Try “pinfold-cli threads --help”."), rest[0]);
      return PF_EXIT_WRONG_USE;
    }
  double wraps = 0;
  if (!pf_parse_number ("--instead-of", instead_of, &wraps))
    return PF_EXIT_WRONG_USE;
  if (instead_of != NULL && !(wraps >= 1 && wraps <= 200))
    {
      pf_say_error (_ ("--instead-of takes 1 to 200 wraps per cm, not %s."), instead_of);
      return PF_EXIT_BAD_INPUT;
    }
  size_t n;
  const PfThreadKind *kinds = pf_thread_table (&n);
  for (size_t k = 0; k < n; k++)
    print_thread (&kinds[k], wraps);
  print_sources (kinds, n);
  return PF_EXIT_DONE;
}
