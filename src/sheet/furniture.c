/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Sets the strip: title block on the left under the check rule, legend beside it, the map of the
 * sheets at the right, a line of care at the foot. Its height follows from what has to be said.
 */
#include "furniture.h"

#include <math.h>

#include <glib/gi18n-lib.h>

#include "layers.h"
#include "style.h"
#include "text.h"

#define PAD 3.5    /* from the frame to the words */
#define RULE_X 5.0 /* from the frame to the corner of the check rules, ... */
#define RULE_Y 4.6 /* ... and from the top of the strip */
#define BLOCK_WIDTH 58.0
#define BLOCK_TOP 7.6 /* below the rule */
#define LEGEND_TOP 3.6
#define MAP_SIZE 24.0
#define MAP_WORDS 6.4 /* below the map */
#define FOOT_SIZE 1.9
#define FOOT_HEIGHT 2.5 /* of a line */

typedef struct {
  double size;
  const char *colour;
  char *text;
} Line;

struct PfFurniture {
  GArray *block; /* of Line, the title block, set to BLOCK_WIDTH */
  const PfLegend *legend;
  char *care;
  size_t of_pages;
};

static double
line_height (double size)
{
  return 1.32 * size;
}

static void
clear_line (gpointer line)
{
  g_free (((Line *) line)->text);
}

/* Adds `text` to the title block, on at most max_lines lines. */
static void
say (PfFurniture *furniture, double size, const char *colour, int max_lines, const char *text)
{
  g_auto (GStrv) lines = pf_text_wrap (text, size, BLOCK_WIDTH, max_lines);
  for (char **line = lines; *line; line++)
    {
      const Line entry = { size, colour, g_strdup (*line) };
      g_array_append_val (furniture->block, entry);
    }
}

/* "4", or "3 to 5" where the motifs differ. */
static char *
range (double low, double high)
{
  g_autofree char *first = pf_text_number (low), *last = pf_text_number (high);
  /* Translators: a range of numbers. */
  return g_str_equal (first, last) ? g_steal_pointer (&first)
                                   : g_strdup_printf (_ ("%s to %s"), first, last);
}

static void
say_gap_and_turn (PfFurniture *furniture, const PfPricking *pricking)
{
  double gap[2] = { G_MAXDOUBLE, 0 }, turn[2] = { G_MAXDOUBLE, -G_MAXDOUBLE };
  for (guint m = 0; m < pricking->motifs->len; m++)
    {
      const PfMotif *motif = g_ptr_array_index (pricking->motifs, m);
      const PfPlacement placement = motif->settings.placement;
      gap[0] = fmin (gap[0], placement.gap);
      gap[1] = fmax (gap[1], placement.gap);
      turn[0] = fmin (turn[0], placement.turn);
      turn[1] = fmax (turn[1], placement.turn);
    }
  if (pricking->motifs->len == 0)
    return;
  g_autofree char *gaps = range (gap[0], gap[1]), *turns = range (turn[0], turn[1]);
  g_autofree char *text = turn[0] == 0 && turn[1] == 0
                              ? g_strdup_printf (_ ("Gap %s mm, not turned"), gaps)
                              : g_strdup_printf (_ ("Gap %s mm, turned %s°"), gaps, turns);
  say (furniture, 2.5, PF_COLOUR_INK, 2, text);
}

/* The angles of motifs whose ground doesn't stand at its own. */
static void
say_angles (PfFurniture *furniture, const PfPricking *pricking)
{
  double angle[2] = { G_MAXDOUBLE, 0 };
  for (guint m = 0; m < pricking->motifs->len; m++)
    {
      const PfMotif *motif = g_ptr_array_index (pricking->motifs, m);
      const double set = motif->settings.placement.angle;
      angle[0] = set != 0 ? fmin (angle[0], set) : angle[0];
      angle[1] = fmax (angle[1], set);
    }
  if (angle[1] == 0)
    return;
  g_autofree char *angles = range (angle[0], angle[1]);
  g_autofree char *text = g_strdup_printf (_ ("Diagonals at %s° from the footside"), angles);
  say (furniture, 2.5, PF_COLOUR_INK, 1, text);
}

static void
say_counts (PfFurniture *furniture, const PfPricking *pricking, bool pins_only)
{
  const PfCounts counts = pf_pricking_counts (pricking);
  g_autofree char *pins = g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE, "%zu pin", "%zu pins", counts.pins), counts.pins);
  if (pins_only)
    {
      say (furniture, 2.5, PF_COLOUR_INK, 1, pins);
      return;
    }
  g_autofree char *pairs = g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE, "%zu pair", "%zu pairs", counts.new_pairs), counts.new_pairs);
  g_autofree char *sewings = g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE, "%zu sewing", "%zu sewings", counts.sewings), counts.sewings);
  g_autofree char *text = g_strdup_printf ("%s, %s, %s", pins, pairs, sewings);
  say (furniture, 2.5, PF_COLOUR_INK, 2, text);
}

static void
say_motifs (PfFurniture *furniture, const PfPricking *pricking)
{
  if (pricking->motifs->len < 2)
    return;
  g_autoptr (GString) text = g_string_new (_ ("Motifs:"));
  for (guint m = 0; m < pricking->motifs->len; m++)
    {
      const PfMotif *motif = g_ptr_array_index (pricking->motifs, m);
      g_autofree char *number = pf_roman_number (m + 1);
      g_string_append_printf (text, "%s %s %s", m > 0 ? "," : "", number, motif->name);
    }
  say (furniture, 2.3, PF_COLOUR_INK, 3, text->str);
}

static void
say_scale_and_side (PfFurniture *furniture, const PfSheetSettings *settings)
{
  g_autofree char *times = pf_text_number (settings->enlarge);
  g_autofree char *scale = settings->enlarge == 1  ? g_strdup (_ ("True size, 1 : 1"))
                           : settings->enlarge > 1 ? g_strdup_printf (_ ("Enlarged %s : 1"), times)
                                                   : g_strdup_printf (_ ("Reduced %s : 1"), times);
  const char *side = settings->mirror ? _ ("Mirror image, face down") : _ ("As worked, face up");
  g_autofree char *text = g_strdup_printf ("%s. %s.", scale, side);
  say (furniture, 2.5, PF_COLOUR_INK, 2, text);
}

/* Rules that are as long as they should be on this printer say nothing of another. */
static void
say_correction (PfFurniture *furniture, const PfPrinterRules *printer)
{
  if (pf_printer_is_true (printer))
    return;
  g_autofree char *short_side = pf_text_number (printer->short_side);
  g_autofree char *long_side = pf_text_number (printer->long_side);
  /* Translators: the numbers are mm. */
  g_autofree char *text =
      g_strdup_printf (_ ("Only for a printer on which 50 mm came out %s short side, %s long side"),
                       short_side, long_side);
  say (furniture, 2.3, PF_COLOUR_INK, 2, text);
}

static char *
care_text (const PfPricking *pricking)
{
  const bool beads = pf_pricking_counts (pricking).beads > 0;
  return g_strconcat (_ ("Measure both rules after printing: each is 50 mm long."), " ",
                      _ ("Pins and needles are sharp: keep them covered when you stop."),
                      beads ? " " : "", beads ? _ ("Keep small beads away from children.") : "",
                      " ", _ ("Work in good light, and rest your eyes."), " ",
                      _ ("Cover the pricking with film."), NULL);
}

static const PfGround *
ground_of (const PfPricking *pricking, guint m)
{
  return ((PfMotif *) g_ptr_array_index (pricking->motifs, m))->ground;
}

static bool
has_ground_before (const PfPricking *pricking, guint m)
{
  for (guint before = 0; before < m; before++)
    if (pf_ground_equal (ground_of (pricking, before), ground_of (pricking, m)))
      return true;
  return false;
}

/* Each ground once; of several, also which motifs have it. */
static void
say_grounds (PfFurniture *furniture, const PfPricking *pricking)
{
  const bool several = pf_pricking_ground (pricking) == NULL;
  for (guint m = 0; m < pricking->motifs->len; m++)
    {
      const PfGround *ground = ground_of (pricking, m);
      if (has_ground_before (pricking, m))
        continue;
      g_autoptr (GString) text = g_string_new (ground->title);
      for (guint other = m; several && other < pricking->motifs->len; other++)
        if (pf_ground_equal (ground, ground_of (pricking, other)))
          {
            g_autofree char *number = pf_roman_number (other + 1);
            g_string_append_printf (text, "%s %s", other == m ? ":" : ",", number);
          }
      say (furniture, 3.0, PF_COLOUR_INK, 2, text->str);
    }
}

PfFurniture *
pf_furniture_new (const PfPricking *pricking, const PfSheetSettings *settings,
                  const PfLegend *legend)
{
  PfFurniture *furniture = g_new0 (PfFurniture, 1);
  furniture->block = g_array_new (FALSE, FALSE, sizeof (Line));
  g_array_set_clear_func (furniture->block, clear_line);
  furniture->legend = legend;
  furniture->care = care_text (pricking);
  furniture->of_pages = settings->of_pages;
  const char *title = pricking->title && *pricking->title ? pricking->title : _ ("Pricking");
  say (furniture, 4.2, PF_COLOUR_INK, 2, title);
  say_grounds (furniture, pricking);
  say_gap_and_turn (furniture, pricking);
  say_angles (furniture, pricking);
  say_counts (furniture, pricking, settings->pins_only);
  say_motifs (furniture, pricking);
  say_scale_and_side (furniture, settings);
  say_correction (furniture, &settings->printer);
  if (settings->date)
    say (furniture, 2.5, PF_COLOUR_QUIET, 1, settings->date);
  return furniture;
}

void
pf_furniture_free (PfFurniture *furniture)
{
  g_array_unref (furniture->block);
  g_free (furniture->care);
  g_free (furniture);
}

static double
block_height (const PfFurniture *furniture)
{
  double height = 0;
  for (guint i = 0; i < furniture->block->len; i++)
    height += line_height (g_array_index (furniture->block, Line, i).size);
  return height;
}

static double
legend_left (double frame_left)
{
  return frame_left + PAD + BLOCK_WIDTH + PAD + 1;
}

static double
legend_width (double frame_width, bool many)
{
  return frame_width - legend_left (0) - PAD - (many ? MAP_SIZE + PAD : 0);
}

char *
pf_number_of_page (const char *words, size_t n, size_t of_pages)
{
  return of_pages == 0 ? g_strdup (words)
                       : g_strdup_printf ("%s · %zu / %zu", words, n + 1, of_pages);
}

/* The line of care and, at its end, the sheet's number. */
static char **
foot_lines (const PfFurniture *furniture, double frame_width)
{
  return pf_text_wrap (furniture->care, FOOT_SIZE, frame_width - 2 * PAD - 28, 4);
}

double
pf_furniture_strip_height (double width, bool many, gconstpointer data)
{
  const PfFurniture *furniture = data;
  g_auto (GStrv) foot = foot_lines (furniture, width);
  double height = BLOCK_TOP + block_height (furniture);
  height =
      fmax (height, LEGEND_TOP + pf_legend_height (furniture->legend, legend_width (width, many)));
  if (many)
    height = fmax (height, LEGEND_TOP + MAP_SIZE + MAP_WORDS);
  return height + 2 + FOOT_HEIGHT * g_strv_length (foot) + 1;
}

static void
draw_frame (PfPage *page, const PfTiling *tiling)
{
  pf_page_group (page, "frame", (PfInk){ .stroke = PF_COLOUR_INK, .width = 0.3 });
  pf_page_box (page, tiling->frame);
  pf_page_group_end (page);
  pf_page_group (page, "strip", (PfInk){ .stroke = PF_COLOUR_FAINT, .width = 0.15 });
  pf_page_line (page, (PfPoint){ tiling->window.min.x, tiling->strip.min.y },
                (PfPoint){ tiling->strip.max.x, tiling->strip.min.y });
  pf_page_line (page, tiling->window.min, (PfPoint){ tiling->window.min.x, tiling->window.max.y });
  pf_page_group_end (page);
}

static void
draw_block (PfPage *page, const PfFurniture *furniture, PfPoint at)
{
  for (guint i = 0; i < furniture->block->len; i++)
    {
      const Line *line = &g_array_index (furniture->block, Line, i);
      at.y += line_height (line->size);
      pf_page_text_group (page, i == 0 ? "title" : "words", line->colour, NULL);
      pf_page_text (page, (PfPoint){ at.x, at.y - 0.3 * line->size }, PF_TEXT_START, line->size,
                    line->text);
      pf_page_group_end (page);
    }
}

static void
draw_foot (PfPage *page, const PfFurniture *furniture, const PfTiling *tiling, size_t n)
{
  const PfBox strip = tiling->strip;
  g_auto (GStrv) lines = foot_lines (furniture, strip.max.x - strip.min.x);
  const guint n_lines = g_strv_length (lines);
  const double last = strip.max.y - 1.5;
  pf_page_text_group (page, "foot", PF_COLOUR_QUIET, NULL);
  for (guint i = 0; i < n_lines; i++)
    pf_page_text (page, (PfPoint){ strip.min.x + PAD, last - FOOT_HEIGHT * (n_lines - 1 - i) },
                  PF_TEXT_START, FOOT_SIZE, lines[i]);
  g_autofree char *sheet =
      g_strdup_printf (_ ("Sheet %zu of %zu"), n + 1, pf_tiling_n_sheets (tiling));
  g_autofree char *number = pf_number_of_page (sheet, n, furniture->of_pages);
  pf_page_text (page, (PfPoint){ strip.max.x - PAD, last }, PF_TEXT_END, 2.3, number);
  pf_page_group_end (page);
}

static PfBox
map_cell (const PfTiling *tiling, size_t n)
{
  /* Windows as they lie, to scale, in the square of the map. */
  const double w = tiling->window.max.x - tiling->window.min.x;
  const double h = tiling->window.max.y - tiling->window.min.y;
  const double scale = MAP_SIZE / fmax (w * tiling->columns, h * tiling->rows);
  const PfPoint start = { tiling->strip.max.x - PAD - MAP_SIZE, tiling->strip.min.y + LEGEND_TOP };
  const double x = start.x + (MAP_SIZE - scale * w * tiling->columns) / 2;
  const size_t column = n % (size_t) tiling->columns, row = n / (size_t) tiling->columns;
  const PfPoint corner = { x + scale * w * (double) column, start.y + scale * h * (double) row };
  return (PfBox){ corner, { corner.x + scale * w, corner.y + scale * h } };
}

static void
draw_map (PfPage *page, const PfTiling *tiling, size_t n)
{
  const size_t n_sheets = pf_tiling_n_sheets (tiling);
  pf_page_group (page, "map-here", (PfInk){ .fill = PF_COLOUR_FAINT });
  pf_page_box (page, map_cell (tiling, n));
  pf_page_group_end (page);
  pf_page_group (page, "map", (PfInk){ .stroke = PF_COLOUR_INK, .width = 0.12 });
  for (size_t i = 0; i < n_sheets; i++)
    pf_page_box (page, map_cell (tiling, i));
  pf_page_group_end (page);

  const PfBox cell = map_cell (tiling, 0);
  const double size =
      fmin (2.3, 0.6 * fmin ((cell.max.x - cell.min.x) / 2, cell.max.y - cell.min.y));
  pf_page_text_group (page, "map-words", PF_COLOUR_INK, NULL);
  for (size_t i = 0; i < n_sheets && size >= 1.1; i++)
    {
      const PfBox box = map_cell (tiling, i);
      g_autofree char *number = g_strdup_printf ("%zu", i + 1);
      pf_page_text (page,
                    (PfPoint){ (box.min.x + box.max.x) / 2,
                               (box.min.y + box.max.y) / 2 + PF_TEXT_CAP / 2 * size },
                    PF_TEXT_MIDDLE, size, number);
    }
  const double map_bottom = map_cell (tiling, n_sheets - 1).max.y;
  g_auto (GStrv) words =
      pf_text_wrap (_ ("Join: lay a letter on the same letter"), 2.1, MAP_SIZE, 2);
  for (guint i = 0; words[i]; i++)
    pf_page_text (page,
                  (PfPoint){ tiling->strip.max.x - PAD - MAP_SIZE, map_bottom + 2.8 + 2.7 * i },
                  PF_TEXT_START, 2.1, words[i]);
  pf_page_group_end (page);
}

void
pf_furniture_draw (PfPage *page, const PfFurniture *furniture, const PfTiling *tiling, size_t n)
{
  const PfBox strip = tiling->strip;
  const bool many = pf_tiling_n_sheets (tiling) > 1;
  draw_frame (page, tiling);
  pf_check_rules_draw (page, (PfPoint){ strip.min.x + RULE_X, strip.min.y + RULE_Y });
  draw_block (page, furniture, (PfPoint){ strip.min.x + PAD, strip.min.y + BLOCK_TOP });
  pf_legend_draw (page, furniture->legend,
                  (PfPoint){ legend_left (strip.min.x), strip.min.y + LEGEND_TOP },
                  legend_width (strip.max.x - strip.min.x, many));
  if (many)
    draw_map (page, tiling, n);
  draw_foot (page, furniture, tiling, n);
}
