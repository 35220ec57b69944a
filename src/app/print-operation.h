/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Pages on their way to a printer.
 */
#pragma once

#include <document.h>
#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Draws page `n` with one user unit to the mm, from the paper's top left corner on. It is called in
 * another thread, for one page at a time. */
typedef bool (*PfDrawPage) (gpointer data, size_t n, cairo_t *cr, GError **error);

/* Does the paper of page `n` lie, its longer side across? */
typedef bool (*PfPageLies) (gpointer data, size_t n);

typedef struct {
  const char *title;
  const PfPaper *paper;
  size_t n_pages;
  int copies;
  PfPageLies lies;
  PfDrawPage draw;
  gpointer data; /* lives as long as the operation */
} PfPrintJob;

/* An operation that prints the job at true size, whatever the printer's margins are. */
GtkPrintOperation *pf_print_operation_new (const PfPrintJob *job);
/* What went wrong while a page was drawn; NULL if nothing did. Borrowed. */
const GError *pf_print_operation_trouble (GtkPrintOperation *operation);

G_END_DECLS
