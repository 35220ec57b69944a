/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The cascade: presentation attributes, then the rules of style sheets by specificity and order,
 * then the element's own style attribute (SVG 2, section 6.6; CSS Cascading and Inheritance 3,
 * section 6).
 */
#include "svg.h"

#include <string.h>

/* Ranks above every specificity. */
#define OWN_STYLE 100000000
#define IMPORTANT 1000000000

typedef struct {
  PfSvgValue value;
  int rank;
} Winner;

static void
offer (Winner *winner, PfSvgDeclared declared, int rank)
{
  rank += declared.important ? IMPORTANT : 0;
  if (declared.value != PF_SVG_UNSET && rank >= winner->rank)
    *winner = (Winner){ declared.value, rank };
}

static void
offer_all (Winner *winners, const PfSvgDeclared *declared, int rank)
{
  for (int property = 0; property < PF_SVG_N_PROPERTIES; property++)
    offer (&winners[property], declared[property], rank);
}

static bool
has_class (const char *list, const char *name)
{
  const size_t length = strlen (name);
  while (*list != '\0')
    {
      list += strspn (list, " \t\n\r\f");
      const size_t word = strcspn (list, " \t\n\r\f");
      if (word == length && strncmp (list, name, length) == 0)
        return true;
      list += word;
    }
  return false;
}

static bool
rule_fits (const PfSvgRule *rule, const xmlNode *node, const char *id, const char *classes)
{
  if (rule->type != NULL && strcmp (rule->type, (const char *) node->name) != 0)
    return false;
  if (rule->id != NULL && g_strcmp0 (rule->id, id) != 0)
    return false;
  for (char **name = rule->classes; *name != NULL; name++)
    if (classes == NULL || !has_class (classes, *name))
      return false;
  return true;
}

static void
offer_attributes (Winner *winners, const xmlNode *node)
{
  for (int property = 0; property < PF_SVG_N_PROPERTIES; property++)
    {
      const char *text = pf_svg_attribute (node, pf_svg_property_names[property]);
      if (text != NULL)
        offer (&winners[property],
               (PfSvgDeclared){ pf_svg_property_value ((PfSvgProperty) property, text), false }, 0);
    }
}

static void
offer_rules (Winner *winners, const GArray *rules, const xmlNode *node)
{
  const char *id = pf_svg_attribute (node, "id"), *classes = pf_svg_attribute (node, "class");
  for (guint i = 0; i < rules->len; i++)
    {
      const PfSvgRule *rule = &g_array_index (rules, PfSvgRule, i);
      if (rule_fits (rule, node, id, classes))
        offer_all (winners, rule->declared, 1 + rule->specificity);
    }
}

static bool
resolve (Winner winner, bool inherited)
{
  if (winner.value == PF_SVG_UNSET || winner.value == PF_SVG_INHERIT)
    return inherited;
  return winner.value == PF_SVG_OTHER;
}

bool
pf_svg_style_apply (const GArray *rules, const xmlNode *node, PfSvgStyle *style)
{
  Winner winners[PF_SVG_N_PROPERTIES] = { 0 };
  const char *own = pf_svg_attribute (node, "style");
  offer_attributes (winners, node);
  offer_rules (winners, rules, node);
  if (own != NULL)
    {
      PfSvgDeclared declared[PF_SVG_N_PROPERTIES];
      pf_svg_declarations (own, declared);
      offer_all (winners, declared, OWN_STYLE);
    }
  style->hidden = resolve (winners[PF_SVG_VISIBILITY], style->hidden);
  style->even_odd = resolve (winners[PF_SVG_FILL_RULE], style->even_odd);
  return !resolve (winners[PF_SVG_DISPLAY], false);
}
