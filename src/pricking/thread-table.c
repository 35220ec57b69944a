/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The table of threads, a resource of the program. It is read once.
 */
#include "thread.h"

#include <gio/gio.h>
#include <glib/gi18n-lib.h>

#include "json-reader.h"
#include "thread-kinds.h"

#define FILE_NAME "threads.json"
#define PATH "/pinfold/threads/" FILE_NAME

static void
read_kind (PfJsonReader *reader, JsonNode *node, PfThreadKind *kind)
{
  static const char *const keys[] = { "name", "wraps_per_cm", "source", "sure", NULL };
  JsonObject *object = pf_json_object (reader, node, keys);
  kind->name = g_strdup (pf_json_string (reader, object, "name", true));
  kind->wraps_per_cm = pf_json_number (reader, object, "wraps_per_cm", 200, 0);
  kind->source = g_strdup (pf_json_string (reader, object, "source", true));
  kind->sure = g_strdup (pf_json_string (reader, object, "sure", true));
}

static int
compare_kinds (gconstpointer a, gconstpointer b)
{
  const PfThreadKind *p = a, *q = b;
  if (p->wraps_per_cm != q->wraps_per_cm)
    return p->wraps_per_cm < q->wraps_per_cm ? -1 : 1;
  return g_utf8_collate (p->name, q->name);
}

static GArray *
read_table (void)
{
  static const char *const keys[] = { "format", "version", "threads", NULL };
  g_autoptr (GBytes) bytes = g_resource_lookup_data (pf_thread_kinds_get_resource (), PATH,
                                                     G_RESOURCE_LOOKUP_FLAGS_NONE, NULL);
  gsize n;
  const char *json = g_bytes_get_data (bytes, &n);
  g_autoptr (GError) error = NULL;
  g_autoptr (JsonNode) root = pf_json_parse (json, n, PF_JSON_MAX_GROUND, FILE_NAME, &error);
  PfJsonReader reader = { .file = FILE_NAME };
  JsonObject *object = pf_json_object (&reader, root, keys);
  JsonArray *list = pf_json_array (&reader, object, "threads");
  const guint length = list != NULL ? json_array_get_length (list) : 0;
  GArray *table = g_array_sized_new (FALSE, TRUE, sizeof (PfThreadKind), length);
  g_array_set_size (table, length);
  for (guint t = 0; t < length; t++)
    read_kind (&reader, json_array_get_element (list, t), &g_array_index (table, PfThreadKind, t));
  if (reader.error != NULL) /* the program's own file */
    g_error ("%s", reader.error->message);
  g_array_sort (table, compare_kinds);
  return table;
}

const PfThreadKind *
pf_thread_table (size_t *n)
{
  static gsize table; /* GArray */
  if (g_once_init_enter (&table))
    g_once_init_leave (&table, (gsize) read_table ());
  const GArray *kinds = (const GArray *) table;
  *n = kinds->len;
  return (const PfThreadKind *) (const void *) kinds->data;
}

const PfThreadKind *
pf_thread_find (const char *name, GError **error)
{
  size_t n;
  const PfThreadKind *kinds = pf_thread_table (&n);
  g_autofree char *wanted = g_utf8_casefold (name, -1);
  g_autoptr (GString) all = g_string_new (NULL);
  for (size_t k = 0; k < n; k++)
    {
      g_autofree char *known = g_utf8_casefold (kinds[k].name, -1);
      if (g_str_equal (known, wanted))
        return &kinds[k];
      g_string_append_printf (all, "%s“%s”", k > 0 ? ", " : "", kinds[k].name);
    }
  g_set_error (
      error, PF_ERROR, PF_ERROR_SETTING,
      _ ("The thread “%s” isn’t in the table, which has %s. Give its wraps per cm instead: "
         "wind it round a ruler and count."),
      name, all->str);
  return NULL;
}
