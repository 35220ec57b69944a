/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The pen. It keeps no more than the first node, as long as that is the only one, and the node that
 * the pointer holds; everything else is in the document.
 */
#include "pen-tool.h"

#include <math.h>

#include <glib/gi18n-lib.h>

#include "outline-edit.h"
#include "outline-marks.h"

#define TREMBLE 3.0 /* pixels that are no drag */
#define STEP 1.0    /* mm the arrow keys move the pen */
#define LONG_STEP 10.0

struct _PfPenTool {
  PfDrawingTool parent_instance;

  bool has_first, pressed, closing;
  PfNode first; /* the only node so far */
  PfNode held;  /* the one that is being placed */
  bool has_tip;
  PfPoint tip;   /* where the pen is */
  PfPoint press; /* not snapped */
};

G_DEFINE_FINAL_TYPE (PfPenTool, pf_pen_tool, PF_TYPE_DRAWING_TOOL)

static PfEditor *
editor_of (PfPenTool *pen)
{
  return pf_tool_editor (PF_TOOL (pen));
}

static PfCurve *
open_curve (PfPenTool *pen)
{
  return pf_outline_open_curve (pf_editor_draft (editor_of (pen)));
}

static PfNode
corner_at (PfPoint at)
{
  return (PfNode){ .at = at, .in = at, .out = at };
}

size_t
pf_pen_tool_n_nodes (PfPenTool *pen)
{
  const PfCurve *curve = open_curve (pen);
  return curve != NULL ? curve->n_nodes : pen->has_first ? 1 : 0;
}

/* The first and the last node of what is drawn; false if there is none. */
static bool
get_ends (PfPenTool *pen, PfNode *first, PfNode *last)
{
  const PfCurve *curve = open_curve (pen);
  if (curve != NULL && curve->n_nodes > 0)
    {
      *first = curve->nodes[0];
      *last = curve->nodes[curve->n_nodes - 1];
      return true;
    }
  *first = *last = pen->first;
  return pen->has_first;
}

/* Three nodes, or two with a curved side. */
static bool
can_close (PfPenTool *pen)
{
  const PfCurve *curve = open_curve (pen);
  if (curve == NULL || curve->n_nodes < 2)
    return false;
  g_autoptr (PfCurve) closed = pf_curve_closed (curve);
  return closed->n_nodes > 2 || !pf_curve_segment_straight (closed, 0) ||
         !pf_curve_segment_straight (closed, 1);
}

const char *
pf_pen_tool_hint (PfPenTool *pen)
{
  switch (pf_pen_tool_n_nodes (pen))
    {
    case 0:
      return _ ("Click for a corner, drag for a smooth node. Hold Shift to draw level, upright or "
                "at 45 degrees. By keyboard: the arrows move the pen, N sets a node.");
    case 1:
      return _ ("Click where the next node goes.");
    default:
      return can_close (pen)
                 ? _ ("Click the first node, or press Return, to close the outline. "
                      "Backspace removes the last node, Escape ends drawing.")
                 : _ ("Click where the next node goes. Backspace removes the last node, "
                      "Escape ends drawing.");
    }
}

/* --- Drawing ------------------------------------------------------------------------------------
 */

/* The second node: from here on the curve is in the document. */
static void
begin_curve (PfPenTool *pen, PfNode second)
{
  const PfNode nodes[] = { pen->first, second };
  pen->has_first = false;
  PfCurve *curve = pf_curve_new (nodes, 2, false);
  pf_drawing_tool_add (PF_DRAWING_TOOL (pen), curve, _ ("Draw a node"));
}

static void
set_open_curve (PfPenTool *pen, PfCurve *taken, const char *name)
{
  PfDraft *draft = pf_editor_edit (editor_of (pen));
  pf_outline_set_curve (draft, draft->n_curves - 1, taken);
  pf_editor_change (editor_of (pen), draft, name);
}

void
pf_pen_tool_add (PfPenTool *pen, PfNode node)
{
  PfDrawingTool *drawing = PF_DRAWING_TOOL (pen);
  const PfCurve *curve = open_curve (pen);
  const bool hole = pf_drawing_tool_hole (drawing);
  const char *trouble = curve == NULL && hole ? pf_outline_no_hole (editor_of (pen)) : NULL;
  if (trouble != NULL)
    pf_drawing_tool_say (drawing, trouble);
  else if (curve != NULL)
    set_open_curve (pen, pf_curve_with_node_appended (curve, node), _ ("Draw a node"));
  else if (pen->has_first)
    begin_curve (pen, node);
  else
    {
      pen->has_first = true;
      pen->first = node;
    }
  pf_drawing_tool_changed (drawing);
}

void
pf_pen_tool_close (PfPenTool *pen)
{
  if (!can_close (pen))
    {
      pf_drawing_tool_say (PF_DRAWING_TOOL (pen),
                           _ ("An outline needs three nodes, or two and a curved side."));
      return;
    }
  set_open_curve (pen, pf_curve_closed (open_curve (pen)), _ ("Close the outline"));
  pf_drawing_tool_changed (PF_DRAWING_TOOL (pen));
  pf_drawing_tool_finished (PF_DRAWING_TOOL (pen));
}

/* Of two nodes the first one is left, which the pen keeps. */
static void
unbegin_curve (PfPenTool *pen, PfNode first)
{
  PfEditor *editor = editor_of (pen);
  PfDraft *draft = pf_editor_edit (editor);
  if (draft->n_curves > 1)
    {
      pf_draft_remove_curve (draft, draft->n_curves - 1);
      pf_editor_change (editor, draft, _ ("Remove the last node"));
    }
  else
    {
      pf_draft_unref (draft);
      pf_editor_change_document (editor,
                                 pf_document_without_draft (pf_editor_document (editor),
                                                            (size_t) pf_editor_active (editor)),
                                 _ ("Remove the last node"));
    }
  pen->has_first = true;
  pen->first = first;
}

void
pf_pen_tool_remove_last (PfPenTool *pen)
{
  const PfCurve *curve = open_curve (pen);
  if (curve == NULL)
    pen->has_first = false;
  else if (curve->n_nodes <= 2)
    unbegin_curve (pen, curve->nodes[0]);
  else
    set_open_curve (pen, pf_curve_new (curve->nodes, curve->n_nodes - 1, false),
                    _ ("Remove the last node"));
  pf_drawing_tool_changed (PF_DRAWING_TOOL (pen));
}

void
pf_pen_tool_end (PfPenTool *pen)
{
  pen->has_first = pen->pressed = pen->has_tip = false;
  pf_drawing_tool_unsnap (PF_DRAWING_TOOL (pen));
  pf_drawing_tool_changed (PF_DRAWING_TOOL (pen));
  pf_drawing_tool_finished (PF_DRAWING_TOOL (pen));
}

/* --- The pointer --------------------------------------------------------------------------------
 */

static PfPoint
snapped (PfPenTool *pen, const PfPointer *pointer)
{
  PfNode first, last;
  const bool begun = get_ends (pen, &first, &last);
  return pf_drawing_tool_snap (PF_DRAWING_TOOL (pen), pointer, pointer->at, begun ? &last.at : NULL,
                               NULL);
}

static bool
at_first (PfPenTool *pen, const PfPointer *pointer)
{
  PfNode first, last;
  return pf_pen_tool_n_nodes (pen) > 1 && get_ends (pen, &first, &last) &&
         hypot (first.at.x - pointer->at.x, first.at.y - pointer->at.y) <= pointer->reach;
}

static bool
pf_pen_tool_press (PfTool *tool, const PfPointer *pointer)
{
  PfPenTool *pen = PF_PEN_TOOL (tool);
  PfNode first, last;
  pen->closing = at_first (pen, pointer) && can_close (pen);
  pen->held = corner_at (snapped (pen, pointer));
  if (pen->closing && get_ends (pen, &first, &last))
    pen->held = first;
  pen->press = pointer->at;
  pen->pressed = true;
  pf_tool_redraw (tool);
  return true;
}

/* The handle that leaves the node follows the pointer, the other lies opposite. */
static void
pf_pen_tool_drag (PfTool *tool, const PfPointer *pointer)
{
  PfPenTool *pen = PF_PEN_TOOL (tool);
  if (!pen->pressed ||
      (!pen->held.smooth && hypot (pointer->at.x - pen->press.x, pointer->at.y - pen->press.y) <=
                                TREMBLE * pointer->pixel))
    return;
  const PfPoint at = pen->held.at, out = pointer->at;
  pen->held.in = (PfPoint){ 2 * at.x - out.x, 2 * at.y - out.y };
  pen->held.smooth = true;
  if (!pen->closing)
    pen->held.out = out;
  pf_tool_redraw (tool);
}

/* The last segment is bent as the first node was dragged; how the outline leaves it stays. */
static void
close_as_dragged (PfPenTool *pen)
{
  const PfCurve *curve = open_curve (pen);
  g_autofree PfNode *nodes = g_memdup2 (curve->nodes, curve->n_nodes * sizeof *nodes);
  nodes[0].in = pen->held.in;
  nodes[0].smooth = false;
  set_open_curve (pen, pf_curve_new (nodes, curve->n_nodes, true), _ ("Close the outline"));
  pf_drawing_tool_changed (PF_DRAWING_TOOL (pen));
  pf_drawing_tool_finished (PF_DRAWING_TOOL (pen));
}

static void
pf_pen_tool_release (PfTool *tool, const PfPointer *pointer)
{
  PfPenTool *pen = PF_PEN_TOOL (tool);
  if (!pen->pressed)
    return;
  pen->pressed = false;
  pf_drawing_tool_unsnap (PF_DRAWING_TOOL (pen));
  const bool dragged =
      hypot (pointer->at.x - pen->press.x, pointer->at.y - pen->press.y) > TREMBLE * pointer->pixel;
  if (!pen->closing)
    pf_pen_tool_add (pen, pen->held);
  else if (dragged)
    close_as_dragged (pen);
  else
    pf_pen_tool_close (pen);
}

static void
pf_pen_tool_cancel (PfTool *tool)
{
  PfPenTool *pen = PF_PEN_TOOL (tool);
  if (pen->pressed)
    {
      pen->pressed = false;
      pf_drawing_tool_unsnap (PF_DRAWING_TOOL (pen));
    }
}

static void
pf_pen_tool_hover (PfTool *tool, const PfPointer *pointer)
{
  PfPenTool *pen = PF_PEN_TOOL (tool);
  pen->tip = snapped (pen, pointer);
  pen->has_tip = true;
  pf_tool_redraw (tool);
}

static void
pf_pen_tool_leave (PfTool *tool)
{
  PfPenTool *pen = PF_PEN_TOOL (tool);
  pen->has_tip = false;
  pf_drawing_tool_unsnap (PF_DRAWING_TOOL (pen));
}

static const char *
pf_pen_tool_cursor (PfTool *tool G_GNUC_UNUSED)
{
  return "crosshair";
}

/* --- The keyboard -------------------------------------------------------------------------------
 */

/* Where the arrow keys begin: at the last node. */
static PfPoint
tip_of (PfPenTool *pen)
{
  PfNode first, last;
  if (pen->has_tip)
    return pen->tip;
  const PfDocument *document = pf_editor_document (editor_of (pen));
  return get_ends (pen, &first, &last) ? last.at
                                       : (PfPoint){ document->width / 2, document->height / 2 };
}

static bool
move_tip (PfPenTool *pen, guint keyval, GdkModifierType state)
{
  const double step = (state & GDK_SHIFT_MASK) != 0 ? LONG_STEP : STEP;
  PfPoint tip = tip_of (pen);
  if (keyval == GDK_KEY_Left)
    tip.x -= step;
  else if (keyval == GDK_KEY_Right)
    tip.x += step;
  else if (keyval == GDK_KEY_Up)
    tip.y -= step;
  else if (keyval == GDK_KEY_Down)
    tip.y += step;
  else
    return false;
  pen->tip = tip;
  pen->has_tip = true;
  pf_drawing_tool_changed (PF_DRAWING_TOOL (pen));
  return true;
}

static bool
pf_pen_tool_key (PfTool *tool, guint keyval, GdkModifierType state, double pixel G_GNUC_UNUSED)
{
  PfPenTool *pen = PF_PEN_TOOL (tool);
  if (pen->pressed || (state & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SUPER_MASK)) != 0)
    return false;
  switch (keyval)
    {
    case GDK_KEY_Return:
    case GDK_KEY_KP_Enter:
      pf_pen_tool_close (pen);
      return true;
    case GDK_KEY_n:
    case GDK_KEY_N:
    case GDK_KEY_Insert:
      pf_pen_tool_add (pen, corner_at (tip_of (pen)));
      return true;
    case GDK_KEY_BackSpace:
    case GDK_KEY_Delete:
      pf_pen_tool_remove_last (pen);
      return true;
    case GDK_KEY_Escape:
      pf_pen_tool_end (pen);
      return true;
    default:
      return move_tip (pen, keyval, state);
    }
}

/* --- Drawing and words --------------------------------------------------------------------------
 */

/* The segment that would be drawn. */
static void
draw_next (PfPenTool *pen, cairo_t *cr, double pixel)
{
  PfNode ends[3];
  if ((!pen->pressed && !pen->has_tip) || !get_ends (pen, &ends[2], &ends[0]))
    return;
  ends[1] = pen->pressed ? pen->held : corner_at (pen->tip);
  g_autoptr (PfCurve) next = pf_curve_new (ends, 2, false);
  pf_marks_draw_curve (cr, pixel, next);
}

static void
pf_pen_tool_draw (PfTool *tool, cairo_t *cr, double pixel)
{
  PfPenTool *pen = PF_PEN_TOOL (tool);
  const PfCurve *curve = open_curve (pen);
  PfNode first, last;
  if (curve != NULL)
    pf_marks_draw_curve (cr, pixel, curve);
  draw_next (pen, cr, pixel);
  for (size_t n = 1; curve != NULL && n < curve->n_nodes; n++)
    pf_marks_draw_node (cr, pixel, &curve->nodes[n], n + 1 == curve->n_nodes, false);
  if (get_ends (pen, &first, &last))
    pf_marks_draw_node (cr, pixel, &first, false, can_close (pen));
  if (pen->pressed)
    pf_marks_draw_node (cr, pixel, &pen->held, true, false);
  else if (pen->has_tip)
    {
      const PfNode tip = corner_at (pen->tip);
      pf_marks_draw_node (cr, pixel, &tip, false, false);
    }
  pf_drawing_tool_draw_snap (PF_DRAWING_TOOL (pen), cr, pixel);
}

static char *
pf_pen_tool_describe (PfTool *tool)
{
  PfPenTool *pen = PF_PEN_TOOL (tool);
  const PfPoint tip = tip_of (pen);
  const size_t n = pf_pen_tool_n_nodes (pen);
  g_autofree char *place = pf_editor_place (pf_tool_editor (tool), tip, 2);
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%zu node is drawn; the pen is at %s",
                                       "%zu nodes are drawn; the pen is at %s", n),
                          n, place);
}

/* --- The object ---------------------------------------------------------------------------------
 */

static void
pf_pen_tool_class_init (PfPenToolClass *class)
{
  PfToolClass *tool = PF_TOOL_CLASS (class);
  tool->press = pf_pen_tool_press;
  tool->drag = pf_pen_tool_drag;
  tool->release = pf_pen_tool_release;
  tool->cancel = pf_pen_tool_cancel;
  tool->hover = pf_pen_tool_hover;
  tool->leave = pf_pen_tool_leave;
  tool->cursor = pf_pen_tool_cursor;
  tool->key = pf_pen_tool_key;
  tool->draw = pf_pen_tool_draw;
  tool->describe = pf_pen_tool_describe;
}

static void
pf_pen_tool_init (PfPenTool *pen G_GNUC_UNUSED)
{
}

PfTool *
pf_pen_tool_new (PfEditor *editor)
{
  return g_object_new (PF_TYPE_PEN_TOOL, "editor", editor, NULL);
}
