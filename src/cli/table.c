/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Tables on standard output, in columns that line up.
 */
#include "commands.h"

/* Between columns. */
#define SPACE 2

static const char *
cell_at (const GPtrArray *cells, int n_columns, guint row, int column)
{
  return g_ptr_array_index (cells, row * (guint) n_columns + (guint) column);
}

static int
length (const char *text)
{
  return (int) g_utf8_strlen (text, -1);
}

void
pf_print_table (const GPtrArray *cells, int n_columns, const bool *right)
{
  const guint n_rows = cells->len / (guint) n_columns;
  g_autofree int *widths = g_new0 (int, n_columns);
  for (guint row = 0; row < n_rows; row++)
    for (int column = 0; column < n_columns; column++)
      widths[column] = MAX (widths[column], length (cell_at (cells, n_columns, row, column)));
  for (guint row = 0; row < n_rows; row++)
    {
      g_autoptr (GString) line = g_string_new (NULL);
      for (int column = 0; column < n_columns; column++)
        {
          const char *cell = cell_at (cells, n_columns, row, column);
          const int fill = widths[column] - length (cell);
          g_string_append_printf (line, "%*s%s%*s", right[column] ? fill : 0, "", cell,
                                  (right[column] ? 0 : fill) + SPACE, "");
        }
      g_print ("%s\n", g_strchomp (line->str));
    }
}
