/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The elements asked for by their ids: each must exist, be drawn, and hold a closed outline. The
 * error for one that doesn't says what it lacks.
 */
#include "svg.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

/* Ids named as a help in an error, and of each so many characters. */
#define MAX_NAMED 8
#define MAX_LENGTH 60

static bool
can_be_picked (const xmlNode *node)
{
  static const char *const names[] = { "path", "rect", "circle", "ellipse", "polygon", "polyline",
                                       "g",    "use",  "svg",    "symbol",  "a",       NULL };
  return pf_svg_is_element (node) && g_strv_contains (names, (const char *) node->name);
}

/* “leaf”, “stem”, … */
static char *
list_ids (const PfSvgReader *reader)
{
  GString *list = g_string_new (NULL);
  int n = 0;
  for (guint i = 0; i < reader->in_order->len; i++)
    {
      const xmlNode *node = reader->in_order->pdata[i];
      if (!can_be_picked (node))
        continue;
      if (++n > MAX_NAMED)
        {
          g_string_append (list, ", …");
          break;
        }
      const char *id = pf_svg_attribute (node, "id");
      g_autofree char *head = g_utf8_substring (id, 0, MIN (g_utf8_strlen (id, -1), MAX_LENGTH));
      g_string_append_printf (list, "%s“%s”", n > 1 ? ", " : "", head);
    }
  return g_string_free (list, FALSE);
}

static void
set_unknown (const PfSvgReader *reader, const char *id, GError **error)
{
  g_autofree char *ids = list_ids (reader);
  if (*ids == '\0')
    g_set_error (error, PF_ERROR, PF_ERROR_FILE,
                 _ ("%s has no element “%s”; none of its shapes has an id"), reader->name, id);
  else
    g_set_error (error, PF_ERROR, PF_ERROR_FILE, _ ("%s has no element “%s”; it has %s"),
                 reader->name, id, ids);
}

/* Why nothing of the element became an outline. */
static void
set_without_outline (const PfSvgReader *reader, const PfSvgWanted *wanted, GError **error)
{
  const xmlNode *node = g_hash_table_lookup (reader->ids, wanted->id);
  if (!wanted->drawn)
    pf_svg_set_error (reader, node, error, PF_ERROR_OUTLINE,
                      _ ("it is hidden or only a part to be repeated; show it first"));
  else if (wanted->open != NULL && wanted->open_gap > 0)
    pf_svg_set_error (reader, wanted->open, error, PF_ERROR_OUTLINE,
                      _ ("it isn't closed: its ends are %.2f mm apart; join them"),
                      wanted->open_gap);
  else
    pf_svg_set_error (reader, node, error, PF_ERROR_OUTLINE,
                      _ ("it holds no closed outline; draw one, or name another element"));
}

void
pf_svg_note_wanted (PfSvgReader *reader, const PfSvgShape *shape)
{
  const bool usable = !pf_svg_is_pinhole (shape) && !shape->pinhole_layer;
  for (size_t i = 0; i < reader->n_wanted; i++)
    {
      PfSvgWanted *const wanted = &reader->wanted[i];
      for (size_t k = 0; wanted->active > 0 && usable && k < shape->n_chains; k++)
        {
          const PfChain *const chain = &shape->chains[k];
          const PfPoint first = chain->points[0], last = chain->points[chain->n_points - 1];
          if (chain->closed && pf_svg_chain_has_area (chain))
            wanted->n_closed++;
          else if (!chain->closed && wanted->open == NULL)
            {
              wanted->open = shape->node;
              wanted->open_gap = hypot (last.x - first.x, last.y - first.y);
            }
        }
    }
}

bool
pf_svg_check_wanted (const PfSvgReader *reader, GError **error)
{
  for (size_t i = 0; i < reader->n_wanted; i++)
    {
      const PfSvgWanted *const wanted = &reader->wanted[i];
      if (!g_hash_table_contains (reader->ids, wanted->id))
        set_unknown (reader, wanted->id, error);
      else if (wanted->n_closed == 0)
        set_without_outline (reader, wanted, error);
      else
        continue;
      return false;
    }
  return true;
}
