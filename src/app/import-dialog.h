/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Choosing which shapes of a drawing become motifs.
 */
#pragma once

#include <gtk/gtk.h>
#include <pricking.h>

#include "length.h"

G_BEGIN_DECLS

/* Shows the outlines of `drawing`, which must live until `callback` is called; `name` is the
 * drawing's, for people. */
void pf_import_dialog_choose (GtkWindow *parent, const PfDrawing *drawing, const char *name,
                              PfUnits units, GCancellable *cancellable,
                              GAsyncReadyCallback callback, gpointer data);

/* A flag for each outline, at least one of them true. NULL and G_IO_ERROR_CANCELLED if the maker
 * wants none. Free with g_free(). */
bool *pf_import_dialog_choose_finish (GAsyncResult *result, GError **error);

G_END_DECLS
