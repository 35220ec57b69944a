/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "samples.h"

#include <glib/gstdio.h>

PfGround *
sample_ground (const char *name)
{
  g_autoptr (GError) error = NULL;
  PfGround *ground = pf_ground_load (name, &error);
  g_assert_no_error (error);
  return ground;
}

PfDraft *
sample_square (const char *name, double x, double y, double size, const char *ground)
{
  g_autoptr (PfGround) own = sample_ground (ground);
  g_autoptr (PfCurve) curve = pf_curve_new_rectangle ((PfBox){ { x, y }, { x + size, y + size } });
  PfDraft *draft = pf_draft_new (name, own);
  pf_draft_add_curve (draft, curve);
  draft->settings.placement.gap = 4;
  draft->settings.placement.origin = (PfPoint){ x + size / 2, y + size / 2 };
  return draft;
}

PfDraft *
sample_ring (const char *name, const char *ground)
{
  static const double pinholes[] = { 0.1, 3, 7.25, 11, 20 };
  static const PfEdgeStretch stretch = { 3, 9.5, PF_EDGE_CLOTH_STITCH };
  const PfSewingChoice choices[] = {
    { { { 0, 1, -2 }, PF_LEFT, true }, PF_SEW_ALONE, .place = { 0, 0 } },
    { { { 0, 2, 1 }, PF_RIGHT, true }, PF_SEW_TURN, .other = { { 0, 2, 2 }, PF_LEFT, false } },
    { { { 0, 0, 3 }, PF_LEFT, false }, PF_SEW_PINHOLE, .place = { 0, 7.25 } },
    { { { 0, 3, 0 }, PF_RIGHT, false }, PF_SEW_BAR, .place = { 1, 1.5 } },
  };
  g_autoptr (PfGround) own = sample_ground (ground);
  g_autoptr (PfCurve) outer = pf_curve_new_ellipse ((PfPoint){ 60, 50 }, 30, 24);
  g_autoptr (PfCurve) hole = pf_curve_new_ellipse ((PfPoint){ 58, 48 }, 6, 5);
  PfDraft *draft = pf_draft_new (name, own);
  pf_draft_add_curve (draft, outer);
  pf_draft_add_curve (draft, hole);
  pf_draft_set_pinholes (draft, 1, pinholes, G_N_ELEMENTS (pinholes));
  pf_draft_set_stretches (draft, 0, &stretch, 1);
  draft->settings.placement =
      (PfPlacement){ .gap = 4, .turn = 17, .origin = { 60.5, 49.25 }, .mirror = true };
  pf_draft_set_repeat (draft, 1, -1, PF_REPEAT_LEFT_OUT);
  pf_draft_set_repeat (draft, 2, -1, PF_REPEAT_PLAIN);
  for (size_t k = 0; k < G_N_ELEMENTS (choices); k++)
    pf_draft_set_sewing (draft, &choices[k]);
  return draft;
}

void
sample_step (PfDocument **document, PfDocument *next)
{
  pf_document_unref (*document);
  *document = next;
}

PfDocument *
sample_document (void)
{
  const PfAxis axis = { { 100, 0 }, 90 };
  PfDocument *document = pf_document_new ();
  sample_step (&document, pf_document_with_draft_added (
                              document, sample_square ("leaf", 10, 10, 40, "torchon")));
  sample_step (&document,
               pf_document_with_draft_added (document, sample_ring ("ring “one”", "armure")));
  sample_step (&document, pf_document_with_mirror_image (document, 1, axis));
  return document;
}

/* --- Edits at random --- */

static double
some (double from, double to)
{
  return g_test_rand_double_range (from, to);
}

/* A number as people type it as often as one with all its digits. */
static double
some_number (double from, double to)
{
  const double x = some (from, to);
  return g_test_rand_int_range (0, 2) ? (double) (int) (x * 10) / 10 : x;
}

static PfNode
some_node (void)
{
  PfNode node = { .at = { some_number (0, 200), some_number (0, 200) } };
  node.in = node.out = node.at;
  if (g_test_rand_int_range (0, 2))
    node.in = (PfPoint){ node.at.x + some_number (-9, 9), node.at.y + some_number (-9, 9) };
  if (g_test_rand_int_range (0, 2))
    node.out = (PfPoint){ node.at.x + some_number (-9, 9), node.at.y + some_number (-9, 9) };
  node.smooth = g_test_rand_int_range (0, 2);
  return node;
}

static PfCurve *
some_curve (void)
{
  PfNode nodes[6];
  const int n = g_test_rand_int_range (1, 7);
  for (int k = 0; k < n; k++)
    nodes[k] = k > 0 && g_test_rand_int_range (0, 9) == 0 ? nodes[0] : some_node ();
  return pf_curve_new (nodes, n, g_test_rand_int_range (0, 4) > 0);
}

static PfLineId
some_line (const PfGround *ground)
{
  const int k = g_test_rand_int_range (0, ground->n_stitches);
  return (PfLineId){ { k, g_test_rand_int_range (-9, 9), g_test_rand_int_range (-9, 9) },
                     (PfSide) g_test_rand_int_range (0, ground->stitches[k].n_pairs),
                     g_test_rand_int_range (0, 2) };
}

static void
edit_outline (PfDraft *draft)
{
  const size_t c = g_test_rand_int_range (0, (int) draft->n_curves);
  g_autoptr (PfCurve) curve = some_curve ();
  const double scale = draft->settings.placement.gap > 10 ? 0.3 : 1.5;
  const PfAffine turn = { 0, -scale, scale, 0, some (0, 50), 3 }, over = { -1, 0, 0, 1, 80.1, 0 };
  const PfPoint to = { some_number (0, 150), some_number (0, 150) };
  g_autoptr (PfCurve) moved = pf_curve_with_node_at (draft->curves[c], 0, to);
  switch (g_test_rand_int_range (0, 5))
    {
    case 0:
      pf_draft_add_curve (draft, curve);
      break;
    case 1:
      pf_draft_set_curve (draft, c, curve, NULL);
      break;
    case 2:
      pf_draft_set_curve (draft, c, moved, NULL);
      break;
    case 3:
      pf_draft_map (draft, g_test_rand_int_range (0, 2) ? turn : over);
      break;
    default:
      if (draft->n_curves > 1)
        pf_draft_remove_curve (draft, c);
    }
}

static void
edit_edge (PfDraft *draft)
{
  const size_t c = g_test_rand_int_range (0, (int) draft->n_curves);
  double pinholes[8];
  const PfEdgeStretch stretches[] = {
    { some_number (0, 20), some_number (0, 20), PF_EDGE_CLOTH_STITCH },
    { some_number (0, 20), some_number (0, 20), PF_EDGE_HALF_STITCH },
  };
  for (size_t k = 0; k < G_N_ELEMENTS (pinholes); k++)
    pinholes[k] = some_number (0, 30);
  switch (g_test_rand_int_range (0, 4))
    {
    case 0:
      pf_draft_set_pinholes (draft, c, pinholes, g_test_rand_int_range (0, 9));
      break;
    case 1:
      pf_draft_set_pinholes_even (draft, c, some_number (0.5, 4));
      break;
    case 2:
      pf_draft_set_stretches (draft, c, stretches, g_test_rand_int_range (0, 3));
      break;
    default:
      draft->edges[c].kind = (PfEdgeKind) g_test_rand_int_range (0, 2);
    }
}

static void
edit_choices (PfDraft *draft)
{
  if (!draft->ground)
    return;
  const PfSewingChoice choice = {
    .line = some_line (draft->ground),
    .kind = (PfSewingChoiceKind) g_test_rand_int_range (0, 4),
    .other = some_line (draft->ground),
    .place = { g_test_rand_int_range (0, (int) draft->n_curves), some_number (0, 60) },
  };
  const int i = g_test_rand_int_range (-4, 4), j = g_test_rand_int_range (-4, 4);
  static const PfRepeatState states[] = { PF_REPEAT_WHOLE, PF_REPEAT_KEPT, PF_REPEAT_PLAIN,
                                          PF_REPEAT_LEFT_OUT };
  switch (g_test_rand_int_range (0, 8))
    {
    case 0:
      pf_draft_reset_sewing (draft, choice.line);
      break;
    case 1:
    case 2:
    case 3:
      pf_draft_set_repeat (draft, i, j, states[g_test_rand_int_range (0, 4)]);
      break;
    default:
      pf_draft_set_sewing (draft, &choice);
    }
}

static void
edit_thread (PfDraft *draft)
{
  static const char *const colours[] = { "#aa0000", "#00ff7f", "#123456" };
  PfThreadUse use = pf_thread_use_copy (&draft->thread);
  g_free (use.name);
  use.name = g_strdup (g_test_rand_int_range (0, 2) ? "Finca Bolillos 30" : "");
  use.wraps_per_cm = g_test_rand_int_range (0, 2) ? some_number (1, 99) : 0;
  use.spare = some_number (0, 900);
  use.rule = (PfFitRule){ some_number (1, 10), some_number (10, 30) };
  for (int n = g_test_rand_int_range (0, 4); draft->ground && n > 0; n--)
    pf_thread_use_set_colour (
        &use, some_line (draft->ground), (PfBobbins) g_test_rand_int_range (1, 4),
        g_test_rand_int_range (0, 4) ? colours[g_test_rand_int_range (0, G_N_ELEMENTS (colours))]
                                     : NULL);
  pf_draft_set_thread (draft, &use);
  pf_thread_use_clear (&use);
}

static void
edit_filling (PfDraft *draft)
{
  PfFillingSettings *s = &draft->settings;
  static const char *const names[] = { "armure", "rose", "spider", "plait-lattice" };
  g_autoptr (PfGround) ground =
      sample_ground (names[g_test_rand_int_range (0, G_N_ELEMENTS (names))]);
  switch (g_test_rand_int_range (0, 5))
    {
    case 4:
      edit_thread (draft);
      break;
    case 0:
      pf_draft_set_ground (draft, ground, NULL);
      break;
    case 1:
      s->placement = (PfPlacement){ some_number (1, 9),
                                    some_number (0, 360),
                                    { some_number (0, 99), some_number (0, 99) },
                                    g_test_rand_int_range (0, 2),
                                    g_test_rand_int_range (0, 2) ? some_number (20, 80) : 0 };
      break;
    case 2:
      s->clearance = some_number (0, 1);
      s->carry = some_number (0, 3);
      s->reach = some_number (0, 1);
      s->off_line = some_number (0, 20);
      break;
    default:
      s->sewings_per_pinhole = g_test_rand_int_range (1, 5);
      s->beads = (PfBeads) g_test_rand_int_range (0, 3);
      s->all_plain = g_test_rand_int_range (0, 2);
      s->habits = (PfWorkingHabits){ g_test_rand_bit (),
                                     g_test_rand_bit () ? PF_WORK_BY_ROW : PF_WORK_BY_REPEAT,
                                     g_test_rand_bit () };
    }
}

static void
edit_texts (PfDraft *draft)
{
  static const char *const texts[] = { "",           "leaf",       "Blatt „links“",
                                       "a\\b \"c\"", "two\nlines", "bell\a and \x7f" };
  pf_draft_set_name (draft, texts[g_test_rand_int_range (0, 4)]);
  pf_draft_set_notes (draft, texts[g_test_rand_int_range (0, G_N_ELEMENTS (texts))]);
}

/* A mirror image has its own place at the pillow, in a ground that it has from its original. */
static void
edit_pillow (PfDraft *draft)
{
  static const char *const texts[] = { "", "one twist more", "two\nlines „so“" };
  g_autoptr (PfGround) original = sample_ground ("armure");
  const PfGround *ground = draft->ground ? draft->ground : original;
  PfStepId step = { (PfWorkKind) g_test_rand_int_range (0, PF_WORK_SEW_OUT + 1),
                    some_line (ground) };
  if (step.kind == PF_WORK_STITCH)
    {
      step.line.side = PF_LEFT;
      step.line.leaves = false;
    }
  switch (g_test_rand_int_range (0, 6))
    {
    case 0:
      pf_draft_set_pillow (draft, PF_PILLOW_DONE, NULL, NULL);
      break;
    case 1:
      pf_draft_set_pillow (draft, PF_PILLOW_NOT_BEGUN, NULL, NULL);
      break;
    case 2:
    case 3:
      pf_draft_set_pillow (draft, PF_PILLOW_BEGUN, ground, &step);
      break;
    default:
      pf_draft_set_pillow_note (draft, ground, &step,
                                texts[g_test_rand_int_range (0, G_N_ELEMENTS (texts))]);
    }
}

static PfDraft *
edited (const PfDraft *draft)
{
  static void (*const edits[]) (PfDraft *) = { edit_outline, edit_edge,  edit_choices,
                                               edit_filling, edit_texts, edit_pillow };
  PfDraft *copy = pf_draft_copy (draft);
  if (copy->mirror_of && g_test_rand_int_range (0, 2))
    edit_pillow (copy);
  else if (copy->mirror_of)
    edit_texts (copy);
  else
    edits[g_test_rand_int_range (0, G_N_ELEMENTS (edits))](copy);
  return copy;
}

static PfDocument *
with_page (const PfDocument *document)
{
  size_t n;
  const PfPaper *papers = pf_papers (&n);
  PfDocument *copy = pf_document_copy (document);
  g_free (copy->title);
  copy->title = g_strdup_printf ("Piece %d", g_test_rand_int_range (0, 999));
  copy->page = (PfPageSetup){ &papers[g_test_rand_int_range (0, (int) n)],
                              some_number (0.5, 4),
                              g_test_rand_int_range (0, 2),
                              g_test_rand_int_range (0, 2),
                              g_test_rand_int_range (0, 2),
                              g_test_rand_int_range (0, 2),
                              g_test_rand_int_range (1, 9),
                              (PfBookParts) g_test_rand_int_range (0, 2 * PF_BOOK_REPORT),
                              g_test_rand_int_range (0, 2) };
  return copy;
}

static PfDocument *
with_underlay (const PfDocument *document)
{
  char *const names[] = { "/scans/leaf.png", "/scans/sub/leaf one.jpg", "/else/\xff\n.png" };
  const PfUnderlay underlay = { names[g_test_rand_int_range (0, 3)],
                                { some (0, 1), 0, 0, some (0, 1), some_number (0, 9), 1e-7 },
                                some_number (0, 1),
                                g_test_rand_int_range (0, 2) };
  return pf_document_with_underlay (document, g_test_rand_int_range (0, 3) ? &underlay : NULL);
}

PfDocument *
sample_edit (const PfDocument *document)
{
  const size_t n = document->n_drafts;
  const size_t k = n > 0 ? g_test_rand_int_range (0, (int) n) : 0;
  const PfAxis axis = { { some_number (0, 99), 20 }, some_number (0, 180) };
  const int what = n == 0 ? 0 : g_test_rand_int_range (0, 24);
  switch (what)
    {
    case 0:
      return pf_document_with_draft_added (document, sample_square ("square", 5, 5, 30, "rose"));
    case 1:
      return pf_document_with_draft_added (document, sample_ring ("ring", "armure"));
    case 2:
      return pf_document_with_mirror_image (document, k, axis);
    case 3:
      return n > 6 ? pf_document_without_draft (document, k) : with_page (document);
    case 4:
      return with_underlay (document);
    default:
      return pf_document_with_draft (document, k, edited (document->drafts[k]));
    }
}

/* --- Folders --- */

char *
sample_folder (void)
{
  g_autoptr (GError) error = NULL;
  char *folder = g_dir_make_tmp ("pinfold-test-XXXXXX", &error);
  g_assert_no_error (error);
  return folder;
}

void
sample_folder_remove (char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;
  while (dir && (name = g_dir_read_name (dir)))
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      if (g_file_test (path, G_FILE_TEST_IS_DIR) && !g_file_test (path, G_FILE_TEST_IS_SYMLINK))
        sample_folder_remove (g_steal_pointer (&path));
      else
        g_unlink (path);
    }
  g_rmdir (folder);
  g_free (folder);
}
