/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Edits of outlines. Each changes one draft that nobody else has seen yet, curve by curve.
 */
#include "outline-edit.h"

#include <math.h>

#include <glib/gi18n-lib.h>

void
pf_outline_set_curve (PfDraft *draft, size_t n, PfCurve *taken)
{
  pf_draft_set_curve (draft, n, taken, NULL);
  pf_curve_unref (taken);
}

bool
pf_outline_box (const PfDraft *draft, PfBox *box)
{
  bool found = false;
  for (size_t c = 0; draft != NULL && c < draft->n_curves; c++)
    {
      if (draft->curves[c]->n_nodes == 0)
        continue;
      const PfBox one = pf_curve_box (draft->curves[c]);
      if (!found)
        *box = one;
      box->min = (PfPoint){ MIN (box->min.x, one.min.x), MIN (box->min.y, one.min.y) };
      box->max = (PfPoint){ MAX (box->max.x, one.max.x), MAX (box->max.y, one.max.y) };
      found = true;
    }
  return found;
}

PfCurve *
pf_outline_open_curve (const PfDraft *draft)
{
  if (draft == NULL || draft->mirror_of != NULL || draft->n_curves == 0)
    return NULL;
  PfCurve *last = draft->curves[draft->n_curves - 1];
  return last->closed ? NULL : last;
}

GArray *
pf_outline_places (PfEditor *editor, const PfNodeSet *without)
{
  GArray *places = g_array_new (FALSE, FALSE, sizeof (PfPoint));
  const PfDocument *document = pf_editor_document (editor);
  const PfDraft *active = pf_editor_draft (editor);
  for (size_t d = 0; d < document->n_drafts; d++)
    for (size_t c = 0; c < document->drafts[d]->n_curves; c++)
      {
        const PfCurve *curve = document->drafts[d]->curves[c];
        g_autofree bool *left_out = without != NULL && document->drafts[d] == active
                                        ? pf_node_set_flags (without, active, c)
                                        : NULL;
        for (size_t n = 0; n < curve->n_nodes; n++)
          if (left_out == NULL || !left_out[n])
            g_array_append_val (places, curve->nodes[n].at);
      }
  return places;
}

void
pf_outline_move_nodes (PfDraft *draft, const PfNodeSet *nodes, PfPoint by)
{
  for (size_t c = 0; c < draft->n_curves; c++)
    {
      g_autofree bool *chosen = pf_node_set_flags (nodes, draft, c);
      if (chosen != NULL)
        pf_outline_set_curve (draft, c, pf_curve_with_nodes_moved (draft->curves[c], chosen, by));
    }
}

void
pf_outline_set_smooth (PfDraft *draft, const PfNodeSet *nodes, bool smooth)
{
  for (guint n = 0; n < nodes->len; n++)
    {
      const PfNodeRef node = pf_node_set_get (nodes, n);
      pf_outline_set_curve (draft, node.curve,
                            pf_curve_with_smooth (draft->curves[node.curve], node.node, smooth));
    }
}

/* Which segments of a curve are meant by the chosen nodes; NULL if none. */
static bool *
chosen_segments (const PfDraft *draft, const PfNodeSet *nodes, size_t curve)
{
  g_autofree bool *chosen = pf_node_set_flags (nodes, draft, curve);
  if (chosen == NULL)
    return NULL;
  const size_t n_nodes = draft->curves[curve]->n_nodes;
  const size_t n = pf_curve_n_segments (draft->curves[curve]);
  bool *segments = g_new0 (bool, n_nodes);
  bool any = false;
  for (size_t s = 0; s < n; s++)
    any |= segments[s] = chosen[s] && (nodes->len == 1 || chosen[(s + 1) % n_nodes]);
  if (!any)
    g_clear_pointer (&segments, g_free);
  return segments;
}

bool
pf_outline_set_straight (PfDraft *draft, const PfNodeSet *nodes, bool straight)
{
  bool any = false;
  for (size_t c = 0; c < draft->n_curves; c++)
    {
      g_autofree bool *segments = chosen_segments (draft, nodes, c);
      const size_t n = segments != NULL ? pf_curve_n_segments (draft->curves[c]) : 0;
      for (size_t s = 0; s < n; s++)
        if (segments[s])
          pf_outline_set_curve (draft, c,
                                pf_curve_with_segment_straight (draft->curves[c], s, straight));
      any |= n > 0;
    }
  return any;
}

bool
pf_outline_add_nodes (PfDraft *draft, PfNodeSet *nodes)
{
  g_autoptr (GArray) added = pf_node_set_new ();
  for (size_t c = 0; c < draft->n_curves; c++)
    {
      g_autofree bool *segments = chosen_segments (draft, nodes, c);
      const size_t n = segments != NULL ? pf_curve_n_segments (draft->curves[c]) : 0;
      size_t before = 0;
      for (size_t s = 0; s < n; s++)
        if (segments[s])
          {
            const size_t segment = s + before++;
            pf_outline_set_curve (draft, c,
                                  pf_curve_with_node_added (draft->curves[c], segment, 0.5));
            pf_node_set_add (added, (PfNodeRef){ c, segment + 1 });
          }
    }
  if (added->len == 0)
    return false;
  pf_node_set_clear (nodes);
  g_array_append_vals (nodes, added->data, added->len);
  return true;
}

bool
pf_outline_delete_nodes (PfDraft *draft, const PfNodeSet *nodes)
{
  g_autofree bool *outer = draft->n_curves > 0 ? pf_node_set_flags (nodes, draft, 0) : NULL;
  g_autoptr (PfCurve) left =
      outer != NULL ? pf_curve_without_nodes (draft->curves[0], outer) : NULL;
  if (outer != NULL && left == NULL)
    return false;
  for (size_t c = draft->n_curves; c-- > 0;)
    {
      g_autofree bool *chosen = pf_node_set_flags (nodes, draft, c);
      if (chosen == NULL)
        continue;
      PfCurve *rest = pf_curve_without_nodes (draft->curves[c], chosen);
      if (rest != NULL)
        pf_outline_set_curve (draft, c, rest);
      else
        pf_draft_remove_curve (draft, c);
    }
  return true;
}

/* Lengths are all scaled alike, and nothing is mirrored. */
static bool
is_turn_and_scale (PfAffine map)
{
  const double size = hypot (map.xx, map.yx);
  return fabs (map.xx - map.yy) <= 1e-12 * size && fabs (map.xy + map.yx) <= 1e-12 * size;
}

void
pf_outline_map (PfDraft *draft, PfAffine map)
{
  if (is_turn_and_scale (map))
    pf_draft_map (draft, map);
  else
    for (size_t c = 0; c < draft->n_curves; c++)
      {
        g_autoptr (PfCurve) mapped = pf_curve_mapped (draft->curves[c], map);
        pf_draft_set_curve (draft, c, mapped, &map);
      }
}

PfAffine
pf_outline_map_about (PfPoint about, double sx, double sy, double degrees)
{
  const double turn = degrees * G_PI / 180, c = cos (turn), s = sin (turn);
  const PfAffine scale = { sx, 0, 0, sy, about.x * (1 - sx), about.y * (1 - sy) };
  const PfAffine rotate = {
    c, -s, s, c, about.x - c * about.x + s * about.y, about.y - s * about.x - c * about.y
  };
  return pf_affine_compose (rotate, scale);
}

/* --- New curves ---------------------------------------------------------------------------------
 */

char *
pf_outline_new_name (const PfDocument *document)
{
  for (size_t number = document->n_drafts + 1;; number++)
    {
      g_autofree char *name = g_strdup_printf (_ ("Motif %zu"), number);
      bool taken = false;
      for (size_t n = 0; n < document->n_drafts; n++)
        taken |= g_strcmp0 (document->drafts[n]->name, name) == 0;
      if (!taken)
        return g_steal_pointer (&name);
    }
}

const char *
pf_outline_no_hole (PfEditor *editor)
{
  const PfDraft *draft = pf_editor_draft (editor);
  if (draft == NULL || draft->n_curves == 0)
    return _ ("There is no motif for a hole yet. Draw the motif first.");
  if (pf_editor_follows (editor))
    return _ ("This motif is the mirror image of another one and follows it. Draw the hole in that "
              "one.");
  if (pf_outline_open_curve (draft) != NULL)
    return _ ("An outline of this motif is still open. Close it first.");
  return NULL;
}

void
pf_outline_add_hole (PfEditor *editor, PfCurve *taken, const char *name)
{
  PfDraft *draft = pf_editor_edit (editor);
  g_return_if_fail (draft != NULL);
  pf_draft_add_curve (draft, taken);
  pf_curve_unref (taken);
  pf_editor_change (editor, draft, name);
}

void
pf_outline_add_motif (PfEditor *editor, PfCurve *taken, const char *name)
{
  const PfDocument *document = pf_editor_document (editor);
  const size_t n = document->n_drafts;
  g_autofree char *motif = pf_outline_new_name (document);
  PfDraft *draft = pf_draft_new (motif, NULL);
  pf_draft_add_curve (draft, taken);
  pf_curve_unref (taken);
  pf_editor_change_document (editor, pf_document_with_draft_added (document, draft), name);
  pf_editor_set_active (editor, (int) n);
}
