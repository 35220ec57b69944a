/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Writes JSON that reads well and compares well: keys in the order in which they are put, a line
 * for each value but where a list or an object is short, and numbers as short as they can be.
 */
#pragma once

#include <stdbool.h>

#include <glib.h>

G_BEGIN_DECLS

typedef struct {
  GString *text;
  GByteArray *open; /* of the brackets around: flags, private */
} PfJsonWriter;

void pf_json_writer_init (PfJsonWriter *writer);
/* Ends the text with a line's end; free with g_free(). */
char *pf_json_writer_end (PfJsonWriter *writer, gsize *n);

/* `key` is NULL in lists. Opens braces or brackets, with a line for each value or all on one. */
void pf_json_open_object (PfJsonWriter *writer, const char *key, bool lines);
void pf_json_open_list (PfJsonWriter *writer, const char *key, bool lines);
void pf_json_close (PfJsonWriter *writer);

/* Letters that no reader takes become blanks; lines may end in texts. */
void pf_json_put_text (PfJsonWriter *writer, const char *key, const char *text);
void pf_json_put_number (PfJsonWriter *writer, const char *key, double number);
void pf_json_put_bool (PfJsonWriter *writer, const char *key, bool value);
void pf_json_put_two (PfJsonWriter *writer, const char *key, double a, double b);

/* Appends the shortest of %.15g, %.16g and %.17g that reads back as the same number; 0 for what
 * isn't one. */
void pf_append_number (GString *text, double number);

G_END_DECLS
