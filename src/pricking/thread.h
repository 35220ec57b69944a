/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The thread a motif is worked in: how thick it is, how much is left over at each bobbin, and which
 * bobbins have a colour.
 */
#pragma once

#include <thread-fit.h>

G_BEGIN_DECLS

/* A thread whose thickness is known, from the table that comes with the program. */
typedef struct {
  char *name;
  double wraps_per_cm;
  char *source; /* of that number */
  char *sure;   /* how sure it is, in words: "second hand" */
} PfThreadKind;

/* The table, n threads by wraps and name; it lives as long as the program. */
const PfThreadKind *pf_thread_table (size_t *n);
/* The one of that name, in any case; NULL and PF_ERROR_SETTING, with the nearest, if there is none.
 */
const PfThreadKind *pf_thread_find (const char *name, GError **error);

typedef enum {
  PF_BOBBIN_LEFT = 1 << 0, /* of the pair as it is sewn in */
  PF_BOBBIN_RIGHT = 1 << 1,
  PF_BOBBIN_BOTH = PF_BOBBIN_LEFT | PF_BOBBIN_RIGHT,
} PfBobbins;

/* A coloured pair, or one bobbin of it: that which is sewn in new where this line is cut. So the
 * colour stays with its place, whatever number the pair has. */
typedef struct {
  PfLineId line; /* enters */
  PfBobbins bobbins;
  char colour[8]; /* "#rrggbb" */
} PfThreadColour;

typedef struct {
  char *name;          /* "" if it wasn't chosen from the table */
  double wraps_per_cm; /* 0: not chosen yet */
  double spare;        /* mm that each bobbin has more than lies in the lace: for hitching and
                          handling */
  PfFitRule rule;      /* wraps from pin to pin along the footside that the maker finds right */
  PfThreadColour *colours;
  size_t n_colours;
} PfThreadUse;

/* No thread chosen; 300 mm to spare, to be set by one's own habit; the usual rule; no colours. */
PfThreadUse pf_thread_use_default (void);
PfThreadUse pf_thread_use_copy (const PfThreadUse *use);
void pf_thread_use_clear (PfThreadUse *use);
/* Checks the numbers against their ranges (PF_ERROR_SETTING): 1 to 200 wraps per cm or none, 0 to
 * 10,000 mm to spare, a rule that rises, colours as they must be written. */
bool pf_thread_use_check (const PfThreadUse *use, GError **error);

/* Gives bobbins of the pair that is sewn in at `line` a colour; NULL takes it away. */
void pf_thread_use_set_colour (PfThreadUse *use, PfLineId line, PfBobbins bobbins,
                               const char *colour);

/* The colour of each of the filling's threads (2 · n_pairs; PfThreads has their order), NULL where
 * it has none; borrowed from `use`. Free the array alone, with g_free(). `*n_unused` (may be NULL)
 * gets the number of colours whose line isn't cut now, or where no pair is new. */
const char **pf_thread_colours (const PfThreadUse *use, const PfFilling *filling, size_t *n_unused);

G_END_DECLS
