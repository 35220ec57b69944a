/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Whole and partial repeats, 64 at a time: a word holds one bit for each of 64 repeats of a row.
 *
 * A repeat is whole if all its stitches are inside, left out if it has stitches but no pin inside.
 * Of the others, in a ground with a core, it is kept if all its core and two or more of its other
 * pins are inside, and plain if not.
 */
#include "filling-private.h"

#include <glib/gi18n-lib.h>

/* The states of 64 repeats. A repeat that isn't in any of the first five has no stitch inside. */
typedef struct {
  guint64 whole, partial, kept, plain, left_out;
  guint64 chosen;     /* by the maker */
  guint64 whole_core; /* all of its core is inside */
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
  States s = { .whole = all, .whole_core = core };
  s.left_out = ground->has_pins ? some & ~pins : 0;
  s.partial = some & ~all & ~s.left_out;
  s.kept = ground->has_core ? s.partial & core & two_pins : 0;
  s.plain = ground->has_core ? s.partial & ~s.kept : 0;
  return s;
}

/* Gives the repeats in `mask` a state, where they can have it: only those that have a stitch
 * inside, and kept and plain only where the ground has a core. A whole repeat made plain is
 * partial; one that is to be kept stays whole. */
static void
choose_state (const PfLattice *lattice, States *s, guint64 mask, PfRepeatState state)
{
  mask &= s->whole | s->partial | s->left_out;
  if (state == PF_REPEAT_KEPT)
    mask &= s->whole_core & ~s->whole;
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

/* Why a choice can't be kept to, or NULL. `s` are the states without any choice. */
static char *
why_not (const PfLattice *lattice, const States *s, guint64 bit, const PfRepeatChoice *choice)
{
  if (((s->whole | s->partial | s->left_out) & bit) == 0)
    return g_strdup_printf (
        _ ("Repeat (%d, %d) has no stitch inside the shape where the ground lies "
           "now. Reset the choice, or move the ground."),
        choice->i, choice->j);
  if (choice->state == PF_REPEAT_LEFT_OUT)
    return NULL;
  if (!lattice->ground->has_core)
    return g_strdup_printf (_ ("This ground has no middle to keep or to drop. Reset the choice for "
                               "repeat (%d, %d), or leave the repeat out."),
                            choice->i, choice->j);
  if (choice->state == PF_REPEAT_KEPT && (s->whole_core & bit) == 0)
    return g_strdup_printf (_ ("Repeat (%d, %d) can’t be kept: part of its middle isn’t inside the "
                               "shape. Choose plain, or move the ground."),
                            choice->i, choice->j);
  return NULL;
}

/* Gives the repeat in `bit` the state chosen, whatever an earlier choice made of it. */
static void
take_choice (const PfLattice *lattice, States *s, States chosen, guint64 bit, PfRepeatState state)
{
  choose_state (lattice, &chosen, bit, state);
  s->whole = (s->whole & ~bit) | (chosen.whole & bit);
  s->partial = (s->partial & ~bit) | (chosen.partial & bit);
  s->kept = (s->kept & ~bit) | (chosen.kept & bit);
  s->plain = (s->plain & ~bit) | (chosen.plain & bit);
  s->left_out = (s->left_out & ~bit) | (chosen.left_out & bit);
  s->chosen |= bit;
}

static void
make_choices (const PfLattice *lattice, const PfFillingSettings *settings, PfFilling *filling,
              States *states)
{
  for (size_t c = 0; c < settings->n_choices; c++)
    {
      const PfRepeatChoice *choice = &settings->choices[c];
      const bool there = pf_lattice_has (lattice, choice->i, choice->j);
      const size_t column = there ? (size_t) (choice->i - lattice->i0) : 0;
      const size_t row = there ? (size_t) (choice->j - lattice->j0) : 0;
      const size_t word = row * lattice->row_words + column / 64;
      const guint64 bit = there ? G_GUINT64_CONSTANT (1) << (column % 64) : 0;
      const States base = default_states (lattice, word);
      char *why = why_not (lattice, &base, bit, choice);
      if (why != NULL)
        pf_filling_note_unheeded (filling, false, c, why);
      else
        take_choice (lattice, &states[word], base, bit, choice->state);
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

/* How many stitches of the core of a repeat are inside. */
static int
count_core_inside (const PfLattice *lattice, int i, int j)
{
  int n = 0;
  for (int k = 0; k < lattice->ground->n_stitches; k++)
    n += lattice->ground->stitches[k].core && pf_lattice_inside (lattice, (PfStitchId){ k, i, j });
  return n;
}

static void
list_repeats (const PfLattice *lattice, size_t word, const States *s, GArray *repeats)
{
  const int row = (int) (word / lattice->row_words);
  const int column = (int) (word % lattice->row_words) * 64;
  for (guint64 left = s->partial | s->left_out; left != 0; left &= left - 1)
    {
      const int i = lattice->i0 + column + __builtin_ctzll (left), j = lattice->j0 + row;
      const PfRepeat repeat = { .i = i,
                                .j = j,
                                .state = state_of_bit (s, left & -left),
                                .chosen = (s->chosen & left & -left) != 0,
                                .core_inside = count_core_inside (lattice, i, j) };
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
pf_lattice_find_repeats (PfLattice *lattice, const PfFillingSettings *settings, PfFilling *filling,
                         GArray **beads)
{
  PfCounts *counts = &filling->counts;
  g_autofree States *states = g_new (States, lattice->plane_words);
  for (size_t w = 0; w < lattice->plane_words; w++)
    {
      states[w] = default_states (lattice, w);
      if (settings->all_plain)
        choose_state (lattice, &states[w], states[w].partial, PF_REPEAT_PLAIN);
    }
  make_choices (lattice, settings, filling, states);

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
