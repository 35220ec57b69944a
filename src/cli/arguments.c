/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Arguments: what can't be read as what it should be is wrong use, said in one line.
 */
#include "commands.h"

#include <stdio.h>
#include <string.h>

#include <glib/gi18n.h>

void
pf_say_error (const char *format, ...)
{
  va_list arguments;
  va_start (arguments, format);
  g_autofree char *line = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  g_strdelimit (line, "\n\r", ' ');
  g_printerr ("pinfold-cli: %s\n", line);
}

bool
pf_parse_options (GOptionContext *context, int argc, char **argv)
{
  g_autoptr (GError) error = NULL;
  g_auto (GStrv) arguments = g_new0 (char *, argc + 1);
  for (int a = 0; a < argc; a++)
    arguments[a] = g_strdup (argv[a]);
  if (!g_option_context_parse_strv (context, &arguments, &error))
    {
      pf_say_error (_ ("%s. Try “pinfold-cli %s --help”."), error->message, argv[0]);
      return false;
    }
  if (g_strv_length (arguments) > 1)
    {
      pf_say_error (_ ("“%s” isn’t an option. Try “pinfold-cli %s --help”."), arguments[1],
                    argv[0]);
      return false;
    }
  return true;
}

bool
pf_parse_number (const char *option, const char *argument, double *value)
{
  if (argument == NULL)
    return true;
  char *end;
  *value = g_ascii_strtod (argument, &end);
  if (end != argument && *end == '\0')
    return true;
  pf_say_error (_ ("%s takes a number, such as 4 or 4.5 (with a point), not “%s”."), option,
                argument);
  return false;
}

bool
pf_parse_point (const char *option, const char *argument, PfPoint *point)
{
  if (argument == NULL)
    return true;
  char *end;
  point->x = g_ascii_strtod (argument, &end);
  if (end != argument && *end == ',')
    {
      const char *second = end + 1;
      point->y = g_ascii_strtod (second, &end);
      if (end != second && *end == '\0')
        return true;
    }
  pf_say_error (_ ("%s takes two numbers as X,Y, not “%s”."), option, argument);
  return false;
}

bool
pf_parse_box (const char *option, const char *argument, PfBox *box)
{
  if (argument == NULL)
    return true;
  double numbers[4];
  const char *at = argument;
  for (int n = 0; n < 4; n++)
    {
      char *end;
      numbers[n] = g_ascii_strtod (at, &end);
      if (end == at || *end != (n < 3 ? ',' : '\0'))
        {
          pf_say_error (_ ("%s takes four numbers as X,Y,W,H, not “%s”."), option, argument);
          return false;
        }
      at = end + 1;
    }
  box->min = (PfPoint){ numbers[0], numbers[1] };
  box->max = (PfPoint){ numbers[0] + numbers[2], numbers[1] + numbers[3] };
  return true;
}

bool
pf_parse_choice (const char *option, const char *argument, const char *const *words, int *choice)
{
  if (argument == NULL)
    return true;
  for (int w = 0; words[w] != NULL; w++)
    if (strcmp (words[w], argument) == 0)
      {
        *choice = w;
        return true;
      }
  g_autofree char *list = g_strjoinv (", ", (char **) words);
  pf_say_error (_ ("%s takes one of %s, not “%s”."), option, list, argument);
  return false;
}

bool
pf_check_ending (const char *option, const char *filename, const char *const *endings)
{
  for (int e = 0; endings[e] != NULL; e++)
    if (pf_file_ends_in (filename, endings[e]))
      return true;
  g_autofree char *list = g_strjoinv (", ", (char **) endings);
  pf_say_error (_ ("%s writes a file that ends in %s, not “%s”."), option, list, filename);
  return false;
}
