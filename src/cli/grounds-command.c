/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * pinfold-cli grounds: lists the grounds that come with the program, tells all of some, proves
 * them, draws one.
 */
#include "commands.h"

#include <glib/gi18n.h>

/* Columns of the list. */
#define NAME_WIDTH 25
#define TITLE_WIDTH 40

static void
print_padded (const char *text, int width)
{
  const int shown = (int) g_utf8_strlen (text, -1);
  g_print ("%s%*s", text, MAX (width - shown, 0) + 2, "");
}

/* A column of numbers is as wide as its heading, whose length differs between languages. */
static int
number_width (const char *heading)
{
  return MAX ((int) g_utf8_strlen (heading, -1), 4);
}

static void
print_headings (void)
{
  print_padded (_ ("Name"), NAME_WIDTH);
  print_padded (_ ("Ground"), TITLE_WIDTH);
  print_padded (_ ("Stitches"), number_width (_ ("Stitches")));
  print_padded (_ ("Pins"), number_width (_ ("Pins")));
  g_print ("%s\n", _ ("Family"));
}

static int
count_pins (const PfGround *ground)
{
  int pins = 0;
  for (int k = 0; k < ground->n_stitches; k++)
    pins += ground->stitches[k].pin;
  return pins;
}

static void
print_ground (const PfGround *ground)
{
  print_padded (ground->name, NAME_WIDTH);
  print_padded (ground->title, TITLE_WIDTH);
  g_print ("%*d  %*d  %s\n", number_width (_ ("Stitches")), ground->n_stitches,
           number_width (_ ("Pins")), count_pins (ground), ground->family);
}

static int
list_grounds (void)
{
  int status = PF_EXIT_DONE;
  g_auto (GStrv) all = pf_ground_names ();
  print_headings ();
  for (char **name = all; *name != NULL; name++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (PfGround) ground = pf_ground_load (*name, &error);
      if (ground != NULL)
        {
          print_ground (ground);
          continue;
        }
      pf_say_error ("%s", error->message);
      status = PF_EXIT_BAD_INPUT;
    }
  return status;
}

/* --- The page of one ground ---------------------------------------------------------------------
 */

static void
print_usual (const PfUsualGap *usual)
{
  g_autofree char *wraps =
      usual->wraps_per_cm > 0 ? g_strdup_printf (_ ("%g wraps per cm"), usual->wraps_per_cm) : NULL;
  const bool has_thread = usual->thread != NULL && *usual->thread != '\0';
  g_autofree char *thread = has_thread && wraps != NULL
                                ? g_strdup_printf ("%s (%s)", usual->thread, wraps)
                                : g_strdup (has_thread ? usual->thread : wraps);
  g_print (_ ("Usual gap: %g mm for %s. %s\n"), usual->gap_mm, thread, usual->source);
}

static void
print_page (const PfGround *ground)
{
  g_print ("%s\n\n", ground->title);
  g_print (_ ("Name: %s\n"), ground->name);
  if (ground->also_called != NULL && ground->also_called[0] != NULL)
    {
      g_autofree char *names = g_strjoinv (", ", ground->also_called);
      g_print (_ ("Also called: %s\n"), names);
    }
  g_print (_ ("Family: %s\n"), ground->family);
  if (ground->used_for != NULL && *ground->used_for != '\0')
    g_print (_ ("Used for: %s\n"), ground->used_for);
  g_print (_ ("Source: %s\n"), ground->source);
  if (ground->usual.gap_mm > 0)
    print_usual (&ground->usual);
  const int pairs = pf_ground_pairs (ground);
  g_print (_ ("In one repeat: stitches %d, pins %d, pairs %d, threads %d\n"), ground->n_stitches,
           count_pins (ground), pairs, 2 * pairs);
  if (ground->notes != NULL && *ground->notes != '\0')
    g_print ("\n%s\n", ground->notes);
  g_print ("\n%s\n", _ ("Working one repeat"));
  g_auto (GStrv) steps = pf_ground_working (ground);
  for (int n = 0; steps[n] != NULL; n++)
    g_print ("%4d. %s\n", n + 1, steps[n]);
}

static int
print_pages (char **names)
{
  int status = PF_EXIT_DONE;
  for (char **name = names; *name != NULL; name++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (PfGround) ground = pf_ground_load (*name, &error);
      if (ground == NULL)
        {
          pf_say_error ("%s", error->message);
          status = PF_EXIT_BAD_INPUT;
          continue;
        }
      if (name > names)
        g_print ("\n\n");
      print_page (ground);
    }
  return status;
}

static int
check_grounds (char **names)
{
  g_auto (GStrv) all = names == NULL ? pf_ground_names () : g_strdupv (names);
  return pf_check_grounds (all);
}

typedef bool (*SaveFunc) (const PfGround *ground, const char *filename, GError **error);

/* Saves one picture of one ground, if exactly one is named. */
static int
draw_ground (const char *option, char **names, const char *filename, SaveFunc save)
{
  static const char *const endings[] = { ".svg", ".pdf", ".png", NULL };
  if (names == NULL || g_strv_length (names) != 1)
    {
      pf_say_error (_ ("%s needs the name of one ground. Try “pinfold-cli grounds --help”."),
                    option);
      return PF_EXIT_WRONG_USE;
    }
  if (!pf_check_ending (option, filename, endings))
    return PF_EXIT_WRONG_USE;
  g_autoptr (GError) error = NULL;
  g_autoptr (PfGround) ground = pf_ground_load (names[0], &error);
  if (ground == NULL || !save (ground, filename, &error))
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
  g_autofree char *draw = NULL, *close_up = NULL;
  g_auto (GStrv) names = NULL;
  const GOptionEntry entries[] = {
    { "check", 0, 0, G_OPTION_ARG_NONE, &check, N_ ("Prove them"), NULL },
    { "draw", 0, 0, G_OPTION_ARG_FILENAME, &draw, N_ ("Draw one: .svg, .pdf or .png"),
      N_ ("FILE") },
    { "close-up", 0, 0, G_OPTION_ARG_FILENAME, &close_up,
      N_ ("Draw the threads of one as they lie: .svg, .pdf or .png"), N_ ("FILE") },
    { G_OPTION_REMAINING, 0, 0, G_OPTION_ARG_STRING_ARRAY, &names, NULL, N_ ("[NAME…]") },
    G_OPTION_ENTRY_NULL,
  };
  g_autoptr (GOptionContext) context = g_option_context_new (NULL);
  g_option_context_add_main_entries (context, entries, GETTEXT_PACKAGE);
  g_option_context_set_summary (
      context,
      _ ("Lists the grounds that come with Pinfold; of those named (a .json file is one, too) it "
         "prints all that is known, with their working step by step."));
  g_option_context_set_description (context,
                                    _ ("Examples:\n"
                                       "  pinfold-cli grounds rose\n"
                                       "  pinfold-cli grounds --check\n"
                                       "  pinfold-cli grounds --draw rose.svg rose\n"
                                       "  pinfold-cli grounds --close-up rose.pdf rose\n"));
  if (!pf_parse_options (context, argc, argv))
    return PF_EXIT_WRONG_USE;
  if (draw == NULL && close_up == NULL)
    return check ? check_grounds (names) : names == NULL ? list_grounds () : print_pages (names);
  int status = PF_EXIT_DONE;
  if (draw != NULL)
    status = draw_ground ("--draw", names, draw, pf_ground_drawing_save);
  if (close_up != NULL && status == PF_EXIT_DONE)
    status = draw_ground ("--close-up", names, close_up, pf_ground_close_up_save);
  return status;
}
