/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * left-work FOLDER DOCUMENT...
 * Says where the first motif's ground lies, in every piece of work left behind in the folder and in
 * every document: a line "journal X Y NAME" or "document X Y NAME" each. What can't be read is told
 * as "unreadable NAME: why", and the exit status is 1.
 */
#include <stdio.h>
#include <stdlib.h>

#include <pricking.h>

#include "document.h"

static bool
tell (const char *kind, const char *name, PfDocument *document, const GError *error)
{
  if (document == NULL || document->n_drafts == 0)
    {
      printf ("unreadable %s: %s\n", name, error != NULL ? error->message : "it has no motif");
      return false;
    }
  const PfPoint origin = document->drafts[0]->settings.placement.origin;
  printf ("%s %.6f %.6f %s\n", kind, origin.x, origin.y, name);
  return true;
}

static bool
tell_journals (const char *folder)
{
  bool good = true;
  g_autoptr (GPtrArray) list = pf_journal_list (folder);
  for (guint l = 0; l < list->len; l++)
    {
      const PfLeftWork *left = g_ptr_array_index (list, l);
      g_autoptr (GError) error = NULL;
      g_autoptr (PfDocument) document = pf_journal_load (left, &error);
      good &= tell ("journal", left->journal, document, error);
    }
  return good;
}

int
main (int argc, char **argv)
{
  if (argc < 2)
    {
      fputs ("usage: left-work FOLDER DOCUMENT...\n", stderr);
      return 2;
    }
  bool good = tell_journals (argv[1]);
  for (int a = 2; a < argc; a++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (PfDocument) document = pf_document_load (argv[a], &error);
      good &= tell ("document", argv[a], document, error);
    }
  return good ? EXIT_SUCCESS : EXIT_FAILURE;
}
