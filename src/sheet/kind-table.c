/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The table of a kind of repeats. A repeat may have so many pairs and sewings that the page isn't
 * wide enough for all of them: then the columns go on in a table below, so that no number is ever
 * broken.
 */
#include "teaching.h"

#include <math.h>

#include <glib/gi18n-lib.h>

#include "text.h"

#define ROWS 200 /* repeats told of a kind */

typedef struct {
  size_t n_columns, n_rows;
  GPtrArray *heads, *cells; /* of all columns; the cells row by row */
} Table;

/* "12", "hole 1: 12", "12–13" */
static char *
place_name (const PfFilling *filling, guint32 s)
{
  const PfSewing *sewing = &filling->sewings[s];
  g_autofree char *hole =
      sewing->place.loop == 0
          ? g_strdup ("")
          /* Translators: a hole in the shape, before the number of a pinhole in a table. */
          : g_strdup_printf (_ ("hole %zu: "), sewing->place.loop);
  if (sewing->pinhole != PF_NONE)
    return g_strdup_printf ("%s%u", hole, sewing->pinhole + 1);
  if (sewing->between[0] == PF_NONE)
    return g_strdup_printf ("%s–", hole);
  return g_strdup_printf ("%s%u–%u", hole, sewing->between[0] + 1, sewing->between[1] + 1);
}

static void
add_heads (Table *table, const PfRepeatWork *work)
{
  const PfStepNames names = pf_repeat_work_names (work);
  g_ptr_array_add (table->heads, g_strdup (_ ("Repeat")));
  for (guint p = 0; p < work->pairs->len; p++)
    /* Translators: the head of a column with the numbers of pairs. */
    g_ptr_array_add (table->heads, g_strdup_printf (_ ("Pair %u"), p + 1));
  for (guint s = 0; s < work->sewings->len; s++)
    g_ptr_array_add (table->heads,
                     pf_step_sewing_letters (&names, g_array_index (work->sewings, guint32, s)));
  table->n_columns = table->heads->len;
}

static void
add_row (Table *table, const PfFilling *filling, const PfRepeatWork *work, guint32 repeat)
{
  g_ptr_array_add (table->cells, g_strdup_printf ("%u", repeat + 1));
  for (guint p = 0; p < work->pairs->len; p++)
    g_ptr_array_add (table->cells,
                     g_strdup_printf ("%u", g_array_index (work->pairs, guint32, p) + 1));
  for (guint s = 0; s < work->sewings->len; s++)
    g_ptr_array_add (table->cells, place_name (filling, g_array_index (work->sewings, guint32, s)));
  table->n_rows++;
  g_assert (table->cells->len == table->n_rows * table->n_columns);
}

static double
column_width (const Table *table, size_t c)
{
  double width = pf_text_width (g_ptr_array_index (table->heads, c), PF_FLOW_CAPTION);
  for (size_t r = 0; r < table->n_rows; r++)
    width = fmax (width, pf_text_width (g_ptr_array_index (table->cells, r * table->n_columns + c),
                                        PF_FLOW_BODY));
  return width;
}

/* The first column, and those from `from` up to `to`. */
static void
set_columns (PfFlow *flow, const Table *table, size_t from, size_t to)
{
  const size_t n = 1 + to - from;
  g_autofree PfFlowColumn *columns = g_new (PfFlowColumn, n);
  g_autofree const char **heads = g_new (const char *, n);
  g_autofree const char **cells = g_new (const char *, n * table->n_rows);
  for (size_t c = 0; c < n; c++)
    {
      const size_t column = c == 0 ? 0 : from + c - 1;
      columns[c] = PF_FLOW_NUMBERS;
      heads[c] = g_ptr_array_index (table->heads, column);
      for (size_t r = 0; r < table->n_rows; r++)
        cells[r * n + c] = g_ptr_array_index (table->cells, r * table->n_columns + column);
    }
  pf_flow_table (flow, &(PfFlowTable){ .caption = _ ("Pairs and pinholes (of a bar, those beside "
                                                     "it) as on the pricking"),
                                       .columns = columns,
                                       .n_columns = n,
                                       .heads = heads,
                                       .cells = cells,
                                       .n_rows = table->n_rows,
                                       .side_by_side = true });
}

/* As many columns to a table as the page has room for. */
static void
set_table (PfFlow *flow, const Table *table)
{
  const double first = column_width (table, 0), room = pf_flow_width (flow) - 1e-3;
  for (size_t from = 1, to; from < table->n_columns; from = to)
    {
      double width = first;
      for (to = from; to < table->n_columns; to++)
        {
          width += PF_FLOW_BETWEEN + column_width (table, to);
          if (width > room && to > from)
            break;
        }
      set_columns (flow, table, from, to);
    }
}

static void
tell_left_out (PfFlow *flow, size_t n)
{
  g_autofree char *words = g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE,
                   "One more repeat of this kind isn’t listed here: the working steps, saved as "
                   ".txt, tell all.",
                   "%zu more repeats of this kind aren’t listed here: the working steps, saved "
                   "as .txt, tell all.",
                   (gulong) n),
      n);
  pf_flow_caption (flow, words);
}

void
pf_kind_table_add (PfFlow *flow, const PfMotif *motif, const PfRepeatKinds *kinds,
                   const PfWorkingSteps *steps, guint32 k)
{
  const PfRepeatKind *kind = &kinds->kinds[k];
  g_autoptr (GPtrArray) heads = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GPtrArray) cells = g_ptr_array_new_with_free_func (g_free);
  Table table = { .heads = heads, .cells = cells };
  for (size_t n = 0; n < MIN (kind->n_repeats, ROWS); n++)
    {
      const PfWorkedRepeat *repeat = &kinds->repeats[kind->repeats[n]];
      g_autoptr (PfRepeatWork) work =
          pf_repeat_work_new (motif->filling, motif->ground, steps, repeat->i, repeat->j);
      if (n == 0)
        add_heads (&table, work);
      add_row (&table, motif->filling, work, kind->repeats[n]);
    }
  set_table (flow, &table);
  if (table.n_rows < kind->n_repeats)
    tell_left_out (flow, kind->n_repeats - table.n_rows);
}
