/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What the reports say of the maker's own choices, of edges in stretches, and of a piece with
 * several grounds.
 */
#include <string.h>

#include <json-glib/json-glib.h>

#include "samples.h"

/* One motif with a choice for a repeat that is heeded, one that isn't, and one for a sewing. The
 * caller takes the list of what isn't heeded away again with forget_choices(). */
static PfPricking *
chosen_pricking (void)
{
  PfPricking *pricking =
      sample_demo ("quince-leaf", "armure", 4, PF_EDGE_HALF_STITCH, PF_BEADS_NONE);
  PfMotif *motif = g_ptr_array_index (pricking->motifs, 0);
  PfFilling *filling = motif->filling;
  PfRepeatChoice *choices = g_new (PfRepeatChoice, 2);
  choices[0] =
      (PfRepeatChoice){ filling->repeats[0].i, filling->repeats[0].j, filling->repeats[0].state };
  choices[1] = (PfRepeatChoice){ 99, 99, PF_REPEAT_KEPT };
  motif->settings.choices = choices;
  motif->settings.n_choices = 2;
  filling->unheeded = g_new (PfUnheeded, 1);
  filling->unheeded[0] = (PfUnheeded){ false, 1, (char *) "There is no repeat (99, 99) here." };
  filling->n_unheeded = 1;
  filling->sewings[2].chosen = true;
  pricking->notes = g_strdup ("Linen 80/2, wound double.");
  const PfEdgeStretch stretch = { 10, 25.5, PF_EDGE_CLOTH_STITCH };
  g_autoptr (GError) error = NULL;
  pf_edge_set_stretches (&motif->edges[0], &motif->region->loops[0], &stretch, 1, &error);
  g_assert_no_error (error);
  return pricking;
}

static void
forget_choices (PfPricking *pricking)
{
  PfFilling *filling = ((PfMotif *) g_ptr_array_index (pricking->motifs, 0))->filling;
  g_clear_pointer (&filling->unheeded, g_free);
  filling->n_unheeded = 0;
  pf_pricking_free (pricking);
}

static JsonNode *
read_json (const char *text)
{
  g_autoptr (GError) error = NULL;
  JsonNode *root = json_from_string (text, &error);
  g_assert_no_error (error);
  return root;
}

static JsonObject *
motif_of (JsonNode *root, guint m)
{
  JsonArray *motifs = json_object_get_array_member (json_node_get_object (root), "motifs");
  return json_array_get_object_element (motifs, m);
}

/* Which elements of a list have "chosen": true, as a list of their numbers. */
static char *
chosen_in (JsonObject *motif, const char *list)
{
  JsonArray *array = json_object_get_array_member (motif, list);
  GString *found = g_string_new (NULL);
  for (guint i = 0; i < json_array_get_length (array); i++)
    {
      JsonObject *element = json_array_get_object_element (array, i);
      if (json_object_has_member (element, "chosen"))
        g_string_append_printf (found, "%u%s ", i,
                                json_object_get_boolean_member (element, "chosen") ? "" : " no");
    }
  return g_string_free (found, FALSE);
}

static void
test_choices_json (void)
{
  PfPricking *pricking = chosen_pricking ();
  g_autofree char *text = pf_report_json (pricking);
  g_autoptr (JsonNode) root = read_json (text);
  JsonObject *motif = motif_of (root, 0);
  g_autofree char *sewn = chosen_in (motif, "sewn"), *states = chosen_in (motif, "repeat_states");
  g_assert_cmpstr (sewn, ==, "2 ");
  g_assert_cmpstr (states, ==, "0 ");
  JsonArray *unheeded = json_object_get_array_member (motif, "unheeded");
  g_assert_cmpuint (json_array_get_length (unheeded), ==, 1);
  JsonObject *choice = json_array_get_object_element (unheeded, 0);
  g_assert_cmpstr (json_object_get_string_member (choice, "of"), ==, "repeat");
  g_assert_cmpstr (json_object_get_string_member (choice, "why"), ==,
                   "There is no repeat (99, 99) here.");
  g_assert_cmpint (json_array_get_int_element (json_object_get_array_member (choice, "repeat"), 1),
                   ==, 99);
  JsonObject *edge =
      json_array_get_object_element (json_object_get_array_member (motif, "edges"), 0);
  JsonObject *stretch =
      json_array_get_object_element (json_object_get_array_member (edge, "stretches"), 0);
  g_assert_cmpstr (json_object_get_string_member (stretch, "kind"), ==, "cloth");
  g_assert_cmpfloat (json_object_get_double_member (stretch, "to"), ==, 25.5);
  g_assert_cmpstr (json_object_get_string_member (json_node_get_object (root), "notes"), ==,
                   "Linen 80/2, wound double.");
  forget_choices (pricking);
}

static guint
lines_with (const char *text, const char *part)
{
  guint n = 0;
  g_auto (GStrv) lines = g_strsplit (text, "\n", -1);
  for (char **line = lines; *line; line++)
    n += strstr (*line, part) != NULL;
  return n;
}

static void
test_choices_text (void)
{
  PfPricking *pricking = chosen_pricking ();
  g_autofree char *text = pf_report_text (pricking);
  g_assert_cmpuint (lines_with (text, "Linen 80/2, wound double."), ==, 1);
  g_assert_cmpuint (lines_with (text, "From 10.0 to 25.5 mm along the outline: cloth stitch edge"),
                    ==, 1);
  g_assert_cmpuint (lines_with (text, "Your choice: repeat ("), ==, 1);
  g_assert_cmpuint (lines_with (text, "kept to: There is no repeat (99, 99) here."), ==, 1);
  g_assert_cmpuint (lines_with (text, " *"), ==, 1);
  g_assert_cmpuint (lines_with (text, "An asterisk marks"), ==, 1);
  forget_choices (pricking);
}

/* Nothing chosen, nothing said. */
static void
test_no_choices (void)
{
  PfPricking *pricking =
      sample_demo ("quince-leaf", "armure", 4, PF_EDGE_HALF_STITCH, PF_BEADS_NONE);
  g_autofree char *text = pf_report_text (pricking), *json = pf_report_json (pricking);
  g_assert_cmpuint (lines_with (text, "choice"), ==, 0);
  g_assert_cmpuint (lines_with (text, "Notes"), ==, 0);
  g_assert_cmpuint (lines_with (text, " *"), ==, 0);
  g_assert_cmpuint (lines_with (json, "\"chosen\""), ==, 0);
  g_assert_cmpuint (lines_with (json, "\"notes\""), ==, 0);
  pf_pricking_free (pricking);
}

/* The sheet marks a chosen sewing with a ring, and explains it. */
static void
test_chosen_mark (void)
{
  PfPricking *pricking = chosen_pricking ();
  const PfSheetSettings settings = sample_settings ("A4");
  g_autoptr (GError) error = NULL;
  g_autoptr (PfSheet) sheet = pf_sheet_new (pricking, &settings, &error);
  g_assert_no_error (error);
  xmlDoc *page = read_page (pf_sheet_page_svg (sheet, 0));
  g_assert_cmpuint (count_of (page, "chosen", "circle"), ==, 1);
  g_assert_nonnull (strstr (pf_sheet_page_svg (sheet, 0), "chose"));
  xmlFreeDoc (page);
  forget_choices (pricking);
}

static void
test_several_grounds (void)
{
  g_autoptr (GError) error = NULL;
  PfPricking *pricking = sample_drawing ("Two",
                                         "<circle id='sun' cx='40' cy='40' r='20'/>"
                                         "<circle id='moon' cx='90' cy='40' r='15'/>"
                                         "<circle id='star' cx='130' cy='40' r='10'/>",
                                         "torchon", 4);
  PfMotif *moon = g_ptr_array_index (pricking->motifs, 1);
  pf_ground_free (moon->ground);
  g_clear_pointer (&moon->filling, pf_filling_free);
  moon->ground = pf_ground_load ("armure", &error);
  g_assert_no_error (error);
  g_assert_true (pf_pricking_fill (pricking, &error));
  g_assert_null (pf_pricking_ground (pricking));

  PfSheetSettings settings = sample_settings ("A4");
  settings.edge_strip = true;
  g_autoptr (PfSheet) sheet = pf_sheet_new (pricking, &settings, &error);
  g_assert_no_error (error);
  xmlDoc *page = read_page (pf_sheet_page_svg (sheet, 0));
  g_autoptr (GPtrArray) words = elements_of (page, "words", "text");
  g_autoptr (GString) all = g_string_new (NULL);
  for (guint i = 0; i < words->len; i++)
    {
      g_autofree char *text = text_of (g_ptr_array_index (words, i));
      g_string_append_printf (all, "%s\n", text);
    }
  g_autofree char *first = g_strdup_printf (
      "%s: I, III", ((PfMotif *) g_ptr_array_index (pricking->motifs, 0))->ground->title);
  g_autofree char *second = g_strdup_printf ("%s: II\n", moon->ground->title);
  g_assert_nonnull (strstr (all->str, first));
  g_assert_nonnull (strstr (all->str, second));
  xmlFreeDoc (page);

  g_autofree char *report = pf_report_text (pricking), *json = pf_report_json (pricking);
  g_assert_cmpuint (lines_with (report, "  Ground: "), ==, 3);
  g_autoptr (JsonNode) root = read_json (json);
  g_assert_false (json_object_has_member (json_node_get_object (root), "ground"));
  g_assert_cmpstr (json_object_get_string_member (motif_of (root, 1), "ground"), ==, "armure");
  g_assert_cmpstr (json_object_get_string_member (motif_of (root, 2), "ground"), ==, "torchon");
  pf_pricking_free (pricking);
}

/* How often a text stands as the value of a key in a report. */
static guint
sides_called (const char *json, const char *side)
{
  g_autofree char *part = g_strdup_printf ("\"side\" : \"%s\"", side);
  return lines_with (json, part);
}

/* Where four pairs meet, each is told with its side, in the order of work and along the ways. */
static void
test_four_pairs_json (void)
{
  PfPricking *pricking =
      sample_demo ("quince-leaf", "plait-lattice", 4, PF_EDGE_HALF_STITCH, PF_BEADS_NONE);
  const PfFilling *filling = ((PfMotif *) g_ptr_array_index (pricking->motifs, 0))->filling;
  g_autofree char *text = pf_report_json (pricking);
  g_autoptr (JsonNode) root = read_json (text);
  JsonArray *worked = json_object_get_array_member (motif_of (root, 0), "worked");
  guint n_crossings = 0;
  g_assert_cmpuint (json_array_get_length (worked), ==, filling->n_stitches);
  for (guint n = 0; n < filling->n_stitches; n++)
    {
      static const char *const keys[] = { "left_pair", "inner_left_pair", "inner_right_pair",
                                          "right_pair" };
      JsonObject *told = json_array_get_object_element (worked, n);
      const PfWorkedStitch *stitch = &filling->stitches[filling->order[n]];
      const PfWorkedEnd *ends = pf_worked_ends (filling, stitch);
      const bool crossing =
          g_str_equal (json_object_get_string_member (told, "stitch"), "crossing");
      g_assert_cmpuint (stitch->n_sides, ==, crossing ? 4 : 2);
      for (unsigned side = 0; side < stitch->n_sides; side++)
        g_assert_cmpint (json_object_get_int_member (told, keys[crossing ? side : 3 * side]), ==,
                         ends[side].pair + 1);
      g_assert_true (json_object_has_member (told, "inner_left_pair") == crossing);
      n_crossings += crossing;
    }
  /* Once on each pair's way, and once for each sewing of a crossing's inner pair. */
  guint n_sewn[2] = { 0 };
  for (size_t c = 0; c < filling->n_crossings; c++)
    if (filling->stitches[filling->crossings[c].stitch].n_sides == 4 &&
        (filling->crossings[c].side == 1 || filling->crossings[c].side == 2))
      n_sewn[filling->crossings[c].side - 1]++;
  g_assert_cmpuint (n_crossings, >, 10);
  g_assert_cmpuint (n_sewn[0] + n_sewn[1], >, 0);
  g_assert_cmpuint (sides_called (text, "inner left"), ==, n_crossings + n_sewn[0]);
  g_assert_cmpuint (sides_called (text, "inner right"), ==, n_crossings + n_sewn[1]);
  pf_pricking_free (pricking);
}

/* 14 pairs and so 28 bobbins; a coloured one is told. Whatever is spare is on every bobbin. */
static void
test_thread (void)
{
  PfPricking *pricking =
      sample_demo ("quince-leaf", "armure", 4, PF_EDGE_HALF_STITCH, PF_BEADS_NONE);
  g_autofree char *without = pf_report_text (pricking);
  g_assert_null (strstr (without, "On each bobbin"));
  g_assert_nonnull (strstr (without, "How much thread a bobbin takes can’t be told"));
  PfThreadUse use = pf_thread_use_default ();
  const PfMotif *motif = g_ptr_array_index (pricking->motifs, 0);
  const PfFilling *filling = motif->filling;
  const guint32 entering = filling->sewings[filling->pairs[2].sewn_in].entering;
  use.wraps_per_cm = 20;
  pf_thread_use_set_colour (&use, pf_crossing_line (filling, entering), PF_BOBBIN_LEFT, "#aa0000");
  double total[2];
  for (int spare = 0; spare < 2; spare++)
    {
      use.spare = spare == 0 ? 0 : 250;
      pf_pricking_set_thread (pricking, &use);
      g_autofree char *text = pf_report_json (pricking);
      g_autoptr (JsonNode) root = read_json (text);
      JsonObject *thread = json_object_get_object_member (
          json_array_get_object_element (
              json_object_get_array_member (json_node_get_object (root), "motifs"), 0),
          "thread");
      JsonArray *bobbins = json_object_get_array_member (thread, "bobbins");
      g_assert_cmpuint (json_array_get_length (bobbins), ==, filling->n_pairs);
      double sum = 0;
      for (guint p = 0; p < json_array_get_length (bobbins); p++)
        {
          JsonObject *pair = json_array_get_object_element (bobbins, p);
          sum += json_object_get_double_member (pair, "left_mm") +
                 json_object_get_double_member (pair, "right_mm");
          g_assert_true (json_object_has_member (pair, "left_colour") == (p == 2));
          g_assert_false (json_object_has_member (pair, "right_colour"));
        }
      total[spare] = json_object_get_double_member (thread, "total_mm");
      g_assert_cmpfloat_with_epsilon (sum, total[spare], 0.1);
      g_assert_cmpstr (json_object_get_string_member (thread, "fit"), ==, "fits");
    }
  g_assert_cmpfloat_with_epsilon (total[1] - total[0], 250.0 * 2 * (double) filling->n_pairs, 0.1);
  g_autofree char *with = pf_report_text (pricking);
  g_assert_nonnull (strstr (with, "On each bobbin"));
  /* 100 · 20 / 27: by proportion */
  g_assert_nonnull (strstr (with, "  27 wraps per cm: 74 %\n"));
  g_assert_nonnull (strstr (with, "#aa0000"));
  pf_thread_use_clear (&use);
  pf_pricking_free (pricking);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sheet/report/choices-json", test_choices_json);
  g_test_add_func ("/sheet/report/choices-text", test_choices_text);
  g_test_add_func ("/sheet/report/no-choices", test_no_choices);
  g_test_add_func ("/sheet/report/chosen-mark", test_chosen_mark);
  g_test_add_func ("/sheet/report/four-pairs-json", test_four_pairs_json);
  g_test_add_func ("/sheet/report/thread", test_thread);
  g_test_add_func ("/sheet/report/several-grounds", test_several_grounds);
  return g_test_run ();
}
