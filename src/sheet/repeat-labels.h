/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The labels of the picture of a repeat: names of pins and stitches, numbers of pairs in circles,
 * letters of sewings, numbers of steps in boxes. All are gathered first, then find room in the
 * order of their weight.
 */
#pragma once

#include <repeat-kinds.h>

#include "layers.h"

G_BEGIN_DECLS

typedef struct PfLabels PfLabels;

/* Labels that lie in `box`. */
PfLabels *pf_labels_new (PfBox box);
void pf_labels_free (PfLabels *labels);

/* A stretch of a pair's way on the page; the pair's number stands beside its first stretch, and
 * beside its last. Stretches come pair by pair. `colour` is borrowed. */
void pf_labels_add_way (PfLabels *labels, guint32 pair, const PfPoint *points, size_t n,
                        const char *colour);

/* Names, letters and step numbers of a repeat; on a worksheet names alone. */
void pf_labels_add_repeat (PfLabels *labels, const PfMotif *motif, const PfRepeatWork *work, int i,
                           int j, const PfView *view, const PfDrawn *drawn, bool worksheet);

/* Finds room for all labels: once, when all are there. */
void pf_labels_find_room (PfLabels *labels);

/* How crowded they are, on the average: 0 if each stands beside what it belongs to and covers no
 * line, 1 if each has a leader or covers a line, up to 4 if none has a place. */
double pf_labels_crowding (const PfLabels *labels);

/* Which labels found no room, in words: "Not in the drawing, for want of room: the number of step
 * 12." NULL if all did. Translated; free with g_free(). */
char *pf_labels_left_out_words (const PfLabels *labels);

/* Draws those that found room, moved by `shift`. */
void pf_labels_draw_all (PfPage *page, const PfLabels *labels, PfPoint shift);

G_END_DECLS
