/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Tables, turned into strips: one for each row. How wide columns are follows from what stands in
 * them, measured, so that numbers stand under each other and words have the rest.
 */
#include "flow-strips.h"

#include <math.h>
#include <string.h>

#include "text.h"

#define ASIDE 14.0     /* rows that stand beside each other */
#define FEW_ROWS 12    /* which stand below each other */
#define WORD_MOST 45.0 /* a word longer than this may be cut */
#define HEAD_LINES 8   /* at most */
#define ROW_LINES 40   /* a row with more goes on as another row */
#define PADDING 0.6    /* above and below the lines of a row */
#define RULE 0.15
#define STRONG_RULE 0.25

typedef struct {
  const PfFlowTable *table;
  size_t block;      /* how many columns one row takes where several stand beside each other */
  double *x, *width; /* of each column */
  double whole;      /* from the first column's left to the last one's right */
} Columns;

static double
longest_word (const char *text, double size)
{
  double most = 0;
  g_auto (GStrv) words = g_strsplit_set (text, " \n\t\r", -1);
  for (char **word = words; *word; word++)
    most = fmax (most, pf_text_width (*word, size));
  return fmin (most, WORD_MOST);
}

/* What one cell asks for: its whole width, and the least one. */
static void
widen (const PfFlowTable *table, size_t c, const char *text, double size, bool head,
       double *natural, double *least)
{
  *natural = fmax (*natural, pf_text_width (text, size));
  *least = fmax (*least, !head && table->columns[c] == PF_FLOW_NUMBERS ? *natural
                                                                       : longest_word (text, size));
}

static void
measure (const PfFlowTable *table, double *natural, double *least)
{
  for (size_t c = 0; c < table->n_columns; c++)
    {
      for (size_t r = 0; r < table->n_rows; r++)
        widen (table, c, table->cells[r * table->n_columns + c], PF_FLOW_BODY, false, &natural[c],
               &least[c]);
      if (table->heads)
        widen (table, c, table->heads[c], PF_FLOW_CAPTION, true, &natural[c], &least[c]);
      natural[c] = fmax (natural[c], least[c]);
    }
}

static double
sum_of (const double *values, size_t n)
{
  double sum = 0;
  for (size_t i = 0; i < n; i++)
    sum += values[i];
  return sum;
}

/* What the columns take if none is wider than `cap`, unless it must be. */
static double
capped (const double *natural, const double *least, double *width, size_t n, double cap)
{
  for (size_t c = 0; c < n; c++)
    width[c] = fmax (least[c], fmin (natural[c], cap));
  return sum_of (width, n);
}

/* Widths that together are at most `room`: the natural ones; else only the widest are narrowed, all
 * to the same width, but none below its least; else the least made narrower in proportion. */
static void
share_room (const double *natural, const double *least, double *width, size_t n, double room)
{
  const double needed = sum_of (least, n);
  if (needed > room)
    {
      for (size_t c = 0; c < n; c++)
        width[c] = least[c] * room / needed;
      return;
    }
  double low = 0, high = sum_of (natural, n);
  if (high > room)
    for (int step = 0; step < 50; step++)
      {
        const double middle = (low + high) / 2;
        if (capped (natural, least, width, n, middle) <= room)
          low = middle;
        else
          high = middle;
      }
  else
    low = high;
  capped (natural, least, width, n, low);
}

static double
gap_before (const Columns *columns, size_t c)
{
  return c == 0 ? 0 : c % columns->block == 0 ? ASIDE : PF_FLOW_BETWEEN;
}

static void
set_columns (Columns *columns, const PfFlowTable *table, size_t block, double whole)
{
  const size_t n = table->n_columns;
  g_autofree double *natural = g_new0 (double, n), *least = g_new0 (double, n);
  columns->table = table;
  columns->block = block;
  columns->x = g_new0 (double, n);
  columns->width = g_new0 (double, n);
  measure (table, natural, least);
  double between = 0;
  for (size_t c = 0; c < n; c++)
    between += gap_before (columns, c);
  share_room (natural, least, columns->width, n, whole - between - 1e-6);
  columns->whole = 0;
  for (size_t c = 0; c < n; c++)
    {
      columns->x[c] = columns->whole + gap_before (columns, c);
      columns->whole = columns->x[c] + columns->width[c];
    }
}

/* The lines of each cell of a row; gives how many the highest has. */
static guint
wrap_row (const Columns *columns, const char *const *cells, double size, int most, char ***lines)
{
  guint n = 1;
  for (size_t c = 0; c < columns->table->n_columns; c++)
    {
      lines[c] = pf_text_wrap (cells[c], size, columns->width[c] + 1e-6, most);
      n = MAX (n, g_strv_length (lines[c]));
    }
  return n;
}

static void
set_cell (PfFlowStrip *strip, const Columns *columns, size_t c, PfFlowStyle style, double size,
          double top, const char *text)
{
  const bool right = columns->table->columns[c] == PF_FLOW_NUMBERS;
  const PfPoint at = { columns->x[c] + (right ? columns->width[c] : 0),
                       top + pf_flow_baseline (size) };
  pf_flow_add_piece (strip, style, right ? PF_TEXT_END : PF_TEXT_START, size, at, text);
}

/* Lines `from` up to `to` of every cell. A header's stand at its foot. */
static void
set_lines (PfFlowStrip *strip, const Columns *columns, char ***lines, guint from, guint to,
           bool head)
{
  const double size = head ? PF_FLOW_CAPTION : PF_FLOW_BODY;
  for (size_t c = 0; c < columns->table->n_columns; c++)
    {
      const guint n = g_strv_length (lines[c]);
      const guint down = head ? to - n : 0;
      for (guint l = from; l < MIN (to, n); l++)
        set_cell (strip, columns, c, head ? PF_FLOW_HEAD : PF_FLOW_CELL, size,
                  PADDING + (l - from + down) * size * PF_FLOW_LEADING, lines[c][l]);
    }
  strip->ruled = columns->whole;
}

static void
free_lines (char ***lines, size_t n)
{
  for (size_t c = 0; c < n; c++)
    g_strfreev (lines[c]);
  g_free (lines);
}

static PfFlowStrip *
add_head (PfFlow *flow, const Columns *columns, PfFlowGlue glue, double before)
{
  const PfFlowTable *table = columns->table;
  char ***lines = g_new0 (char **, table->n_columns);
  const guint n = wrap_row (columns, table->heads, PF_FLOW_CAPTION, HEAD_LINES, lines);
  PfFlowStrip *strip =
      pf_flow_add_strip (flow, glue, before, n * PF_FLOW_CAPTION * PF_FLOW_LEADING + 2 * PADDING);
  set_lines (strip, columns, lines, 0, n, true);
  strip->rule[1] = STRONG_RULE;
  strip->strong = true;
  free_lines (lines, table->n_columns);
  return strip;
}

static void
add_row (PfFlow *flow, const Columns *columns, size_t r, PfFlowGlue glue, double before,
         const PfFlowStrip *head)
{
  const PfFlowTable *table = columns->table;
  char ***lines = g_new0 (char **, table->n_columns);
  const guint n =
      wrap_row (columns, table->cells + r * table->n_columns, PF_FLOW_BODY, G_MAXINT, lines);
  const bool total = table->total && r == table->n_rows - 1;
  for (guint from = 0; from < n; from += ROW_LINES)
    {
      const guint to = MIN (n, from + ROW_LINES);
      PfFlowStrip *strip =
          pf_flow_add_strip (flow, from == 0 ? glue : PF_FLOW_LOOSE, from == 0 ? before : 0,
                             (to - from) * PF_FLOW_BODY * PF_FLOW_LEADING + 2 * PADDING);
      set_lines (strip, columns, lines, from, to, false);
      strip->head = head;
      strip->strong = total;
      strip->rule[0] = total && from == 0 ? STRONG_RULE : 0;
      strip->rule[1] = !total && to == n ? RULE : 0;
    }
  free_lines (lines, table->n_columns);
}

/* A short table's rows all stay together. */
static void
keep_short (const PfFlow *flow, guint first)
{
  double height = 0;
  for (guint i = first; i < flow->strips->len; i++)
    height += ((PfFlowStrip *) g_ptr_array_index (flow->strips, i))->height;
  if (height > pf_flow_height (flow) / 2)
    return;
  for (guint i = first + 1; i < flow->strips->len; i++)
    {
      PfFlowStrip *strip = g_ptr_array_index (flow->strips, i);
      strip->glue = MAX (strip->glue, PF_FLOW_KEPT);
    }
}

static void
add_rows (PfFlow *flow, const Columns *columns)
{
  const PfFlowTable *table = columns->table;
  double before = 2;
  const PfFlowStrip *head = NULL;
  if (table->heads)
    {
      head = add_head (flow, columns, PF_FLOW_LOOSE, before);
      before = 0;
    }
  for (size_t r = 0; r < table->n_rows; r++)
    {
      const bool ends = r == 1 || (r > 0 && r == table->n_rows - 1);
      const PfFlowGlue glue = r == 0 && head ? PF_FLOW_GLUED : ends ? PF_FLOW_KEPT : PF_FLOW_LOOSE;
      add_row (flow, columns, r, glue, r == 0 ? before : 0, head);
    }
}

/* --- Side by side -------------------------------------------------------------------------------
 */

/* How many rows have room beside each other. */
static size_t
n_beside (const PfFlowTable *table, double room)
{
  const size_t n = table->n_columns;
  if (!table->side_by_side || table->total || table->n_rows <= FEW_ROWS)
    return 1;
  g_autofree double *natural = g_new0 (double, n), *least = g_new0 (double, n);
  measure (table, natural, least);
  const double one = sum_of (natural, n) + PF_FLOW_BETWEEN * (double) (n - 1);
  return (size_t) fmax (1, floor ((room + ASIDE - 1e-6) / (one + ASIDE)));
}

static void
set_table (PfFlow *flow, const PfFlowTable *table, size_t block)
{
  Columns columns;
  set_columns (&columns, table, block, pf_flow_width (flow));
  if (table->caption)
    pf_flow_title (flow, table->caption);
  const guint first = flow->strips->len;
  add_rows (flow, &columns);
  keep_short (flow, first);
  g_free (columns.x);
  g_free (columns.width);
}

/* The table with `times` rows in each of its own; what is left over in the last one is empty. */
static void
set_beside_each_other (PfFlow *flow, const PfFlowTable *table, size_t times)
{
  const size_t n = table->n_columns, n_cells = n * table->n_rows;
  const size_t n_rows = (table->n_rows + times - 1) / times;
  g_autofree PfFlowColumn *columns = g_new (PfFlowColumn, n * times);
  g_autofree const char **heads = g_new (const char *, n *times);
  g_autofree const char **cells = g_new (const char *, n *times *n_rows);
  for (size_t c = 0; c < n * times; c++)
    {
      columns[c] = table->columns[c % n];
      heads[c] = table->heads ? table->heads[c % n] : NULL;
    }
  for (size_t c = 0; c < n * times * n_rows; c++)
    cells[c] = c < n_cells ? table->cells[c] : "";
  const PfFlowTable wide = { .caption = table->caption,
                             .columns = columns,
                             .n_columns = n * times,
                             .heads = table->heads ? heads : NULL,
                             .cells = cells,
                             .n_rows = n_rows };
  set_table (flow, &wide, n);
}

void
pf_flow_table (PfFlow *flow, const PfFlowTable *table)
{
  if (table->n_rows == 0 || table->n_columns == 0)
    return;
  const size_t times = n_beside (table, pf_flow_width (flow));
  if (times > 1)
    set_beside_each_other (flow, table, times);
  else
    set_table (flow, table, table->n_columns);
}
