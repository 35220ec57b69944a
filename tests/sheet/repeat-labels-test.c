/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * In the drawing of a repeat, however small, each label either stands in it, clear of all others,
 * or is said to have no room.
 */
#include <string.h>

#include "repeat-drawing.h"
#include "samples.h"

typedef struct {
  const char *ground;
  double most; /* mm that the drawing may take up */
} Case;

/* The texts of a drawing; as keys of a table. */
static GHashTable *
texts_in (const PfRepeatPicture *picture, double width, double height)
{
  PfPage *page = pf_page_new (width, height, "Repeat");
  pf_repeat_picture_draw (page, (PfBox){ { 0, 0 }, { width, height } },
                          (PfRepeatPicture *) picture);
  g_autofree char *svg = pf_page_finish (page);
  xmlDoc *document = read_page (svg);
  g_autoptr (GPtrArray) texts = elements_of (document, "numbers", "text");
  g_autoptr (GArray) boxes = g_array_new (FALSE, FALSE, sizeof (PfBox));
  GHashTable *found = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  for (guint t = 0; t < texts->len; t++)
    {
      const PfBox box = text_ink (g_ptr_array_index (texts, t));
      g_assert_cmpfloat (box.min.x, >=, -0.02);
      g_assert_cmpfloat (box.max.x, <=, width + 0.02);
      for (guint b = 0; b < boxes->len; b++)
        {
          const PfBox *other = &g_array_index (boxes, PfBox, b);
          g_assert_false (box.min.x < other->max.x && other->min.x < box.max.x &&
                          box.min.y < other->max.y && other->min.y < box.max.y);
        }
      g_array_append_val (boxes, box);
      g_hash_table_add (found, text_of (g_ptr_array_index (texts, t)));
    }
  xmlFreeDoc (document);
  return found;
}

/* Is a label that isn't in the drawing among those of that sort in the words below it? */
static bool
is_said (const char *left_out, const char *sort, const char *label)
{
  g_auto (GStrv) sentences = g_strsplit (left_out ? left_out : "", ". ", -1);
  for (char **sentence = sentences; *sentence; sentence++)
    {
      const char *at = strstr (*sentence, sort);
      if (at == NULL)
        continue;
      g_auto (GStrv) words = g_strsplit_set (at, " ,.", -1);
      g_auto (GStrv) wanted = g_strsplit_set (label, " ,.", -1);
      bool all = true;
      for (char **word = wanted; *word; word++)
        all &= g_strv_contains ((const char *const *) words, *word);
      if (all)
        return true;
    }
  return false;
}

static void
check_label (GHashTable *drawn, const char *left_out, const char *sort, const char *label,
             guint *n_said)
{
  const bool said = is_said (left_out, sort, label);
  *n_said += said;
  g_test_message ("%s %s: %s", sort, label, left_out ? left_out : "nothing is left out");
  g_assert_true (said || g_hash_table_contains (drawn, label));
}

/* The numbers of steps at one place stand together: those that are in a label of their own. */
static void
check_steps (GHashTable *drawn, const char *left_out, guint n_steps, const PfRepeatWork *work,
             guint *n_said)
{
  for (guint s = 0; s < n_steps; s++)
    {
      if (g_array_index (work->steps, PfWorkStep, s).kind == PF_WORK_TWIST)
        continue;
      g_autofree char *number = g_strdup_printf ("%u", s + 1);
      bool found = is_said (left_out, "step", number);
      *n_said += found;
      GHashTableIter iter;
      gpointer text;
      g_hash_table_iter_init (&iter, drawn);
      while (!found && g_hash_table_iter_next (&iter, &text, NULL))
        {
          g_auto (GStrv) all = g_strsplit (text, ", ", -1);
          found = g_strv_contains ((const char *const *) all, number);
        }
      g_assert_true (found);
    }
}

static guint
check_repeat (const PfMotif *motif, const PfWorkingSteps *steps, const PfWorkedRepeat *repeat,
              double most)
{
  g_autoptr (PfRepeatWork) work =
      pf_repeat_work_new (motif->filling, motif->ground, steps, repeat->i, repeat->j);
  g_autoptr (PfRepeatPicture) picture = pf_repeat_picture_new (
      motif, pf_repeat_work_new (motif->filling, motif->ground, steps, repeat->i, repeat->j),
      repeat->i, repeat->j, (PfRepeatLook){ false, false }, most, most);
  double width, height;
  pf_repeat_picture_size (picture, &width, &height);
  g_assert_cmpfloat (width, <=, most + 1e-6);
  g_assert_cmpfloat (height, <=, most + 1e-6);
  const char *left_out = pf_repeat_picture_left_out (picture);
  g_autoptr (GHashTable) drawn = texts_in (picture, width, height);
  const PfStepNames names = pf_repeat_work_names (work);
  guint n_said = 0;
  for (guint p = 0; p < work->pairs->len; p++)
    {
      g_autofree char *number = g_strdup_printf ("%u", p + 1);
      check_label (drawn, left_out, "pair", number, &n_said);
    }
  for (guint s = 0; s < work->sewings->len; s++)
    {
      g_autofree char *letters =
          pf_step_sewing_letters (&names, g_array_index (work->sewings, guint32, s));
      check_label (drawn, left_out, "sewing", letters, &n_said);
    }
  check_steps (drawn, left_out, work->steps->len, work, &n_said);
  return n_said;
}

static void
test_labels (gconstpointer data)
{
  const Case *wanted = data;
  PfPricking *pricking =
      sample_demo ("quince-leaf", wanted->ground, 4, PF_EDGE_HALF_STITCH, PF_BEADS_NONE);
  const PfMotif *motif = g_ptr_array_index (pricking->motifs, 0);
  g_autoptr (PfWorkingSteps) steps = pf_working_steps_new (motif->filling, motif->ground);
  g_autoptr (PfRepeatKinds) kinds = pf_repeat_kinds_new (motif->filling, motif->ground, steps);
  guint n_said = 0;
  for (size_t k = 0; k < kinds->n_kinds; k++)
    n_said +=
        check_repeat (motif, steps, &kinds->repeats[kinds->kinds[k].repeats[0]], wanted->most);
  /* A drawing like those of the book has room for all, one as large as a stamp hasn't. */
  g_assert_cmpint (n_said > 0, ==, wanted->most < 40);
  pf_pricking_free (pricking);
}

int
main (int argc, char **argv)
{
  static const Case cases[] = { { "armure", 92 }, { "spider", 92 }, { "rose", 92 },
                                { "armure", 22 }, { "spider", 24 }, { "rose", 20 } };
  g_test_init (&argc, &argv, NULL);
  for (size_t c = 0; c < G_N_ELEMENTS (cases); c++)
    {
      g_autofree char *path =
          g_strdup_printf ("/sheet/repeat-labels/%s-%g", cases[c].ground, cases[c].most);
      g_test_add_data_func (path, &cases[c], test_labels);
    }
  return g_test_run ();
}
