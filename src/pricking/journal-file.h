/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Private to this folder: the files of a journal. NAME.journal holds a document, wrapped in JSON
 * with its file's name and the time; NAME.lock is held locked by the program that writes it, for as
 * long as that one lives.
 */
#pragma once

#include "document-private.h"

G_BEGIN_DECLS

/* A name that is free in `folder` (made if it isn't there), and the lock on it, an open file; NULL
 * with an error. Free with g_free(). */
char *pf_journal_file_new (const char *folder, int *lock, GError **error);
bool pf_journal_file_save (const char *path, const PfDocument *document, const char *filename,
                           GError **error);
/* Gives the lock back. The journal stays if it was written. */
void pf_journal_file_end (const char *path, int lock);

G_END_DECLS
