/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Private to this folder: documents as JSON, version 1 of our own format; DEVELOPERS.md describes
 * it. What is written can always be read again: numbers beyond a limit are written as the limit,
 * and values that make no sense together are for pf_motif_new() to refuse.
 */
#pragma once

#include "document-private.h"
#include "json-reader.h"
#include "json-writer.h"

G_BEGIN_DECLS

/* Limits of numbers: mm on the sheet, mm along a loop, and all others. */
#define PF_LIMIT_MM 1e6
#define PF_LIMIT_ALONG 1e8
#define PF_LIMIT_NUMBER 1e6
#define PF_LIMIT_COPIES 999
#define PF_LIMIT_IMAGES 100 /* images of images */

/* The words of the file, NULL-terminated, in the order of their enumerations. */
extern const char *const pf_edge_words[];
extern const char *const pf_beads_words[];
extern const char *const pf_first_words[]; /* of PfWorkingHabits */
extern const char *const pf_work_by_words[];
extern const char *const pf_sew_in_words[];
extern const char *const pf_state_words[]; /* from PF_REPEAT_KEPT on */
extern const char *const pf_choice_words[];
extern const char *const pf_side_words[]; /* of PfSideName */
extern const char *const pf_step_words[];
extern const char *const pf_pillow_words[];

/* Puts a document, or a motif, as a value. */
void pf_document_write (PfJsonWriter *writer, const char *key, const PfDocument *document,
                        const char *folder);
void pf_draft_write (PfJsonWriter *writer, const PfDraft *draft);
void pf_curve_write (PfJsonWriter *writer, const PfCurve *curve);
void pf_ground_write (PfJsonWriter *writer, const char *key, const PfGround *ground);
/* thread-file.c: the thread of a motif filled with `ground` (NULL: not filled), under its key. */
void pf_thread_use_write (PfJsonWriter *writer, const PfThreadUse *use, const PfGround *ground);
void pf_thread_use_read (PfJsonReader *reader, JsonObject *motif, const PfGround *ground,
                         PfThreadUse *use);
/* pillow-file.c: what is done and noted at the pillow, under its key; nothing if there is nothing.
 */
void pf_pillow_write (PfJsonWriter *writer, const PfPillow *pillow);
void pf_pillow_read (PfJsonReader *reader, JsonObject *motif, PfPillow *pillow);
/* The keys of a cut line, in an object that is open. */
void pf_line_write (PfJsonWriter *writer, const PfGround *ground, PfLineId line);
PfLineId pf_line_read (PfJsonReader *reader, JsonObject *object, const PfGround *ground);
/* A number within a limit; 0 for what isn't one. */
void pf_json_put_limited (PfJsonWriter *writer, const char *key, double number, double limit);
/* The same as a text of its own; `n` may be NULL. Free with g_free(). */
char *pf_ground_to_json (const PfGround *ground, gsize *n);

/* A file's name under `key`; under `escaped_key`, with % and digits for what JSON can't hold, if it
 * isn't a plain text. And that name back; NULL if there is none. */
void pf_filename_write (PfJsonWriter *writer, const char *key, const char *escaped_key,
                        const char *filename);
char *pf_filename_read (PfJsonReader *reader, JsonObject *object, const char *key,
                        const char *escaped_key);

/* The document that a value stands for, or NULL with the reader's error. */
PfDocument *pf_document_read (PfJsonReader *reader, JsonNode *node, const char *folder);

/* Grounds that were read, so that motifs with the same one share it. Free with
 * g_hash_table_unref(). */
GHashTable *pf_grounds_read_new (void);
/* Reads motif `n`, counted from 0. With an error the draft may hold less than it should. */
PfDraft *pf_draft_read (PfJsonReader *reader, JsonNode *node, guint n, GHashTable *grounds);
PfCurve *pf_curve_read (PfJsonReader *reader, JsonObject *object);
/* "M 1 2 L 3 4 Z": a polyline; NULL with an error. */
PfPolyline *pf_polyline_read (PfJsonReader *reader, const char *text);

G_END_DECLS
