/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The small part of CSS that decides which shapes are outlines: declarations of three properties,
 * and rules whose selector is one type, id and class list. Whatever else a sheet holds is passed
 * over.
 */
#include "svg.h"

#include <string.h>

#define MAX_CLASSES 99

const char *const pf_svg_property_names[PF_SVG_N_PROPERTIES] = { "display", "visibility",
                                                                 "fill-rule" };

static const char *const other_values[PF_SVG_N_PROPERTIES][3] = {
  { "none" },
  { "hidden", "collapse" },
  { "evenodd" },
};

static const char *const initial_values[PF_SVG_N_PROPERTIES][6] = {
  { "inline", "block", "initial", "unset", "revert" },
  { "visible", "initial", "revert" },
  { "nonzero", "initial", "revert" },
};

static bool
is_one_of (const char *text, const char *const *words)
{
  for (; *words != NULL; words++)
    if (g_ascii_strcasecmp (text, *words) == 0)
      return true;
  return false;
}

PfSvgValue
pf_svg_property_value (PfSvgProperty property, const char *text)
{
  g_autofree char *value = g_strstrip (g_strdup (text));
  if (is_one_of (value, other_values[property]))
    return PF_SVG_OTHER;
  if (is_one_of (value, initial_values[property]))
    return PF_SVG_INITIAL;
  if (g_ascii_strcasecmp (value, "inherit") == 0 || g_ascii_strcasecmp (value, "unset") == 0)
    return PF_SVG_INHERIT;
  /* The many other ways to be displayed: table, flex and so on. */
  return property == PF_SVG_DISPLAY && *value != '\0' ? PF_SVG_INITIAL : PF_SVG_UNSET;
}

/* Cuts `!important` off a value. */
static bool
cut_important (char *value)
{
  char *const mark = strrchr (value, '!');
  if (mark == NULL || g_ascii_strcasecmp (g_strstrip (mark + 1), "important") != 0)
    return false;
  *mark = '\0';
  return true;
}

static void
read_declaration (const char *text, PfSvgDeclared *declared)
{
  g_auto (GStrv) parts = g_strsplit (text, ":", 2);
  if (parts[0] == NULL || parts[1] == NULL)
    return;
  for (int property = 0; property < PF_SVG_N_PROPERTIES; property++)
    {
      if (g_ascii_strcasecmp (g_strstrip (parts[0]), pf_svg_property_names[property]) != 0)
        continue;
      const bool important = cut_important (parts[1]);
      const PfSvgValue value = pf_svg_property_value ((PfSvgProperty) property, parts[1]);
      if (value != PF_SVG_UNSET && (important || !declared[property].important))
        declared[property] = (PfSvgDeclared){ value, important };
    }
}

/* The text without its comments. */
static char *
strip_comments (const char *text)
{
  GString *stripped = g_string_sized_new (strlen (text));
  for (const char *open; (open = strstr (text, "/*")) != NULL;)
    {
      const char *close = strstr (open + 2, "*/");
      g_string_append_len (stripped, text, open - text);
      text = close != NULL ? close + 2 : open + strlen (open);
    }
  g_string_append (stripped, text);
  return g_string_free (stripped, FALSE);
}

void
pf_svg_declarations (const char *text, PfSvgDeclared *declared)
{
  g_autofree char *stripped = strip_comments (text);
  g_auto (GStrv) parts = g_strsplit (stripped, ";", -1);
  for (int property = 0; property < PF_SVG_N_PROPERTIES; property++)
    declared[property] = (PfSvgDeclared){ PF_SVG_UNSET, false };
  for (char **part = parts; *part != NULL; part++)
    read_declaration (*part, declared);
}

static void
rule_clear (void *data)
{
  PfSvgRule *rule = data;
  g_free (rule->type);
  g_free (rule->id);
  g_strfreev (rule->classes);
}

GArray *
pf_svg_sheet_new (void)
{
  GArray *rules = g_array_new (FALSE, FALSE, sizeof (PfSvgRule));
  g_array_set_clear_func (rules, rule_clear);
  return rules;
}

/* The end of a name in a selector. */
static const char *
skip_name (const char *at)
{
  while (g_ascii_isalnum (*at) || *at == '-' || *at == '_' || (*at & 0x80) != 0)
    at++;
  return at;
}

/* Type, then ids and classes; false for everything else a selector may be. */
static bool
parse_selector (const char *at, PfSvgRule *rule)
{
  GPtrArray *classes = g_ptr_array_new ();
  const char *end = *at == '*' ? at : skip_name (at);
  if (end > at)
    {
      rule->type = g_strndup (at, (size_t) (end - at));
      rule->specificity++;
    }
  at = *at == '*' ? at + 1 : end;
  while ((*at == '.' || (*at == '#' && rule->id == NULL)) && classes->len < MAX_CLASSES &&
         (end = skip_name (at + 1)) > at + 1)
    {
      char *name = g_strndup (at + 1, (size_t) (end - at - 1));
      if (*at == '#')
        rule->id = name;
      else
        g_ptr_array_add (classes, name);
      rule->specificity += *at == '#' ? 10000 : 100;
      at = end;
    }
  g_ptr_array_add (classes, NULL);
  rule->classes = (char **) g_ptr_array_free (classes, FALSE);
  return *at == '\0';
}

/* One `selectors { declarations }`; `*unused` gets a selector that couldn't be used. */
static void
read_rule (const char *selectors, const char *block, GArray *rules, char **unused)
{
  PfSvgDeclared declared[PF_SVG_N_PROPERTIES];
  bool any = false;
  pf_svg_declarations (block, declared);
  for (int property = 0; property < PF_SVG_N_PROPERTIES; property++)
    any = any || declared[property].value != PF_SVG_UNSET;
  if (!any)
    return;
  g_auto (GStrv) parts = g_strsplit (selectors, ",", -1);
  for (char **part = parts; *part != NULL; part++)
    {
      PfSvgRule rule = { 0 };
      memcpy (rule.declared, declared, sizeof declared);
      const bool usable = *g_strstrip (*part) != '\0' && parse_selector (*part, &rule) &&
                          rules->len < PF_SVG_MAX_RULES;
      if (usable)
        g_array_append_val (rules, rule);
      else
        {
          rule_clear (&rule);
          if (*unused == NULL)
            *unused = g_strdup (*part);
        }
    }
}

/* Behind the block that opens at `open`, nested ones included. */
static const char *
skip_block (const char *open)
{
  int depth = 0;
  do
    {
      depth += *open == '{' ? 1 : *open == '}' ? -1 : 0;
      open++;
  } while (depth > 0 && *open != '\0');
  return open;
}

char *
pf_svg_sheet_read (const char *text, GArray *rules)
{
  g_autofree char *stripped = strip_comments (text);
  char *unused = NULL;
  const char *at = stripped;
  for (pf_svg_skip_space (&at); *at != '\0'; pf_svg_skip_space (&at))
    {
      const size_t length = strcspn (at, *at == '@' ? "{;" : "{");
      g_autofree char *selectors = g_strstrip (g_strndup (at, length));
      at += length;
      if (*at != '{')
        {
          at += *at == ';' ? 1 : 0;
          continue;
        }
      const char *end = skip_block (at);
      g_autofree char *block = g_strndup (at + 1, (size_t) (end - at - 1));
      char *const brace = strrchr (block, '}');
      if (brace != NULL)
        *brace = '\0';
      if (*selectors != '@')
        read_rule (selectors, block, rules, &unused);
      else if (unused == NULL && g_str_has_prefix (selectors, "@media"))
        unused = g_strdup (selectors);
      at = end;
    }
  return unused;
}
