/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ground-search.h"

#include <string.h>

/* A letter with an accent is decomposed into both, and the accent left out. */
char *
pf_search_fold (const char *text)
{
  g_autofree char *decomposed = g_utf8_normalize (text, -1, G_NORMALIZE_ALL);
  g_autofree char *folded = g_utf8_casefold (decomposed != NULL ? decomposed : "", -1);
  GString *words = g_string_new (NULL);
  for (const char *p = folded; *p != '\0'; p = g_utf8_next_char (p))
    {
      const gunichar c = g_utf8_get_char (p);
      if (g_unichar_isalnum (c))
        g_string_append_unichar (words, c);
      else if (!g_unichar_ismark (c) && words->len > 0 && words->str[words->len - 1] != ' ')
        g_string_append_c (words, ' ');
    }
  return g_strchomp (g_string_free (words, FALSE));
}

static char *
names_of (const PfGround *ground)
{
  g_autofree char *others =
      ground->also_called != NULL ? g_strjoinv (" ", ground->also_called) : g_strdup ("");
  g_autofree char *all = g_strjoin (" ", ground->title != NULL ? ground->title : "", ground->name,
                                    others, ground->family, NULL);
  return pf_search_fold (all);
}

static bool
has_words (const PfGround *ground, const char *typed)
{
  g_autofree char *folded = pf_search_fold (typed);
  g_autofree char *names = names_of (ground);
  g_auto (GStrv) words = g_strsplit (folded, " ", -1);
  for (char **word = words; *word != NULL; word++)
    if (strstr (names, *word) == NULL)
      return false;
  return true;
}

bool
pf_ground_search_finds (PfGroundSearch search, const PfGround *ground)
{
  return (search.pairs == 0 || pf_ground_pairs (ground) == search.pairs) &&
         (search.family == NULL || g_strcmp0 (ground->family, search.family) == 0) &&
         (search.words == NULL || has_words (ground, search.words));
}

static int
compare_texts (const char *a, const char *b)
{
  g_autofree char *folded_a = pf_search_fold (a != NULL ? a : "");
  g_autofree char *folded_b = pf_search_fold (b != NULL ? b : "");
  return strcmp (folded_a, folded_b);
}

int
pf_ground_compare (const PfGround *a, const PfGround *b)
{
  const int families = compare_texts (a->family, b->family);
  const int titles = families != 0 ? families : compare_texts (a->title, b->title);
  return titles != 0 ? titles : g_strcmp0 (a->name, b->name);
}
