/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A motif without a ground can be drawn and saved, but is neither printed nor reported: in the
 * window as on the command line.
 */
#include <editor.h>
#include <sheet.h>

#include "motif-samples.h"

static PfEditor *
editor_with (const char *first, const char *second)
{
  g_autoptr (PfDocument) one = sample_frame (60, 50, 14, first);
  g_autoptr (PfDocument) other = sample_rectangle (40, 30, second);
  PfDraft *draft = pf_draft_copy (other->drafts[0]);
  PfEditor *editor = sample_editor (pf_document_with_draft_added (one, draft));
  while (pf_editor_busy (editor))
    g_main_context_iteration (NULL, TRUE);
  return editor;
}

typedef struct {
  const char *first, *second;
  guint n_filled;
} Case;

static void
test_filled (gconstpointer data)
{
  const Case *c = data;
  g_autoptr (PfEditor) editor = editor_with (c->first, c->second);
  g_autoptr (PfPricking) all = pf_editor_pricking (editor);
  g_autoptr (PfPricking) filled = pf_editor_filled (editor);
  g_assert_cmpuint (all->motifs->len, ==, 2);
  g_assert_cmpuint (filled->motifs->len, ==, c->n_filled);
  if (c->n_filled == 0)
    return;
  const PfDocument *document = pf_editor_document (editor);
  g_autoptr (GError) error = NULL;
  const PfSheetSettings settings = pf_sheet_settings_of (document);
  g_autoptr (PfSheet) sheet = pf_sheet_new (filled, &settings, &error);
  g_assert_no_error (error);
  g_autoptr (PfPricking) by_command = pf_document_fill (document, &error);
  g_assert_no_error (error);
  g_autoptr (PfSheet) their_sheet = pf_sheet_new (by_command, &settings, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (pf_sheet_page_svg (sheet, 0), ==, pf_sheet_page_svg (their_sheet, 0));
  g_autofree char *report = pf_report_text (filled), *their_report = pf_report_text (by_command);
  g_assert_cmpstr (report, ==, their_report);
}

int
main (int argc, char **argv)
{
  static const Case cases[] = {
    { "armure", "torchon", 2 },
    { "armure", NULL, 1 },
    { NULL, "torchon", 1 },
    { NULL, NULL, 0 },
  };
  g_test_init (&argc, &argv, NULL);
  for (gsize c = 0; c < G_N_ELEMENTS (cases); c++)
    {
      g_autofree char *name =
          g_strdup_printf ("/app/filled/%s-%s", cases[c].first != NULL ? "filled" : "bare",
                           cases[c].second != NULL ? "filled" : "bare");
      g_test_add_data_func (name, &cases[c], test_filled);
    }
  return g_test_run ();
}
