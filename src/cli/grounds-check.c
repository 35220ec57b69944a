/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * pinfold-cli grounds --check: proves grounds, and prints their numbers.
 */
#include "commands.h"

#include <glib/gi18n.h>

enum {
  NAME,
  STITCHES,
  PINS,
  LINES,
  MESHES,
  DEGREES,
  ACROSS_A,
  ACROSS_B,
  PAIRS,
  PAIR_WALKS,
  THREAD_WALKS,
  ROWS,
  PROOF,
  N_COLUMNS,
};

static const bool right[N_COLUMNS] = {
  [STITCHES] = true, [PINS] = true,     [LINES] = true, [MESHES] = true,
  [ACROSS_A] = true, [ACROSS_B] = true, [PAIRS] = true, [ROWS] = true,
};

static void
add_cell (GPtrArray *cells, const char *text)
{
  g_ptr_array_add (cells, g_strdup (text));
}

static void
add_number (GPtrArray *cells, gint64 number)
{
  g_ptr_array_add (cells, g_strdup_printf ("%" G_GINT64_FORMAT, number));
}

/* "4×3 1×4 1×8" */
static void
add_degrees (GPtrArray *cells, const PfGroundNumbers *numbers)
{
  g_autoptr (GString) text = g_string_new (NULL);
  for (int m = 0, end; m < numbers->n_meshes; m = end)
    {
      for (end = m; end < numbers->n_meshes && numbers->degrees[end] == numbers->degrees[m]; end++)
        ;
      g_string_append_printf (text, "%s%d×%d", m > 0 ? " " : "", end - m, numbers->degrees[m]);
    }
  add_cell (cells, text->str);
}

static bool
is_same_way (const PfGroundWalk *walk, const PfGroundWalk *other)
{
  return walk->da == other->da && walk->db == other->db;
}

/* "2×(1, 0) 1×(1, 1)": how many walks lead so many repeats on, in the order in which they come. */
static void
add_walks (GPtrArray *cells, const PfGroundWalk *walks, int n)
{
  g_autoptr (GString) text = g_string_new (NULL);
  for (int w = 0; w < n; w++)
    {
      int before = 0, same = 0;
      for (int other = 0; other < n; other++)
        if (is_same_way (&walks[w], &walks[other]))
          {
            before += other < w;
            same++;
          }
      if (before == 0)
        g_string_append_printf (text, "%s%d×(%d, %d)", w > 0 ? " " : "", same, walks[w].da,
                                walks[w].db);
    }
  add_cell (cells, text->str);
}

static void
add_headings (GPtrArray *cells)
{
  const char *const headings[N_COLUMNS] = {
    [NAME] = _ ("Name"),
    [STITCHES] = _ ("Stitches"),
    [PINS] = _ ("Pins"),
    [LINES] = _ ("Lines"),
    [MESHES] = _ ("Meshes"),
    [DEGREES] = _ ("Lines round them"),
    [ACROSS_A] = _ ("Across a"),
    [ACROSS_B] = _ ("Across b"),
    [PAIRS] = _ ("Pairs"),
    [PAIR_WALKS] = _ ("Pairs run"),
    [THREAD_WALKS] = _ ("Threads run"),
    [ROWS] = _ ("Back after"),
    [PROOF] = _ ("Proof"),
  };
  for (int column = 0; column < N_COLUMNS; column++)
    add_cell (cells, headings[column]);
}

static void
add_ground (GPtrArray *cells, const PfGround *ground, bool proved)
{
  g_autoptr (PfGroundNumbers) numbers = pf_ground_count (ground);
  add_cell (cells, ground->name);
  add_number (cells, numbers->n_stitches);
  add_number (cells, numbers->n_pins);
  add_number (cells, numbers->n_lines);
  add_number (cells, numbers->n_meshes);
  add_degrees (cells, numbers);
  add_number (cells, numbers->across_a);
  add_number (cells, numbers->across_b);
  add_number (cells, numbers->n_pairs);
  add_walks (cells, numbers->pair_walks, numbers->n_pair_walks);
  add_walks (cells, numbers->thread_walks, numbers->n_thread_walks);
  add_number (cells, numbers->rows);
  add_cell (cells, proved ? _ ("holds") : _ ("fails"));
}

/* What the table's numbers mean. */
static void
print_notes (void)
{
  g_print (
      "\n%s\n",
      _ ("Lines round them: “4×3 1×8” are four meshes with three pair lines round each, and one "
         "with "
         "eight.\n"
         "Across: pair lines across a cut along the repeat vector a or b.\n"
         "Pairs: those that work one repeat.\n"
         "Run: “2×(1, 0)” are two ways, each in the same place again one a and no b further on; a "
         "pair keeps its side at each stitch.\n"
         "Back after: rows of repeats until every thread lies as it began."));
}

static void
print_proved (void)
{
  g_print ("\n%s\n",
           _ ("Proved of each:\n"
              "- As many pairs go into each stitch as come out of it, and no pair has to be worked "
              "before itself.\n"
              "- The pairs stand round each stitch as drawn, and cross nowhere else.\n"
              "- Each mesh runs down from one stitch to another.\n"
              "- No thread can slip out: no two crossings undo each other, and no thread lies free "
              "on the others or beside them, even with the pins out.\n"
              "- The nearest pins stand 1 to 2 units apart."));
}

int
pf_check_grounds (char **names)
{
  int status = PF_EXIT_DONE;
  g_autoptr (GPtrArray) cells = g_ptr_array_new_with_free_func (g_free);
  add_headings (cells);
  for (char **name = names; *name != NULL; name++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (PfGround) ground = pf_ground_load (*name, &error);
      if (ground != NULL)
        add_ground (cells, ground, pf_ground_prove (ground, &error));
      if (error == NULL)
        continue;
      if (ground != NULL)
        g_prefix_error (&error, "%s: ", ground->name);
      pf_say_error ("%s", error->message);
      status = PF_EXIT_BAD_INPUT;
    }
  if (cells->len == N_COLUMNS)
    return status;
  pf_print_table (cells, N_COLUMNS, right);
  print_notes ();
  if (status == PF_EXIT_DONE)
    print_proved ();
  return status;
}
