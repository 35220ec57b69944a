/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Printing a book.
 */
#pragma once

#include <gtk/gtk.h>
#include <sheet.h>

G_BEGIN_DECLS

/* Asks for a printer and prints all pages at true size. Takes over `book`; returns at once, and
 * tells the maker in a dialog if something goes wrong. */
void pf_print_document (GtkWindow *window, PfBook *book, const PfDocument *document);

G_END_DECLS
