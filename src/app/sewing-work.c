/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A sewing is named by the line it begins, or else by the one it ends: as long as that line is cut,
 * the choice is kept to and the selection stays with it.
 */
#include "sewing-work.h"

#include <math.h>
#include <string.h>

#include <glib/gi18n-lib.h>

#include "edge-work.h"

const PfMotif *
pf_sewing_motif (PfEditor *editor)
{
  const int active = pf_editor_active (editor);
  const PfMotif *motif = active >= 0 ? pf_editor_motif (editor, (size_t) active) : NULL;
  return motif != NULL && motif->filling != NULL ? motif : NULL;
}

PfLineId
pf_sewing_line (const PfFilling *filling, guint32 sewing)
{
  const PfSewing *s = &filling->sewings[sewing];
  return pf_crossing_line (filling, s->entering != PF_NONE ? s->entering : s->leaving);
}

/* --- Places -------------------------------------------------------------------------------------
 */

static PfSewingChoice
choice_of_pinhole (const PfMotif *motif, guint32 sewing, guint32 pinhole)
{
  const size_t loop = motif->filling->sewings[sewing].target.loop;
  return (PfSewingChoice){ .line = pf_sewing_line (motif->filling, sewing),
                           .kind = PF_SEW_PINHOLE,
                           .place = { loop, motif->edges[loop].pinholes[pinhole] } };
}

static PfSewingChoice
choice_of_bar (const PfMotif *motif, guint32 sewing, double along)
{
  const size_t loop = motif->filling->sewings[sewing].target.loop;
  return (PfSewingChoice){ .line = pf_sewing_line (motif->filling, sewing),
                           .kind = PF_SEW_BAR,
                           .place = { loop, along } };
}

/* How far a sewing may be moved from its target, mm. */
static double
reach_of (const PfMotif *motif, guint32 sewing)
{
  const size_t loop = motif->filling->sewings[sewing].target.loop;
  return pf_chosen_place_reach (&motif->settings, &motif->edges[loop]);
}

/* From the sewing's target on to a place along its loop, mm; negative if that is backwards. */
static double
way_from_target (const PfMotif *motif, guint32 sewing, double along)
{
  const PfPlace target = motif->filling->sewings[sewing].target;
  return pf_edge_way (motif, target.loop, target.along, along);
}

static bool
is_in_reach (const PfMotif *motif, guint32 sewing, guint32 pinhole)
{
  const size_t loop = motif->filling->sewings[sewing].target.loop;
  return pinhole != PF_NONE &&
         fabs (way_from_target (motif, sewing, motif->edges[loop].pinholes[pinhole])) <=
             reach_of (motif, sewing);
}

guint32
pf_sewing_next_pinhole (const PfMotif *motif, guint32 sewing, int step)
{
  const PfPlace place = motif->filling->sewings[sewing].place;
  const guint32 pinhole = pf_edge_next_pinhole (motif, place.loop, place.along, step);
  return is_in_reach (motif, sewing, pinhole) ? pinhole : PF_NONE;
}

PfSewingChoice
pf_sewing_choice_at (const PfMotif *motif, guint32 sewing, double along, double snap)
{
  const PfPlace target = motif->filling->sewings[sewing].target;
  const PfEdge *edge = &motif->edges[target.loop];
  const double reach = reach_of (motif, sewing);
  const double way = CLAMP (way_from_target (motif, sewing, along), -reach, reach);
  const double at = pf_edge_wrap (motif, target.loop, target.along + way);
  const bool half = pf_edge_kind_at (edge, at) == PF_EDGE_HALF_STITCH;
  guint32 pinhole = pf_edge_pinhole_near (motif, target.loop, at);
  if (pinhole != PF_NONE && !is_in_reach (motif, sewing, pinhole))
    pinhole = pf_edge_next_pinhole (motif, target.loop, at, way > 0 ? -1 : 1);
  if (pinhole != PF_NONE &&
      (!half || fabs (pf_edge_way (motif, target.loop, at, edge->pinholes[pinhole])) <= snap))
    return choice_of_pinhole (motif, sewing, pinhole);
  return choice_of_bar (motif, sewing, at);
}

bool
pf_sewing_can_be_round_bar (const PfMotif *motif, guint32 sewing)
{
  const PfSewing *s = &motif->filling->sewings[sewing];
  return s->pinhole != PF_NONE &&
         pf_edge_kind_at (&motif->edges[s->target.loop], s->target.along) == PF_EDGE_HALF_STITCH;
}

/* --- Lines to turn with -------------------------------------------------------------------------
 */

static double
time_of (const PfMotif *motif, guint32 crossing)
{
  const PfFilling *filling = motif->filling;
  const PfStitchId id = filling->stitches[filling->crossings[crossing].stitch].id;
  return pf_ground_time (motif->ground, id.k, id.i, id.j);
}

/* The crossing whose pair would turn: the one that leaves, if there is one. */
static guint32
turning_crossing (const PfSewing *sewing)
{
  return sewing->leaving != PF_NONE ? sewing->leaving : sewing->entering;
}

static bool
can_turn_with (const PfMotif *motif, guint32 mine, guint32 other)
{
  const PfCrossing *crossings = motif->filling->crossings;
  if (crossings[mine].leaves == crossings[other].leaves ||
      crossings[mine].place.loop != crossings[other].place.loop)
    return false;
  const guint32 leaving = crossings[mine].leaves ? mine : other;
  const guint32 entering = crossings[mine].leaves ? other : mine;
  return time_of (motif, leaving) < time_of (motif, entering);
}

static double
distance_between (const PfMotif *motif, guint32 a, guint32 b)
{
  const PfPlace from = motif->filling->crossings[a].place, to = motif->filling->crossings[b].place;
  return pf_loop_distance (&motif->region->loops[from.loop], from.along, to.along);
}

/* Puts a crossing in among the nearest, which stay sorted. */
static void
insert_partner (GArray *partners, const PfMotif *motif, guint32 mine, guint32 crossing)
{
  const double distance = distance_between (motif, mine, crossing);
  guint at = partners->len;
  while (at > 0 &&
         distance_between (motif, mine, g_array_index (partners, guint32, at - 1)) > distance)
    at--;
  if (at >= PF_SEWING_PARTNERS)
    return;
  g_array_insert_val (partners, at, crossing);
  if (partners->len > PF_SEWING_PARTNERS)
    g_array_set_size (partners, PF_SEWING_PARTNERS);
}

GArray *
pf_sewing_partners (const PfMotif *motif, guint32 sewing)
{
  const PfSewing *s = &motif->filling->sewings[sewing];
  const guint32 mine = turning_crossing (s);
  const guint32 now = mine == s->leaving ? s->entering : s->leaving;
  GArray *partners = g_array_new (FALSE, FALSE, sizeof (guint32));
  for (guint32 c = 0; c < motif->filling->n_crossings; c++)
    if (c != now && can_turn_with (motif, mine, c))
      insert_partner (partners, motif, mine, c);
  return partners;
}

/* Where the crossing's pair is sewn now: what is numbered on the canvas. */
static char *
words_for_place (const PfSewing *sewing)
{
  const guint32 before = sewing->between[0], after = sewing->between[1];
  if (sewing->pinhole != PF_NONE)
    return g_strdup_printf (_ ("at pinhole %u"), sewing->pinhole + 1);
  if (before == after)
    return g_strdup (_ ("at the bar"));
  return g_strdup_printf (_ ("between pinholes %u and %u"), before + 1, after + 1);
}

char *
pf_sewing_partner_name (const PfMotif *motif, guint32 sewing, guint32 crossing, PfUnits units)
{
  const PfFilling *filling = motif->filling;
  const PfCrossing *c = &filling->crossings[crossing];
  const guint32 mine = turning_crossing (&filling->sewings[sewing]);
  const PfPlace from = filling->crossings[mine].place;
  const double way = pf_edge_way (motif, from.loop, from.along, c->place.along);
  g_autofree char *place = words_for_place (&filling->sewings[c->sewing]);
  g_autofree char *length = pf_format_fixed_length (fabs (way), 1, units);
  /* Translators: pair, place (“at pinhole 12”, “between pinholes 3 and 4”), distance. */
  if (c->leaves)
    return way < 0 ? g_strdup_printf (_ ("Pair %u, which leaves %s, %s back"), c->pair + 1, place,
                                      length)
                   : g_strdup_printf (_ ("Pair %u, which leaves %s, %s on"), c->pair + 1, place,
                                      length);
  return way < 0
             ? g_strdup_printf (_ ("Pair %u, which enters %s, %s back"), c->pair + 1, place, length)
             : g_strdup_printf (_ ("Pair %u, which enters %s, %s on"), c->pair + 1, place, length);
}

/* --- What is chosen -----------------------------------------------------------------------------
 */

static bool
is_same_line (PfLineId a, PfLineId b)
{
  return a.stitch.k == b.stitch.k && a.stitch.i == b.stitch.i && a.stitch.j == b.stitch.j &&
         a.side == b.side && a.leaves == b.leaves;
}

static bool
speaks_of (const PfSewingChoice *choice, PfLineId line)
{
  return is_same_line (choice->line, line) ||
         (choice->kind == PF_SEW_TURN && is_same_line (choice->other, line));
}

static bool
has_choice (const PfMotif *motif, guint32 crossing)
{
  if (crossing == PF_NONE)
    return false;
  const PfLineId line = pf_crossing_line (motif->filling, crossing);
  for (size_t c = 0; c < motif->settings.n_sewing_choices; c++)
    if (speaks_of (&motif->settings.sewing_choices[c], line))
      return true;
  return false;
}

bool
pf_sewing_has_choice (const PfMotif *motif, guint32 sewing)
{
  const PfSewing *s = &motif->filling->sewings[sewing];
  return has_choice (motif, s->leaving) || has_choice (motif, s->entering);
}

PfRepeatState
pf_repeat_choice (const PfMotif *motif, int i, int j)
{
  for (size_t c = 0; c < motif->settings.n_choices; c++)
    if (motif->settings.choices[c].i == i && motif->settings.choices[c].j == j)
      return motif->settings.choices[c].state;
  return PF_REPEAT_WHOLE;
}

/* --- Changes ------------------------------------------------------------------------------------
 */

static void
choose (PfEditor *editor, PfDraft *draft, PfSewingChoice choice, const char *name)
{
  pf_draft_set_sewing (draft, &choice);
  pf_editor_change (editor, draft, name);
}

bool
pf_sewing_move (PfEditor *editor, PfDraft *draft, guint32 sewing, int step)
{
  const PfMotif *motif = pf_sewing_motif (editor);
  const guint32 pinhole = pf_sewing_next_pinhole (motif, sewing, step);
  if (pinhole == PF_NONE)
    {
      pf_draft_unref (draft);
      return false;
    }
  choose (editor, draft, choice_of_pinhole (motif, sewing, pinhole), _ ("Move a sewing"));
  return true;
}

void
pf_sewing_go_round_bar (PfEditor *editor, PfDraft *draft, guint32 sewing)
{
  const PfMotif *motif = pf_sewing_motif (editor);
  const PfPlace target = motif->filling->sewings[sewing].target;
  choose (editor, draft, choice_of_bar (motif, sewing, target.along), _ ("Sew round the bar"));
}

void
pf_sewing_make_alone (PfEditor *editor, PfDraft *draft, guint32 sewing)
{
  const PfFilling *filling = pf_sewing_motif (editor)->filling;
  choose (editor, draft,
          (PfSewingChoice){ .line = pf_sewing_line (filling, sewing), .kind = PF_SEW_ALONE },
          _ ("A pair of its own"));
}

void
pf_sewing_turn_with (PfEditor *editor, PfDraft *draft, guint32 sewing, guint32 crossing)
{
  const PfFilling *filling = pf_sewing_motif (editor)->filling;
  const PfLineId mine = pf_crossing_line (filling, turning_crossing (&filling->sewings[sewing]));
  const PfLineId other = pf_crossing_line (filling, crossing);
  pf_editor_select_line (editor, mine);
  choose (editor, draft,
          (PfSewingChoice){ .line = mine.leaves ? mine : other,
                            .kind = PF_SEW_TURN,
                            .other = mine.leaves ? other : mine },
          _ ("Turn a pair"));
}

void
pf_sewing_reset (PfEditor *editor, PfDraft *draft, guint32 sewing)
{
  const PfFilling *filling = pf_sewing_motif (editor)->filling;
  const PfSewing *s = &filling->sewings[sewing];
  const guint32 crossings[] = { s->leaving, s->entering };
  for (gsize c = 0; c < G_N_ELEMENTS (crossings); c++)
    if (crossings[c] != PF_NONE)
      pf_draft_reset_sewing (draft, pf_crossing_line (filling, crossings[c]));
  pf_editor_change (editor, draft, _ ("Reset a sewing"));
}

void
pf_repeat_choose (PfEditor *editor, PfDraft *draft, int i, int j, PfRepeatState state)
{
  pf_draft_set_repeat (draft, i, j, state);
  pf_editor_change (editor, draft,
                    state == PF_REPEAT_KEPT       ? _ ("Keep a repeat")
                    : state == PF_REPEAT_PLAIN    ? _ ("Work a repeat plain")
                    : state == PF_REPEAT_LEFT_OUT ? _ ("Leave a repeat out")
                                                  : _ ("Reset a repeat"));
}

void
pf_choices_reset_all (PfEditor *editor, PfDraft *draft)
{
  pf_draft_reset_choices (draft);
  pf_editor_change (editor, draft, _ ("Reset all choices"));
}

void
pf_choice_remove (PfEditor *editor, PfDraft *draft, const PfUnheeded *unheeded)
{
  PfFillingSettings *settings = &draft->settings;
  if (!unheeded->of_sewing)
    {
      const PfRepeatChoice choice = settings->choices[unheeded->index];
      pf_draft_set_repeat (draft, choice.i, choice.j, PF_REPEAT_WHOLE);
    }
  else
    {
      PfSewingChoice *choices = (PfSewingChoice *) settings->sewing_choices; /* the draft's own */
      const size_t after = --settings->n_sewing_choices - unheeded->index;
      memmove (&choices[unheeded->index], &choices[unheeded->index + 1], after * sizeof *choices);
    }
  pf_editor_change (editor, draft, _ ("Remove a choice"));
}
