/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Where the two bobbins of a pair go, in words.
 */
#include <glib/gi18n-lib.h>

#include "threads.h"
#include "words.h"

/* The way of one bobbin. */
typedef struct {
  PfThreadStep *steps;
  size_t n;
} Way;

static const PfSewing *
last_sewing (const PfFilling *filling, const Way *way)
{
  return &filling->sewings[way->steps[way->n - 1].index];
}

/* The first stitch from which the two go on in different pairs, or NULL. */
static const PfThreadStep *
parting (const Way *left, const Way *right)
{
  for (size_t s = 0; s < left->n; s++)
    if (left->steps[s].kind == PF_STEP_STITCH &&
        left->steps[s].place_out / 2 != right->steps[s].place_out / 2)
      return &left->steps[s];
  return NULL;
}

/* Takes over `sentence`. */
static void
add_sentence (GString *text, char *sentence)
{
  if (text->len > 0)
    g_string_append_c (text, ' ');
  g_string_append (text, sentence);
  g_free (sentence);
}

static void
add_ends (GString *text, const PfFilling *filling, const Way *left, const Way *right)
{
  const PfSewing *ends[2] = { last_sewing (filling, left), last_sewing (filling, right) };
  g_autofree char *left_place = pf_words_place (ends[0]);
  g_autofree char *right_place = pf_words_place (ends[1]);
  if (ends[0] == ends[1])
    {
      add_sentence (
          text, g_strdup_printf (_ ("Both end in pair %u, at %s."), ends[0]->pair + 1, left_place));
      return;
    }
  add_sentence (text, g_strdup_printf (_ ("The left bobbin ends in pair %u, at %s."),
                                       ends[0]->pair + 1, left_place));
  add_sentence (text, g_strdup_printf (_ ("The right bobbin ends in pair %u, at %s."),
                                       ends[1]->pair + 1, right_place));
}

char *
pf_explain_threads (const PfThreads *threads, const PfFilling *filling, const PfGround *ground,
                    guint32 pair)
{
  g_return_val_if_fail (pair < filling->n_pairs, NULL);
  Way left, right;
  left.steps = pf_thread_way (threads, filling, ground, 2 * pair, &left.n);
  right.steps = pf_thread_way (threads, filling, ground, 2 * pair + 1, &right.n);
  const PfThreadStep *part = parting (&left, &right);
  g_autofree char *begin = pf_words_place (&filling->sewings[filling->pairs[pair].sewn_in]);
  GString *text = g_string_new (NULL);
  add_sentence (text,
                g_strdup_printf (_ ("Both bobbins of pair %u begin at %s."), pair + 1, begin));
  if (part == NULL)
    add_sentence (text, g_strdup (_ ("They stay together all the way.")));
  else
    {
      g_autofree char *stitch = pf_words_stitch_of (ground, filling->stitches[part->index].id);
      add_sentence (text, g_strdup_printf (_ ("They part at %s."), stitch));
    }
  add_ends (text, filling, &left, &right);
  g_free (left.steps);
  g_free (right.steps);
  return g_string_free (text, FALSE);
}
