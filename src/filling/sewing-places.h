/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The places of the sewings: the lines that an edge is made of, and what is sewn where.
 */
#pragma once

#include "filling-private.h"

/* A stretch of a loop whose edge is of one kind, as long as can be: a whole loop, or a line with
 * two ends. */
typedef struct {
  size_t loop;
  double from; /* where it starts along its loop, mm */
  double length;
  bool closed; /* it is the whole loop */
  PfEdgeKind kind;
  double gap;           /* mm between pinholes */
  double *pinholes;     /* n_pinholes: mm from its start, rising */
  size_t n_pinholes;    /* ... */
  size_t first_pinhole; /* the number of the first of them on the loop; the rest follow it round */
  guint32 *room;        /* n_pinholes: how many sewings each can take */
} PfEdgeLine;

/* The lines of all loops, by loop and start: an array of PfEdgeLine without room, that frees them.
 */
GArray *pf_edge_lines_new (const PfRegion *region, const PfEdge *edges);
/* The number of the line that a place lies in. */
guint pf_edge_lines_find (const GArray *lines, PfPlace place);
/* The number (from 0) of the first pinhole of the edge at `along` or beyond it, or n_pinholes. */
size_t pf_edge_pinhole_from (const PfEdge *edge, double along);
/* The pinhole nearest to `along`, the first of two, or PF_NONE if the edge has none. */
guint32 pf_edge_nearest_pinhole (const PfEdge *edge, const PfLoop *loop, double along);

/* A sewing on its way to a place: its target, the sewing's number, and the place it gets. */
typedef struct {
  double target; /* mm from the line's start */
  double from;   /* which side its pair comes from: greater farther on along the loop */
  guint32 sewing;
  guint32 pinhole; /* out: number of the line's pinhole, or PF_NONE */
  double distance; /* out: along the line, mm */
} PfPlacing;

/* Gives each of n sewings of one line a pinhole of it, or none (round the bar): at most room[] to
 * each. Of half stitch only pinholes at most `reach` mm (with 1e-6 mm to spare) away, as many as
 * possible; of cloth stitch all (if there are pinholes, there is room for n). In both the total
 * distance is the least possible, and where two could be exchanged they stand in the order of their
 * targets. Sorts the placings by target. False if that would take too much memory. */
bool pf_assign_places (PfPlacing *placings, size_t n, const PfEdgeLine *line, double reach);

/* Sewings being placed. */
typedef struct {
  PfFilling *filling;
  const PfRegion *region;
  const PfEdge *edges;
  const PfGround *ground;
  const PfFillingSettings *settings;
  bool *placed;    /* per sewing */
  guint32 **taken; /* per loop, per pinhole: the sewings placed there so far */
} PfSewer;

/* Where a sewing goes. */
typedef struct {
  double along;
  guint32 pinhole; /* of the loop, or PF_NONE */
  double distance;
} PfSewn;

/* Gives a sewing its place, and works out all that follows from it. */
void pf_sewer_place (PfSewer *sewer, guint32 sewing, PfSewn sewn);
/* Places the sewings for which the maker chose a pinhole or a bar. */
void pf_sewer_place_chosen (PfSewer *sewer);

/* Fills in line->room for n more sewings: up to the maker's limit, or more if a cloth stitch line
 * has too few pinholes, with a warning. */
void pf_sewer_make_room (PfSewer *sewer, PfEdgeLine *line, size_t n);
/* An edge gap, rounded down to a hundredth of a mm, at which evenly spaced pinholes of the line
 * would hold n sewings. */
double pf_gap_that_holds (const PfRegion *region, const PfEdgeLine *line, size_t n, int limit);
/* Warns that n sewings come to a cloth stitch stretch without pinholes. */
void pf_sewer_warn_no_pinholes (PfSewer *sewer, const PfEdgeLine *line, size_t n);
