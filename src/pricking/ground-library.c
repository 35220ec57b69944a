/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The grounds that come with the program, which lie in it as resources, and grounds in files.
 */
#include <string.h>

#include <gio/gio.h>
#include <glib/gi18n-lib.h>

#include "grounds.h"
#include "json-reader.h"
#include "pricking.h"

#define FOLDER "/pinfold/grounds"
#define SUFFIX ".json"

static int
compare_names (const void *a, const void *b)
{
  return strcmp (*(char *const *) a, *(char *const *) b);
}

char **
pf_ground_names (void)
{
  char **names = g_resource_enumerate_children (pf_grounds_get_resource (), FOLDER,
                                                G_RESOURCE_LOOKUP_FLAGS_NONE, NULL);
  g_assert (names);
  for (char **name = names; *name; name++)
    (*name)[strlen (*name) - strlen (SUFFIX)] = '\0';
  qsort (names, g_strv_length (names), sizeof *names, compare_names);
  return names;
}

/* Letters to change, add or take out to make one word of the other (Levenshtein). Only the first
 * letters count, up to 63. */
static int
letters_apart (const char *a, const char *b)
{
  enum { MOST = 64 };
  int row[MOST];
  const int n = (int) MIN (strlen (b), MOST - 1);
  for (int j = 0; j <= n; j++)
    row[j] = j;
  for (int i = 1; i < MOST && a[i - 1]; i++)
    {
      int diagonal = row[0];
      row[0] = i;
      for (int j = 1; j <= n; j++)
        {
          const int changed = diagonal + (a[i - 1] != b[j - 1]);
          diagonal = row[j];
          row[j] = MIN (changed, MIN (row[j], row[j - 1]) + 1);
        }
    }
  return row[n];
}

static void
refuse_name (const char *name, GError **error)
{
  g_auto (GStrv) names = pf_ground_names ();
  const char *nearest = names[0];
  for (int i = 1; names[i]; i++)
    if (letters_apart (name, names[i]) < letters_apart (name, nearest))
      nearest = names[i];
  g_autofree char *shown = g_utf8_make_valid (name, -1);
  g_set_error (
      error, PF_ERROR, PF_ERROR_GROUND,
      _ ("There is no ground called “%s”. Did you mean “%s”? A ground of your own is a file "
         "whose name ends in .json."),
      shown, nearest);
}

static PfGround *
load_file (const char *filename, GError **error)
{
  gsize n;
  g_autofree char *text = pf_json_read_file (filename, PF_JSON_MAX_GROUND, &n, error);
  g_autofree char *shown = g_filename_display_name (filename);
  return text ? pf_ground_parse (text, n, shown, error) : NULL;
}

/* Parses a ground that comes with the program. */
static PfGround *
load_own (const char *name, GError **error)
{
  g_autofree char *file = g_strconcat (name, SUFFIX, NULL);
  g_autofree char *path = g_strconcat (FOLDER "/", file, NULL);
  g_autoptr (GBytes) bytes = strchr (name, '/')
                                 ? NULL
                                 : g_resource_lookup_data (pf_grounds_get_resource (), path,
                                                           G_RESOURCE_LOOKUP_FLAGS_NONE, NULL);
  if (!bytes)
    {
      refuse_name (name, error);
      return NULL;
    }
  gsize n;
  const char *json = g_bytes_get_data (bytes, &n);
  return pf_ground_parse (json, n, file, error);
}

PfGround *
pf_ground_load (const char *name, GError **error)
{
  static GMutex lock;
  static GHashTable *loaded; /* of PfGround, by name; lives as long as the program */
  if (g_str_has_suffix (name, SUFFIX))
    return load_file (name, error);
  g_autoptr (GMutexLocker) locker = g_mutex_locker_new (&lock);
  if (loaded == NULL)
    loaded = g_hash_table_new (g_str_hash, g_str_equal);
  PfGround *ground = g_hash_table_lookup (loaded, name);
  if (ground == NULL && (ground = load_own (name, error)) != NULL)
    g_hash_table_insert (loaded, ground->name, ground);
  return ground != NULL ? pf_ground_ref (ground) : NULL;
}
