/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What a sheet shows is what the filling has: every pin, pair line, predicted line, sewing and
 * bead, where it belongs, and nothing else.
 */
#include <math.h>
#include <string.h>

#include "samples.h"
#include "view.h"

static PfSheet *
new_sheet (const PfPricking *pricking, const PfSheetSettings *settings)
{
  g_autoptr (GError) error = NULL;
  PfSheet *sheet = pf_sheet_new (pricking, settings, &error);
  g_assert_no_error (error);
  return sheet;
}

/* The only page of a sheet, read. */
static xmlDoc *
only_page (const PfPricking *pricking, const PfSheetSettings *settings)
{
  g_autoptr (PfSheet) sheet = new_sheet (pricking, settings);
  g_assert_cmpuint (pf_sheet_n_pages (sheet), ==, 1);
  return read_page (pf_sheet_page_svg (sheet, 0));
}

/* How the drawing lies on the page: found from the first pinhole, the same in both. */
typedef struct {
  double scale_x, scale_y;
  PfPoint shift;
} Map;

static Map
map_of (xmlDoc *page, const PfPricking *pricking, double enlarge, bool mirror)
{
  const PfMotif *motif = g_ptr_array_index (pricking->motifs, 0);
  const PfPlace place = { 0, motif->edges[0].pinholes[0] };
  const PfPoint p = pf_region_point (motif->region, place);
  g_autoptr (GPtrArray) holes = elements_of (page, "pinholes", "circle");
  const xmlNode *hole = g_ptr_array_index (holes, 0);
  const double scale_x = mirror ? -enlarge : enlarge;
  return (
      Map){ scale_x,
            enlarge,
            { number_of (hole, "cx") - scale_x * p.x, number_of (hole, "cy") - enlarge * p.y } };
}

static PfPoint
on_page (Map map, PfPoint p)
{
  return (PfPoint){ map.scale_x * p.x + map.shift.x, map.scale_y * p.y + map.shift.y };
}

/* Numbers on the page have three decimals, and so has the map. */
#define NEAR 0.0021

static int
compare (gconstpointer a, gconstpointer b)
{
  const PfPoint *p = a, *q = b;
  const double d = fabs (p->y - q->y) > NEAR ? p->y - q->y : p->x - q->x;
  return d < 0 ? -1 : d > 0;
}

/* The same points, in whatever order. */
static void
assert_same_points (GArray *found, GArray *expected)
{
  g_assert_cmpuint (found->len, ==, expected->len);
  g_array_sort (found, compare);
  g_array_sort (expected, compare);
  for (guint i = 0; i < found->len; i++)
    g_assert_cmpfloat (
        pf_point_distance (g_array_index (found, PfPoint, i), g_array_index (expected, PfPoint, i)),
        <, NEAR);
}

static GArray *
circles_of (xmlDoc *page, const char *group)
{
  g_autoptr (GPtrArray) circles = elements_of (page, group, "circle");
  GArray *points = g_array_new (FALSE, FALSE, sizeof (PfPoint));
  for (guint i = 0; i < circles->len; i++)
    {
      const xmlNode *circle = g_ptr_array_index (circles, i);
      const PfPoint p = { number_of (circle, "cx"), number_of (circle, "cy") };
      g_array_append_val (points, p);
    }
  return points;
}

/* Middles of the segments of all chains in a group. */
static GArray *
middles_of (xmlDoc *page, const char *group)
{
  g_autoptr (GPtrArray) chains = elements_of (page, group, "polyline");
  GArray *middles = g_array_new (FALSE, FALSE, sizeof (PfPoint));
  for (guint i = 0; i < chains->len; i++)
    {
      g_autoptr (GArray) points = points_of (g_ptr_array_index (chains, i));
      for (guint p = 0; p + 1 < points->len; p++)
        {
          const PfPoint a = g_array_index (points, PfPoint, p);
          const PfPoint b = g_array_index (points, PfPoint, p + 1);
          const PfPoint middle = { (a.x + b.x) / 2, (a.y + b.y) / 2 };
          g_array_append_val (middles, middle);
        }
    }
  return middles;
}

static void
check_pins (xmlDoc *page, Map map, const PfPricking *pricking)
{
  g_autoptr (GArray) found = circles_of (page, "pins");
  g_autoptr (GArray) expected = g_array_new (FALSE, FALSE, sizeof (PfPoint));
  for (guint m = 0; m < pricking->motifs->len; m++)
    {
      const PfMotif *motif = g_ptr_array_index (pricking->motifs, m);
      for (size_t s = 0; s < motif->filling->n_stitches; s++)
        {
          const PfWorkedStitch *stitch = &motif->filling->stitches[s];
          const PfPoint at = on_page (map, stitch->at);
          if (strchr (motif->ground->stitches[stitch->id.k].work, 'p'))
            g_array_append_val (expected, at);
        }
    }
  g_assert_cmpuint (found->len, ==, pf_pricking_counts (pricking).pins);
  assert_same_points (found, expected);
}

/* Every link from stitch to stitch is a drawn segment; a way and the same way back may be drawn
 * once. */
static void
check_pair_lines (xmlDoc *page, Map map, const PfPricking *pricking)
{
  g_autoptr (GArray) found = middles_of (page, "pair-lines");
  g_autoptr (GArray) expected = g_array_new (FALSE, FALSE, sizeof (PfPoint));
  for (guint m = 0; m < pricking->motifs->len; m++)
    {
      const PfFilling *filling = ((PfMotif *) g_ptr_array_index (pricking->motifs, m))->filling;
      for (size_t s = 0; s < filling->n_stitches; s++)
        for (unsigned side = 0; side < filling->stitches[s].n_sides; side++)
          {
            const guint32 to = pf_worked_ends (filling, &filling->stitches[s])[side].to;
            if (to == PF_NONE)
              continue;
            const PfPoint a = filling->stitches[s].at, b = filling->stitches[to].at;
            const PfPoint middle = on_page (map, (PfPoint){ (a.x + b.x) / 2, (a.y + b.y) / 2 });
            if (pf_point_distance (a, b) > 1e-6)
              g_array_append_val (expected, middle);
          }
    }
  g_array_sort (found, compare);
  g_array_sort (expected, compare);
  for (int way = 0; way < 2; way++)
    {
      const GArray *these = way ? expected : found, *those = way ? found : expected;
      for (guint i = 0; i < these->len; i++)
        {
          const PfPoint p = g_array_index (these, PfPoint, i);
          bool there = false;
          for (guint j = 0; j < those->len && !there; j++)
            there = pf_point_distance (p, g_array_index (those, PfPoint, j)) < NEAR;
          g_assert_true (there);
        }
    }
}

static PfPoint
middle_of (const xmlNode *polygon)
{
  g_autoptr (GArray) points = points_of (polygon);
  PfPoint middle = { 0, 0 };
  for (guint p = 0; p < points->len; p++)
    middle = pf_point_add (middle, g_array_index (points, PfPoint, p), 1.0 / points->len);
  return middle;
}

static void
check_sewings (xmlDoc *page, Map map, const PfPricking *pricking)
{
  g_autoptr (GPtrArray) lozenges = elements_of (page, "at-pinhole", "polygon");
  g_autoptr (GPtrArray) slots = elements_of (page, "round-bar", "polygon");
  guint n_lozenges = 0, n_slots = 0;
  for (guint m = 0; m < pricking->motifs->len; m++)
    {
      const PfFilling *filling = ((PfMotif *) g_ptr_array_index (pricking->motifs, m))->filling;
      for (size_t i = 0; i < filling->n_sewings; i++)
        {
          const PfSewing *sewing = &filling->sewings[i];
          const xmlNode *mark = sewing->pinhole == PF_NONE
                                    ? g_ptr_array_index (slots, n_slots++)
                                    : g_ptr_array_index (lozenges, n_lozenges++);
          g_assert_cmpfloat (pf_point_distance (middle_of (mark), on_page (map, sewing->at)), <,
                             NEAR);
        }
    }
  const PfCounts counts = pf_pricking_counts (pricking);
  g_assert_cmpuint (lozenges->len, ==, counts.at_pinhole);
  g_assert_cmpuint (slots->len, ==, counts.round_bar);
  g_assert_cmpuint (count_of (page, "off-line", "polygon"), ==, counts.off_line);
}

/* One line for each new, turned and finished pair, three (out, along, in) for a carried one. */
static void
check_predicted (xmlDoc *page, const PfPricking *pricking)
{
  const PfCounts counts = pf_pricking_counts (pricking);
  g_assert_cmpuint (count_of (page, "new", "polyline"), ==, counts.new_pairs);
  g_assert_cmpuint (count_of (page, "turned", "polyline"), ==, counts.turned);
  g_assert_cmpuint (count_of (page, "carried", "polyline"), ==, 3 * counts.carried);
  g_assert_cmpuint (count_of (page, "finished", "polyline"), ==, counts.finished);
  g_assert_cmpuint (count_of (page, "cuts", "line"), ==, counts.finished);
  g_assert_cmpuint (count_of (page, "arrows", "polygon"), ==,
                    counts.new_pairs + counts.turned + 2 * counts.carried);
  g_autoptr (GPtrArray) turned = elements_of (page, "turned", "polyline");
  for (guint i = 0; i < turned->len; i++)
    {
      g_autoptr (GArray) points = points_of (g_ptr_array_index (turned, i));
      g_assert_cmpuint (points->len, ==, 3);
    }
}

/* Each new pair has its number, or it is said that it hasn't. */
static void
check_numbers (xmlDoc *page, const PfPricking *pricking)
{
  g_autoptr (GPtrArray) texts = elements_of (page, "numbers", "text");
  size_t missing = 0;
  for (guint m = 0; m < pricking->motifs->len; m++)
    {
      const PfFilling *filling = ((PfMotif *) g_ptr_array_index (pricking->motifs, m))->filling;
      for (size_t p = 0; p < filling->n_pairs && pricking->motifs->len == 1; p++)
        {
          g_autofree char *number = g_strdup_printf ("%zu", p + 1);
          bool found = false;
          for (guint i = 0; i < texts->len && !found; i++)
            {
              g_autofree char *text = text_of (g_ptr_array_index (texts, i));
              found = strcmp (text, number) == 0;
            }
          missing += !found;
        }
    }
  g_autoptr (GPtrArray) words = elements_of (page, "words", "text");
  bool said = false;
  for (guint i = 0; i < words->len; i++)
    {
      g_autofree char *text = text_of (g_ptr_array_index (words, i));
      said = said || strstr (text, "left out for lack") || strstr (text, "left out for");
    }
  g_assert_true (missing == 0 || said);
}

/* All words lie in the frame, and none on another but on the drawing. */
static void
check_words (xmlDoc *page)
{
  const PfBox frame = frame_of (page), window = window_of (page);
  g_autoptr (GPtrArray) texts = elements_of (page, NULL, "text");
  GArray *boxes = g_array_new (FALSE, FALSE, sizeof (PfBox));
  for (guint i = 0; i < texts->len; i++)
    {
      const PfBox box = text_ink (g_ptr_array_index (texts, i));
      g_assert_true (box.min.x > frame.min.x && box.max.x < frame.max.x &&
                     box.min.y > frame.min.y && box.max.y < frame.max.y);
      const bool in_window = box.min.x > window.min.x && box.max.y < window.max.y;
      if (!in_window)
        {
          g_assert_false (pf_boxes_meet (box, window));
          for (guint j = 0; j < boxes->len; j++)
            g_assert_false (pf_boxes_meet (box, g_array_index (boxes, PfBox, j)));
          g_array_append_val (boxes, box);
        }
    }
  g_array_unref (boxes);
}

static char *
all_text (xmlDoc *page)
{
  g_autoptr (GString) all = g_string_new (NULL);
  g_autoptr (GPtrArray) texts = elements_of (page, NULL, "text");
  for (guint i = 0; i < texts->len; i++)
    {
      g_autofree char *text = text_of (g_ptr_array_index (texts, i));
      g_string_append (all, text);
      g_string_append_c (all, '\n');
    }
  return g_string_free (g_steal_pointer (&all), FALSE);
}

static void
assert_says (xmlDoc *page, const char *words)
{
  g_autofree char *all = all_text (page);
  if (!strstr (all, words))
    g_error ("“%s” isn't on the page:\n%s", words, all);
}

static void
assert_silent (xmlDoc *page, const char *words)
{
  g_autofree char *all = all_text (page);
  g_assert_null (strstr (all, words));
}

/* The legend explains what occurs and nothing else. */
static void
check_legend (xmlDoc *page, const PfPricking *pricking)
{
  const PfCounts counts = pf_pricking_counts (pricking);
  const struct {
    const char *words;
    size_t n;
  } entries[] = {
    { "Pin of the ground", counts.pins },
    { "New pair", counts.new_pairs },
    { "Turned pair", counts.turned },
    { "Carried pair", counts.carried },
    { "Finished pair", counts.finished },
    { "Sewing into a pinhole", counts.at_pinhole },
    { "Sewing round the bar", counts.round_bar },
    { "Sewing off its line", counts.off_line },
    { "Kept repeat", counts.kept },
    { "Plain repeat", counts.plain },
    { "Repeat left out", counts.left_out },
    { "Bead", counts.beads },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (entries); i++)
    if (entries[i].n > 0)
      assert_says (page, entries[i].words);
    else
      assert_silent (page, entries[i].words);
}

typedef struct {
  const char *demo, *ground;
  double gap, enlarge;
  PfEdgeKind edge;
  PfBeads beads;
  bool mirror;
  const char *paper;
} Case;

static void
test_content (gconstpointer data)
{
  const Case *c = data;
  PfPricking *pricking = sample_demo (c->demo, c->ground, c->gap, c->edge, c->beads);
  PfSheetSettings settings = sample_settings (c->paper);
  settings.enlarge = c->enlarge;
  settings.mirror = c->mirror;
  xmlDoc *page = only_page (pricking, &settings);
  const Map map = map_of (page, pricking, c->enlarge, c->mirror);
  check_pins (page, map, pricking);
  check_pair_lines (page, map, pricking);
  check_sewings (page, map, pricking);
  check_predicted (page, pricking);
  check_numbers (page, pricking);
  check_legend (page, pricking);
  check_words (page);
  g_assert_cmpuint (count_of (page, "beads", "circle"), ==,
                    2 * pf_pricking_counts (pricking).beads);
  size_t n_holes = 0;
  for (guint m = 0; m < pricking->motifs->len; m++)
    {
      const PfMotif *motif = g_ptr_array_index (pricking->motifs, m);
      for (size_t i = 0; i < motif->region->n_loops; i++)
        n_holes += motif->edges[i].n_pinholes;
    }
  g_assert_cmpuint (count_of (page, "pinholes", "circle"), ==, n_holes);
  xmlFreeDoc (page);
  pf_pricking_free (pricking);
}

static void
test_title_block (void)
{
  PfPricking *pricking =
      sample_demo ("quince-leaf", "torchon", 4, PF_EDGE_HALF_STITCH, PF_BEADS_NONE);
  PfSheetSettings settings = sample_settings ("A4");
  xmlDoc *page = only_page (pricking, &settings);
  static const char *const said[] = {
    "quince-leaf",        "Torchon ground",  "Gap 4 mm, not turned", "True size, 1 : 1",
    "As worked, face up", "2024-02-29",      "Sheet 1 of 1",         "50 mm",
    "New pair",           "Pins and needles"
  };
  for (size_t i = 0; i < G_N_ELEMENTS (said); i++)
    assert_says (page, said[i]);
  /* What doesn't occur isn't explained. */
  static const char *const silent[] = { "Bead", "beads", "Kept", "Plain", "Mirror", "Join" };
  for (size_t i = 0; i < G_N_ELEMENTS (silent); i++)
    assert_silent (page, silent[i]);
  xmlFreeDoc (page);

  settings.mirror = true;
  settings.enlarge = 2.5;
  settings.date = NULL;
  page = only_page (pricking, &settings);
  assert_says (page, "Enlarged 2.5 : 1");
  assert_says (page, "Mirror image, face down");
  assert_silent (page, "2024");
  xmlFreeDoc (page);
  pf_pricking_free (pricking);
}

/* A title of any length and kind stays in its column and doesn't break the page. */
static void
test_titles (void)
{
  static const char *const titles[] = {
    "",
    "<&\">'",
    "A title that goes on for far longer than a title block has room for, again and again and "
    "again, "
    "until nobody reads it any more",
    "Donaudampfschifffahrtsgesellschaftskapitänsmützenabzeichenspitzenklöppelbriefmusterbogen",
    "WWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWW",
    "control \x01 and broken \xff letters",
  };
  for (size_t i = 0; i < G_N_ELEMENTS (titles); i++)
    {
      PfPricking *pricking =
          sample_drawing (titles[i], "<circle cx='40' cy='40' r='25'/>", "armure", 5);
      PfSheetSettings settings = sample_settings ("Letter");
      xmlDoc *page = only_page (pricking, &settings);
      check_words (page);
      xmlFreeDoc (page);
      pf_pricking_free (pricking);
    }
}

/* A mirrored sheet has the same words, none of them mirrored: no transform but a quarter turn of
 * the words beside upright rules and scales. */
static void
test_mirror (void)
{
  PfPricking *pricking = sample_demo ("quince-leaf", "rose", 4, PF_EDGE_HALF_STITCH, PF_BEADS_NONE);
  PfSheetSettings settings = sample_settings ("A4");
  settings.mirror = true;
  g_autoptr (PfSheet) sheet = new_sheet (pricking, &settings);
  const char *svg = pf_sheet_page_svg (sheet, 0);
  const char *transform = strstr (svg, "transform");
  g_assert_nonnull (transform);
  for (; transform; transform = strstr (transform + 1, "transform"))
    g_assert_true (g_str_has_prefix (transform, "transform=\"rotate(-90 "));
  g_assert_null (strstr (svg, "scale("));
  g_assert_null (strstr (svg, "matrix("));
  pf_pricking_free (pricking);
}

static void
test_pins_only (void)
{
  PfPricking *pricking =
      sample_demo ("quince-flower", "armure", 4, PF_EDGE_HALF_STITCH, PF_BEADS_WHOLE);
  PfSheetSettings settings = sample_settings ("A4");
  settings.pins_only = true;
  xmlDoc *page = only_page (pricking, &settings);
  g_assert_cmpuint (count_of (page, "pins", "circle"), ==, pf_pricking_counts (pricking).pins);
  g_assert_cmpuint (count_of (page, "outline", "polyline"), >, 0);
  g_assert_cmpuint (count_of (page, "pinholes", "circle"), >, 0);
  g_assert_cmpuint (count_of (page, "rule-across", "line"), ==, 3);
  g_assert_cmpuint (count_of (page, "rule-up", "line"), ==, 3);
  static const char *const none[] = { "pair-lines", "new",     "turned", "finished", "at-pinhole",
                                      "round-bar",  "numbers", "beads",  "missing",  "kept" };
  for (size_t i = 0; i < G_N_ELEMENTS (none); i++)
    {
      g_autofree char *class_name = g_strdup_printf ("%s", none[i]);
      for (const char *const *name =
               (const char *const[]){ "polyline", "polygon", "circle", "text", NULL };
           *name; name++)
        g_assert_cmpuint (count_of (page, class_name, *name), ==, 0);
    }
  assert_says (page, "quince-flower");
  check_words (page);
  xmlFreeDoc (page);
  pf_pricking_free (pricking);
}

/* Nothing fits: the outline is drawn all the same. */
static void
test_nothing_fits (void)
{
  PfPricking *pricking = sample_drawing ("Small", "<circle cx='5' cy='5' r='2'/>", "spider", 30);
  const PfMotif *motif = g_ptr_array_index (pricking->motifs, 0);
  g_assert_cmpuint (motif->filling->n_stitches, ==, 0);
  PfSheetSettings settings = sample_settings ("A4");
  for (int pins_only = 0; pins_only < 2; pins_only++)
    {
      settings.pins_only = pins_only;
      xmlDoc *page = only_page (pricking, &settings);
      g_assert_cmpuint (count_of (page, "outline", "polyline"), >, 0);
      g_assert_cmpuint (count_of (page, "pins", "circle"), ==, 0);
      check_words (page);
      xmlFreeDoc (page);
    }
  pf_pricking_free (pricking);
}

static void
test_several_motifs (void)
{
  PfPricking *pricking = sample_drawing ("Three",
                                         "<circle id='sun' cx='40' cy='40' r='20'/><rect id='door' "
                                         "x='70' y='20' width='30' height='50'/>"
                                         "<path id='roof' d='M20,80 h60 l-30,30 z'/>",
                                         "torchon", 5);
  g_assert_cmpuint (pricking->motifs->len, ==, 3);
  PfSheetSettings settings = sample_settings ("A4");
  xmlDoc *page = only_page (pricking, &settings);
  assert_says (page, "Motifs: I sun, II door, III roof");
  g_autoptr (GPtrArray) texts = elements_of (page, "numbers", "text");
  int n_roman = 0;
  for (guint i = 0; i < texts->len; i++)
    {
      g_autofree char *text = text_of (g_ptr_array_index (texts, i));
      n_roman += strspn (text, "I") == strlen (text);
    }
  g_assert_cmpint (n_roman, ==, 3);
  check_pins (page, map_of (page, pricking, 1, false), pricking);
  check_words (page);
  xmlFreeDoc (page);
  pf_pricking_free (pricking);
}

static void
test_background (void)
{
  PfPricking *pricking = sample_drawing (
      "Background", "<circle cx='40' cy='40' r='20'/><path d='M0,0 L90,10' fill='none'/>",
      "torchon", 5);
  PfSheetSettings settings = sample_settings ("A4");
  xmlDoc *page = only_page (pricking, &settings);
  g_assert_cmpuint (count_of (page, "background", "polyline"), ==, 0);
  xmlFreeDoc (page);
  settings.background = true;
  page = only_page (pricking, &settings);
  g_assert_cmpuint (count_of (page, "background", "polyline"), ==, 1);
  xmlFreeDoc (page);
  pf_pricking_free (pricking);
}

static void
test_refused (void)
{
  PfPricking *pricking =
      sample_drawing ("Large", "<rect x='0' y='0' width='900' height='900'/>", "torchon", 50);
  static const struct {
    double enlarge;
    PfError code;
  } cases[] = { { 0, PF_ERROR_SETTING },     { 0.099, PF_ERROR_SETTING },
                { 20.01, PF_ERROR_SETTING }, { -1, PF_ERROR_SETTING },
                { NAN, PF_ERROR_SETTING },   { INFINITY, PF_ERROR_SETTING },
                { 20, PF_ERROR_TOO_BIG } };
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      PfSheetSettings settings = sample_settings ("A4");
      settings.enlarge = cases[i].enlarge;
      g_assert_null (pf_sheet_new (pricking, &settings, &error));
      g_assert_error (error, PF_ERROR, (gint) cases[i].code);
    }
  pf_pricking_free (pricking);
}

int
main (int argc, char **argv)
{
  static const Case cases[] = {
    { "quince-leaf", "torchon", 4, 1, PF_EDGE_HALF_STITCH, PF_BEADS_NONE, false, "A4" },
    { "quince-leaf", "torchon", 2, 3, PF_EDGE_HALF_STITCH, PF_BEADS_NONE, true, "A4" },
    { "quince-leaf", "armure", 3, 1, PF_EDGE_CLOTH_STITCH, PF_BEADS_KEPT, false, "Letter" },
    { "quince-flower", "rose", 3, 1, PF_EDGE_HALF_STITCH, PF_BEADS_NONE, false, "A4" },
    { "quince-flower", "armure", 8, 0.7, PF_EDGE_HALF_STITCH, PF_BEADS_WHOLE, false, "A4" },
    { "pond", "spider", 3, 1, PF_EDGE_HALF_STITCH, PF_BEADS_NONE, true, "Letter" },
    { "pond", "honeycomb", 4, 1, PF_EDGE_CLOTH_STITCH, PF_BEADS_NONE, false, "A4" },
    { "quince-leaf", "plait-lattice", 4, 1, PF_EDGE_HALF_STITCH, PF_BEADS_NONE, false, "A4" },
    { "runner-end", "rose", 5, 1, PF_EDGE_HALF_STITCH, PF_BEADS_NONE, false, "A3" },
  };
  g_test_init (&argc, &argv, NULL);
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *name = g_strdup_printf ("/sheet/content/%s-%s-%g-%g", cases[i].demo,
                                               cases[i].ground, cases[i].gap, cases[i].enlarge);
      g_test_add_data_func (name, &cases[i], test_content);
    }
  g_test_add_func ("/sheet/content/title-block", test_title_block);
  g_test_add_func ("/sheet/content/titles", test_titles);
  g_test_add_func ("/sheet/content/mirror", test_mirror);
  g_test_add_func ("/sheet/content/pins-only", test_pins_only);
  g_test_add_func ("/sheet/content/nothing-fits", test_nothing_fits);
  g_test_add_func ("/sheet/content/several-motifs", test_several_motifs);
  g_test_add_func ("/sheet/content/background", test_background);
  g_test_add_func ("/sheet/content/refused", test_refused);
  return g_test_run ();
}
