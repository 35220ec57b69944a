/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What lies at a place of the sheet.
 */
#include <math.h>

#include <canvas.h>

#include "motif-samples.h"

#define EVERYTHING (~0u)
#define ONLY(kind) (1u << (kind))

static PfEditor *
armure (void)
{
  return sample_editor (sample_frame (60, 50, 12, "armure"));
}

static PfPoint
moved (PfPoint p, double x, double y)
{
  return (PfPoint){ p.x + x, p.y + y };
}

static void
each_sewing_is_found_at_its_place (void)
{
  g_autoptr (PfEditor) editor = armure ();
  const PfFilling *filling = motif_of (editor)->filling;
  g_assert_cmpuint (filling->n_sewings, >, 20);
  for (size_t s = 0; s < filling->n_sewings; s++)
    {
      const PfPick pick = pf_find_pick (editor, moved (filling->sewings[s].at, 0.01, -0.02), 0.8,
                                        ONLY (PF_PICK_SEWING) | ONLY (PF_PICK_PAIR));
      g_assert_cmpint (pick.kind, ==, PF_PICK_SEWING);
      const PfPoint at = filling->sewings[pick.index].at;
      g_assert_cmpfloat (hypot (at.x - filling->sewings[s].at.x, at.y - filling->sewings[s].at.y),
                         <, 0.05);
    }
}

static void
each_pinhole_is_found_at_its_place (void)
{
  g_autoptr (PfEditor) editor = armure ();
  const PfMotif *motif = motif_of (editor);
  for (size_t l = 0; l < motif->region->n_loops; l++)
    for (size_t p = 0; p < motif->edges[l].n_pinholes; p++)
      {
        const PfPoint at =
            pf_region_point (motif->region, (PfPlace){ l, motif->edges[l].pinholes[p] });
        const PfPick pick =
            pf_find_pick (editor, moved (at, 0.1, 0.1), 0.8, ONLY (PF_PICK_PINHOLE));
        g_assert_cmpint (pick.kind, ==, PF_PICK_PINHOLE);
        g_assert_cmpuint (pick.loop, ==, l);
        g_assert_cmpuint (pick.index, ==, p);
      }
}

/* The middle of a line between two stitches belongs to the pair that goes along it. */
static void
each_pair_is_found_on_its_lines (void)
{
  g_autoptr (PfEditor) editor = armure ();
  const PfFilling *filling = motif_of (editor)->filling;
  size_t n = 0;
  for (size_t s = 0; s < filling->n_stitches; s++)
    for (int side = PF_LEFT; side <= PF_RIGHT; side++)
      {
        const PfWorkedStitch *stitch = &filling->stitches[s];
        const PfWorkedEnd *end = &pf_worked_ends (filling, stitch)[side];
        if (end->to == PF_NONE)
          continue;
        const PfPoint a = stitch->at, b = filling->stitches[end->to].at;
        if (hypot (a.x - b.x, a.y - b.y) < 1)
          continue;
        const PfPick pick = pf_find_pick (
            editor, (PfPoint){ (a.x + b.x) / 2 + 0.02, (a.y + b.y) / 2 }, 0.5, ONLY (PF_PICK_PAIR));
        g_assert_cmpint (pick.kind, ==, PF_PICK_PAIR);
        g_assert_cmpuint (pick.index, ==, end->pair);
        n++;
      }
  g_assert_cmpuint (n, >, 50);
}

/* The two pairs of a plait run on one line: the left one is found on its left, seen as it is
 * worked, the right one on its right. */
static void
check_both_pairs_of_plaits (const PfFilling *filling, PfEditor *editor)
{
  size_t n = 0;
  for (size_t s = 0; s < filling->n_stitches; s++)
    {
      const PfWorkedStitch *plait = &filling->stitches[s];
      const PfWorkedEnd *ends = pf_worked_ends (filling, plait);
      if (plait->n_sides != 2 || ends[PF_LEFT].to == PF_NONE ||
          ends[PF_LEFT].to != ends[PF_RIGHT].to)
        continue;
      const PfPoint from = plait->at, to = filling->stitches[ends[PF_LEFT].to].at;
      const PfPoint middle = { (from.x + to.x) / 2, (from.y + to.y) / 2 };
      const double length = hypot (to.x - from.x, to.y - from.y);
      for (int side = PF_LEFT; side <= PF_RIGHT; side++)
        {
          /* A quarter turn clockwise from down is left. */
          const double off = (side == PF_LEFT ? 0.2 : -0.2) * (filling->placement.mirror ? -1 : 1);
          const PfPoint at = { middle.x - off * (to.y - from.y) / length,
                               middle.y + off * (to.x - from.x) / length };
          const PfPick pick = pf_find_pick (editor, at, 0.5, ONLY (PF_PICK_PAIR));
          g_assert_cmpint (pick.kind, ==, PF_PICK_PAIR);
          g_assert_cmpuint (pick.index, ==, ends[side].pair);
          n++;
        }
    }
  g_assert_cmpuint (n, >, 50);
}

static void
both_pairs_of_a_plait_are_found (void)
{
  for (int mirror = 0; mirror < 2; mirror++)
    {
      g_autoptr (PfDocument) plain = sample_rectangle (60, 50, "plait-lattice");
      PfDraft *draft = pf_draft_copy (plain->drafts[0]);
      draft->settings.placement.mirror = mirror;
      draft->settings.placement.turn = 100;
      g_autoptr (PfEditor) editor = sample_editor (pf_document_with_draft (plain, 0, draft));
      check_both_pairs_of_plaits (motif_of (editor)->filling, editor);
    }
}

/* The armure's own middle is its centre stitch. */
/* Where threads are drawn as they lie, a place on one means the pair that it was sewn in with. */
static void
each_thread_is_found_where_it_lies (void)
{
  g_autoptr (PfEditor) editor = armure ();
  const PfMotif *motif = motif_of (editor);
  const PfLaid *laid = pf_motif_laid (motif);
  pf_editor_set_thread_pixel (editor, laid->thickness / 1.6);
  g_assert_true (pf_editor_sees_threads (editor, 0));
  g_autoptr (PfCloseUp) close_up = pf_close_up_part (laid, motif->region->box);
  g_assert_cmpuint (close_up->n_strands, >, 200);
  for (size_t s = 0; s < close_up->n_strands; s++)
    {
      const PfStrand *strand = &close_up->strands[s];
      const PfPoint at = close_up->points[strand->first + 3 * (strand->n_curves / 2)];
      const PfPick pick = pf_find_pick (editor, at, 0.3, ONLY (PF_PICK_PAIR));
      g_assert_cmpint (pick.kind, ==, PF_PICK_PAIR);
      /* Near the edge threads of several pairs may lie on one another. */
      if (pick.index != strand->thread / 2)
        {
          double nearest = INFINITY;
          for (size_t n = 0; n < motif->filling->n_sewings; n++)
            nearest = fmin (nearest, hypot (motif->filling->sewings[n].at.x - at.x,
                                            motif->filling->sewings[n].at.y - at.y));
          g_assert_cmpfloat (nearest, <, 3);
        }
    }
  pf_editor_set_thread_pixel (editor, laid->thickness);
  g_assert_false (pf_editor_sees_threads (editor, 0));
  g_assert_true (pf_editor_shows_threads (editor));
}

static void
each_repeat_is_found_at_its_centre (void)
{
  g_autoptr (PfEditor) editor = armure ();
  const PfMotif *motif = motif_of (editor);
  int centre = 0;
  while (!g_str_equal (motif->ground->stitches[centre].name, "centre"))
    centre++;
  for (size_t s = 0; s < motif->filling->n_stitches; s++)
    {
      const PfWorkedStitch *stitch = &motif->filling->stitches[s];
      if (stitch->id.k != centre)
        continue;
      const PfPick pick =
          pf_find_pick (editor, moved (stitch->at, 0.7, -0.6), 0.5, ONLY (PF_PICK_REPEAT));
      g_assert_cmpint (pick.kind, ==, PF_PICK_REPEAT);
      g_assert_cmpint (pick.i, ==, stitch->id.i);
      g_assert_cmpint (pick.j, ==, stitch->id.j);
    }
}

static void
small_things_come_before_large_ones (void)
{
  g_autoptr (PfEditor) editor = armure ();
  const PfFilling *filling = motif_of (editor)->filling;
  g_assert_cmpint (pf_find_pick (editor, filling->sewings[0].at, 1, EVERYTHING).kind, !=,
                   PF_PICK_PAIR);
  g_assert_cmpint (pf_find_pick (editor, (PfPoint){ 0.1, 0.1 }, 1, EVERYTHING).kind, ==,
                   PF_PICK_NODE);
  const PfWorkedStitch *stitch = &filling->stitches[filling->n_stitches / 2];
  g_assert_cmpint (pf_find_pick (editor, stitch->at, 0.5, EVERYTHING).kind, ==, PF_PICK_PAIR);
}

static void
nothing_lies_beyond_reach (void)
{
  g_autoptr (PfEditor) editor = armure ();
  const PfPoint far = { 500, -300 };
  g_assert_cmpint (pf_find_pick (editor, far, 5, EVERYTHING).kind, ==, PF_PICK_NONE);
  const PfPoint near = { -2, -2 };
  g_assert_cmpint (pf_find_pick (editor, near, 2.8, ONLY (PF_PICK_NODE)).kind, ==, PF_PICK_NONE);
  g_assert_cmpint (pf_find_pick (editor, near, 2.9, ONLY (PF_PICK_NODE)).kind, ==, PF_PICK_NODE);
  g_assert_cmpint (pf_find_pick (editor, near, 2.9, 0).kind, ==, PF_PICK_NONE);
}

static void
a_motif_without_ground_has_only_its_edge (void)
{
  g_autoptr (PfEditor) editor = sample_editor (sample_rectangle (40, 30, NULL));
  g_assert_cmpint (pf_find_pick (editor, (PfPoint){ 20, 15 }, 1, EVERYTHING).kind, ==,
                   PF_PICK_NONE);
  g_assert_cmpint (pf_find_pick (editor, (PfPoint){ 20, 0 }, 1.5, ONLY (PF_PICK_PINHOLE)).kind, ==,
                   PF_PICK_PINHOLE);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/pick/sewing", each_sewing_is_found_at_its_place);
  g_test_add_func ("/pick/pinhole", each_pinhole_is_found_at_its_place);
  g_test_add_func ("/pick/pair", each_pair_is_found_on_its_lines);
  g_test_add_func ("/pick/plait", both_pairs_of_a_plait_are_found);
  g_test_add_func ("/pick/thread", each_thread_is_found_where_it_lies);
  g_test_add_func ("/pick/repeat", each_repeat_is_found_at_its_centre);
  g_test_add_func ("/pick/order", small_things_come_before_large_ones);
  g_test_add_func ("/pick/reach", nothing_lies_beyond_reach);
  g_test_add_func ("/pick/empty", a_motif_without_ground_has_only_its_edge);
  return g_test_run ();
}
