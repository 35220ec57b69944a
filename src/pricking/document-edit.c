/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Edits of a document's list of motifs. Each copies the list alone; ids are given here and stay.
 */
#include <string.h>

#include <glib/gi18n-lib.h>

#include "document-private.h"

guint64
pf_document_next_number (const PfDocument *document)
{
  guint64 next = 1;
  for (size_t n = 0; n < document->n_drafts; n++)
    {
      const char *id = document->drafts[n]->id;
      guint64 number;
      if (id[0] == 'm' && g_ascii_string_to_unsigned (id + 1, 10, 0, G_MAXUINT32, &number, NULL))
        next = MAX (next, number + 1);
    }
  return next;
}

void
pf_document_append (PfDocument *document, PfDraft *draft, guint64 number)
{
  g_free (draft->id);
  draft->id = g_strdup_printf ("m%" G_GUINT64_FORMAT, number);
  document->drafts = g_renew (PfDraft *, document->drafts, document->n_drafts + 1);
  document->drafts[document->n_drafts++] = draft;
}

PfDocument *
pf_document_with_draft (const PfDocument *document, size_t n, PfDraft *draft)
{
  g_return_val_if_fail (n < document->n_drafts, NULL);
  PfDocument *copy = pf_document_copy (document);
  if (g_strcmp0 (draft->id, copy->drafts[n]->id) != 0)
    {
      g_free (draft->id);
      draft->id = g_strdup (copy->drafts[n]->id);
    }
  pf_draft_unref (copy->drafts[n]);
  copy->drafts[n] = draft;
  return copy;
}

PfDocument *
pf_document_with_draft_added (const PfDocument *document, PfDraft *draft)
{
  PfDocument *copy = pf_document_copy (document);
  pf_document_append (copy, draft, pf_document_next_number (document));
  return copy;
}

PfDocument *
pf_document_without_draft (const PfDocument *document, size_t n)
{
  g_return_val_if_fail (n < document->n_drafts, NULL);
  PfDocument *copy = pf_document_copy (document);
  for (size_t k = 0; k < document->n_drafts; k++)
    if (k != n && g_strcmp0 (document->drafts[k]->mirror_of, document->drafts[n]->id) == 0)
      {
        pf_draft_unref (copy->drafts[k]);
        copy->drafts[k] = pf_document_resolve (document, k);
      }
  pf_draft_unref (copy->drafts[n]);
  copy->n_drafts--;
  memmove (&copy->drafts[n], &copy->drafts[n + 1], (copy->n_drafts - n) * sizeof *copy->drafts);
  return copy;
}

PfDocument *
pf_document_with_mirror_image (const PfDocument *document, size_t n, PfAxis axis)
{
  g_return_val_if_fail (n < document->n_drafts, NULL);
  const PfDraft *original = document->drafts[n];
  g_autofree char *name = g_strdup_printf (_ ("%s, mirrored"), original->name);
  PfDraft *image = pf_draft_new (name, NULL);
  image->mirror_of = g_strdup (original->id);
  image->mirror_axis = axis;
  return pf_document_with_draft_added (document, image);
}

PfDocument *
pf_document_with_underlay (const PfDocument *document, const PfUnderlay *underlay)
{
  PfDocument *copy = pf_document_copy (document);
  pf_underlay_free (copy->underlay);
  copy->underlay = pf_underlay_copy (underlay);
  return copy;
}
