/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Field by field, since the bytes between fields mean nothing. Doubles must be the same bit by bit.
 */
#include "same.h"

#include <string.h>

static void
assert_same_place (PfPlace a, PfPlace b)
{
  g_assert_cmpuint (a.loop, ==, b.loop);
  g_assert_cmpfloat (a.along, ==, b.along);
}

void
assert_same_sewing (const PfSewing *a, const PfSewing *b)
{
  g_assert_cmpint (a->kind, ==, b->kind);
  g_assert_cmpuint (a->leaving, ==, b->leaving);
  g_assert_cmpuint (a->entering, ==, b->entering);
  g_assert_cmpuint (a->pair, ==, b->pair);
  g_assert_true (a->chosen == b->chosen);
  assert_same_place (a->target, b->target);
  assert_same_place (a->place, b->place);
  g_assert_cmpfloat (a->at.x, ==, b->at.x);
  g_assert_cmpfloat (a->at.y, ==, b->at.y);
  g_assert_cmpuint (a->pinhole, ==, b->pinhole);
  g_assert_cmpuint (a->between[0], ==, b->between[0]);
  g_assert_cmpuint (a->between[1], ==, b->between[1]);
  g_assert_cmpfloat (a->distance, ==, b->distance);
  g_assert_cmpfloat (a->run, ==, b->run);
  g_assert_cmpfloat (a->angle, ==, b->angle);
  g_assert_true (a->off_line == b->off_line);
}

static void
assert_same_crossing (const PfCrossing *a, const PfCrossing *b)
{
  g_assert_cmpuint (a->stitch, ==, b->stitch);
  g_assert_cmpint (a->side, ==, b->side);
  g_assert_true (a->leaves == b->leaves);
  assert_same_place (a->place, b->place);
  g_assert_cmpint (a->kind, ==, b->kind);
  g_assert_true (a->chosen == b->chosen);
  g_assert_cmpuint (a->match, ==, b->match);
  g_assert_cmpuint (a->sewing, ==, b->sewing);
  g_assert_cmpuint (a->pair, ==, b->pair);
}

/* Arrays without gaps between fields. */
static void
assert_same_bytes (const void *a, size_t n_a, const void *b, size_t n_b, size_t size)
{
  g_assert_cmpuint (n_a, ==, n_b);
  g_assert_true (n_a == 0 || memcmp (a, b, n_a * size) == 0);
}

void
assert_same_filling (const PfFilling *a, const PfFilling *b)
{
  assert_same_bytes (&a->counts, 1, &b->counts, 1, sizeof a->counts);
  assert_same_bytes (a->order, a->n_stitches, b->order, b->n_stitches, sizeof *a->order);
  g_assert_cmpuint (a->n_crossings, ==, b->n_crossings);
  for (size_t c = 0; c < a->n_crossings; c++)
    assert_same_crossing (&a->crossings[c], &b->crossings[c]);
  g_assert_cmpuint (a->n_sewings, ==, b->n_sewings);
  for (size_t s = 0; s < a->n_sewings; s++)
    assert_same_sewing (&a->sewings[s], &b->sewings[s]);
  assert_same_bytes (a->pairs, a->n_pairs, b->pairs, b->n_pairs, sizeof *a->pairs);
  assert_same_bytes (a->path_steps, a->n_path_steps, b->path_steps, b->n_path_steps,
                     sizeof *a->path_steps);
  g_assert_cmpuint (a->n_repeats, ==, b->n_repeats);
  for (size_t r = 0; r < a->n_repeats; r++)
    {
      g_assert_cmpint (a->repeats[r].i, ==, b->repeats[r].i);
      g_assert_cmpint (a->repeats[r].j, ==, b->repeats[r].j);
      g_assert_cmpint (a->repeats[r].state, ==, b->repeats[r].state);
      g_assert_true (a->repeats[r].chosen == b->repeats[r].chosen);
    }
}
