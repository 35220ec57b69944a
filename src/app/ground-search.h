/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Finding grounds by what they are called, their family and how many pairs a repeat takes.
 */
#pragma once

#include <ground.h>

G_BEGIN_DECLS

typedef struct {
  const char *words;  /* as typed: each must stand somewhere in title, name, other names or family;
                         NULL or empty: any */
  int pairs;          /* in a repeat; 0: any number */
  const char *family; /* NULL: any */
} PfGroundSearch;

bool pf_ground_search_finds (PfGroundSearch search, const PfGround *ground);

/* The words of a text, without capitals and accents, nothing between them but one space. Free with
 * g_free(). */
char *pf_search_fold (const char *text);

/* By family, then title, then name: negative, 0 or positive. */
int pf_ground_compare (const PfGround *a, const PfGround *b);

G_END_DECLS
