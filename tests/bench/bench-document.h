/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A large document for benchmarks of the window. */
#pragma once

#include <document.h>

G_BEGIN_DECLS

/* One motif with a wavy outline and a wavy hole, filled with about so many stitches of the torchon
 * or the armure at a gap of 2 mm. */
PfDocument *bench_document (const char *ground, double n_stitches);

G_END_DECLS
