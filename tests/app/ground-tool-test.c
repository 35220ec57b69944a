/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The tool of the stage "Ground" on two rectangles, the second one 20 mm to the right of the first
 * and partly over it.
 */
#include <ground-tool.h>

#include "motif-samples.h"

#define SLIP 1e-9

typedef struct {
  PfEditor *editor;
  PfTool *tool;
} Fixture;

static void
set_up (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  g_autoptr (PfDocument) one = sample_rectangle (40, 30, "torchon");
  PfDraft *second = pf_draft_copy (one->drafts[0]);
  const PfPoint corners[] = { { 20, 0 }, { 60, 0 }, { 60, 30 }, { 20, 30 } };
  g_autoptr (PfCurve) curve = pf_curve_new_straight (corners, 4, true);
  pf_draft_set_curve (second, 0, curve, NULL);
  f->editor = sample_editor (pf_document_with_draft_added (one, second));
  f->tool = pf_ground_tool_new (f->editor);
  pf_editor_set_active (f->editor, 0);
  motif_of (f->editor);
}

static void
tear_down (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  g_clear_object (&f->tool);
  g_clear_object (&f->editor);
}

static PfPoint
origin (Fixture *f, size_t n)
{
  return pf_editor_document (f->editor)->drafts[n]->settings.placement.origin;
}

static void
click_at (Fixture *f, PfPoint at)
{
  press (f->tool, at, 1, 0);
  drag (f->tool, (PfPoint){ at.x + 0.2, at.y }); /* a hand trembles: 2 pixels */
  release (f->tool, (PfPoint){ at.x + 0.2, at.y });
}

/* A click on another motif makes that one active, and moves nothing. */
static void
test_click (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  click_at (f, (PfPoint){ 50, 10 });
  g_assert_cmpint (pf_editor_active (f->editor), ==, 1);
  click_at (f, (PfPoint){ 10, 10 });
  g_assert_cmpint (pf_editor_active (f->editor), ==, 0);
  /* Where both lie, the active one is meant. */
  click_at (f, (PfPoint){ 30, 10 });
  g_assert_cmpint (pf_editor_active (f->editor), ==, 0);
  g_assert_cmpint (count_changes (f->editor), ==, 0);
}

static void
test_drag (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  const PfPoint first = origin (f, 0), second = origin (f, 1);
  drag_from_to (f->tool, (PfPoint){ 50, 10 }, (PfPoint){ 53, 12 }, 0);
  g_assert_cmpint (pf_editor_active (f->editor), ==, 1);
  g_assert_cmpfloat (origin (f, 0).x, ==, first.x);
  g_assert_cmpfloat_with_epsilon (origin (f, 1).x, second.x + 3, SLIP);
  g_assert_cmpfloat_with_epsilon (origin (f, 1).y, second.y + 2, SLIP);
  g_assert_cmpint (count_changes (f->editor), ==, 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add ("/ground-tool/click", Fixture, NULL, set_up, test_click, tear_down);
  g_test_add ("/ground-tool/drag", Fixture, NULL, set_up, test_drag, tear_down);
  return g_test_run ();
}
