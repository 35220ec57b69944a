/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The marks on outlines while they are worked on, in mm, with `pixel` mm to a pixel. All have a
 * white rim, so that they are seen on every ground.
 */
#pragma once

#include <cairo.h>

#include "motif-box.h"
#include "node-set.h"
#include "snapping.h"

G_BEGIN_DECLS

/* A curve as a line. */
void pf_marks_draw_curve (cairo_t *cr, double pixel, const PfCurve *curve);
/* Nodes: a corner is a square, a smooth one a circle; chosen ones are filled, and show their
 * handles. Marks that can't be seen aren't drawn. */
void pf_marks_draw_nodes (cairo_t *cr, double pixel, const PfDraft *draft, const PfNodeSet *chosen);
/* The box round a motif and its grips. */
void pf_marks_draw_box (cairo_t *cr, double pixel, PfBox box);
/* What is chosen by a drag. */
void pf_marks_draw_band (cairo_t *cr, double pixel, PfPoint a, PfPoint b);
void pf_marks_draw_snap (cairo_t *cr, double pixel, PfSnapped snapped, PfPoint from);
/* A node by itself; `ring`: the one that closes the outline. */
void pf_marks_draw_node (cairo_t *cr, double pixel, const PfNode *node, bool filled, bool ring);
/* A line from mark to mark, of which one may be chosen (0, 1; -1 for none). */
void pf_marks_draw_measure (cairo_t *cr, double pixel, PfPoint a, PfPoint b, int chosen);

G_END_DECLS
