/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The pages of the book as they will be printed, one at a time, with the buttons to leaf through
 * them. Laid out and rendered in a thread while the preview is shown.
 */
#pragma once

#include <gtk/gtk.h>

#include "editor.h"

G_BEGIN_DECLS

#define PF_TYPE_SHEET_PREVIEW (pf_sheet_preview_get_type ())
G_DECLARE_FINAL_TYPE (PfSheetPreview, pf_sheet_preview, PF, SHEET_PREVIEW, GtkBox)

GtkWidget *pf_sheet_preview_new (PfEditor *editor);
/* Which printer they are corrected for. */
void pf_sheet_preview_set_printer (PfSheetPreview *preview, PfPrinterRules printer);

G_END_DECLS
