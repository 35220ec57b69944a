/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What couldn't be used of a drawing, by line and element. A drawing may hold thousands of letters
 * and pictures: remarks with one format about elements of one name are one kind, and each kind is
 * listed only so often and then counted.
 */
#include "svg.h"

#include <glib/gi18n-lib.h>

#define MAX_OF_A_KIND 20

typedef struct {
  char *element;
  unsigned n;
  long first_line;
} Kind;

struct PfSvgRemarks {
  GPtrArray *texts;
  GHashTable *kinds;   /* "name format" to Kind */
  GPtrArray *in_order; /* the kinds */
};

static void
kind_free (void *data)
{
  Kind *kind = data;
  g_free (kind->element);
  g_free (kind);
}

PfSvgRemarks *
pf_svg_remarks_new (void)
{
  PfSvgRemarks *remarks = g_new (PfSvgRemarks, 1);
  remarks->texts = g_ptr_array_new_with_free_func (g_free);
  remarks->kinds = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  remarks->in_order = g_ptr_array_new_with_free_func (kind_free);
  return remarks;
}

void
pf_svg_remarks_free (PfSvgRemarks *remarks)
{
  if (remarks == NULL)
    return;
  if (remarks->texts != NULL)
    g_ptr_array_unref (remarks->texts);
  g_hash_table_unref (remarks->kinds);
  g_ptr_array_unref (remarks->in_order);
  g_free (remarks);
}

static Kind *
find_kind (PfSvgRemarks *remarks, const xmlNode *node, const char *format)
{
  g_autofree char *key = g_strdup_printf ("%s %s", (const char *) node->name, format);
  Kind *kind = g_hash_table_lookup (remarks->kinds, key);
  if (kind != NULL)
    return kind;
  kind = g_new0 (Kind, 1);
  kind->element = g_strdup ((const char *) node->name);
  kind->first_line = xmlGetLineNo (node);
  g_hash_table_insert (remarks->kinds, g_steal_pointer (&key), kind);
  g_ptr_array_add (remarks->in_order, kind);
  return kind;
}

void
pf_svg_remark (PfSvgRemarks *remarks, const xmlNode *node, const char *format, ...)
{
  Kind *const kind = find_kind (remarks, node, format);
  if (++kind->n > MAX_OF_A_KIND)
    return;
  va_list arguments;
  va_start (arguments, format);
  g_autofree char *what = pf_svg_message (format, arguments);
  va_end (arguments);
  g_autofree char *element = pf_svg_element_text (node);
  g_ptr_array_add (remarks->texts,
                   g_strdup_printf (_ ("line %ld: %s: %s"), xmlGetLineNo (node), element, what));
}

GPtrArray *
pf_svg_remarks_steal (PfSvgRemarks *remarks)
{
  for (guint i = 0; i < remarks->in_order->len; i++)
    {
      const Kind *kind = remarks->in_order->pdata[i];
      const unsigned more = kind->n > MAX_OF_A_KIND ? kind->n - MAX_OF_A_KIND : 0;
      if (more > 0)
        g_ptr_array_add (
            remarks->texts,
            g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                          "%u more <%s> element like that of line %ld",
                                          "%u more <%s> elements like that of line %ld", more),
                             more, kind->element, kind->first_line));
    }
  return g_steal_pointer (&remarks->texts);
}
