/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * pinfold-cli: the whole job without a window.
 */
#include "commands.h"

#include <locale.h>
#include <string.h>

#include <glib/gi18n.h>

static void
print_help (void)
{
  g_print ("%s", _ ("Usage: pinfold-cli COMMAND [OPTION…]\n"
                    "\n"
                    "Fills the motifs of a bobbin lace with a ground, and shows where every pair "
                    "comes from and goes.\n"
                    "\n"
                    "Commands:\n"
                    "  fill      an outline in, an annotated pricking and a pair-count report out\n"
                    "  grounds   list the grounds, prove them, draw one\n"
                    "  threads   list threads and their thickness\n"
                    "\n"
                    "  --help      show this, or with a command, its options\n"
                    "  --version   show the version\n"
                    "\n"
                    "Examples:\n"
                    "  pinfold-cli fill --outline leaf.svg --ground torchon --gap 4 --sheet "
                    "leaf.pdf --report leaf.txt\n"
                    "  pinfold-cli grounds --draw armure.png armure\n"
                    "\n"
                    "Exit status: 0 done, 1 bad input, 2 wrong use.\n"));
}

int
main (int argc, char **argv)
{
  setlocale (LC_ALL, "");
  setlocale (LC_NUMERIC, "C"); /* numbers in files and on sheets are the same everywhere */
  bindtextdomain (GETTEXT_PACKAGE, PF_LOCALE_DIR);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
  g_set_prgname ("pinfold-cli");

  const char *command = argc > 1 ? argv[1] : NULL;
  if (command != NULL && command[0] != '-')
    {
      g_autofree char *name = g_strconcat ("pinfold-cli ", command, NULL); /* for its usage line */
      g_set_prgname (name);
    }
  if (command != NULL && strcmp (command, "fill") == 0)
    return pf_fill_command (argc - 1, argv + 1);
  if (command != NULL && strcmp (command, "grounds") == 0)
    return pf_grounds_command (argc - 1, argv + 1);
  if (command != NULL && strcmp (command, "threads") == 0)
    return pf_threads_command (argc - 1, argv + 1);
  if (command != NULL && strcmp (command, "--version") == 0)
    {
      g_print ("pinfold-cli %s\n", PF_VERSION);
      return PF_EXIT_DONE;
    }
  if (command != NULL && (strcmp (command, "--help") == 0 || strcmp (command, "-h") == 0))
    {
      print_help ();
      return PF_EXIT_DONE;
    }
  if (command == NULL)
    pf_say_error (_ ("A command is missing. Try “pinfold-cli --help”."));
  else
    pf_say_error (_ ("“%s” isn’t a command. Try “pinfold-cli --help”."), command);
  return PF_EXIT_WRONG_USE;
}
