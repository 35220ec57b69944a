/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Documents to test with, and edits at random (seeded by the test framework).
 */
#pragma once

#include <document.h>

PfGround *sample_ground (const char *name);
/* A motif that is the box from (x, y), `size` mm each way, filled with the ground, gap 4 mm. */
PfDraft *sample_square (const char *name, double x, double y, double size, const char *ground);
/* A round one with a round hole, and choices of every kind. */
PfDraft *sample_ring (const char *name, const char *ground);
/* A document of the two, and a mirror image of the second. */
PfDocument *sample_document (void);

/* A document that is another one after an edit of any kind. */
PfDocument *sample_edit (const PfDocument *document);

/* Frees `*document` and puts `next` in its place. */
void sample_step (PfDocument **document, PfDocument *next);

/* An empty folder for one test, and its end. */
char *sample_folder (void);
void sample_folder_remove (char *folder);
