/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The working steps as plain text: motif by motif, repeat by repeat, each step a line.
 */
#include <string.h>

#include <glib/gi18n-lib.h>

#include <repeat-kinds.h>
#include <sheet.h>

static void
append_group (GString *text, const PfMotif *motif, const PfWorkingSteps *steps,
              const PfWorkGroup *group)
{
  const PfStepNames as_on_the_sheet = { 0 };
  if (group->sews_in)
    g_string_append_printf (text, "\n%s\n", _ ("Before the first stitch"));
  else
    {
      g_string_append_c (text, '\n');
      g_string_append_printf (text, _ ("Repeat %u, at (%d, %d), row %u"), group->repeat + 1,
                              group->i, group->j, group->row + 1);
      g_string_append_c (text, '\n');
    }
  for (size_t n = 0; n < group->n_steps; n++)
    {
      g_autofree char *words = pf_explain_step (
          motif->filling, motif->ground, &steps->steps[group->first_step + n], &as_on_the_sheet);
      g_string_append_printf (text, "%5zu. %s\n", group->first_step + n + 1, words);
    }
}

char *
pf_steps_text (const PfPricking *pricking)
{
  GString *text = g_string_new (NULL);
  g_autofree char *title = pricking->title && *pricking->title
                               ? g_strdup_printf (_ ("Working steps: %s"), pricking->title)
                               : g_strdup (_ ("Working steps"));
  g_string_append_printf (text, "%s\n", title);
  g_auto (GStrv) habits = pf_explain_sewing_habits ();
  for (char **sentence = habits; *sentence != NULL; sentence++)
    g_string_append_printf (text, "\n%s\n", *sentence);
  for (guint m = 0; m < pricking->motifs->len; m++)
    {
      const PfMotif *motif = g_ptr_array_index (pricking->motifs, m);
      g_autoptr (PfWorkingSteps) steps = pf_working_steps_new (motif->filling, motif->ground);
      g_autofree char *heading = g_strdup_printf (_ ("Motif “%s”"), motif->name);
      g_string_append_printf (text, "\n%s\n", heading);
      for (glong n = g_utf8_strlen (heading, -1); n > 0; n--)
        g_string_append_c (text, '-');
      g_string_append_c (text, '\n');
      for (size_t g = 0; g < steps->n_groups; g++)
        append_group (text, motif, steps, &steps->groups[g]);
    }
  return g_string_free (text, FALSE);
}

bool
pf_steps_save (const PfPricking *pricking, const char *filename, GError **error)
{
  g_autofree char *text = pf_steps_text (pricking);
  return pf_file_save (filename, text, strlen (text), error);
}
