/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Documents as wholes: made, shared, copied. A document that others see never changes; a copy has
 * its own texts and arrays, and shares the drafts in them.
 */
#include <string.h>

#include <glib/gi18n-lib.h>

#include "document-private.h"

PfUnderlay *
pf_underlay_copy (const PfUnderlay *underlay)
{
  PfUnderlay *copy = underlay ? g_memdup2 (underlay, sizeof *underlay) : NULL;
  if (copy)
    copy->file = g_strdup (underlay->file);
  return copy;
}

void
pf_underlay_free (PfUnderlay *underlay)
{
  if (!underlay)
    return;
  g_free (underlay->file);
  g_free (underlay);
}

PfPolyline *
pf_polyline_new (const PfPoint *points, size_t n, bool closed)
{
  PfPolyline *polyline = g_new (PfPolyline, 1);
  *polyline = (PfPolyline){ g_memdup2 (points, n * sizeof *points), n, closed };
  return polyline;
}

void
pf_polyline_free (PfPolyline *polyline)
{
  g_free (polyline->points);
  g_free (polyline);
}

GPtrArray *
pf_polylines_new (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify) pf_polyline_free);
}

const char *const *
pf_book_part_names (void)
{
  static const char *const names[] = {
    "pricking", "notes", "worksheet", "answers", "report", NULL
  };
  return names;
}

PfDocument *
pf_document_new (void)
{
  const PfPaper *a4 = pf_paper_find ("A4", NULL);
  PfDocument *document = g_new0 (PfDocument, 1);
  document->refs = 1;
  document->title = g_strdup ("");
  document->notes = g_strdup ("");
  document->width = a4->width;
  document->height = a4->height;
  document->page = (PfPageSetup){
    .paper = a4, .enlarge = 1, .background = true, .copies = 1, .parts = PF_BOOK_PRICKING
  };
  document->background = pf_polylines_new ();
  return document;
}

PfDocument *
pf_document_ref (PfDocument *document)
{
  g_atomic_int_inc (&document->refs);
  return document;
}

void
pf_document_unref (PfDocument *document)
{
  if (!document || !g_atomic_int_dec_and_test (&document->refs))
    return;
  for (size_t n = 0; n < document->n_drafts; n++)
    pf_draft_unref (document->drafts[n]);
  g_free (document->drafts);
  g_ptr_array_unref (document->background);
  pf_underlay_free (document->underlay);
  g_free (document->title);
  g_free (document->notes);
  g_free (document);
}

PfDocument *
pf_document_copy (const PfDocument *document)
{
  PfDocument *copy = g_memdup2 (document, sizeof *document);
  copy->refs = 1;
  copy->title = g_strdup (document->title);
  copy->notes = g_strdup (document->notes);
  copy->drafts = g_memdup2 (document->drafts, document->n_drafts * sizeof *document->drafts);
  for (size_t n = 0; n < copy->n_drafts; n++)
    pf_draft_ref (copy->drafts[n]);
  g_ptr_array_ref (copy->background);
  copy->underlay = pf_underlay_copy (document->underlay);
  return copy;
}

int
pf_document_find (const PfDocument *document, const char *id)
{
  for (size_t n = 0; n < document->n_drafts; n++)
    if (g_strcmp0 (document->drafts[n]->id, id) == 0)
      return (int) n;
  return -1;
}
