/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * pinfold-cli grounds: lists the grounds that come with the program, proves them, draws one.
 */
#include "commands.h"

#include <glib/gi18n.h>

static void
print_padded (const char *text, int width)
{
  const int shown = (int) g_utf8_strlen (text, -1);
  g_print ("%s%*s", text, MAX (width - shown, 0) + 2, "");
}

static void
print_headings (bool check)
{
  print_padded (_ ("Name"), 21);
  print_padded (_ ("Ground"), 38);
  print_padded (_ ("Stitches"), 8);
  print_padded (_ ("Pins"), 4);
  g_print ("%s\n", check ? _ ("Checks") : _ ("Family"));
}

static void
print_ground (const PfGround *ground, bool check)
{
  int pins = 0;
  for (int k = 0; k < ground->n_stitches; k++)
    pins += ground->stitches[k].pin;
  print_padded (ground->name, 21);
  print_padded (ground->title, 38);
  g_print ("%8d  %4d  %s\n", ground->n_stitches, pins, check ? _ ("passed") : ground->family);
}

/* Loading a ground proves it: a file that fails a check isn't a ground. */
static int
list_grounds (char **names, bool check)
{
  int status = PF_EXIT_DONE;
  g_auto (GStrv) all = names == NULL ? pf_ground_names () : g_strdupv (names);
  print_headings (check);
  for (char **name = all; *name != NULL; name++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (PfGround) ground = pf_ground_load (*name, &error);
      if (ground != NULL)
        {
          print_ground (ground, check);
          continue;
        }
      pf_say_error ("%s", error->message);
      status = PF_EXIT_BAD_INPUT;
    }
  if (check && status == PF_EXIT_DONE)
    g_print (_ ("Checked: two pairs in and two out at each stitch; working times; the order of "
                "pairs round each stitch; no pair "
                "lines cross except at a stitch; nearest pins 1 to 2 units apart.\n"));
  return status;
}

static int
draw_ground (const char *name, const char *filename)
{
  static const char *const endings[] = { ".svg", ".pdf", ".png", NULL };
  if (!pf_check_ending ("--draw", filename, endings))
    return PF_EXIT_WRONG_USE;
  g_autoptr (GError) error = NULL;
  g_autoptr (PfGround) ground = pf_ground_load (name, &error);
  if (ground == NULL || !pf_ground_drawing_save (ground, filename, &error))
    {
      pf_say_error ("%s", error->message);
      return PF_EXIT_BAD_INPUT;
    }
  g_print (_ ("%s: %s\n"), ground->title, filename);
  return PF_EXIT_DONE;
}

int
pf_grounds_command (int argc, char **argv)
{
  gboolean check = FALSE;
  g_autofree char *draw = NULL;
  g_auto (GStrv) names = NULL;
  const GOptionEntry entries[] = {
    { "check", 0, 0, G_OPTION_ARG_NONE, &check, N_ ("Prove them"), NULL },
    { "draw", 0, 0, G_OPTION_ARG_FILENAME, &draw, N_ ("Draw one: .svg, .pdf or .png"),
      N_ ("FILE") },
    { G_OPTION_REMAINING, 0, 0, G_OPTION_ARG_STRING_ARRAY, &names, NULL, N_ ("[NAME…]") },
    G_OPTION_ENTRY_NULL,
  };
  g_autoptr (GOptionContext) context = g_option_context_new (NULL);
  g_option_context_add_main_entries (context, entries, GETTEXT_PACKAGE);
  g_option_context_set_summary (
      context,
      _ ("Lists the grounds that come with Pinfold, or those named (a .json file is one, too)."));
  g_option_context_set_description (context, _ ("Examples:\n"
                                                "  pinfold-cli grounds --check\n"
                                                "  pinfold-cli grounds --draw rose.svg rose\n"));
  if (!pf_parse_options (context, argc, argv))
    return PF_EXIT_WRONG_USE;
  if (draw == NULL)
    return list_grounds (names, check);
  if (names != NULL && g_strv_length (names) == 1)
    return draw_ground (names[0], draw);
  pf_say_error (_ ("--draw needs the name of one ground. Try “pinfold-cli grounds --help”."));
  return PF_EXIT_WRONG_USE;
}
