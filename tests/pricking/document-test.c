/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Documents and drafts: edits leave what they were made from alone, pinholes keep their places,
 * mirror images follow, and motifs come out of drafts or say where the trouble is.
 */
#include <math.h>
#include <string.h>

#include "samples.h"

static PfDocument *
document_of (PfDraft *draft)
{
  g_autoptr (PfDocument) empty = pf_document_new ();
  return pf_document_with_draft_added (empty, draft);
}

static PfMotif *
work_out (const PfDraft *draft)
{
  g_autoptr (GError) error = NULL;
  PfPoint where = { 0, 0 };
  PfMotif *motif = pf_motif_new (draft, &where, &error);
  g_assert_no_error (error);
  g_assert_true (isnan (where.x));
  return motif;
}

/* --- Sharing --- */

static void
test_unchanged (void)
{
  g_autoptr (PfDocument) document = sample_document ();
  g_autofree char *before = pf_document_to_json (document, NULL, NULL);
  for (int k = 0; k < 200; k++)
    pf_document_unref (sample_edit (document));
  g_autofree char *after = pf_document_to_json (document, NULL, NULL);
  g_assert_cmpstr (after, ==, before);
}

static void
test_sharing (void)
{
  g_autoptr (PfDocument) document = sample_document ();
  g_autoptr (PfDocument) edited =
      pf_document_with_draft (document, 0, pf_draft_copy (document->drafts[0]));
  g_assert_true (edited->drafts[0] != document->drafts[0]);
  g_assert_true (edited->drafts[1] == document->drafts[1]);
  g_assert_true (edited->background == document->background);
  g_assert_cmpstr (edited->drafts[0]->id, ==, document->drafts[0]->id);
  g_assert_true (edited->drafts[0]->curves[0] == document->drafts[0]->curves[0]);
}

static void
test_ids (void)
{
  g_autoptr (GHashTable) ids = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  PfDocument *document = sample_document ();
  for (int k = 0; k < 60; k++)
    {
      g_hash_table_remove_all (ids);
      for (size_t n = 0; n < document->n_drafts; n++)
        {
          const char *id = document->drafts[n]->id;
          g_assert_true (g_hash_table_add (ids, g_strdup (id)));
          g_assert_cmpint (pf_document_find (document, id), ==, n);
        }
      sample_step (&document, sample_edit (document));
    }
  g_assert_cmpint (pf_document_find (document, "nobody"), ==, -1);
  pf_document_unref (document);
}

/* --- Places along a curve --- */

static PfDraft *
square_with_pinholes (void)
{
  static const double pinholes[] = { 5, 15, 45, 75, 105, 135 };
  static const PfEdgeStretch stretch = { 45, 75, PF_EDGE_CLOTH_STITCH };
  static const PfSewingChoice choice = { .line = { { 0, 0, 0 }, PF_LEFT, true },
                                         .kind = PF_SEW_PINHOLE,
                                         .place = { 0, 105 } };
  PfDraft *draft = sample_square ("square", 0, 0, 40, "torchon");
  pf_draft_set_pinholes (draft, 0, pinholes, G_N_ELEMENTS (pinholes));
  pf_draft_set_stretches (draft, 0, &stretch, 1);
  pf_draft_set_sewing (draft, &choice);
  return draft;
}

static void
assert_pinholes (const PfDraft *draft, const double *expected, size_t n)
{
  g_assert_cmpuint (draft->edges[0].n_pinholes, ==, n);
  for (size_t k = 0; k < n; k++)
    g_assert_cmpfloat_with_epsilon (draft->edges[0].pinholes[k], expected[k], 1e-9);
}

/* The square's second corner goes from (40, 0) to (50, 0): what lies on other sides stays on the
 * sheet, 10 mm and less farther along. */
static void
test_move_node (void)
{
  g_autoptr (PfDraft) draft = square_with_pinholes ();
  g_autoptr (PfCurve) moved = pf_curve_with_node_at (draft->curves[0], 1, (PfPoint){ 50, 0 });
  pf_draft_set_curve (draft, 0, moved, NULL);
  const double side = hypot (10, 40), more = 50 + side - 80;
  /* (40, 5) to the nearest point of the side from (50, 0) to (40, 40). */
  const double down = (10 * 10 + 5 * 40) / side, low = (10 * 10 + 35 * 40) / side;
  const double expected[] = { 5, 15, 50 + down, 50 + low, 105 + more, 135 + more };
  assert_pinholes (draft, expected, G_N_ELEMENTS (expected));
  g_assert_cmpfloat_with_epsilon (draft->edges[0].stretches[0].from, expected[2], 1e-9);
  g_assert_cmpfloat_with_epsilon (draft->edges[0].stretches[0].to, expected[3], 1e-9);
  g_assert_cmpfloat_with_epsilon (draft->settings.sewing_choices[0].place.along, expected[4], 1e-9);
  g_assert_false (draft->edges[0].even);
}

static void
test_reverse (void)
{
  g_autoptr (PfDraft) draft = square_with_pinholes ();
  g_autoptr (PfCurve) reversed = pf_curve_reversed (draft->curves[0]);
  g_autoptr (PfMotif) before = work_out (draft);
  const PfPoint from = pf_region_point (before->region, (PfPlace){ 0, 45 });
  pf_draft_set_curve (draft, 0, reversed, NULL);
  g_autoptr (PfMotif) motif = work_out (draft);
  const PfEdgeStretch *stretch = &draft->edges[0].stretches[0];
  const PfPoint to = pf_region_point (motif->region, (PfPlace){ 0, stretch->to });
  g_assert_cmpfloat_with_epsilon (to.x, from.x, 1e-9);
  g_assert_cmpfloat_with_epsilon (to.y, from.y, 1e-9);
  g_assert_cmpfloat_with_epsilon (stretch->to - stretch->from, 30, 1e-9);
  g_assert_cmpuint (draft->edges[0].n_pinholes, ==, 6);
}

/* A drag is worked out from its start each time: to and back again is where it was. */
static void
test_no_drift (void)
{
  g_autoptr (PfDraft) draft = sample_ring ("ring", "armure");
  g_autoptr (PfDraft) copy = pf_draft_copy (draft);
  for (int k = 0; k < 50; k++)
    {
      const PfPoint at = copy->curves[1]->nodes[2].at;
      g_autoptr (PfCurve) there =
          pf_curve_with_node_at (copy->curves[1], 2, (PfPoint){ at.x - 1, at.y + 0.3 });
      g_autoptr (PfDraft) dragged = pf_draft_copy (copy);
      pf_draft_set_curve (dragged, 1, there, NULL);
      /* Pinholes on the two quarters that don't move stay where they are. */
      g_assert_cmpfloat_with_epsilon (dragged->edges[1].pinholes[0], 0.1, 1e-9);
      g_assert_cmpfloat_with_epsilon (dragged->edges[1].pinholes[1], 3, 1e-9);
    }
  for (size_t k = 0; k < draft->edges[1].n_pinholes; k++)
    g_assert_cmpfloat (copy->edges[1].pinholes[k], ==, draft->edges[1].pinholes[k]);
}

/* An even edge stays even, and open or collapsed curves take nothing away. */
static void
test_even_and_open (void)
{
  static const PfPoint line[] = { { 0, 0 }, { 10, 0 } }, point[] = { { 0, 0 } };
  g_autoptr (PfCurve) open = pf_curve_new_straight (line, 2, false);
  g_autoptr (PfCurve) single = pf_curve_new_straight (point, 1, true);
  g_autoptr (PfDraft) draft = square_with_pinholes ();
  pf_draft_set_curve (draft, 0, single, NULL);
  g_assert_cmpuint (draft->edges[0].n_pinholes, ==, 6);
  pf_draft_set_curve (draft, 0, open, NULL);
  pf_draft_set_pinholes_even (draft, 0, 3);
  pf_draft_set_curve (draft, 0, single, NULL);
  g_assert_true (draft->edges[0].even);
  g_assert_cmpuint (draft->edges[0].n_pinholes, ==, 0);
}

static void
test_remove_curve (void)
{
  g_autoptr (PfDraft) draft = sample_ring ("ring", "armure");
  g_assert_cmpuint (draft->settings.n_sewing_choices, ==, 4);
  pf_draft_remove_curve (draft, 0);
  g_assert_cmpuint (draft->n_curves, ==, 1);
  g_assert_cmpuint (draft->edges[0].n_pinholes, ==, 5);
  /* The pinhole of the outer loop is gone, the bar of the hole is on loop 0 now. */
  g_assert_cmpuint (draft->settings.n_sewing_choices, ==, 3);
  g_assert_cmpint (draft->settings.sewing_choices[2].kind, ==, PF_SEW_BAR);
  g_assert_cmpuint (draft->settings.sewing_choices[2].place.loop, ==, 0);
}

/* --- Maps --- */

static void
assert_same_counts (const PfCounts *a, const PfCounts *b)
{
  g_assert_cmpuint (a->stitches, ==, b->stitches);
  g_assert_cmpuint (a->whole, ==, b->whole);
  g_assert_cmpuint (a->kept, ==, b->kept);
  g_assert_cmpuint (a->plain, ==, b->plain);
  g_assert_cmpuint (a->left_out, ==, b->left_out);
  g_assert_cmpuint (a->leaving, ==, b->leaving);
  g_assert_cmpuint (a->new_pairs, ==, b->new_pairs);
  g_assert_cmpuint (a->turned, ==, b->turned);
  g_assert_cmpuint (a->carried, ==, b->carried);
  g_assert_cmpuint (a->most_at_once, ==, b->most_at_once);
  g_assert_cmpuint (a->at_pinhole, ==, b->at_pinhole);
  g_assert_cmpuint (a->round_bar, ==, b->round_bar);
  g_assert_cmpuint (a->off_line, ==, b->off_line);
}

/* The other motif is this one under the map: every stitch, every sewing, in the same order. */
static void
assert_mapped (const PfMotif *motif, const PfMotif *image, PfAffine map, double within)
{
  const PfFilling *f = motif->filling, *g = image->filling;
  assert_same_counts (&f->counts, &g->counts);
  for (size_t k = 0; k < f->n_stitches; k++)
    {
      const PfPoint at = pf_affine_map (map, f->stitches[k].at);
      g_assert_cmpfloat_with_epsilon (at.x, g->stitches[k].at.x, within);
      g_assert_cmpfloat_with_epsilon (at.y, g->stitches[k].at.y, within);
      g_assert_cmpint (f->stitches[k].id.k, ==, g->stitches[k].id.k);
      g_assert_cmpint (f->stitches[k].id.i, ==, g->stitches[k].id.i);
    }
  g_assert_cmpuint (f->n_sewings, ==, g->n_sewings);
  for (size_t s = 0; s < f->n_sewings; s++)
    {
      const PfPoint at = pf_affine_map (map, f->sewings[s].at);
      g_assert_cmpfloat_with_epsilon (at.x, g->sewings[s].at.x, within);
      g_assert_cmpfloat_with_epsilon (at.y, g->sewings[s].at.y, within);
      g_assert_cmpint (f->sewings[s].kind, ==, g->sewings[s].kind);
      g_assert_cmpuint (f->sewings[s].pair, ==, g->sewings[s].pair);
    }
}

static void
test_mirror_image (void)
{
  static const PfAxis axes[] = {
    { { 100, 0 }, 90 }, { { 0, 120 }, 0 }, { { 3, 4 }, 45 }, { { 90, 10 }, 63.7 }
  };
  for (size_t k = 0; k < G_N_ELEMENTS (axes); k++)
    {
      g_autoptr (PfDocument) document = document_of (sample_ring ("ring", "armure"));
      g_autoptr (PfDocument) with = pf_document_with_mirror_image (document, 0, axes[k]);
      g_autoptr (PfDraft) original = pf_document_resolve (with, 0);
      g_autoptr (PfDraft) image = pf_document_resolve (with, 1);
      g_assert_true (original == with->drafts[0]);
      g_assert_null (image->mirror_of);
      g_assert_cmpstr (image->id, ==, with->drafts[1]->id);
      g_autoptr (PfMotif) a = work_out (original), b = work_out (image);
      assert_mapped (a, b, pf_axis_reflection (axes[k]), 1e-6);
    }
}

/* The image of an image is the original turned or moved; it follows what the original becomes. */
static void
test_image_of_image (void)
{
  const PfAxis left = { { 100, 0 }, 90 }, right = { { 200, 0 }, 90 };
  g_autoptr (PfDocument) one = document_of (sample_ring ("ring", "armure"));
  g_autoptr (PfDocument) two = pf_document_with_mirror_image (one, 0, left);
  g_autoptr (PfDocument) three = pf_document_with_mirror_image (two, 1, right);
  PfDraft *edited = pf_draft_copy (three->drafts[0]);
  edited->settings.placement.gap = 5;
  g_autoptr (PfDocument) document = pf_document_with_draft (three, 0, edited);
  g_autoptr (PfDraft) first = pf_document_resolve (document, 0);
  g_autoptr (PfDraft) last = pf_document_resolve (document, 2);
  const PfAffine moved = { 1, 0, 0, 1, 200, 0 };
  g_assert_cmpfloat (last->settings.placement.gap, ==, 5);
  g_assert_cmpfloat (last->settings.placement.turn, ==, first->settings.placement.turn);
  g_assert_true (last->settings.placement.mirror == first->settings.placement.mirror);
  g_autoptr (PfMotif) a = work_out (first), b = work_out (last);
  assert_mapped (a, b, moved, 1e-6);
}

static void
test_remove_original (void)
{
  g_autoptr (PfDocument) document = sample_document ();
  g_autoptr (PfDraft) image = pf_document_resolve (document, 2);
  g_autoptr (PfDocument) without = pf_document_without_draft (document, 1);
  g_assert_cmpuint (without->n_drafts, ==, 2);
  const PfDraft *own = without->drafts[1];
  g_assert_null (own->mirror_of);
  g_assert_cmpstr (own->id, ==, document->drafts[2]->id);
  g_assert_true (pf_curve_equal (own->curves[0], image->curves[0]));
  g_assert_cmpfloat (own->settings.placement.turn, ==, image->settings.placement.turn);
}

/* Any similarity: the motif mapped is the mapped motif. */
static void
test_map (void)
{
  static const struct {
    double scale, angle;
    bool over;
  } maps[] = { { 1, 0, false },    { 1, 90, false }, { 1.25, 30, false },
               { 0.8, -77, true }, { 1, 0, true },   { 2, 180, true } };
  for (size_t k = 0; k < G_N_ELEMENTS (maps); k++)
    {
      const double c = maps[k].scale * cos (maps[k].angle * G_PI / 180);
      const double s = maps[k].scale * sin (maps[k].angle * G_PI / 180);
      const double over = maps[k].over ? -1 : 1;
      const PfAffine map = { over * c, -s, over * s, c, 17, -3 };
      g_autoptr (PfDraft) draft = square_with_pinholes ();
      g_autoptr (PfDraft) mapped = pf_draft_copy (draft);
      draft->settings.placement.turn = mapped->settings.placement.turn = 20;
      pf_draft_map (mapped, map);
      g_assert_cmpfloat_with_epsilon (mapped->settings.placement.gap, 4 * maps[k].scale, 1e-9);
      g_autoptr (PfMotif) a = work_out (draft), b = work_out (mapped);
      assert_mapped (a, b, map, 1e-6);
    }
}

/* --- Drawings --- */

static PfDrawing *
demo (const char *name)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *file = g_strconcat (name, ".svg", NULL);
  g_autofree char *path = g_build_filename (g_getenv ("PF_DATA"), "demo", file, NULL);
  PfDrawing *drawing = pf_drawing_load (path, NULL, &error);
  g_assert_no_error (error);
  return drawing;
}

static PfDraft *
model (void)
{
  PfDraft *like = sample_square ("model", 0, 0, 10, "armure");
  like->edges[0].kind = PF_EDGE_CLOTH_STITCH;
  like->edges[0].gap = 2.5;
  like->settings.beads = PF_BEADS_KEPT;
  pf_draft_set_repeat (like, 0, 0, PF_REPEAT_LEFT_OUT);
  return like;
}

/* What comes from a drawing by way of its nodes is what comes from it at once. */
static void
test_drawing (void)
{
  static const char *const names[] = { "quince-leaf", "quince-flower", "pond", "runner-end" };
  for (size_t k = 0; k < G_N_ELEMENTS (names); k++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (PfDraft) like = model ();
      g_autoptr (PfDrawing) drawing = demo (names[k]);
      g_autoptr (PfDocument) empty = pf_document_new ();
      g_autoptr (PfDocument) document = pf_document_with_drawing (empty, drawing, NULL, like);
      g_autoptr (PfPricking) one = pf_document_fill (document, &error);
      g_assert_no_error (error);
      PfFillingSettings settings = like->settings;
      settings.n_choices = 0;
      g_autoptr (PfPricking) other =
          pf_pricking_new (names[k], demo (names[k]), sample_ground ("armure"),
                           PF_EDGE_CLOTH_STITCH, 2.5, &settings, false, &error);
      g_assert_no_error (error);
      g_assert_true (pf_pricking_fill (other, &error));
      const PfCounts a = pf_pricking_counts (one), b = pf_pricking_counts (other);
      g_assert_cmpuint (a.stitches, >, 0);
      assert_same_counts (&a, &b);
      g_assert_cmpuint (one->motifs->len, ==, other->motifs->len);
      g_assert_cmpuint (document->background->len, ==, drawing->background->len);
      g_assert_cmpfloat_with_epsilon (document->width, drawing->width, 1e-6);
    }
}

/* More motifs are added; the background grows. */
static void
test_drawing_added (void)
{
  g_autoptr (PfDraft) like = model ();
  g_autoptr (PfDrawing) drawing = demo ("runner-end");
  const guint n = drawing->outlines->len;
  g_autofree bool *chosen = g_new0 (bool, n);
  chosen[1] = chosen[n - 1] = true;
  g_autoptr (PfDocument) sample = sample_document ();
  g_autoptr (PfDocument) once = pf_document_with_drawing (sample, drawing, chosen, like);
  g_autoptr (PfDocument) twice = pf_document_with_drawing (once, drawing, chosen, like);
  g_assert_cmpuint (once->n_drafts, ==, sample->n_drafts + 2);
  g_assert_cmpuint (twice->n_drafts, ==, sample->n_drafts + 4);
  g_assert_cmpuint (twice->background->len, ==, 2 * drawing->background->len);
  const PfOutline *outline = g_ptr_array_index (drawing->outlines, 1);
  const PfDraft *draft = twice->drafts[sample->n_drafts];
  g_assert_cmpstr (draft->name, ==, outline->name);
  g_assert_cmpint (draft->edges[0].kind, ==, PF_EDGE_CLOTH_STITCH);
  g_assert_cmpuint (draft->settings.n_choices, ==, 0);
}

/* A sheet of some size takes a drawing of 60 by 40 mm with an outline up to (55, 35), a line up to
 * (58, 38), and an outline that runs over its right edge, up to x = 72: see the numbers below. */
static void
test_drawing_grows (void)
{
  static const char svg[] =
      "<svg xmlns='http://www.w3.org/2000/svg' width='60mm' height='40mm' viewBox='0 0 60 40'>"
      "<path id='in' d='M 5 5 H 55 V 35 H 5 Z'/><path id='over' d='M 57 5 H 72 V 9 H 57 Z'/>"
      "<path style='fill:none;stroke:black' d='M 2 2 L 58 38'/></svg>";
  static const struct {
    double width, height; /* before */
    bool over;
    double wide, high;
  } cases[] = {
    { 210, 297, true, 210, 297 }, { 50, 50, false, 60, 50 }, { 80, 30, false, 80, 40 },
    { 59, 39, false, 59, 39 },    { 50, 30, true, 72, 40 },  { 57, 38, false, 60, 38 },
  };
  g_autoptr (GError) error = NULL;
  g_autoptr (PfDrawing) drawing = pf_drawing_parse (svg, sizeof svg - 1, "grows", NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (drawing->outlines->len, ==, 2);
  g_assert_cmpuint (drawing->background->len, ==, 1);
  for (size_t c = 0; c < G_N_ELEMENTS (cases); c++)
    {
      g_autoptr (PfDraft) like = model ();
      g_autoptr (PfDocument) sample = sample_document ();
      const bool chosen[] = { true, cases[c].over };
      sample->width = cases[c].width;
      sample->height = cases[c].height;
      g_autoptr (PfDocument) with = pf_document_with_drawing (sample, drawing, chosen, like);
      g_assert_cmpfloat_with_epsilon (with->width, cases[c].wide, 1e-6);
      g_assert_cmpfloat_with_epsilon (with->height, cases[c].high, 1e-6);
      g_assert_cmpfloat (sample->width, ==, cases[c].width);
    }
}

/* --- Choices --- */

static PfLineId
line (int i, bool leaves)
{
  return (PfLineId){ { 0, i, 0 }, PF_LEFT, leaves };
}

/* "A1": alone at line 1; "T12": line 1 turns to 2; "P1" and "B1": a place; "R1": reset of 1. Lines
 * that leave are odd, those that enter even. */
static void
choose (PfDraft *draft, const char *command)
{
  const int first = command[1] - '0', second = command[2] ? command[2] - '0' : 0;
  PfSewingChoice choice = { .line = line (first, first % 2), .other = line (second, false) };
  if (*command == 'R')
    {
      pf_draft_reset_sewing (draft, choice.line);
      return;
    }
  choice.kind = *command == 'A'   ? PF_SEW_ALONE
                : *command == 'T' ? PF_SEW_TURN
                : *command == 'P' ? PF_SEW_PINHOLE
                                  : PF_SEW_BAR;
  pf_draft_set_sewing (draft, &choice);
}

static char *
chosen (const PfDraft *draft)
{
  g_autoptr (GString) text = g_string_new (NULL);
  for (size_t k = 0; k < draft->settings.n_sewing_choices; k++)
    {
      const PfSewingChoice *c = &draft->settings.sewing_choices[k];
      g_string_append_printf (text, "%s%c%d", k ? " " : "", "ATPB"[c->kind], c -> line.stitch.i);
      if (c->kind == PF_SEW_TURN)
        g_string_append_printf (text, "%d", c->other.stitch.i);
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static const struct {
  const char *commands, *left;
} sewings[] = {
  { "A1", "A1" },
  { "A1 A1", "A1" },
  { "A1 P1", "A1 P1" },
  { "P1 B1", "B1" },
  { "T12 A1", "A1" },
  { "T12 A2", "A2" },
  { "T12 T32", "T32" },
  { "T12 T14", "T14" },
  { "T12 T34", "T12 T34" },
  { "A2 T12", "T12" },
  { "A2 P2 T12 P1", "P2 T12 P1" },
  { "T12 P2 R2", "" },
  { "T12 P1 R1", "" },
  { "A1 A3 R1", "A3" },
  { "P1 R3", "P1" },
};

static void
test_sewings (void)
{
  for (size_t k = 0; k < G_N_ELEMENTS (sewings); k++)
    {
      g_autoptr (PfDraft) draft = sample_square ("square", 0, 0, 40, "torchon");
      g_auto (GStrv) commands = g_strsplit (sewings[k].commands, " ", -1);
      for (char **c = commands; *c; c++)
        choose (draft, *c);
      g_autofree char *left = chosen (draft);
      g_assert_cmpstr (left, ==, sewings[k].left);
    }
}

static void
test_repeats (void)
{
  g_autoptr (PfDraft) draft = sample_square ("square", 0, 0, 40, "torchon");
  pf_draft_set_repeat (draft, 0, 1, PF_REPEAT_LEFT_OUT);
  pf_draft_set_repeat (draft, 1, 0, PF_REPEAT_PLAIN);
  pf_draft_set_repeat (draft, 0, 1, PF_REPEAT_KEPT);
  g_assert_cmpuint (draft->settings.n_choices, ==, 2);
  g_assert_cmpint (draft->settings.choices[0].state, ==, PF_REPEAT_KEPT);
  pf_draft_set_repeat (draft, 0, 1, PF_REPEAT_WHOLE);
  pf_draft_set_repeat (draft, 7, 7, PF_REPEAT_WHOLE);
  g_assert_cmpuint (draft->settings.n_choices, ==, 1);
  g_assert_cmpint (draft->settings.choices[0].i, ==, 1);
  /* The same ground again keeps choices; another takes them away. */
  g_autoptr (PfGround) same = sample_ground ("torchon"), rose = sample_ground ("rose");
  pf_draft_set_ground (draft, same, NULL);
  g_assert_cmpuint (draft->settings.n_choices, ==, 1);
  pf_draft_set_ground (draft, rose, NULL);
  g_assert_cmpuint (draft->settings.n_choices, ==, 0);
}

/* --- Motifs out of drafts --- */

/* Loop l is curve l, from its node 0 on, in its direction; either way round. */
static void
test_loops (void)
{
  g_autoptr (PfDraft) draft = sample_ring ("ring", "armure");
  g_autoptr (PfCurve) reversed = pf_curve_reversed (draft->curves[1]);
  pf_draft_set_curve (draft, 1, reversed, NULL);
  g_autoptr (PfMotif) motif = work_out (draft);
  g_assert_cmpuint (motif->region->n_loops, ==, 2);
  for (size_t l = 0; l < 2; l++)
    {
      const PfLoop *loop = &motif->region->loops[l];
      const PfNode *first = &draft->curves[l]->nodes[0];
      const double area = pf_chain_area (loop->points, loop->n_points);
      g_assert_cmpfloat (loop->points[0].x, ==, first->at.x);
      g_assert_cmpfloat (loop->points[0].y, ==, first->at.y);
      g_assert_true ((area > 0) == (l == 0));
    }
  g_assert_cmpint (pf_edge_kind_at (&motif->edges[0], 5), ==, PF_EDGE_CLOTH_STITCH);
  g_assert_cmpint (pf_edge_kind_at (&motif->edges[0], 50), ==, PF_EDGE_HALF_STITCH);
}

static void
test_without_ground (void)
{
  g_autoptr (PfDraft) draft = sample_ring ("ring", "armure");
  pf_draft_set_ground (draft, NULL, NULL);
  g_autoptr (PfMotif) motif = work_out (draft);
  g_assert_null (motif->filling);
  g_assert_cmpuint (motif->edges[1].n_pinholes, ==, 5);
  g_autoptr (GError) error = NULL;
  g_autoptr (PfDocument) document = document_of (g_steal_pointer (&draft));
  g_autoptr (PfPricking) pricking = pf_document_fill (document, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (pricking->motifs->len, ==, 0);
}

/* Curves as points, "x y ...", each ended by "Z" if it is closed, apart by "|". */
static const struct {
  const char *name, *curves;
  const char *says;
  double x, y; /* where; NAN: nowhere on the sheet */
} troubles[] = {
  { "none", "", "no outline", NAN, NAN },
  { "open", "0 0 9 0 9 9", "without being closed", 9, 9 },
  { "open-hole", "0 0 90 0 90 90 0 90 Z|10 10 20 10", "without being closed", 20, 10 },
  { "point", "5 6 Z", "single point", 5, 6 },
  { "line", "1 2 9 2 5 2 Z", "no area", 1, 2 },
  { "crossing", "0 0 40 40 40 0 0 40 Z", "crosses itself", 20, 20 },
  { "back", "0 0 40 0 20 0 20 30 Z", "runs back", 40, 0 },
  { "hole-crosses", "0 0 90 0 90 90 0 90 Z|80 40 99 40 99 50 80 50 Z", "cross", 90, 40 },
  { "hole-outside", "0 0 9 0 9 9 Z|20 21 30 20 30 30 Z", "isn't inside", 20, 21 },
  { "hole-in-hole", "0 0 90 0 90 90 0 90 Z|10 10 80 10 80 80 10 80 Z|30 31 40 30 40 40 Z",
    "within another hole", 30, 31 },
  { "far", "0 0 2e5 0 9 9 Z", "200000", 2e5, 0 },
};

static PfCurve *
curve_of (const char *text)
{
  g_auto (GStrv) words = g_strsplit (text, " ", -1);
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (PfPoint));
  bool closed = false;
  for (char **w = words; *w && !closed; w += closed ? 0 : 2)
    if (!(closed = strcmp (*w, "Z") == 0))
      {
        const PfPoint p = { g_ascii_strtod (w[0], NULL), g_ascii_strtod (w[1], NULL) };
        g_array_append_val (points, p);
      }
  return pf_curve_new_straight ((const PfPoint *) (const void *) points->data, points->len, closed);
}

static PfDraft *
draft_of (const char *curves)
{
  g_autoptr (PfGround) ground = sample_ground ("torchon");
  g_auto (GStrv) texts = g_strsplit (curves, "|", -1);
  PfDraft *draft = pf_draft_new ("leaf", ground);
  for (char **t = texts; *t; t++)
    {
      g_autoptr (PfCurve) curve = curve_of (*t);
      pf_draft_add_curve (draft, curve);
    }
  return draft;
}

static void
test_trouble (gconstpointer data)
{
  const size_t k = GPOINTER_TO_SIZE (data);
  g_autoptr (GError) error = NULL;
  g_autoptr (PfDraft) draft = draft_of (troubles[k].curves);
  PfPoint where = { 0, 0 };
  g_assert_null (pf_motif_new (draft, &where, &error));
  g_assert_error (error, PF_ERROR, PF_ERROR_OUTLINE);
  g_test_message ("%s", error->message);
  g_assert_nonnull (strstr (error->message, troubles[k].says));
  if (isnan (troubles[k].x))
    g_assert_true (isnan (where.x) && isnan (where.y));
  else
    {
      g_assert_cmpfloat_with_epsilon (where.x, troubles[k].x, 1e-6);
      g_assert_cmpfloat_with_epsilon (where.y, troubles[k].y, 1e-6);
    }
  /* The whole document tells the motif's name. */
  g_autoptr (GError) named = NULL;
  g_autoptr (PfDocument) document = document_of (pf_draft_ref (draft));
  g_assert_null (pf_document_fill (document, &named));
  g_assert_true (g_str_has_prefix (named->message, "Motif “leaf”: "));
}

/* Settings out of range are errors without a place. */
static void
test_settings (void)
{
  for (int k = 0; k < 4; k++)
    {
      static const double far_along[] = { 1000 };
      g_autoptr (GError) error = NULL;
      g_autoptr (PfDraft) draft = sample_square ("square", 0, 0, 40, "torchon");
      PfPoint where = { 0, 0 };
      if (k == 0)
        draft->settings.placement.gap = 0;
      else if (k == 1)
        draft->settings.carry = NAN;
      else if (k == 2)
        pf_draft_set_pinholes_even (draft, 0, 0);
      else
        pf_draft_set_pinholes (draft, 0, far_along, 1);
      g_assert_null (pf_motif_new (draft, &where, &error));
      g_assert_error (error, PF_ERROR, PF_ERROR_SETTING);
      g_assert_true (isnan (where.x));
    }
}

static gpointer
work_out_many (gpointer data)
{
  for (int k = 0; k < 8; k++)
    {
      g_autoptr (PfMotif) motif = work_out (data);
      g_assert_cmpuint (motif->filling->counts.stitches, >, 0);
    }
  return NULL;
}

static void
test_threads (void)
{
  g_autoptr (PfDraft) draft = sample_ring ("ring", "armure");
  GThread *threads[4];
  for (int k = 0; k < 4; k++)
    threads[k] = g_thread_new (NULL, work_out_many, draft);
  for (int k = 0; k < 4; k++)
    g_thread_join (threads[k]);
}

int
main (int argc, char **argv)
{
  static const struct {
    const char *path;
    GTestFunc run;
  } tests[] = {
    { "/document/unchanged", test_unchanged },
    { "/document/sharing", test_sharing },
    { "/document/ids", test_ids },
    { "/document/move-node", test_move_node },
    { "/document/reverse", test_reverse },
    { "/document/no-drift", test_no_drift },
    { "/document/even-and-open", test_even_and_open },
    { "/document/remove-curve", test_remove_curve },
    { "/document/mirror-image", test_mirror_image },
    { "/document/image-of-image", test_image_of_image },
    { "/document/remove-original", test_remove_original },
    { "/document/map", test_map },
    { "/document/drawing", test_drawing },
    { "/document/drawing-added", test_drawing_added },
    { "/document/drawing-grows", test_drawing_grows },
    { "/document/sewings", test_sewings },
    { "/document/repeats", test_repeats },
    { "/document/loops", test_loops },
    { "/document/without-ground", test_without_ground },
    { "/document/settings", test_settings },
    { "/document/threads", test_threads },
  };
  g_test_init (&argc, &argv, NULL);
  for (size_t k = 0; k < G_N_ELEMENTS (tests); k++)
    g_test_add_func (tests[k].path, tests[k].run);
  for (size_t k = 0; k < G_N_ELEMENTS (troubles); k++)
    {
      g_autofree char *path = g_strdup_printf ("/document/trouble/%s", troubles[k].name);
      g_test_add_data_func (path, GSIZE_TO_POINTER (k), test_trouble);
    }
  return g_test_run ();
}
