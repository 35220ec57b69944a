/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A press does one of three things: on a pinhole it drags that, on a double press it adds one, and
 * anywhere else on an outline it marks a stretch. Pinholes stand close: what counts as on one is
 * less than half of the way to the next.
 */
#include "edge-tool.h"

#include <math.h>

#include <glib/gi18n-lib.h>

#include "canvas.h"
#include "edge-drag.h"
#include "edge-stretch.h"
#include "edge-work.h"
#include "pinhole-steps.h"

#define FINE_STEP 0.1 /* mm */
#define COARSE_STEP 1.0
#define PINHOLE_SHARE 0.4  /* of the edge gap */
#define OUTLINE_REACH 12.0 /* pixels: what a stretch is begun from is a line, and easily missed */
#define MARKING_REACH 40.0 /* and while she has said that she marks one */
#define LEAST_WAY 3.0      /* pixels: a shorter drag is a click */
#define ALONG_ARROW 0.17   /* an arrow key nearly across the outline does nothing: cos 80 degrees */

struct _PfEdgeTool {
  PfTool parent_instance;

  size_t loop;
  bool marking;
  double turn;
  PfEdgeDrag pinhole;
  PfStretchMark stretch;
  bool near_outline;
};

G_DEFINE_FINAL_TYPE (PfEdgeTool, pf_edge_tool, PF_TYPE_TOOL)

static guint changed_signal;

/* --- The loop -----------------------------------------------------------------------------------
 */

size_t
pf_edge_tool_loop (PfEdgeTool *self)
{
  const PfDraft *draft = pf_editor_draft (pf_tool_editor (PF_TOOL (self)));
  return draft != NULL && self->loop < draft->n_curves ? self->loop : 0;
}

void
pf_edge_tool_set_loop (PfEdgeTool *self, size_t loop)
{
  if (loop == self->loop)
    return;
  self->loop = loop;
  pf_tool_redraw (PF_TOOL (self));
  g_signal_emit (self, changed_signal, 0);
}

bool
pf_edge_tool_marking (PfEdgeTool *self)
{
  return self->marking;
}

void
pf_edge_tool_set_marking (PfEdgeTool *self, bool marking)
{
  if (marking == self->marking)
    return;
  self->marking = marking;
  g_signal_emit (self, changed_signal, 0);
}

void
pf_edge_tool_set_turn (PfEdgeTool *self, double degrees)
{
  self->turn = degrees;
}

/* The loop follows what is selected, here or elsewhere. */
static void
follow_selection (PfEdgeTool *self, PfEditor *editor)
{
  const PfPick pick = pf_editor_selected (editor);
  if (pick.kind == PF_PICK_PINHOLE)
    pf_edge_tool_set_loop (self, pick.loop);
}

/* Moves the selected pinhole along the outline, the way that the arrow points on the screen. */
static bool
move_selected (PfEdgeTool *self, double x, double y, double by)
{
  PfEditor *editor = pf_tool_editor (PF_TOOL (self));
  g_autoptr (PfMotif) motif = pf_edge_motif (editor);
  PfPick pick;
  if (!pf_pinhole_selected (editor, motif, &pick))
    return false;
  const PfPlace place = { pick.loop, motif->edges[pick.loop].pinholes[pick.index] };
  const PfPoint direction = pf_region_direction (motif->region, place);
  const double turn = self->turn * G_PI / 180;
  const double with = (x * cos (turn) + y * sin (turn)) * direction.x +
                      (y * cos (turn) - x * sin (turn)) * direction.y;
  if (fabs (with) > ALONG_ARROW)
    pf_pinhole_nudge (editor, with > 0 ? by : -by);
  return true;
}

/* --- The pointer --------------------------------------------------------------------------------
 */

static double
pinhole_reach (PfEditor *editor, double reach)
{
  const PfDraft *draft = pf_editor_draft (editor);
  double gap = INFINITY;
  for (size_t c = 0; draft != NULL && c < draft->n_curves; c++)
    gap = fmin (gap, draft->edges[c].gap);
  return fmin (reach, PINHOLE_SHARE * gap);
}

static bool
find_outline (PfEdgeTool *self, const PfPointer *pointer, size_t *draft, PfPlace *place)
{
  const double pixels = self->marking ? MARKING_REACH : OUTLINE_REACH;
  const double reach = fmax (pointer->reach, pixels * pointer->pixel);
  PfEditor *editor = pf_tool_editor (PF_TOOL (self));
  return pf_edge_find_outline (editor, pointer->at, reach, draft, place);
}

static PfPick
find_pinhole (PfEdgeTool *self, const PfPointer *pointer)
{
  PfEditor *editor = pf_tool_editor (PF_TOOL (self));
  if (self->marking || (pointer->state & GDK_CONTROL_MASK) != 0)
    return PF_PICK_NOTHING;
  if (pointer->number.kind == PF_PICK_PINHOLE)
    return pointer->number;
  return pf_find_pick (editor, pointer->at, pinhole_reach (editor, pointer->reach),
                       1u << PF_PICK_PINHOLE);
}

static bool
press_outline (PfEdgeTool *self, const PfPointer *pointer)
{
  PfEditor *editor = pf_tool_editor (PF_TOOL (self));
  size_t draft;
  PfPlace place;
  if (!find_outline (self, pointer, &draft, &place))
    {
      pf_editor_select (editor, PF_PICK_NOTHING);
      return false;
    }
  pf_editor_set_active (editor, (int) draft);
  pf_edge_tool_set_loop (self, place.loop);
  if (pointer->n_press == 2 && !self->marking)
    {
      pf_pinhole_add (editor, place.loop, place.along);
      return true;
    }
  return pf_stretch_mark_begin (&self->stretch, editor, place.loop, place.along,
                                pinhole_reach (editor, pointer->reach));
}

static bool
press (PfTool *tool, const PfPointer *pointer)
{
  PfEdgeTool *self = PF_EDGE_TOOL (tool);
  PfEditor *editor = pf_tool_editor (tool);
  if (pointer->button != GDK_BUTTON_PRIMARY)
    return false;
  const PfPick pick = find_pinhole (self, pointer);
  if (pick.kind != PF_PICK_PINHOLE)
    return press_outline (self, pointer);
  pf_editor_select (editor, pick);
  pf_edge_tool_set_loop (self, pick.loop);
  return pf_edge_drag_begin (&self->pinhole, editor, pick);
}

static void
drag (PfTool *tool, const PfPointer *pointer)
{
  PfEdgeTool *self = PF_EDGE_TOOL (tool);
  if (pf_edge_drag_active (&self->pinhole))
    pf_edge_drag_to (&self->pinhole,
                     pf_edge_nearest (self->pinhole.motif, self->pinhole.loop, pointer->at, NULL),
                     0);
  else if (pf_stretch_mark_active (&self->stretch))
    pf_stretch_mark_to (&self->stretch, pointer->at,
                        pinhole_reach (pf_tool_editor (tool), pointer->reach),
                        LEAST_WAY * pointer->pixel);
}

static void
release (PfTool *tool, const PfPointer *pointer G_GNUC_UNUSED)
{
  PfEdgeTool *self = PF_EDGE_TOOL (tool);
  if (pf_edge_drag_active (&self->pinhole))
    pf_edge_drag_end (&self->pinhole);
  if (pf_stretch_mark_active (&self->stretch))
    {
      const bool marked = pf_history_previewing (pf_editor_history (pf_tool_editor (tool)));
      pf_stretch_mark_end (&self->stretch);
      if (marked)
        pf_edge_tool_set_marking (self, false);
    }
}

static void
cancel (PfTool *tool)
{
  PfEdgeTool *self = PF_EDGE_TOOL (tool);
  if (pf_edge_drag_active (&self->pinhole))
    pf_edge_drag_cancel (&self->pinhole);
  if (pf_stretch_mark_active (&self->stretch))
    pf_stretch_mark_cancel (&self->stretch);
  pf_edge_tool_set_marking (self, false);
}

static void
hover (PfTool *tool, const PfPointer *pointer)
{
  PfEdgeTool *self = PF_EDGE_TOOL (tool);
  PfEditor *editor = pf_tool_editor (tool);
  size_t draft;
  PfPlace place;
  pf_editor_hover (editor, find_pinhole (self, pointer));
  self->near_outline = find_outline (self, pointer, &draft, &place);
}

static void
leave (PfTool *tool)
{
  PF_EDGE_TOOL (tool)->near_outline = false;
  pf_editor_hover (pf_tool_editor (tool), PF_PICK_NOTHING);
}

/* --- The keyboard -------------------------------------------------------------------------------
 */

static bool
escape (PfEdgeTool *self)
{
  PfEditor *editor = pf_tool_editor (PF_TOOL (self));
  if (!self->marking && pf_editor_selected (editor).kind == PF_PICK_NONE)
    return false;
  pf_edge_tool_set_marking (self, false);
  pf_editor_select (editor, PF_PICK_NOTHING);
  return true;
}

static bool
key (PfTool *tool, guint keyval, GdkModifierType state, double pixel G_GNUC_UNUSED)
{
  PfEdgeTool *self = PF_EDGE_TOOL (tool);
  PfEditor *editor = pf_tool_editor (tool);
  const double step = state & GDK_SHIFT_MASK ? COARSE_STEP : FINE_STEP;
  if (state & (GDK_CONTROL_MASK | GDK_ALT_MASK) || pf_edge_drag_active (&self->pinhole))
    return false;
  switch (keyval)
    {
    case GDK_KEY_Tab:
      return pf_pinhole_walk (editor, pf_edge_tool_loop (self), 1, false);
    case GDK_KEY_ISO_Left_Tab:
      return pf_pinhole_walk (editor, pf_edge_tool_loop (self), -1, false);
    case GDK_KEY_Left:
      return move_selected (self, -1, 0, step);
    case GDK_KEY_Right:
      return move_selected (self, 1, 0, step);
    case GDK_KEY_Up:
      return move_selected (self, 0, -1, step);
    case GDK_KEY_Down:
      return move_selected (self, 0, 1, step);
    case GDK_KEY_Insert:
      return pf_pinhole_add_midway (editor);
    case GDK_KEY_Delete:
    case GDK_KEY_BackSpace:
      return pf_pinhole_remove (editor);
    case GDK_KEY_Escape:
      return escape (self);
    default:
      return false;
    }
}

/* --- What is shown ------------------------------------------------------------------------------
 */

static void
draw (PfTool *tool, cairo_t *cr, double pixel)
{
  PfEdgeTool *self = PF_EDGE_TOOL (tool);
  PfEditor *editor = pf_tool_editor (tool);
  g_autoptr (PfMotif) motif = pf_edge_motif (editor);
  if (motif == NULL)
    return;
  if (motif->region->n_loops > 1 || pf_editor_document (editor)->n_drafts > 1)
    pf_stretches_draw_loop (motif, pf_edge_tool_loop (self), cr, pixel);
  pf_stretches_draw (motif, cr, pixel);
}

static const char *
cursor (PfTool *tool)
{
  PfEdgeTool *self = PF_EDGE_TOOL (tool);
  if (pf_edge_drag_active (&self->pinhole))
    return "grabbing";
  if (pf_stretch_mark_active (&self->stretch))
    return "crosshair";
  if (pf_editor_hovered (pf_tool_editor (tool)).kind == PF_PICK_PINHOLE)
    return "grab";
  return self->near_outline ? "crosshair" : "all-scroll"; /* the view is moved */
}

static char *
describe (PfTool *tool)
{
  PfEdgeTool *self = PF_EDGE_TOOL (tool);
  PfEditor *editor = pf_tool_editor (tool);
  if (pf_stretch_mark_active (&self->stretch))
    return pf_stretch_mark_describe (&self->stretch);
  const PfPick pick = pf_editor_selected (editor);
  return pick.kind == PF_PICK_PINHOLE ? pf_editor_describe (editor, pick) : NULL;
}

/* --- The object ---------------------------------------------------------------------------------
 */

static void
pf_edge_tool_constructed (GObject *object)
{
  G_OBJECT_CLASS (pf_edge_tool_parent_class)->constructed (object);
  g_signal_connect_object (pf_tool_editor (PF_TOOL (object)), "selection-changed",
                           G_CALLBACK (follow_selection), object, G_CONNECT_SWAPPED);
}

static void
pf_edge_tool_dispose (GObject *object)
{
  PfEdgeTool *self = PF_EDGE_TOOL (object);
  if (pf_edge_drag_active (&self->pinhole))
    pf_edge_drag_cancel (&self->pinhole);
  if (pf_stretch_mark_active (&self->stretch))
    pf_stretch_mark_cancel (&self->stretch);
  G_OBJECT_CLASS (pf_edge_tool_parent_class)->dispose (object);
}

static void
pf_edge_tool_class_init (PfEdgeToolClass *class)
{
  PfToolClass *tool = PF_TOOL_CLASS (class);
  G_OBJECT_CLASS (class)->constructed = pf_edge_tool_constructed;
  G_OBJECT_CLASS (class)->dispose = pf_edge_tool_dispose;
  tool->press = press;
  tool->drag = drag;
  tool->release = release;
  tool->cancel = cancel;
  tool->hover = hover;
  tool->leave = leave;
  tool->key = key;
  tool->draw = draw;
  tool->cursor = cursor;
  tool->describe = describe;
  changed_signal = g_signal_new ("changed", PF_TYPE_EDGE_TOOL, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                 NULL, G_TYPE_NONE, 0);
}

static void
pf_edge_tool_init (PfEdgeTool *self G_GNUC_UNUSED)
{
}

PfTool *
pf_edge_tool_new (PfEditor *editor)
{
  return g_object_new (PF_TYPE_EDGE_TOOL, "editor", editor, NULL);
}
