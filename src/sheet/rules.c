/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The check rules: 50 mm each way on the paper, to be measured after printing, since copiers and
 * printers are off by one or two per cent and not the same both ways.
 */
#include "furniture.h"

#include <glib/gi18n-lib.h>

#include "style.h"

#define TICK 0.9 /* half the length of an end's tick */
#define TEXT_SIZE 2.1

void
pf_check_rules_draw (PfPage *page, PfPoint corner)
{
  const PfPoint right = { corner.x + PF_RULE_LENGTH, corner.y };
  const PfPoint top = { corner.x, corner.y - PF_RULE_LENGTH };
  const PfInk ink = { .stroke = PF_COLOUR_INK, .width = 0.12 };
  pf_page_group (page, "rule-across", ink);
  pf_page_line (page, corner, right);
  pf_page_line (page, (PfPoint){ corner.x, corner.y - TICK },
                (PfPoint){ corner.x, corner.y + TICK });
  pf_page_line (page, (PfPoint){ right.x, right.y - TICK }, (PfPoint){ right.x, right.y + TICK });
  pf_page_group_end (page);
  pf_page_group (page, "rule-up", ink);
  pf_page_line (page, corner, top);
  pf_page_line (page, (PfPoint){ corner.x - TICK, corner.y },
                (PfPoint){ corner.x + TICK, corner.y });
  pf_page_line (page, (PfPoint){ top.x - TICK, top.y }, (PfPoint){ top.x + TICK, top.y });
  pf_page_group_end (page);
  pf_page_text_group (page, "rule-words", PF_COLOUR_INK, NULL);
  pf_page_text (page, (PfPoint){ corner.x + PF_RULE_LENGTH / 2, corner.y - 0.8 }, PF_TEXT_MIDDLE,
                TEXT_SIZE, _ ("50 mm"));
  pf_page_turned_text (page, (PfPoint){ corner.x - 0.8, corner.y - PF_RULE_LENGTH / 2 },
                       PF_TEXT_MIDDLE, TEXT_SIZE, -90, _ ("50 mm"));
  pf_page_group_end (page);
}
