/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A drag always starts from the placement it began with, so that nothing adds up. Keys: arrows move
 * by a tenth of a mm (with Shift by 1 mm), comma and full stop turn by a degree.
 */
#include "ground-tool.h"

#include <math.h>

#include <glib/gi18n-lib.h>

#include "canvas-marks.h"

#define FINE_STEP 0.1 /* mm */
#define COARSE_STEP 1.0
#define TURN_STEP 1.0      /* degrees */
#define LEAST_WAY 3.0      /* pixels: a shorter drag is a click, which chooses a motif */
#define HANDLE_PIXELS 70.0 /* from the origin to the handle */

typedef enum { DRAG_NONE, DRAG_MOVE, DRAG_TURN } Drag;

struct _PfGroundTool {
  PfTool parent_instance;

  Drag drag;
  bool moved;
  PfDraft *start; /* the draft when the drag began */
  PfPoint from;
  bool near_handle;
};

G_DEFINE_FINAL_TYPE (PfGroundTool, pf_ground_tool, PF_TYPE_TOOL)

/* The active draft, if it has a ground of its own; NULL. */
static PfDraft *
own_draft (PfTool *tool)
{
  PfDraft *draft = pf_editor_draft (pf_tool_editor (tool));
  return draft != NULL && draft->ground != NULL && draft->mirror_of == NULL ? draft : NULL;
}

static PfPoint
handle_place (const PfPlacement *placement, double pixel)
{
  const double angle = placement->turn * G_PI / 180;
  return (PfPoint){ placement->origin.x + HANDLE_PIXELS * pixel * cos (angle),
                    placement->origin.y + HANDLE_PIXELS * pixel * sin (angle) };
}

static bool
is_at_handle (const PfDraft *draft, const PfPointer *pointer)
{
  const PfPoint handle = handle_place (&draft->settings.placement, pointer->pixel);
  return hypot (pointer->at.x - handle.x, pointer->at.y - handle.y) <= pointer->reach;
}

static bool
holds (PfEditor *editor, size_t n, PfPoint at)
{
  const PfMotif *motif = pf_editor_motif (editor, n);
  return motif != NULL && pf_region_contains (motif->region, at);
}

/* The motif whose region holds `at`, the active one before those that lie over it; -1. */
static int
find_motif (PfEditor *editor, PfPoint at)
{
  const int active = pf_editor_active (editor);
  if (active >= 0 && holds (editor, (size_t) active, at))
    return active;
  for (size_t n = pf_editor_document (editor)->n_drafts; n-- > 0;)
    if (holds (editor, n, at))
      return (int) n;
  return -1;
}

static bool
press (PfTool *tool, const PfPointer *pointer)
{
  PfGroundTool *self = PF_GROUND_TOOL (tool);
  PfEditor *editor = pf_tool_editor (tool);
  PfDraft *draft = own_draft (tool);
  const bool turns = draft != NULL && is_at_handle (draft, pointer);
  const int under = turns ? -1 : find_motif (editor, pointer->at);
  if (under >= 0 && under != pf_editor_active (editor))
    {
      pf_editor_set_active (editor, under);
      draft = own_draft (tool);
    }
  if (draft == NULL)
    return false;
  self->drag = turns ? DRAG_TURN : DRAG_MOVE;
  self->moved = false;
  self->start = pf_draft_ref (draft);
  self->from = pointer->at;
  return true;
}

static double
angle_from (PfPoint centre, PfPoint at)
{
  return atan2 (at.y - centre.y, at.x - centre.x) * 180 / G_PI;
}

static void
drag (PfTool *tool, const PfPointer *pointer)
{
  PfGroundTool *self = PF_GROUND_TOOL (tool);
  const double way = hypot (pointer->at.x - self->from.x, pointer->at.y - self->from.y);
  if (!self->moved && way < LEAST_WAY * pointer->pixel)
    return;
  self->moved = true;
  PfDraft *draft = pf_draft_copy (self->start);
  PfPlacement *placement = &draft->settings.placement;
  if (self->drag == DRAG_MOVE)
    {
      placement->origin.x += pointer->at.x - self->from.x;
      placement->origin.y += pointer->at.y - self->from.y;
    }
  else
    {
      const double by =
          angle_from (placement->origin, pointer->at) - angle_from (placement->origin, self->from);
      const double step = pointer->state & GDK_SHIFT_MASK ? 15 : 0.5;
      placement->turn = remainder (round ((placement->turn + by) / step) * step, 360);
    }
  pf_editor_preview (pf_tool_editor (tool), draft);
}

static void
end_drag (PfGroundTool *self)
{
  g_clear_pointer (&self->start, pf_draft_unref);
  self->drag = DRAG_NONE;
}

static void
release (PfTool *tool, const PfPointer *pointer G_GNUC_UNUSED)
{
  PfGroundTool *self = PF_GROUND_TOOL (tool);
  if (pf_history_previewing (pf_editor_history (pf_tool_editor (tool))))
    pf_editor_commit (pf_tool_editor (tool),
                      self->drag == DRAG_TURN ? _ ("Turn the ground") : _ ("Move the ground"));
  end_drag (self);
}

static void
cancel (PfTool *tool)
{
  pf_editor_cancel (pf_tool_editor (tool));
  end_drag (PF_GROUND_TOOL (tool));
}

static void
hover (PfTool *tool, const PfPointer *pointer)
{
  PfGroundTool *self = PF_GROUND_TOOL (tool);
  const PfDraft *draft = own_draft (tool);
  const bool near = draft != NULL && is_at_handle (draft, pointer);
  if (near != self->near_handle)
    pf_tool_redraw (tool);
  self->near_handle = near;
}

static bool
move_by (PfTool *tool, double x, double y, double turn)
{
  if (own_draft (tool) == NULL)
    return false;
  PfDraft *draft = pf_editor_edit (pf_tool_editor (tool));
  PfPlacement *placement = &draft->settings.placement;
  placement->origin.x += x;
  placement->origin.y += y;
  placement->turn = remainder (placement->turn + turn, 360);
  pf_editor_change_merged (pf_tool_editor (tool), draft,
                           turn == 0 ? _ ("Move the ground") : _ ("Turn the ground"));
  return true;
}

static bool
key (PfTool *tool, guint keyval, GdkModifierType state, double pixel G_GNUC_UNUSED)
{
  const double step = state & GDK_SHIFT_MASK ? COARSE_STEP : FINE_STEP;
  if (state & (GDK_CONTROL_MASK | GDK_ALT_MASK))
    return false;
  switch (keyval)
    {
    case GDK_KEY_Left:
      return move_by (tool, -step, 0, 0);
    case GDK_KEY_Right:
      return move_by (tool, step, 0, 0);
    case GDK_KEY_Up:
      return move_by (tool, 0, -step, 0);
    case GDK_KEY_Down:
      return move_by (tool, 0, step, 0);
    case GDK_KEY_comma:
      return move_by (tool, 0, 0, -TURN_STEP);
    case GDK_KEY_period:
      return move_by (tool, 0, 0, TURN_STEP);
    default:
      return false;
    }
}

/* The origin as a cross in a ring, and the handle at the end of an arm. Dark on light and light on
 * dark: each line is drawn twice. */
static void
draw_marks (cairo_t *cr, PfPoint origin, PfPoint handle, double pixel, bool near)
{
  const double r = 7 * pixel;
  cairo_new_path (cr);
  cairo_move_to (cr, origin.x - r, origin.y);
  cairo_line_to (cr, origin.x + r, origin.y);
  cairo_move_to (cr, origin.x, origin.y - r);
  cairo_line_to (cr, origin.x, origin.y + r);
  cairo_move_to (cr, origin.x, origin.y);
  cairo_line_to (cr, handle.x, handle.y);
  cairo_new_sub_path (cr);
  cairo_arc (cr, handle.x, handle.y, (near ? 8 : 6) * pixel, 0, 2 * G_PI);
  cairo_set_source_rgba (cr, 1, 1, 1, 0.9);
  cairo_set_line_width (cr, 4.5 * pixel);
  cairo_stroke_preserve (cr);
  cairo_set_source_rgb (cr, PF_MARK_INK);
  cairo_set_line_width (cr, 1.6 * pixel);
  cairo_stroke (cr);
}

static void
draw (PfTool *tool, cairo_t *cr, double pixel)
{
  const PfDraft *draft = own_draft (tool);
  if (draft == NULL)
    return;
  const PfPlacement *placement = &draft->settings.placement;
  draw_marks (cr, placement->origin, handle_place (placement, pixel), pixel,
              PF_GROUND_TOOL (tool)->near_handle);
}

static const char *
cursor (PfTool *tool)
{
  const PfGroundTool *self = PF_GROUND_TOOL (tool);
  if (own_draft (tool) == NULL)
    return NULL;
  return self->drag != DRAG_NONE ? "grabbing" : "grab";
}

static char *
describe (PfTool *tool)
{
  const PfDraft *draft = own_draft (tool);
  if (draft == NULL)
    return NULL;
  const PfPlacement *placement = &draft->settings.placement;
  PfEditor *editor = pf_tool_editor (tool);
  g_autofree char *gap = pf_editor_length (editor, placement->gap, 2);
  g_autofree char *origin = pf_editor_place (editor, placement->origin, 1);
  return g_strdup_printf (_ ("%s, gap %s, turned by %.1f degrees, its origin at %s"),
                          draft->ground->title, gap, placement->turn, origin);
}

static void
pf_ground_tool_dispose (GObject *object)
{
  g_clear_pointer (&PF_GROUND_TOOL (object)->start, pf_draft_unref);
  G_OBJECT_CLASS (pf_ground_tool_parent_class)->dispose (object);
}

static void
pf_ground_tool_class_init (PfGroundToolClass *class)
{
  PfToolClass *tool = PF_TOOL_CLASS (class);
  G_OBJECT_CLASS (class)->dispose = pf_ground_tool_dispose;
  tool->press = press;
  tool->drag = drag;
  tool->release = release;
  tool->cancel = cancel;
  tool->hover = hover;
  tool->key = key;
  tool->draw = draw;
  tool->cursor = cursor;
  tool->describe = describe;
}

static void
pf_ground_tool_init (PfGroundTool *self G_GNUC_UNUSED)
{
}

PfTool *
pf_ground_tool_new (PfEditor *editor)
{
  return g_object_new (PF_TYPE_GROUND_TOOL, "editor", editor, NULL);
}
