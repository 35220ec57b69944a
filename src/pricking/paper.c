/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The papers that sheets are laid out for.
 */
#include "pricking.h"

#include <glib/gi18n-lib.h>

/* A3 and A4: ISO 216. Letter: ANSI/ASME Y14.1, size A (8.5 by 11 in). */
static const PfPaper papers[] = {
  { "A4", 210, 297 },
  { "A3", 297, 420 },
  { "Letter", 215.9, 279.4 },
};

const PfPaper *
pf_paper_find (const char *name, GError **error)
{
  for (size_t i = 0; i < G_N_ELEMENTS (papers); i++)
    if (g_ascii_strcasecmp (papers[i].name, name) == 0)
      return &papers[i];
  g_set_error (error, PF_ERROR, PF_ERROR_SETTING,
               _ ("There is no paper called “%s” here. Choose A4, A3 or Letter."), name);
  return NULL;
}

const PfPaper *
pf_papers (size_t *n)
{
  *n = G_N_ELEMENTS (papers);
  return papers;
}
