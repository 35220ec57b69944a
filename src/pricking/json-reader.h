/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Reads values out of JSON files, with errors that say where.
 *
 * A reader keeps the first thing that went wrong. After it all reading functions give harmless
 * values (NULL, 0, false), so that a file's reader runs through without a test at every step and
 * looks at `error` once, at the end.
 */
#pragma once

#include <json-glib/json-glib.h>
#include <shape.h>

G_BEGIN_DECLS

/* Grounds of more bytes, documents of more bytes, and brackets nested deeper are refused. */
#define PF_JSON_MAX_GROUND (1024 * 1024)
#define PF_JSON_MAX_DOCUMENT (64 * 1024 * 1024)
#define PF_JSON_MAX_DEPTH 32

typedef struct {
  const char *file; /* named in errors */
  char *where;      /* the place in the file, such as "stitch 3"; NULL at its top. Owned */
  GError *error;    /* PF_ERROR_FILE */
} PfJsonReader;

/* The JSON value that the whole text stands for. PF_ERROR_FILE if it isn't valid JSON, has more
 * than `most` bytes, is too deep, or has a key twice in one object. */
JsonNode *pf_json_parse (const char *text, gsize n, gsize most, const char *file, GError **error);

/* A file's bytes; PF_ERROR_FILE if it can't be read or has more than `most`. Free the text with
 * g_free(). */
char *pf_json_read_file (const char *filename, gsize most, gsize *n, GError **error);

/* The start of a text, as it can stand in an error. Free with g_free(). */
char *pf_json_shown (const char *text);

/* Can the letter be shown, and written to any file? */
bool pf_json_letter_is_shown (gunichar letter);

void pf_json_fail (PfJsonReader *reader, const char *format, ...) G_GNUC_PRINTF (2, 3);

/* Moves on to another place; takes over `where`. */
void pf_json_at (PfJsonReader *reader, char *where);

/* `node` as an object that has no other keys than `keys` (NULL-terminated). */
JsonObject *pf_json_object (PfJsonReader *reader, JsonNode *node, const char *const *keys);

/* A text: not empty if it must be there, "" if it needn't and isn't. The object owns it. */
const char *pf_json_string (PfJsonReader *reader, JsonObject *object, const char *key, bool needed);
/* A text of one or more lines, "" if it isn't there. The object owns it. */
const char *pf_json_lines (PfJsonReader *reader, JsonObject *object, const char *key);
/* Which of `words` (NULL-terminated) a text is; `missing` if it isn't there. */
int pf_json_word (PfJsonReader *reader, JsonObject *object, const char *key,
                  const char *const *words, int missing);
/* true or false; false if it isn't there. */
bool pf_json_bool (PfJsonReader *reader, JsonObject *object, const char *key);
/* A whole number; `missing` if it isn't there. */
int pf_json_int (PfJsonReader *reader, JsonObject *object, const char *key, int missing);
/* A number from -limit to limit; `missing` if it isn't there. */
double pf_json_number (PfJsonReader *reader, JsonObject *object, const char *key, double limit,
                       double missing);
/* n numbers in brackets, each from -limit to limit, which must be there. */
void pf_json_numbers (PfJsonReader *reader, JsonObject *object, const char *key, double limit,
                      double *numbers, guint n);
/* Any number of them; none if they aren't there. Free with g_free(). */
double *pf_json_all_numbers (PfJsonReader *reader, JsonObject *object, const char *key,
                             double limit, size_t *n);
/* A value that need not be there, of any type. */
JsonNode *pf_json_member (PfJsonReader *reader, JsonObject *object, const char *key);
/* An array of n values that need not be there. */
JsonArray *pf_json_list (PfJsonReader *reader, JsonObject *object, const char *key, guint *n);
/* An array that must be there. */
JsonArray *pf_json_array (PfJsonReader *reader, JsonObject *object, const char *key);
/* Two numbers in brackets. */
PfPoint pf_json_point (PfJsonReader *reader, JsonObject *object, const char *key);
/* Two whole numbers in brackets; (0, 0) if they aren't there. */
void pf_json_two_ints (PfJsonReader *reader, JsonObject *object, const char *key, int *a, int *b);
/* Texts in brackets; an empty array if they aren't there. Free with g_strfreev(). */
char **pf_json_strings (PfJsonReader *reader, JsonObject *object, const char *key);

G_END_DECLS
