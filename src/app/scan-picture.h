/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Pictures to lay under the drawing: where they lie at first, and their outlines. The work is done
 * in a thread of its own.
 */
#pragma once

#include <document.h>
#include <trace.h>

G_BEGIN_DECLS

/* An underlay from a PNG or JPEG file: at its own resolution if the file tells one, else as wide as
 * `width` mm; its top left corner on the sheet's. */
void pf_scan_picture_open_async (const char *file, double width, GCancellable *cancellable,
                                 GAsyncReadyCallback callback, gpointer data);
/* Free with pf_scan_picture_free(). */
PfUnderlay *pf_scan_picture_open_finish (GAsyncResult *result, GError **error);
void pf_scan_picture_free (PfUnderlay *underlay);

/* The outlines of an underlay's ink, as pf_scan_trace() gives them. Once it is cancelled the result
 * comes at once, an error of the domain G_IO_ERROR. */
void pf_scan_picture_trace_async (const PfUnderlay *underlay, const PfTraceSettings *settings,
                                  GCancellable *cancellable, GAsyncReadyCallback callback,
                                  gpointer data);
/* Of PfCurve; `*outer` as pf_scan_trace(). */
GPtrArray *pf_scan_picture_trace_finish (GAsyncResult *result, bool **outer, GError **error);

G_END_DECLS
