/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What a page is written or drawn with. Only page.c calls it, and only in the order that page.h
 * allows.
 */
#pragma once

#include "page.h"

G_BEGIN_DECLS

typedef struct {
  void (*group) (PfPage *page, const char *name, const PfInk *ink);
  void (*text_group) (PfPage *page, const char *name, const char *colour, const char *halo);
  void (*clip_group) (PfPage *page, const char *name, PfBox box);
  void (*group_end) (PfPage *page);
  void (*line) (PfPage *page, PfPoint a, PfPoint b);
  void (*polyline) (PfPage *page, const PfPoint *points, size_t n);
  void (*polygon) (PfPage *page, const PfPoint *points, size_t n);
  void (*curves) (PfPage *page, const PfPoint *points, size_t n_curves);
  void (*circle) (PfPage *page, PfPoint centre, double radius);
  void (*box) (PfPage *page, PfBox box);
  void (*text) (PfPage *page, PfPoint at, PfTextAnchor anchor, double size, double turn,
                const char *text);
  /* Frees the page. */
  char *(*finish) (PfPage *page);
} PfPageBackEnd;

/* The first member of every back end's own struct. */
struct PfPage {
  const PfPageBackEnd *back_end;
  double pixel; /* no line is thinner, mm */
  int depth;    /* groups that are open */
};

/* Round the letters of a text with a halo, mm: half of it lies outside them. */
#define PF_HALO_WIDTH 0.5

G_END_DECLS
