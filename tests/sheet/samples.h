/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Prickings to make sheets of, and a reader of SVG pages that shares nothing with their writer.
 */
#pragma once

#include <libxml/tree.h>

#include <sheet.h>

/* The demo drawing of that name (without .svg), filled. */
PfPricking *sample_demo (const char *name, const char *ground, double gap, PfEdgeKind edge,
                         PfBeads beads);
/* A drawing that holds the elements `inside`, 1 user unit to the mm, filled. */
PfPricking *sample_drawing (const char *title, const char *inside, const char *ground, double gap);

/* Settings on that paper, true size, with a fixed date. */
PfSheetSettings sample_settings (const char *paper);

/* Reads a page; fails the test if it isn't well-formed XML. */
xmlDoc *read_page (const char *svg);
/* The elements `name` whose group has the class `group` (NULL for any), in their order. */
GPtrArray *elements_of (xmlDoc *page, const char *group, const char *name);
size_t count_of (xmlDoc *page, const char *group, const char *name);
double number_of (const xmlNode *node, const char *attribute);
/* The points of a polyline or polygon. */
GArray *points_of (const xmlNode *node);
char *text_of (const xmlNode *node);
/* The ink of a text element, measured by cairo in DejaVu Sans. */
PfBox text_ink (const xmlNode *node);
/* The box of the page's window, from the clip path. */
PfBox window_of (xmlDoc *page);
/* The box of the frame. */
PfBox frame_of (xmlDoc *page);
