/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The order of work in the notes: how the maker works, the map, and all repeats one after another.
 */
#include "notes.h"

#include <glib/gi18n-lib.h>

/* As the motif lies before the maker: where the ground is mirrored, its own left is on the right.
 */
static char *
habits_words (const PfWorkingHabits *habits, bool mirrored)
{
  const bool right_first = habits->right_first != mirrored;
  const char *way =
      habits->by == PF_WORK_BY_ROW
          ? (right_first
                 ? _ ("Work along diagonal rows that run down to the right, the right one first.")
                 : _ ("Work along diagonal rows that run down to the left, the left one first."))
          : (right_first ? _ ("Work repeat by repeat, of two that are ready the right one first.")
                         : _ ("Work repeat by repeat, of two that are ready the left one first."));
  const char *pairs = habits->sew_in_first
                          ? _ ("All new pairs are sewn in before the first stitch.")
                          : _ ("New pairs are sewn in when they are needed.");
  return g_strdup_printf ("%s %s", way, pairs);
}

/* --- Lists of repeats ---------------------------------------------------------------------------
 */

/* Numbers with commas between. Those that follow one another, of repeats worked as the ground is,
 * are a run: a large piece has thousands. */
typedef struct {
  GString *text;
  guint32 first, last; /* of the run that is open, if there is one */
  bool run;
} List;

static void
append_word (List *list, const char *word)
{
  g_string_append_printf (list->text, "%s%s", list->text->len > 0 ? ", " : "", word);
}

static void
end_run (List *list)
{
  if (!list->run)
    return;
  g_autofree char *first = g_strdup_printf ("%u", list->first + 1);
  g_autofree char *last = g_strdup_printf ("%u", list->last + 1);
  g_autofree char *both = g_strdup_printf ("%s–%s", first, last);
  if (list->last < list->first + 2)
    {
      append_word (list, first);
      if (list->last > list->first)
        append_word (list, last);
    }
  else
    append_word (list, both);
  list->run = false;
}

/* "12B": a repeat that isn't worked as the ground is. */
static void
append_other (List *list, guint32 r, guint32 kind)
{
  g_autofree char *letters = pf_kind_letters (kind);
  g_autofree char *word = g_strdup_printf ("%u%s", r + 1, letters);
  end_run (list);
  append_word (list, word);
}

static void
append_repeat (List *list, const PfNotes *notes, guint32 r)
{
  const guint32 kind = notes->kinds->repeats[r].kind;
  if (!pf_repeat_kind_is_plain_ground (&notes->kinds->kinds[kind]))
    {
      append_other (list, r, kind);
      return;
    }
  if (!list->run || r != list->last + 1)
    {
      end_run (list);
      list->first = r;
    }
  list->last = r;
  list->run = true;
}

static char *
finish (List *list)
{
  end_run (list);
  return g_string_free (g_steal_pointer (&list->text), FALSE);
}

/* --- Both orders --------------------------------------------------------------------------------
 */

/* All repeats in the order of work; one that is left for others and taken up again stands twice. */
static void
add_order_by_repeat (const PfNotes *notes)
{
  List list = { .text = g_string_new (NULL) };
  for (size_t g = 0; g < notes->steps->n_groups; g++)
    if (!notes->steps->groups[g].sews_in)
      append_repeat (&list, notes, notes->steps->groups[g].repeat);
  g_autofree char *words = finish (&list);
  pf_flow_heading (notes->flow, 3, _ ("Repeats, in the order of work"));
  pf_flow_paragraph (notes->flow, words);
}

/* One line for each stretch of work in one row: its repeats, in their order. */
static void
add_order_by_row (const PfNotes *notes)
{
  static const PfFlowColumn columns[] = { PF_FLOW_NUMBERS, PF_FLOW_WORDS };
  const char *const heads[] = { _ ("Row"), _ ("Repeats, in the order of work") };
  g_autoptr (GPtrArray) cells = g_ptr_array_new_with_free_func (g_free);
  List list = { 0 };
  const PfWorkGroup *last = NULL;
  for (size_t g = 0; g < notes->steps->n_groups; g++)
    {
      const PfWorkGroup *group = &notes->steps->groups[g];
      if (group->sews_in)
        continue;
      if (last != NULL && last->row != group->row)
        g_ptr_array_add (cells, finish (&list));
      if (list.text == NULL)
        {
          g_ptr_array_add (cells, g_strdup_printf ("%u", group->row + 1));
          list.text = g_string_new (NULL);
        }
      append_repeat (&list, notes, group->repeat);
      last = group;
    }
  if (list.text != NULL)
    g_ptr_array_add (cells, finish (&list));
  pf_flow_table (notes->flow, &(PfFlowTable){ .columns = columns,
                                              .n_columns = 2,
                                              .heads = heads,
                                              .cells = (const char *const *) cells->pdata,
                                              .n_rows = cells->len / 2 });
}

void
pf_notes_add_order (const PfNotes *notes)
{
  const PfFilling *filling = notes->motif->filling;
  g_autofree char *habits = habits_words (&filling->habits, filling->placement.mirror);
  pf_flow_paragraph (notes->flow, habits);
  if (notes->kinds->n_repeats > 0)
    pf_notes_add_map (notes);
  if (filling->habits.by == PF_WORK_BY_ROW)
    add_order_by_row (notes);
  else if (notes->kinds->n_repeats > 0)
    add_order_by_repeat (notes);
}
