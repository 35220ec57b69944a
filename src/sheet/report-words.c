/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The words for pairs, places, edges and repeats that all reports for people share.
 */
#include "report.h"

#include <string.h>

#include <glib/gi18n-lib.h>

#include "layers.h"

const char *
pf_pair_kind_word (PfPairKind kind)
{
  switch (kind)
    {
    case PF_PAIR_NEW:
      return C_ ("pair", "new");
    case PF_PAIR_TURNED:
      return C_ ("pair", "turned");
    case PF_PAIR_CARRIED:
      return C_ ("pair", "carried");
    default:
      return C_ ("pair", "finished");
    }
}

char *
pf_sewing_place_words (const PfMotif *motif, const PfSewing *sewing)
{
  g_autofree char *name = pf_sewing_place_name (motif, sewing);
  const char *number = strrchr (name, ' ') + 1;
  g_autofree char *place = sewing->pinhole != PF_NONE ? g_strdup_printf (_ ("pinhole %s"), number)
                                                      : g_strdup_printf (_ ("bar %s"), number);
  if (sewing->place.loop == 0)
    return g_steal_pointer (&place);
  return g_strdup_printf (_ ("hole %zu, %s"), sewing->place.loop, place);
}

char *
pf_pair_way_words (const PfMotif *motif, size_t p)
{
  const PfFilling *filling = motif->filling;
  const PfPair *pair = &filling->pairs[p];
  GString *text = g_string_new (NULL);
  for (size_t s = 0; s < pair->n_steps; s++)
    {
      const PfPathStep step = filling->path_steps[pair->first_step + s];
      if (s > 0)
        g_string_append (text, " – ");
      if (step.kind == PF_STEP_SEWING)
        {
          g_string_append_printf (text, _ ("sewing %u"), step.index + 1);
          continue;
        }
      const PfStitchId id = filling->stitches[step.index].id;
      g_string_append_printf (text, "%s (%d, %d)", motif->ground->stitches[id.k].name, id.i, id.j);
    }
  return g_string_free (text, FALSE);
}

char *
pf_report_motif_heading (const PfPricking *pricking, guint m)
{
  const PfMotif *motif = g_ptr_array_index (pricking->motifs, m);
  char *named = g_strdup_printf (_ ("Motif “%s”"), motif->name);
  if (pricking->motifs->len < 2)
    return named;
  g_autofree char *roman = pf_roman_number (m + 1);
  g_autofree char *rest = named;
  return g_strdup_printf ("%s. %s", roman, rest);
}

const char *
pf_edge_words_of (PfEdgeKind kind)
{
  return kind == PF_EDGE_CLOTH_STITCH ? _ ("cloth stitch") : _ ("half stitch");
}

const char *
pf_repeat_state_words (PfRepeatState state)
{
  switch (state)
    {
    case PF_REPEAT_KEPT:
      return C_ ("repeat", "kept");
    case PF_REPEAT_PLAIN:
      return C_ ("repeat", "plain");
    default:
      return C_ ("repeat", "left out");
    }
}

const char *
pf_report_care (void)
{
  return _ ("Take care: pins and needles are sharp; keep pins and small beads "
            "away from children; work in "
            "good light and rest your eyes. Local rules and the practice you were "
            "taught come first.");
}
