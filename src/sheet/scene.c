/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What the screen shows: the layers of the sheet, unscaled, in whatever window of the drawing is
 * seen. What the layers share is worked out once, when the scene is made.
 */
#include <sheet.h>

#include "layers.h"

struct PfScene {
  PfPricking pricking; /* with motifs and background of the real one */
  GPtrArray *drawn;    /* of PfDrawn */
  bool numbers;
  double close_up; /* the size of numbers that are there from near, mm */
};

PfScene *
pf_scene_new (const PfPricking *pricking, bool numbers)
{
  PfScene *scene = g_new0 (PfScene, 1);
  scene->pricking.motifs = g_ptr_array_new_with_free_func ((GDestroyNotify) pf_motif_unref);
  scene->pricking.background = g_ptr_array_ref (pricking->background);
  scene->drawn = g_ptr_array_new_with_free_func ((GDestroyNotify) pf_drawn_free);
  for (guint m = 0; m < pricking->motifs->len; m++)
    {
      PfMotif *motif = pf_motif_ref (g_ptr_array_index (pricking->motifs, m));
      g_ptr_array_add (scene->pricking.motifs, motif);
      g_ptr_array_add (scene->drawn, pf_drawn_new (motif, 1));
    }
  scene->numbers = numbers;
  if (numbers)
    {
      const PfView field = pf_view_field (1, false);
      PfPlacer *placer = pf_numbers_placer (scene->drawn);
      pf_numbers_place (scene->drawn, &field, placer);
      pf_placer_free (placer);
    }
  return scene;
}

void
pf_scene_free (PfScene *scene)
{
  if (!scene)
    return;
  g_ptr_array_unref (scene->drawn);
  g_ptr_array_unref (scene->pricking.motifs);
  g_ptr_array_unref (scene->pricking.background);
  g_free (scene);
}

void
pf_scene_set_look (PfScene *scene, const PfLook *look)
{
  for (guint m = 0; m < scene->drawn->len; m++)
    {
      PfDrawn *drawn = g_ptr_array_index (scene->drawn, m);
      drawn->look = *look;
      drawn->lines = pf_look_sizes (look, drawn->sizes);
    }
}

/* The lines of pairs at the edge, when they lie under the threads so as not to hide them. */
#define UNDER_THREADS (1 << 20)

/* The layers of one motif: threads lie where its pair lines and pins would be. */
static PfLayers
layers_of (const PfDrawn *drawn, PfLayers shown, double pixel)
{
  const bool filled = drawn->motif->filling != NULL;
  if (!filled || (shown & PF_LAYER_THREADS) == 0 || !pf_threads_show (drawn->motif, pixel))
    return shown & ~PF_LAYER_THREADS;
  if (shown & PF_LAYER_PREDICTED)
    shown |= UNDER_THREADS;
  return shown & ~(PF_LAYER_PAIR_LINES | PF_LAYER_PINS | PF_LAYER_PREDICTED);
}

void
pf_draw_layers (PfPage *page, const PfView *view, const PfScene *scene, PfLayers shown,
                double pixel)
{
  static const struct {
    PfLayers layer;
    void (*draw) (PfPage *page, const PfView *view, const PfDrawn *drawn);
    bool of_edge; /* an empty motif has it too */
  } layers[] = {
    { PF_LAYER_REPEATS, pf_layer_repeats, false },
    { PF_LAYER_MISSING, pf_layer_missing, false },
    { PF_LAYER_PAIR_LINES, pf_layer_pair_lines, false },
    { UNDER_THREADS, pf_layer_predicted, false },
    { PF_LAYER_THREADS, pf_layer_threads, false },
    { PF_LAYER_OUTLINE, pf_layer_outline, true },
    { PF_LAYER_PINHOLES, pf_layer_pinholes, true },
    { PF_LAYER_PREDICTED, pf_layer_predicted, false },
    { PF_LAYER_SEWINGS, pf_layer_sewings, false },
    { PF_LAYER_PINS, pf_layer_pins, false },
    { PF_LAYER_BEADS, pf_layer_beads, false },
    { PF_LAYER_NUMBERS, pf_layer_labels, true },
  };
  pf_page_clip_group (page, "drawing", view->window);
  if (shown & PF_LAYER_BACKGROUND)
    pf_layer_background (page, view, &scene->pricking);
  for (size_t i = 0; i < G_N_ELEMENTS (layers); i++)
    for (guint m = 0; m < scene->drawn->len; m++)
      {
        const PfDrawn *drawn = g_ptr_array_index (scene->drawn, m);
        const PfLayers own = layers_of (drawn, shown, pixel);
        if ((own & layers[i].layer) && (layers[i].of_edge || drawn->motif->filling))
          layers[i].draw (page, view, drawn);
      }
  pf_page_group_end (page);
}

void
pf_scene_number_pinholes (PfScene *scene, double size)
{
  const PfView field = pf_view_field (1, false);
  if (!scene->numbers || size == scene->close_up)
    return;
  pf_numbers_place_close_up (scene->drawn, &field, size);
  scene->close_up = size;
}

static void
add_numbers (GArray *numbers, const GArray *labels, guint motif)
{
  for (guint l = 0; l < labels->len; l++)
    {
      const PfLabel *label = &g_array_index (labels, PfLabel, l);
      const PfNumber number = { label->box, label->of, motif, label->loop, label->index };
      g_array_append_val (numbers, number);
    }
}

GArray *
pf_scene_numbers (const PfScene *scene)
{
  GArray *numbers = g_array_new (FALSE, FALSE, sizeof (PfNumber));
  for (guint m = 0; m < scene->drawn->len; m++)
    {
      const PfDrawn *drawn = g_ptr_array_index (scene->drawn, m);
      add_numbers (numbers, drawn->labels, m);
      add_numbers (numbers, drawn->close_up, m);
    }
  return numbers;
}

static void
draw_window (PfPage *page, const PfScene *scene, PfLayers shown, PfBox window, double pixel)
{
  PfView view = pf_view_field (1, false);
  view.window = window;
  pf_draw_layers (page, &view, scene, shown, pixel);
}

char *
pf_scene_svg (const PfScene *scene, PfLayers layers, PfBox window, double pixel)
{
  PfPage *page = pf_page_new_window (window, pixel);
  draw_window (page, scene, layers, window, pixel);
  return pf_page_finish (page);
}

void
pf_scene_draw (const PfScene *scene, PfLayers layers, PfBox window, double pixel, cairo_t *cr)
{
  PfPage *page = pf_page_new_cairo (cr, pixel);
  draw_window (page, scene, layers, window, pixel);
  pf_page_finish (page);
}
