/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Sorts repeats into kinds.
 *
 * A repeat is written down as a row of numbers that says all that its kind depends on, with other
 * stitches told by how far away they are; repeats with the same row are of one kind.
 */
#include "repeat-kinds.h"

#include <string.h>

#include "filling-private.h"

typedef struct {
  const PfFilling *filling;
  const PfGround *ground;
  GHashTable *beaded; /* of stitches, plus 1 */
  GArray *numbers;    /* of int: the row that is being written */
} Writer;

static void
put (Writer *writer, int number)
{
  g_array_append_val (writer->numbers, number);
}

static void
put_stitch (Writer *writer, PfStitchId id, const PfWorkedRepeat *from)
{
  put (writer, id.k);
  put (writer, id.i - from->i);
  put (writer, id.j - from->j);
}

/* A cut line: what its pair does, where it was going, where it is sewn, and where its pair comes
 * from or goes to. */
static void
put_crossing (Writer *writer, const PfCrossing *crossing, const PfWorkedRepeat *from)
{
  const PfFilling *filling = writer->filling;
  put (writer, -1);
  put (writer, (int) crossing->kind);
  put (writer, filling->sewings[crossing->sewing].pinhole != PF_NONE);
  put (writer, crossing->has_missing);
  if (crossing->has_missing)
    put_stitch (writer, crossing->missing, from);
  if (crossing->match == PF_NONE)
    return;
  const PfCrossing *other = &filling->crossings[crossing->match];
  put_stitch (writer, filling->stitches[other->stitch].id, from);
  put (writer, (int) other->side);
  put (writer, filling->sewings[other->sewing].pinhole != PF_NONE);
}

static void
put_worked_stitch (Writer *writer, guint32 s, const PfWorkedRepeat *from)
{
  const PfFilling *filling = writer->filling;
  const PfWorkedStitch *stitch = &filling->stitches[s];
  const PfWorkedEnd *ends = pf_worked_ends (filling, stitch);
  put (writer, stitch->id.k);
  put (writer, g_hash_table_contains (writer->beaded, GUINT_TO_POINTER (s + 1)));
  for (unsigned side = 0; side < stitch->n_sides; side++)
    {
      if (ends[side].entering != PF_NONE)
        put_crossing (writer, &filling->crossings[ends[side].entering], from);
      else
        put_stitch (writer, filling->stitches[ends[side].from].id, from);
      if (ends[side].leaving != PF_NONE)
        put_crossing (writer, &filling->crossings[ends[side].leaving], from);
      else
        put_stitch (writer, filling->stitches[ends[side].to].id, from);
    }
}

static bool
is_cut (const PfFilling *filling, const PfRepeatKinds *kinds, const PfWorkedRepeat *repeat)
{
  for (size_t n = 0; n < repeat->n_stitches; n++)
    {
      const PfWorkedStitch *stitch = &filling->stitches[kinds->stitches[repeat->first_stitch + n]];
      const PfWorkedEnd *ends = pf_worked_ends (filling, stitch);
      for (unsigned side = 0; side < stitch->n_sides; side++)
        if (ends[side].entering != PF_NONE || ends[side].leaving != PF_NONE)
          return true;
    }
  return false;
}

/* The row of a repeat. Free with g_bytes_unref(). */
static GBytes *
row_of (Writer *writer, const PfRepeatKinds *kinds, const PfWorkedRepeat *repeat)
{
  g_array_set_size (writer->numbers, 0);
  put (writer, (int) pf_filling_repeat_state (writer->filling, repeat->i, repeat->j));
  for (size_t n = 0; n < repeat->n_stitches; n++)
    put_worked_stitch (writer, kinds->stitches[repeat->first_stitch + n], repeat);
  return g_bytes_new (writer->numbers->data, writer->numbers->len * sizeof (int));
}

/* --- Repeats ------------------------------------------------------------------------------------
 */

/* Counts each repeat's stitches, then deals them out, in working order. */
static void
list_repeats (PfRepeatKinds *kinds, const PfFilling *filling, const PfWorkingSteps *steps)
{
  kinds->n_repeats = steps->n_repeats;
  kinds->repeats = g_new0 (PfWorkedRepeat, kinds->n_repeats);
  kinds->stitches = g_new (guint32, filling->n_stitches);
  for (size_t g = 0; g < steps->n_groups; g++)
    {
      const PfWorkGroup *group = &steps->groups[g];
      if (group->sews_in)
        continue;
      PfWorkedRepeat *repeat = &kinds->repeats[group->repeat];
      repeat->i = group->i;
      repeat->j = group->j;
      repeat->row = group->row;
      for (size_t n = 0; n < group->n_steps; n++)
        repeat->n_stitches += steps->steps[group->first_step + n].kind == PF_WORK_STITCH;
    }
  for (size_t r = 1; r < kinds->n_repeats; r++)
    kinds->repeats[r].first_stitch =
        kinds->repeats[r - 1].first_stitch + kinds->repeats[r - 1].n_stitches;
  g_autofree size_t *dealt = g_new0 (size_t, kinds->n_repeats);
  for (size_t g = 0; g < steps->n_groups; g++)
    for (size_t n = 0; n < steps->groups[g].n_steps; n++)
      {
        const PfWorkStep *step = &steps->steps[steps->groups[g].first_step + n];
        const guint32 r = steps->groups[g].repeat;
        if (step->kind == PF_WORK_STITCH)
          kinds->stitches[kinds->repeats[r].first_stitch + dealt[r]++] = step->stitch;
      }
}

static guint32
add_kind (GArray *list, PfRepeatState state, bool cut)
{
  const PfRepeatKind kind = { .state = state, .cut = cut };
  g_array_append_val (list, kind);
  return list->len - 1;
}

/* The whole repeats with no pair cut are the first kind, wherever the first of them comes. */
static void
bring_plain_ground_first (PfRepeatKinds *kinds)
{
  size_t at = 0;
  while (at < kinds->n_kinds && !pf_repeat_kind_is_plain_ground (&kinds->kinds[at]))
    at++;
  if (at == 0 || at == kinds->n_kinds)
    return;
  const PfRepeatKind first = kinds->kinds[at];
  memmove (&kinds->kinds[1], &kinds->kinds[0], at * sizeof (PfRepeatKind));
  kinds->kinds[0] = first;
  for (size_t r = 0; r < kinds->n_repeats; r++)
    {
      guint32 *kind = &kinds->repeats[r].kind;
      *kind = *kind == at ? 0 : *kind + (*kind < at);
    }
}

static void
list_members (PfRepeatKinds *kinds)
{
  g_autofree size_t *counted = g_new0 (size_t, kinds->n_kinds);
  for (size_t r = 0; r < kinds->n_repeats; r++)
    counted[kinds->repeats[r].kind]++;
  for (size_t k = 0; k < kinds->n_kinds; k++)
    kinds->kinds[k].repeats = g_new (guint32, counted[k]);
  for (size_t r = 0; r < kinds->n_repeats; r++)
    {
      PfRepeatKind *kind = &kinds->kinds[kinds->repeats[r].kind];
      kind->repeats[kind->n_repeats++] = (guint32) r;
    }
}

PfRepeatKinds *
pf_repeat_kinds_new (const PfFilling *filling, const PfGround *ground, const PfWorkingSteps *steps)
{
  PfRepeatKinds *kinds = g_new0 (PfRepeatKinds, 1);
  list_repeats (kinds, filling, steps);
  g_autoptr (GHashTable) beaded = g_hash_table_new (NULL, NULL);
  for (size_t b = 0; b < filling->counts.beads; b++)
    g_hash_table_add (beaded, GUINT_TO_POINTER (filling->beads[b] + 1));
  g_autoptr (GArray) numbers = g_array_new (FALSE, FALSE, sizeof (int));
  g_autoptr (GHashTable) known =
      g_hash_table_new_full (g_bytes_hash, g_bytes_equal, (GDestroyNotify) g_bytes_unref, NULL);
  Writer writer = { filling, ground, beaded, numbers };
  GArray *list = g_array_new (FALSE, FALSE, sizeof (PfRepeatKind));
  for (size_t r = 0; r < kinds->n_repeats; r++)
    {
      PfWorkedRepeat *repeat = &kinds->repeats[r];
      GBytes *row = row_of (&writer, kinds, repeat);
      const guint kind = GPOINTER_TO_UINT (g_hash_table_lookup (known, row));
      repeat->kind = kind > 0
                         ? kind - 1
                         : add_kind (list, pf_filling_repeat_state (filling, repeat->i, repeat->j),
                                     is_cut (filling, kinds, repeat));
      if (kind > 0)
        g_bytes_unref (row);
      else
        g_hash_table_insert (known, row, GUINT_TO_POINTER (repeat->kind + 1));
    }
  kinds->n_kinds = list->len;
  kinds->kinds = (PfRepeatKind *) (void *) g_array_free (list, FALSE);
  bring_plain_ground_first (kinds);
  list_members (kinds);
  return kinds;
}

void
pf_repeat_kinds_free (PfRepeatKinds *kinds)
{
  if (kinds == NULL)
    return;
  for (size_t k = 0; k < kinds->n_kinds; k++)
    g_free (kinds->kinds[k].repeats);
  g_free (kinds->kinds);
  g_free (kinds->repeats);
  g_free (kinds->stitches);
  g_free (kinds);
}

bool
pf_repeat_kind_is_plain_ground (const PfRepeatKind *kind)
{
  return kind->state == PF_REPEAT_WHOLE && !kind->cut;
}
