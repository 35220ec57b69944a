/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Places that the maker chose: a pinhole, or a bar.
 *
 * She chose them for a ground that may have moved since. A place is kept to as long as it can be
 * sewn at all, and lies near enough to where the pair meets the edge now. Choices are looked at
 * from the last to the first, so that the later one counts.
 */
#include "sewing-places.h"
#include "words.h"

#include <math.h>

#include <glib/gi18n-lib.h>

/* Distances hold with this many mm to spare. */
#define PLACE_SLACK 1e-6
/* A chosen place is at most this many edge gaps from the target, or one gap of the ground. */
#define MOST_EDGE_GAPS 2.0
/* A chosen pinhole is at most this many edge gaps from where it was chosen. */
#define PINHOLE_EDGE_GAPS 0.5

/* One choice, and the edge that its sewing comes to. */
typedef struct {
  const PfSewer *sewer;
  const PfSewingChoice *choice;
  const PfSewing *sewing;
  const PfEdge *edge;
  const PfLoop *loop;
  double along; /* of the chosen place */
} Wish;

double
pf_chosen_place_reach (const PfFillingSettings *settings, const PfEdge *edge)
{
  return fmax (MOST_EDGE_GAPS * edge->gap, settings->placement.gap);
}

static char *
why_too_far (const Wish *w, const char *stitch, double distance)
{
  if (distance <= pf_chosen_place_reach (w->sewer->settings, w->edge) + PLACE_SLACK)
    return NULL;
  return g_strdup_printf (_ ("The place chosen for the sewing at %s is %.2f mm from where its pair "
                             "meets the edge now. Choose one nearer to it, or reset the choice."),
                          stitch, distance);
}

/* Where a pinhole is wished for. */
static char *
find_pinhole (const Wish *w, const char *stitch, PfSewn *sewn)
{
  const guint32 pinhole = pf_edge_nearest_pinhole (w->edge, w->loop, w->along);
  if (pinhole == PF_NONE || pf_loop_distance (w->loop, w->along, w->edge->pinholes[pinhole]) >
                                PINHOLE_EDGE_GAPS * w->edge->gap + PLACE_SLACK)
    return g_strdup_printf (
        _ ("The pinhole chosen for the sewing at %s isn’t there any more. Set it "
           "again, or choose another one."),
        stitch);
  const double at = w->edge->pinholes[pinhole];
  *sewn = (PfSewn){ at, pinhole, pf_loop_distance (w->loop, w->sewing->target.along, at) };
  return why_too_far (w, stitch, sewn->distance);
}

/* Where a bar is wished for. */
static char *
find_bar (const Wish *w, const char *stitch, PfSewn *sewn)
{
  if (pf_edge_kind_at (w->edge, w->along) != PF_EDGE_HALF_STITCH)
    return g_strdup_printf (_ ("The sewing at %s can’t go round the bar chosen for it: the edge is "
                               "cloth stitch there, which a sewing would tear. Choose a pinhole."),
                            stitch);
  *sewn =
      (PfSewn){ w->along, PF_NONE, pf_loop_distance (w->loop, w->sewing->target.along, w->along) };
  return why_too_far (w, stitch, sewn->distance);
}

/* The place wished for, or why it can't be had. */
static char *
find_place (const PfSewer *sewer, const PfSewingChoice *choice, const PfSewing *sewing,
            PfSewn *sewn)
{
  const size_t l = sewing->target.loop;
  Wish w = {
    sewer, choice, sewing, &sewer->edges[l], &sewer->region->loops[l], choice->place.along
  };
  const double length = pf_loop_length (w.loop);
  g_autofree char *stitch = pf_words_stitch_of (sewer->ground, choice->line.stitch);
  if (choice->place.loop != l || !(w.along >= 0 && w.along <= length))
    return g_strdup_printf (
        _ ("The place chosen for the sewing at %s isn’t on the outline that its "
           "pair meets now. Choose another place, or reset the choice."),
        stitch);
  w.along = w.along < length ? w.along : 0;
  return choice->kind == PF_SEW_PINHOLE ? find_pinhole (&w, stitch, sewn)
                                        : find_bar (&w, stitch, sewn);
}

static void
take_choice (PfSewer *sewer, size_t index)
{
  PfFilling *filling = sewer->filling;
  const PfSewingChoice *choice = &sewer->settings->sewing_choices[index];
  char *why = pf_why_not_cut (filling, sewer->ground, choice->line);
  if (why != NULL)
    {
      pf_filling_note_unheeded (filling, true, index, why);
      return;
    }
  const guint32 crossing = pf_filling_find_crossing (filling, choice->line);
  const guint32 s = filling->crossings[crossing].sewing;
  PfSewn sewn;
  why = find_place (sewer, choice, &filling->sewings[s], &sewn);
  if (why != NULL)
    pf_filling_note_unheeded (filling, true, index, why);
  else if (!sewer->placed[s])
    {
      filling->sewings[s].chosen = true;
      pf_sewer_place (sewer, s, sewn);
    }
}

void
pf_sewer_place_chosen (PfSewer *sewer)
{
  for (size_t n = sewer->settings->n_sewing_choices; n > 0; n--)
    {
      const PfSewingChoiceKind kind = sewer->settings->sewing_choices[n - 1].kind;
      if (kind == PF_SEW_PINHOLE || kind == PF_SEW_BAR)
        take_choice (sewer, n - 1);
    }
}
