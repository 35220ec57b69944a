/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Sentences for the pillow.
 */
#include "pillow-tell.h"

#include <glib/gi18n-lib.h>

char *
pf_pillow_tell_step (const PfPillowPlan *plan, size_t place)
{
  const PfStepNames as_on_the_sheet = { 0 };
  if (place == plan->steps->n_steps)
    return g_strdup (_ ("All is done: this motif is filled."));
  if (place > plan->steps->n_steps)
    return g_strdup ("");
  return pf_explain_step (plan->motif->filling, plan->motif->ground, &plan->steps->steps[place],
                          &as_on_the_sheet);
}

char *
pf_pillow_tell_place (const PfPillowPlan *plan, size_t place)
{
  const PfWorkingSteps *steps = plan->steps;
  if (place >= steps->n_steps)
    return g_strdup_printf (
        g_dngettext (GETTEXT_PACKAGE, "%zu step is done", "All %zu steps are done", steps->n_steps),
        steps->n_steps);
  const PfWorkGroup *group = pf_pillow_group (plan, place);
  if (group->sews_in)
    return g_strdup_printf (_ ("Step %zu of %zu – all new pairs are sewn in first"), place + 1,
                            steps->n_steps);
  return g_strdup_printf (_ ("Step %zu of %zu – repeat %u of %zu (row %u of %zu)"), place + 1,
                          steps->n_steps, group->repeat + 1, steps->n_repeats, group->row + 1,
                          steps->n_rows);
}

char *
pf_pillow_tell_pairs (const PfPillowPlan *plan, size_t place)
{
  size_t n;
  g_autofree char *pairs = pf_pillow_pairs (plan, place, &n);
  if (n == 0)
    return g_strdup (_ ("No pair is on the pillow now."));
  /* Translators: %s is a list of numbers: “1–4, 7”. */
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "On the pillow now: %zu pair (%s)",
                                       "On the pillow now: %zu pairs (%s)", n),
                          n, pairs);
}

/* Takes over `part`; nothing is said of what there is none of. */
static void
add_part (GString *parts, size_t n, char *part)
{
  if (n > 0)
    g_string_append_printf (parts, parts->len > 0 ? ", %s" : "%s", part);
  g_free (part);
}

char *
pf_pillow_tell_left (const PfPillowPlan *plan, size_t place)
{
  const PfPillowLeft left = pf_pillow_left (plan, place);
  g_autoptr (GString) parts = g_string_new (NULL);
  if (left.steps == 0)
    return g_strdup (_ ("Nothing is left to do."));
  add_part (parts, left.steps,
            g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%zu step", "%zu steps", left.steps),
                             left.steps));
  add_part (
      parts, left.stitches,
      g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%zu stitch", "%zu stitches", left.stitches),
                       left.stitches));
  add_part (
      parts, left.sewings,
      g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%zu sewing", "%zu sewings", left.sewings),
                       left.sewings));
  add_part (parts, left.new_pairs,
            g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%zu pair still to sew in",
                                          "%zu pairs still to sew in", left.new_pairs),
                             left.new_pairs));
  /* Translators: %s is a list: “12 steps, 9 stitches, 3 sewings, 1 pair still to sew in”. */
  return g_strdup_printf (_ ("Left to do: %s"), parts->str);
}

char *
pf_pillow_tell_note (PfEditor *editor, const PfPillowPlan *plan, size_t place)
{
  const char *note = pf_pillow_note (editor, plan, place);
  return note != NULL ? g_strdup_printf (_ ("Your note: %s"), note) : NULL;
}

char *
pf_pillow_tell_trouble (PfEditor *editor)
{
  const int active = pf_editor_active (editor);
  if (active < 0)
    return g_strdup (_ ("There is no motif yet. Draw one, or import it, in the step “Outline”."));
  const char *trouble = pf_editor_trouble (editor, (size_t) active, NULL);
  if (trouble != NULL)
    return g_strdup_printf (_ ("This motif can’t be worked out: %s"), trouble);
  const PfMotif *motif = pf_editor_motif (editor, (size_t) active);
  if (motif == NULL)
    return g_strdup (_ ("The motif is being worked out…"));
  if (motif->filling == NULL)
    return g_strdup (_ ("This motif has no ground yet. Choose one in the step “Ground”."));
  if (motif->filling->n_stitches == 0)
    return g_strdup (_ ("No stitch of the ground fits into this motif. Choose a smaller gap, or "
                        "move the ground, in the step “Ground”."));
  return NULL;
}
