/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Any bytes as a document; one that is read is written the same twice. Run it for a minute with
 * `document-fuzz -max_total_time=60 CORPUS`, where CORPUS is a folder of documents to begin with.
 */
#include <string.h>

#include <document.h>

int LLVMFuzzerTestOneInput (const guint8 *data, gsize size);

static PfDocument *
parse (const char *json, gsize n)
{
  g_autoptr (GError) error = NULL;
  PfDocument *document = pf_document_parse (json, n, "fuzz", "/folder", &error);
  g_assert_true ((document == NULL) == (error != NULL));
  return document;
}

int
LLVMFuzzerTestOneInput (const guint8 *data, gsize size)
{
  gsize n, m;
  g_autoptr (PfDocument) document = parse ((const char *) data, size);
  if (!document)
    return 0;
  g_autofree char *json = pf_document_to_json (document, "/folder", &n);
  g_autoptr (PfDocument) again = parse (json, n);
  g_assert_nonnull (again);
  g_autofree char *same = pf_document_to_json (again, "/folder", &m);
  g_assert_true (n == m && memcmp (json, same, n) == 0);
  for (size_t k = 0; k < document->n_drafts; k++)
    pf_draft_unref (pf_document_resolve (document, k));
  return 0;
}
