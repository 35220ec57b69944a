/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report-thread.h"

#include <glib/gi18n-lib.h>

#include <thread-lengths.h>

bool
pf_thread_needs (PfThreadNeeds *needs, const PfMotif *motif)
{
  if (motif->thread.wraps_per_cm <= 0 || motif->filling == NULL)
    return false;
  g_autoptr (PfThreads) threads = pf_threads_new (motif->filling, motif->ground);
  const PfThreadSizes sizes = { pf_thread_thickness (motif->thread.wraps_per_cm), PF_PIN_USUAL };
  *needs = (PfThreadNeeds){ .bobbins = g_new (double, threads->n_threads + 1) };
  for (guint32 t = 0; t < threads->n_threads; t++)
    {
      needs->bobbins[t] =
          pf_thread_length (threads, motif->filling, motif->ground, t, sizes) + motif->thread.spare;
      needs->total += needs->bobbins[t];
    }
  return true;
}

void
pf_thread_needs_clear (PfThreadNeeds *needs)
{
  g_clear_pointer (&needs->bobbins, g_free);
}

const char *
pf_fit_name (PfFit fit)
{
  static const char *const names[] = { "unknown", "open", "fits", "close" };
  return names[fit];
}

char *
pf_report_thread_words (const PfThreadUse *use)
{
  const double thickness = pf_thread_thickness (use->wraps_per_cm);
  return *use->name != '\0' ? g_strdup_printf (_ ("%s: %g wraps per cm, %.2f mm thick\n"),
                                               use->name, use->wraps_per_cm, thickness)
                            : g_strdup_printf (_ ("%g wraps per cm, %.2f mm thick\n"),
                                               use->wraps_per_cm, thickness);
}

static void
append_bobbins (GString *text, const PfMotif *motif, const PfThreadNeeds *needs)
{
  g_autofree const char **colours = pf_thread_colours (&motif->thread, motif->filling, NULL);
  g_string_append_printf (
      text,
      _ ("On each bobbin, mm, with %g mm to spare for hitching and handling (left and right as the "
         "pair is sewn in):\n"),
      motif->thread.spare);
  for (size_t p = 0; p < motif->filling->n_pairs; p++)
    {
      const char *left = colours[2 * p], *right = colours[2 * p + 1];
      g_string_append_printf (text, "  %5zu  %7.0f  %7.0f", p + 1, needs->bobbins[2 * p],
                              needs->bobbins[2 * p + 1]);
      if (left != NULL || right != NULL)
        g_string_append_printf (text, "  %s  %s", left != NULL ? left : "–",
                                right != NULL ? right : "–");
      g_string_append_c (text, '\n');
    }
}

/* At which size the piece is redrawn for threads of the table that are thicker or thinner. */
static void
append_scales (GString *text, double wraps_per_cm)
{
  size_t n;
  const PfThreadKind *kinds = pf_thread_table (&n);
  g_string_append (text, _ ("For a thread of another thickness, redraw the piece at 100 · these "
                            "wraps per cm / its own:\n"));
  for (size_t k = 0; k < n; k++)
    if (k == 0 || kinds[k].wraps_per_cm != kinds[k - 1].wraps_per_cm)
      g_string_append_printf (text, _ ("  %g wraps per cm: %.0f %%\n"), kinds[k].wraps_per_cm,
                              pf_fit_scale (wraps_per_cm, kinds[k].wraps_per_cm));
}

void
pf_report_append_thread (GString *text, const PfMotif *motif)
{
  PfThreadNeeds needs;
  if (!pf_thread_needs (&needs, motif))
    return;
  const PfThreadUse *use = &motif->thread;
  g_autofree char *fit =
      pf_explain_fit (motif->ground, motif->filling->placement, use->wraps_per_cm, use->rule);
  g_string_append_printf (text, "\n%s\n", _ ("Thread"));
  g_autofree char *thread = pf_report_thread_words (use);
  g_string_append (text, thread);
  g_string_append_printf (text, "%s\n", fit);
  append_scales (text, use->wraps_per_cm);
  append_bobbins (text, motif, &needs);
  g_string_append_printf (text, _ ("All bobbins together: %.1f m\n"), needs.total / 1000);
  pf_thread_needs_clear (&needs);
}

void
pf_report_append_thread_total (GString *text, const PfPricking *pricking)
{
  double total = 0;
  for (guint m = 0; m < pricking->motifs->len; m++)
    {
      PfThreadNeeds needs;
      if (!pf_thread_needs (&needs, g_ptr_array_index (pricking->motifs, m)))
        continue;
      total += needs.total;
      pf_thread_needs_clear (&needs);
    }
  if (total > 0)
    g_string_append_printf (text, _ ("  Thread for all bobbins together: %.1f m\n"), total / 1000);
}
