/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The words of a document's file for what the program counts.
 */
#include "document-file.h"

const char *const pf_edge_words[] = { "half", "cloth", NULL };
const char *const pf_beads_words[] = { "none", "whole", "kept", NULL };
const char *const pf_first_words[] = { "left", "right", NULL };
const char *const pf_work_by_words[] = { "repeat", "row", NULL };
const char *const pf_sew_in_words[] = { "as_needed", "first", NULL };
const char *const pf_state_words[] = { "kept", "plain", "left_out", NULL };
const char *const pf_choice_words[] = { "alone", "turn", "pinhole", "bar", NULL };
const char *const pf_side_words[] = { "left", "inner left", "inner right", "right", NULL };
const char *const pf_step_words[] = { "sew_in",   "twist",  "turn",    "carry",
                                      "carry_in", "stitch", "sew_out", NULL };
const char *const pf_pillow_words[] = { "not_begun", "begun", "done", NULL };

G_STATIC_ASSERT (PF_WORK_SEW_IN == 0 && PF_WORK_SEW_OUT == 6);
G_STATIC_ASSERT (PF_REPEAT_PLAIN == PF_REPEAT_KEPT + 1 && PF_REPEAT_LEFT_OUT == PF_REPEAT_KEPT + 2);
