/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Draws the labels of a repeat: names and letters, numbers of pairs in circles, those of steps in
 * boxes.
 */
#include <math.h>

#include "text.h"
#include "wanted-labels.h"

#define AROUND 1.55 /* what a circle or a box takes up, in the size of its number */

double
pf_wanted_letters (PfLabelShape shape)
{
  static const double sizes[PF_LABEL_N_SHAPES] = {
    [PF_NAME_OF_PIN] = 3.0,
    [PF_LETTERS_OF_SEWING] = 2.8,
    [PF_NUMBER_OF_PAIR] = 2.1,
    [PF_NUMBER_OF_STEP] = 2.1,
  };
  return sizes[shape];
}

double
pf_wanted_room (PfLabelShape shape)
{
  const bool shaped = shape == PF_NUMBER_OF_PAIR || shape == PF_NUMBER_OF_STEP;
  return pf_wanted_letters (shape) * (shaped ? AROUND : 1);
}

static PfPoint
middle_of (PfBox box)
{
  return (PfPoint){ (box.min.x + box.max.x) / 2, (box.min.y + box.max.y) / 2 };
}

static PfBox
moved (PfBox box, PfPoint by)
{
  return (PfBox){ pf_point_add (box.min, by, 1), pf_point_add (box.max, by, 1) };
}

static void
draw_shape (PfPage *page, const PfWantedLabel *wanted, PfBox box)
{
  pf_page_group (page, "mark",
                 (PfInk){ .fill = PF_COLOUR_PAPER, .stroke = wanted->colour, .width = 0.2 });
  if (wanted->shape == PF_NUMBER_OF_PAIR)
    pf_page_circle (page, middle_of (box), fmax (box.max.x - box.min.x, box.max.y - box.min.y) / 2);
  else
    pf_page_box (page, box);
  pf_page_group_end (page);
}

static void
draw_label (PfPage *page, const PfWantedLabel *wanted, PfPoint shift)
{
  const PfBox box = moved (wanted->label.box, shift);
  const bool shaped = wanted->shape == PF_NUMBER_OF_PAIR || wanted->shape == PF_NUMBER_OF_STEP;
  const double size = pf_wanted_letters (wanted->shape);
  PfPoint at = pf_point_add (wanted->label.baseline, shift, 1);
  if (shaped)
    {
      draw_shape (page, wanted, box);
      const PfPoint middle = middle_of (box);
      at = (PfPoint){ middle.x, middle.y + PF_TEXT_CAP / 2 * size };
    }
  pf_page_text_group (page, "numbers", shaped ? PF_COLOUR_INK : wanted->colour,
                      shaped ? NULL : PF_COLOUR_PAPER);
  pf_page_text (page, at, PF_TEXT_MIDDLE, size, wanted->text);
  pf_page_group_end (page);
}

static PfPoint
nearest_in_box (PfBox box, PfPoint p)
{
  return (PfPoint){ CLAMP (p.x, box.min.x, box.max.x), CLAMP (p.y, box.min.y, box.max.y) };
}

void
pf_labels_draw_all (PfPage *page, const PfLabels *labels, PfPoint shift)
{
  pf_page_group (page, "leaders", (PfInk){ .stroke = PF_COLOUR_QUIET, .width = 0.12 });
  for (guint n = 0; n < labels->wanted->len; n++)
    {
      const PfWantedLabel *wanted = &g_array_index (labels->wanted, PfWantedLabel, n);
      if (!wanted->placed || !wanted->label.leader)
        continue;
      const PfPoint anchor = pf_point_add (wanted->anchor, shift, 1);
      pf_page_line (page, anchor, nearest_in_box (moved (wanted->label.box, shift), anchor));
    }
  pf_page_group_end (page);
  for (guint n = 0; n < labels->wanted->len; n++)
    if (g_array_index (labels->wanted, PfWantedLabel, n).placed)
      draw_label (page, &g_array_index (labels->wanted, PfWantedLabel, n), shift);
}
