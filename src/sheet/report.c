/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Names that all reports share, and saving by the ending of the file's name.
 */
#include "report.h"
#include "report-parts.h"

#include <string.h>

#include <glib/gi18n-lib.h>

const char *
pf_pair_kind_name (PfPairKind kind)
{
  static const char *const names[] = { "new", "turned", "carried", "finished" };
  return names[kind];
}

/* The number (from 1) of the last pinhole at or before a distance along the loop. */
static size_t
pinhole_before (const PfEdge *edge, double along)
{
  size_t n = 0;
  while (n < edge->n_pinholes && edge->pinholes[n] <= along)
    n++;
  return n > 0 ? n : edge->n_pinholes;
}

char *
pf_sewing_place_name (const PfMotif *motif, const PfSewing *sewing)
{
  const PfEdge *edge = &motif->edges[sewing->place.loop];
  g_autofree char *hole =
      sewing->place.loop == 0 ? g_strdup ("") : g_strdup_printf ("hole %zu ", sewing->place.loop);
  if (sewing->pinhole != PF_NONE)
    return g_strdup_printf ("%spinhole %u", hole, sewing->pinhole + 1);
  const size_t before = pinhole_before (edge, sewing->place.along);
  return g_strdup_printf ("%sbar %zu-%zu", hole, before,
                          edge->n_pinholes > 0 ? before % edge->n_pinholes + 1 : 0);
}

static void
append_stitch (GString *text, const PfMotif *motif, guint32 crossing, const char *joiner)
{
  if (crossing == PF_NONE)
    return;
  const PfFilling *filling = motif->filling;
  const PfStitchId id = filling->stitches[filling->crossings[crossing].stitch].id;
  g_string_append_printf (text, "%s%s (%d, %d)", text->len > 0 ? joiner : "",
                          motif->ground->stitches[id.k].name, id.i, id.j);
}

char *
pf_sewing_stitch_name (const PfMotif *motif, const PfSewing *sewing, const char *joiner)
{
  GString *text = g_string_new (NULL);
  append_stitch (text, motif, sewing->leaving, joiner);
  append_stitch (text, motif, sewing->entering, joiner);
  return g_string_free (text, FALSE);
}

static bool
is_heeded (const PfFilling *filling, size_t choice)
{
  for (size_t u = 0; u < filling->n_unheeded; u++)
    if (!filling->unheeded[u].of_sewing && filling->unheeded[u].index == choice)
      return false;
  return true;
}

bool
pf_repeat_is_chosen (const PfMotif *motif, const PfRepeat *repeat)
{
  const PfFillingSettings *s = &motif->settings;
  for (size_t c = 0; c < s->n_choices; c++)
    if (s->choices[c].i == repeat->i && s->choices[c].j == repeat->j &&
        s->choices[c].state == repeat->state && is_heeded (motif->filling, c))
      return true;
  return false;
}

bool
pf_report_is_small (const PfPricking *pricking)
{
  return pf_pricking_counts (pricking).stitches < 2000;
}

char *
pf_report_html (const PfPricking *pricking)
{
  g_autoptr (PfReportParts) parts = pf_report_parts_new (pricking);
  return pf_report_parts_html (parts);
}

static bool
save_pdf (const PfPricking *pricking, const PfPaper *paper, gint64 created, const char *filename,
          GError **error)
{
  g_autoptr (PfReportParts) parts = pf_report_parts_new (pricking);
  g_autoptr (GByteArray) pdf = pf_report_parts_pdf (parts, paper, created, error);
  return pdf && pf_file_save (filename, (const char *) pdf->data, pdf->len, error);
}

static bool
save_ods (const PfPricking *pricking, gint64 created, const char *filename, GError **error)
{
  g_autoptr (PfReportParts) parts = pf_report_parts_new (pricking);
  g_autoptr (GByteArray) ods =
      pf_report_parts_ods (parts, pricking->motifs->len > 1, created, error);
  return ods && pf_file_save (filename, (const char *) ods->data, ods->len, error);
}

bool
pf_report_save_on (const PfPricking *pricking, const PfPaper *paper, gint64 created,
                   const char *filename, GError **error)
{
  static const struct {
    const char *ending;
    char *(*write) (const PfPricking *);
  } formats[] = {
    { ".html", pf_report_html }, { ".txt", pf_report_text },
    { ".json", pf_report_json }, { "-winding.csv", pf_report_winding_csv },
    { ".csv", pf_report_csv },
  };
  if (pf_file_ends_in (filename, ".pdf"))
    return save_pdf (pricking, paper, created, filename, error);
  if (pf_file_ends_in (filename, ".ods"))
    return save_ods (pricking, created, filename, error);
  for (size_t f = 0; f < G_N_ELEMENTS (formats); f++)
    if (pf_file_ends_in (filename, formats[f].ending))
      {
        g_autofree char *text = formats[f].write (pricking);
        return pf_file_save (filename, text, strlen (text), error);
      }
  g_set_error (error, PF_ERROR, PF_ERROR_SETTING,
               _ ("The report “%s” doesn’t end in .pdf, .html, .ods, .txt, .json or .csv: choose "
                  "one of these."),
               filename);
  return false;
}

bool
pf_report_save (const PfPricking *pricking, const char *filename, GError **error)
{
  return pf_report_save_on (pricking, pf_paper_find ("A4", NULL),
                            g_get_real_time () / G_USEC_PER_SEC, filename, error);
}
