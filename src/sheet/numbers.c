/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Pair numbers: one beside each sewing where a new pair enters or a pair is finished, outside the
 * outline; every tenth pinhole has one too, if there is room right there; looked at from near, all.
 * Pairs' numbers that find no room are counted, never printed over something else.
 */
#include "layers.h"

#include <math.h>

#include "marks.h"

/* How far a number may stand from its sewing, in font sizes. */
#define REACH_NEEDED 6.0
#define REACH_WELCOME 1.0

/* The size of a pinhole's number, as a part of a pair's. */
#define PINHOLE_SIZE 0.75
/* How far apart pinholes are numbered one by one, in font sizes. */
#define CLOSE_UP_APART 2.2

static void
block_chain (PfPlacer *placer, const PfView *field, const PfPoint *points, size_t n, bool closed,
             PfBlock block)
{
  const size_t n_segments = n == 0 ? 0 : closed ? n : n - 1;
  for (size_t i = 0; i < n_segments; i++)
    pf_placer_block_line (placer, pf_view_point (field, points[i]),
                          pf_view_point (field, points[(i + 1) % n]), block);
}

static void
block_round (PfPlacer *placer, PfPoint at, double radius, PfBlock block)
{
  pf_placer_block_box (placer, pf_box_grown ((PfBox){ at, at }, radius), block);
}

static void
block_edge (const PfDrawn *drawn, const PfView *field, PfPlacer *placer)
{
  const PfMotif *motif = drawn->motif;
  for (size_t i = 0; i < motif->region->n_loops; i++)
    {
      const PfLoop *loop = &motif->region->loops[i];
      block_chain (placer, field, loop->points, loop->n_points, true, PF_BLOCK_HARD);
      for (size_t h = 0; h < motif->edges[i].n_pinholes; h++)
        {
          const PfPlace place = { i, motif->edges[i].pinholes[h] };
          block_round (placer, pf_view_point (field, pf_region_point (motif->region, place)),
                       drawn->sizes.hole, PF_BLOCK_HARD);
        }
    }
}

static void
block_crossings (const PfDrawn *drawn, const PfView *field, PfPlacer *placer)
{
  const PfFilling *filling = drawn->motif->filling;
  for (size_t i = 0; i < filling->n_crossings; i++)
    {
      const PfCrossing *crossing = &filling->crossings[i];
      if (!crossing->has_missing)
        continue;
      const PfPoint beyond[] = { crossing->at, crossing->missing_at };
      block_chain (placer, field, beyond, G_N_ELEMENTS (beyond), false, PF_BLOCK_SOFT);
      if (drawn->has_pin[crossing->missing.k])
        block_round (placer, pf_view_point (field, crossing->missing_at), 1.3 * drawn->sizes.pin,
                     PF_BLOCK_HARD);
    }
}

static void
block_sewings (const PfDrawn *drawn, const PfView *field, PfPlacer *placer)
{
  const PfFilling *filling = drawn->motif->filling;
  const double mark = drawn->sizes.mark;
  for (size_t i = 0; i < filling->n_sewings; i++)
    {
      const PfSewing *sewing = &filling->sewings[i];
      const PfPoint at = pf_view_point (field, sewing->at);
      block_round (placer, at, (sewing->chosen ? PF_CHOSEN_REACH + 0.2 : 1.2) * mark,
                   PF_BLOCK_HARD);
      if (sewing->off_line)
        {
          const PfPoint out = pf_view_direction (field, pf_drawn_outward (drawn, sewing->place));
          const PfPoint flag =
              pf_point_add (at, pf_point_towards ((PfPoint){ 0, 0 }, out), 3 * mark);
          block_round (placer, flag, 1.6 * mark, PF_BLOCK_HARD);
        }
      if (sewing->kind == PF_PAIR_CARRIED && sewing->leaving != PF_NONE)
        {
          g_autoptr (GArray) run =
              pf_carried_run (drawn, field, sewing, pf_carried_end (filling, sewing));
          block_chain (placer, field, (const PfPoint *) (gpointer) run->data, run->len, false,
                       PF_BLOCK_HARD);
        }
    }
}

static void
block_all (const PfDrawn *drawn, const PfView *field, PfPlacer *placer)
{
  block_edge (drawn, field, placer);
  if (!drawn->motif->filling)
    return;
  block_crossings (drawn, field, placer);
  block_sewings (drawn, field, placer);
}

typedef struct {
  const PfView *field;
  const GPtrArray *all; /* of PfDrawn: every motif */
} Surroundings;

static PfPoint
back_to_drawing (const PfView *field, PfPoint p)
{
  return pf_affine_map (pf_affine_invert (field->map), p);
}

/* No label stands inside a motif, where its pattern is. */
static bool
is_outside (PfBox box, gconstpointer data)
{
  const Surroundings *around = data;
  const PfPoint middle = back_to_drawing (
      around->field, (PfPoint){ (box.min.x + box.max.x) / 2, (box.min.y + box.max.y) / 2 });
  for (guint i = 0; i < around->all->len; i++)
    {
      const PfDrawn *drawn = g_ptr_array_index (around->all, i);
      if (pf_region_contains (drawn->motif->region, middle))
        return false;
    }
  return true;
}

static bool
place_number (PfDrawn *drawn, const Surroundings *around, PfPlacer *placer, const PfSewing *sewing,
              double reach)
{
  g_autofree char *text = g_strdup_printf ("%u", sewing->pair + 1);
  const PfPoint out = pf_view_direction (around->field, pf_drawn_outward (drawn, sewing->place));
  PfLabel label;
  /* The label's colour follows the look when that changes. */
  if (!pf_label_place (placer, text, drawn->sizes.text, drawn->look.colours[sewing->kind],
                       pf_view_point (around->field, sewing->at),
                       pf_point_towards ((PfPoint){ 0, 0 }, out), reach, is_outside, around,
                       &label))
    return false;
  label.of = PF_NUMBER_OF_SEWING;
  label.index = (guint32) (sewing - drawn->motif->filling->sewings);
  g_array_append_val (drawn->labels, label);
  return true;
}

/* Gives how many found no room. */
static size_t
place_numbers (PfDrawn *drawn, const GPtrArray *all, const PfView *field, PfPlacer *placer)
{
  const PfFilling *filling = drawn->motif->filling;
  const Surroundings around = { field, all };
  size_t without_room = 0;
  if (!filling)
    return 0;
  /* In the order of the crossings, so that neighbours are placed after one another. */
  for (size_t i = 0; i < filling->n_crossings; i++)
    {
      const PfSewing *sewing = &filling->sewings[filling->crossings[i].sewing];
      if (sewing->kind == PF_PAIR_NEW &&
          !place_number (drawn, &around, placer, sewing, REACH_NEEDED))
        without_room++;
    }
  for (size_t i = 0; i < filling->n_crossings; i++)
    {
      const PfSewing *sewing = &filling->sewings[filling->crossings[i].sewing];
      if (sewing->kind == PF_PAIR_FINISHED &&
          !place_number (drawn, &around, placer, sewing, REACH_NEEDED))
        without_room++;
    }
  return without_room;
}

static void
place_pinhole_number (const PfDrawn *drawn, const Surroundings *around, PfPlacer *placer,
                      size_t loop, size_t pinhole, double size, GArray *labels)
{
  const PfMotif *motif = drawn->motif;
  const PfPlace place = { loop, motif->edges[loop].pinholes[pinhole] };
  const PfPoint out = pf_view_direction (around->field, pf_drawn_outward (drawn, place));
  g_autofree char *text = g_strdup_printf ("%zu", pinhole + 1);
  PfLabel label;
  if (!pf_label_place (placer, text, size, PF_COLOUR_HOLE_NUMBER,
                       pf_view_point (around->field, pf_region_point (motif->region, place)),
                       pf_point_towards ((PfPoint){ 0, 0 }, out), REACH_WELCOME, is_outside, around,
                       &label))
    return;
  label.of = PF_NUMBER_OF_PINHOLE;
  label.loop = loop;
  label.index = (guint32) pinhole;
  g_array_append_val (labels, label);
}

static void
place_pinhole_numbers (PfDrawn *drawn, const GPtrArray *all, const PfView *field, PfPlacer *placer)
{
  const PfMotif *motif = drawn->motif;
  const Surroundings around = { field, all };
  for (size_t i = 0; i < motif->region->n_loops; i++)
    for (size_t h = 0; h < motif->edges[i].n_pinholes; h += h == 0 ? 9 : 10)
      place_pinhole_number (drawn, &around, placer, i, h, PINHOLE_SIZE * drawn->sizes.text,
                            drawn->labels);
}

static bool
is_numbered (const PfDrawn *drawn, size_t loop, size_t pinhole)
{
  for (guint l = drawn->labels->len; l-- > 0;)
    {
      const PfLabel *label = &g_array_index (drawn->labels, PfLabel, l);
      if (label->of != PF_NUMBER_OF_PINHOLE)
        break; /* they stand last */
      if (label->loop == loop && label->index == pinhole)
        return true;
    }
  return false;
}

/* Whether pinholes stand so far apart that numbers can stand beside each other. */
static bool
stand_wide (const PfEdge *edge, double size)
{
  double least = INFINITY;
  for (size_t h = 1; h < edge->n_pinholes; h++)
    least = fmin (least, edge->pinholes[h] - edge->pinholes[h - 1]);
  return least >= CLOSE_UP_APART * size;
}

static void
place_close_up (PfDrawn *drawn, const GPtrArray *all, const PfView *field, PfPlacer *placer,
                double size)
{
  const PfMotif *motif = drawn->motif;
  const Surroundings around = { field, all };
  if (size > PINHOLE_SIZE * drawn->sizes.text)
    return;
  for (size_t i = 0; i < motif->region->n_loops; i++)
    for (size_t h = 0; stand_wide (&motif->edges[i], size) && h < motif->edges[i].n_pinholes; h++)
      if (!is_numbered (drawn, i, h))
        place_pinhole_number (drawn, &around, placer, i, h, size, drawn->close_up);
}

void
pf_numbers_place_close_up (const GPtrArray *all, const PfView *field, double size)
{
  PfPlacer *placer = pf_numbers_placer (all);
  for (guint m = 0; m < all->len; m++)
    {
      const PfDrawn *drawn = g_ptr_array_index (all, m);
      g_array_set_size (drawn->close_up, 0);
      block_all (drawn, field, placer);
      for (guint l = 0; l < drawn->labels->len; l++)
        pf_placer_block_box (placer, g_array_index (drawn->labels, PfLabel, l).box, PF_BLOCK_HARD);
    }
  for (guint m = 0; m < all->len; m++)
    place_close_up (g_ptr_array_index (all, m), all, field, placer, size);
  pf_placer_free (placer);
}

static const char *
roman_digits (guint n, guint unit)
{
  static const char *const digits[][10] = {
    { "", "I", "II", "III", "IV", "V", "VI", "VII", "VIII", "IX" },
    { "", "X", "XX", "XXX", "XL", "L", "LX", "LXX", "LXXX", "XC" },
    { "", "C", "CC", "CCC", "CD", "D", "DC", "DCC", "DCCC", "CM" },
  };
  static const guint divisors[] = { 1, 10, 100 };
  return digits[unit][n / divisors[unit] % 10];
}

char *
pf_roman_number (guint n)
{
  if (n == 0 || n > 999)
    return g_strdup_printf ("%u", n);
  return g_strconcat (roman_digits (n, 2), roman_digits (n, 1), roman_digits (n, 0), NULL);
}

/* The motif's number, counted from 1, below its lowest point. */
static void
place_motif_number (PfDrawn *drawn, const GPtrArray *all, const PfView *field, PfPlacer *placer,
                    guint number)
{
  static const PfPoint down = { 0, 1 };
  const Surroundings around = { field, all };
  const PfLoop *loop = &drawn->motif->region->loops[0];
  PfPoint lowest = loop->points[0];
  for (size_t i = 1; i < loop->n_points; i++)
    if (loop->points[i].y > lowest.y)
      lowest = loop->points[i];
  g_autofree char *text = pf_roman_number (number);
  PfLabel label;
  if (pf_label_place (placer, text, 1.7 * drawn->sizes.text, PF_COLOUR_INK,
                      pf_view_point (field, lowest), down, REACH_NEEDED, is_outside, &around,
                      &label))
    {
      label.leader = false;
      g_array_append_val (drawn->labels, label);
    }
}

double
pf_number_room (double gap)
{
  return 2.5 * pf_sizes (gap, 1).text;
}

PfPlacer *
pf_numbers_placer (const GPtrArray *all)
{
  double text = 2;
  for (guint m = 0; m < all->len; m++)
    text = fmax (text, ((PfDrawn *) g_ptr_array_index (all, m))->sizes.text);
  return pf_placer_new (2 * text);
}

size_t
pf_numbers_place (const GPtrArray *all, const PfView *field, PfPlacer *placer)
{
  size_t without_room = 0;
  for (guint m = 0; m < all->len; m++)
    block_all (g_ptr_array_index (all, m), field, placer);
  for (guint m = 0; m < all->len && all->len > 1; m++)
    place_motif_number (g_ptr_array_index (all, m), all, field, placer, m + 1);
  for (guint m = 0; m < all->len; m++)
    without_room += place_numbers (g_ptr_array_index (all, m), all, field, placer);
  for (guint m = 0; m < all->len; m++)
    place_pinhole_numbers (g_ptr_array_index (all, m), all, field, placer);
  return without_room;
}

/* The halo is as wide at every size: round small letters it would reach into the pinholes. */
void
pf_layer_labels (PfPage *page, const PfView *view, const PfDrawn *drawn)
{
  pf_labels_draw (page, view, (const PfLabel *) (gpointer) drawn->labels->data, drawn->labels->len,
                  PF_COLOUR_PAPER);
  pf_labels_draw (page, view, (const PfLabel *) (gpointer) drawn->close_up->data,
                  drawn->close_up->len, NULL);
}
