/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Whole and partial repeats, 64 at a time: a word holds one bit for each of 64 repeats of a row.
 *
 * A repeat is whole if all its stitches are inside, left out if it has stitches but no pin inside.
 * Of the others, in a ground with a core, it is kept if all its core and two or more of its other
 * pins are inside, and plain if not.
 */
#include "lattice.h"

/* The states of 64 repeats. A repeat that isn't in any of these has no stitch inside. */
typedef struct {
  guint64 whole, partial, kept, plain, left_out;
} States;

static States
default_states (const PfLattice *lattice, size_t word)
{
  const PfGround *ground = lattice->ground;
  guint64 all = ~G_GUINT64_CONSTANT (0), some = 0, core = ~G_GUINT64_CONSTANT (0);
  guint64 pins = 0, one_pin = 0, two_pins = 0; /* the last two of pins that aren't core */
  for (int k = 0; k < ground->n_stitches; k++)
    {
      const PfStitch *stitch = &ground->stitches[k];
      const guint64 inside = pf_lattice_plane (lattice, k)[word];
      all &= inside;
      some |= inside;
      if (stitch->pin)
        pins |= inside;
      if (stitch->core)
        core &= inside;
      else if (stitch->pin)
        {
          two_pins |= one_pin & inside;
          one_pin |= inside;
        }
    }
  States s = { .whole = all };
  s.left_out = ground->has_pins ? some & ~pins : 0;
  s.partial = some & ~all & ~s.left_out;
  s.kept = ground->has_core ? s.partial & core & two_pins : 0;
  s.plain = ground->has_core ? s.partial & ~s.kept : 0;
  return s;
}

/* Gives the repeats in `mask` the state the maker chose, where it makes sense: only repeats that
 * have a stitch inside, and kept and plain only where the ground has a core. A whole repeat made
 * plain is partial. */
static void
choose_state (const PfLattice *lattice, States *s, guint64 mask, PfRepeatState state)
{
  mask &= s->whole | s->partial | s->left_out;
  if (state == PF_REPEAT_KEPT)
    mask &= ~s->whole;
  if (state != PF_REPEAT_LEFT_OUT && !lattice->ground->has_core)
    return;
  s->whole &= ~mask;
  s->partial &= ~mask;
  s->kept &= ~mask;
  s->plain &= ~mask;
  s->left_out &= ~mask;
  if (state == PF_REPEAT_LEFT_OUT)
    s->left_out |= mask;
  else
    s->partial |= mask;
  if (state == PF_REPEAT_KEPT)
    s->kept |= mask;
  if (state == PF_REPEAT_PLAIN)
    s->plain |= mask;
}

static void
make_choices (const PfLattice *lattice, const PfFillingSettings *settings, States *states)
{
  for (size_t c = 0; c < settings->n_choices; c++)
    {
      const PfRepeatChoice *choice = &settings->choices[c];
      if (!pf_lattice_has (lattice, choice->i, choice->j))
        continue;
      const size_t column = (size_t) (choice->i - lattice->i0);
      const size_t row = (size_t) (choice->j - lattice->j0);
      choose_state (lattice, &states[row * lattice->row_words + column / 64],
                    G_GUINT64_CONSTANT (1) << (column % 64), choice->state);
    }
}

static size_t
count_bits (guint64 word)
{
  return (size_t) __builtin_popcountll (word);
}

static PfRepeatState
state_of_bit (const States *s, guint64 bit)
{
  if (s->left_out & bit)
    return PF_REPEAT_LEFT_OUT;
  if (s->kept & bit)
    return PF_REPEAT_KEPT;
  return s->plain & bit ? PF_REPEAT_PLAIN : PF_REPEAT_PARTIAL;
}

static void
list_repeats (const PfLattice *lattice, size_t word, const States *s, GArray *repeats)
{
  const int row = (int) (word / lattice->row_words);
  const int column = (int) (word % lattice->row_words) * 64;
  for (guint64 left = s->partial | s->left_out; left != 0; left &= left - 1)
    {
      const PfRepeat repeat = { lattice->i0 + column + __builtin_ctzll (left), lattice->j0 + row,
                                state_of_bit (s, left & -left) };
      g_array_append_val (repeats, repeat);
    }
}

/* Takes out the stitches of repeats that are left out, and the cores of plain ones; counts the
 * rest. */
static void
work_word (PfLattice *lattice, size_t word, const States *s, guint64 beaded, PfCounts *counts,
           GArray *beads)
{
  const PfGround *ground = lattice->ground;
  const int row = (int) (word / lattice->row_words);
  const int column = (int) (word % lattice->row_words) * 64;
  lattice->plain[word] = s->plain;
  for (int k = 0; k < ground->n_stitches; k++)
    {
      const PfStitch *stitch = &ground->stitches[k];
      guint64 *inside = &pf_lattice_plane (lattice, k)[word];
      *inside &= ~(s->left_out | (stitch->core ? s->plain : 0));
      counts->stitches += count_bits (*inside);
      if (stitch->pin)
        counts->pins += count_bits (*inside);
      if (!stitch->bead)
        continue;
      for (guint64 left = *inside & beaded; left != 0; left &= left - 1)
        {
          const PfStitchId id = { k, lattice->i0 + column + __builtin_ctzll (left),
                                  lattice->j0 + row };
          g_array_append_val (beads, id);
        }
    }
}

GArray *
pf_lattice_find_repeats (PfLattice *lattice, const PfFillingSettings *settings, PfCounts *counts,
                         GArray **beads)
{
  g_autofree States *states = g_new (States, lattice->plane_words);
  for (size_t w = 0; w < lattice->plane_words; w++)
    {
      states[w] = default_states (lattice, w);
      if (settings->all_plain)
        choose_state (lattice, &states[w], states[w].partial, PF_REPEAT_PLAIN);
    }
  make_choices (lattice, settings, states);

  GArray *repeats = g_array_new (FALSE, FALSE, sizeof (PfRepeat));
  *beads = g_array_new (FALSE, FALSE, sizeof (PfStitchId));
  for (size_t w = 0; w < lattice->plane_words; w++)
    {
      const States *s = &states[w];
      counts->whole += count_bits (s->whole);
      counts->partial += count_bits (s->partial);
      counts->kept += count_bits (s->kept);
      counts->plain += count_bits (s->plain);
      counts->left_out += count_bits (s->left_out);
      list_repeats (lattice, w, s, repeats);
      const guint64 beaded = (settings->beads != PF_BEADS_NONE ? s->whole : 0) |
                             (settings->beads == PF_BEADS_KEPT ? s->kept : 0);
      work_word (lattice, w, s, beaded, counts, *beads);
    }
  counts->beads = (*beads)->len;
  return repeats;
}
