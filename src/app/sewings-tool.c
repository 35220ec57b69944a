/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Whatever is pressed is selected; a sewing can then be dragged along the outline. While a line to
 * turn with is chosen, presses mean lines and nothing else.
 */
#include "sewings-tool.h"

#include <math.h>

#include <glib/gi18n-lib.h>

#include "canvas-marks.h"
#include "canvas.h"
#include "edge-drag.h"
#include "edge-stretch.h"
#include "edge-work.h"
#include "sewing-work.h"

#define LEAST_WAY 3.0 /* pixels: a shorter drag is a click */
#define PICKED (1u << PF_PICK_SEWING | 1u << PF_PICK_PAIR | 1u << PF_PICK_REPEAT)

struct _PfSewingsTool {
  PfTool parent_instance;

  PfWalk walk;
  bool walk_chosen; /* by the maker */
  bool choosing;
  PfPick chooser; /* the sewing that a line is chosen for */
  PfEdgeDrag sewing;
  PfPoint from;
};

G_DEFINE_FINAL_TYPE (PfSewingsTool, pf_sewings_tool, PF_TYPE_TOOL)

enum { CHANGED, PARTNER, N_SIGNALS };
static guint signals[N_SIGNALS];

/* The selected sewing, if it is one of the active motif and that is filled now. */
static const PfMotif *
get_selected (PfEditor *editor, guint32 *sewing)
{
  const PfMotif *motif = pf_sewing_motif (editor);
  const PfPick pick = pf_editor_selected (editor);
  *sewing = pick.index;
  return pick.kind == PF_PICK_SEWING && motif != NULL &&
                 (int) pick.draft == pf_editor_active (editor)
             ? motif
             : NULL;
}

/* --- Choosing what to turn with -----------------------------------------------------------------
 */

/* At first through that of which there is something to choose: a repeat can be kept or plain only
 * if its ground has a core. */
PfWalk
pf_sewings_tool_walk (PfSewingsTool *self)
{
  PfEditor *editor = pf_tool_editor (PF_TOOL (self));
  const PfMotif *motif = pf_sewing_motif (editor);
  const PfDraft *draft = pf_editor_draft (editor);
  const PfGround *ground = motif != NULL ? motif->ground : draft != NULL ? draft->ground : NULL;
  if (self->walk_chosen)
    return self->walk;
  return ground == NULL || ground->has_core ? PF_WALK_REPEATS : PF_WALK_SEWINGS;
}

void
pf_sewings_tool_set_walk (PfSewingsTool *self, PfWalk walk)
{
  self->walk = walk;
  self->walk_chosen = true;
}

bool
pf_sewings_tool_choosing (PfSewingsTool *self)
{
  return self->choosing;
}

void
pf_sewings_tool_set_choosing (PfSewingsTool *self, bool choosing)
{
  if (choosing == self->choosing)
    return;
  self->choosing = choosing;
  self->chooser = pf_editor_selected (pf_tool_editor (PF_TOOL (self)));
  pf_tool_redraw (PF_TOOL (self));
  g_signal_emit (self, signals[CHANGED], 0);
}

/* Choosing ends when something else is selected. */
static void
selection_changed (PfSewingsTool *self, PfEditor *editor)
{
  if (self->choosing && !pf_pick_equal (pf_editor_selected (editor), self->chooser))
    pf_sewings_tool_set_choosing (self, false);
}

/* The end of a cut line at the edge, where it is marked and pressed. */
static PfPoint
line_end (const PfFilling *filling, guint32 crossing)
{
  return filling->crossings[crossing].at;
}

static void
press_partner (PfSewingsTool *self, const PfPointer *pointer)
{
  guint32 sewing, best = PF_NONE;
  double least = 2 * pointer->reach;
  const PfMotif *motif = get_selected (pf_tool_editor (PF_TOOL (self)), &sewing);
  if (motif == NULL)
    return;
  g_autoptr (GArray) partners = pf_sewing_partners (motif, sewing);
  for (guint p = 0; p < partners->len; p++)
    {
      const guint32 crossing = g_array_index (partners, guint32, p);
      const PfPoint at = line_end (motif->filling, crossing);
      const double d = hypot (at.x - pointer->at.x, at.y - pointer->at.y);
      if (d >= least)
        continue;
      least = d;
      best = crossing;
    }
  if (best == PF_NONE)
    return;
  pf_sewings_tool_set_choosing (self, false);
  g_signal_emit (self, signals[PARTNER], 0, best);
}

/* --- The pointer --------------------------------------------------------------------------------
 */

/* A number stands for what it numbers, whatever lies behind it. */
static PfPick
find_pick (PfEditor *editor, const PfPointer *pointer)
{
  return pointer->number.kind != PF_PICK_NONE
             ? pointer->number
             : pf_find_pick (editor, pointer->at, pointer->reach, PICKED);
}

static bool
press (PfTool *tool, const PfPointer *pointer)
{
  PfSewingsTool *self = PF_SEWINGS_TOOL (tool);
  PfEditor *editor = pf_tool_editor (tool);
  if (pointer->button != GDK_BUTTON_PRIMARY)
    return false;
  if (self->choosing)
    {
      press_partner (self, pointer);
      return true;
    }
  const PfPick pick = find_pick (editor, pointer);
  pf_editor_select (editor, pick);
  self->from = pointer->at;
  return pick.kind == PF_PICK_SEWING && pf_edge_drag_begin (&self->sewing, editor, pick);
}

static void
drag (PfTool *tool, const PfPointer *pointer)
{
  PfSewingsTool *self = PF_SEWINGS_TOOL (tool);
  const bool begun = pf_history_previewing (pf_editor_history (pf_tool_editor (tool)));
  const double way = hypot (pointer->at.x - self->from.x, pointer->at.y - self->from.y);
  if (!pf_edge_drag_active (&self->sewing) || (!begun && way < LEAST_WAY * pointer->pixel))
    return;
  pf_edge_drag_to (&self->sewing,
                   pf_edge_nearest (self->sewing.motif, self->sewing.loop, pointer->at, NULL),
                   pointer->reach);
}

static void
release (PfTool *tool, const PfPointer *pointer G_GNUC_UNUSED)
{
  PfSewingsTool *self = PF_SEWINGS_TOOL (tool);
  if (pf_edge_drag_active (&self->sewing))
    pf_edge_drag_end (&self->sewing);
}

static void
cancel (PfTool *tool)
{
  PfSewingsTool *self = PF_SEWINGS_TOOL (tool);
  if (pf_edge_drag_active (&self->sewing))
    pf_edge_drag_cancel (&self->sewing);
  pf_sewings_tool_set_choosing (self, false);
}

static void
hover (PfTool *tool, const PfPointer *pointer)
{
  PfEditor *editor = pf_tool_editor (tool);
  pf_editor_hover (editor, PF_SEWINGS_TOOL (tool)->choosing ? PF_PICK_NOTHING
                                                            : find_pick (editor, pointer));
}

static void
leave (PfTool *tool)
{
  pf_editor_hover (pf_tool_editor (tool), PF_PICK_NOTHING);
}

/* --- The keyboard -------------------------------------------------------------------------------
 */

bool
pf_sewing_key (PfEditor *editor, guint keyval)
{
  guint32 sewing;
  const PfMotif *motif = get_selected (editor, &sewing);
  if (motif == NULL)
    return false;
  const bool bar = keyval == GDK_KEY_b && pf_sewing_can_be_round_bar (motif, sewing);
  const bool move = keyval == GDK_KEY_Left || keyval == GDK_KEY_Right;
  const bool reset = keyval == GDK_KEY_Delete || keyval == GDK_KEY_BackSpace;
  if (!bar && !move && !reset && keyval != GDK_KEY_a)
    return false;
  PfDraft *draft = pf_editor_edit (editor);
  if (draft == NULL)
    return false;
  if (move)
    pf_sewing_move (editor, draft, sewing, keyval == GDK_KEY_Right ? 1 : -1);
  else if (bar)
    pf_sewing_go_round_bar (editor, draft, sewing);
  else if (reset)
    pf_sewing_reset (editor, draft, sewing);
  else
    pf_sewing_make_alone (editor, draft, sewing);
  return true;
}

static bool
escape (PfSewingsTool *self)
{
  PfEditor *editor = pf_tool_editor (PF_TOOL (self));
  if (!self->choosing && pf_editor_selected (editor).kind == PF_PICK_NONE)
    return false;
  if (self->choosing)
    pf_sewings_tool_set_choosing (self, false);
  else
    pf_editor_select (editor, PF_PICK_NOTHING);
  return true;
}

static bool
key (PfTool *tool, guint keyval, GdkModifierType state, double pixel G_GNUC_UNUSED)
{
  PfSewingsTool *self = PF_SEWINGS_TOOL (tool);
  PfEditor *editor = pf_tool_editor (tool);
  if (state & (GDK_CONTROL_MASK | GDK_ALT_MASK) || pf_edge_drag_active (&self->sewing))
    return false;
  switch (gdk_keyval_to_lower (keyval))
    {
    case GDK_KEY_Tab:
      return pf_walk_go (editor, pf_sewings_tool_walk (self), 1, false);
    case GDK_KEY_ISO_Left_Tab:
      return pf_walk_go (editor, pf_sewings_tool_walk (self), -1, false);
    case GDK_KEY_n:
      return pf_walk_go (editor, pf_sewings_tool_walk (self), 1, true);
    case GDK_KEY_p:
      return pf_walk_go (editor, pf_sewings_tool_walk (self), -1, true);
    case GDK_KEY_Escape:
      return escape (self);
    default:
      return pf_sewing_key (editor, gdk_keyval_to_lower (keyval));
    }
}

/* --- What is shown ------------------------------------------------------------------------------
 */

static void
mark_partner (const PfFilling *filling, guint32 crossing, cairo_t *cr, double pixel)
{
  const PfPoint from = filling->stitches[filling->crossings[crossing].stitch].at;
  const PfPoint at = line_end (filling, crossing);
  cairo_new_path (cr);
  cairo_move_to (cr, from.x, from.y);
  cairo_line_to (cr, at.x, at.y);
  cairo_new_sub_path (cr);
  cairo_arc (cr, at.x, at.y, 8 * pixel, 0, 2 * G_PI);
  cairo_set_source_rgba (cr, 1, 1, 1, 0.9);
  cairo_set_line_width (cr, 6 * pixel);
  cairo_stroke_preserve (cr);
  cairo_set_source_rgb (cr, PF_MARK_INK);
  cairo_set_line_width (cr, 2.5 * pixel);
  cairo_stroke (cr);
}

/* Of several motifs, the edge of the one that is walked round. */
static void
draw_active (PfEditor *editor, cairo_t *cr, double pixel)
{
  g_autoptr (PfMotif) motif = pf_edge_motif (editor);
  if (motif == NULL || pf_editor_document (editor)->n_drafts < 2)
    return;
  for (size_t loop = 0; loop < motif->region->n_loops; loop++)
    pf_stretches_draw_loop (motif, loop, cr, pixel);
}

static void
draw (PfTool *tool, cairo_t *cr, double pixel)
{
  guint32 sewing;
  draw_active (pf_tool_editor (tool), cr, pixel);
  const PfMotif *motif = get_selected (pf_tool_editor (tool), &sewing);
  if (!PF_SEWINGS_TOOL (tool)->choosing || motif == NULL)
    return;
  g_autoptr (GArray) partners = pf_sewing_partners (motif, sewing);
  for (guint p = 0; p < partners->len; p++)
    mark_partner (motif->filling, g_array_index (partners, guint32, p), cr, pixel);
}

static const char *
cursor (PfTool *tool)
{
  PfSewingsTool *self = PF_SEWINGS_TOOL (tool);
  if (pf_edge_drag_active (&self->sewing))
    return "grabbing";
  if (self->choosing)
    return "crosshair";
  switch (pf_editor_hovered (pf_tool_editor (tool)).kind)
    {
    case PF_PICK_SEWING:
      return "grab";
    case PF_PICK_PAIR:
    case PF_PICK_REPEAT:
    case PF_PICK_PINHOLE:
      return "pointer";
    default:
      return NULL;
    }
}

static char *
describe (PfTool *tool)
{
  PfEditor *editor = pf_tool_editor (tool);
  const PfPick pick = pf_editor_selected (editor);
  if (PF_SEWINGS_TOOL (tool)->choosing)
    return g_strdup (_ ("Choose the line that this sewing turns with"));
  return pick.kind != PF_PICK_NONE ? pf_editor_describe (editor, pick) : NULL;
}

/* --- The object ---------------------------------------------------------------------------------
 */

static void
pf_sewings_tool_constructed (GObject *object)
{
  G_OBJECT_CLASS (pf_sewings_tool_parent_class)->constructed (object);
  g_signal_connect_object (pf_tool_editor (PF_TOOL (object)), "selection-changed",
                           G_CALLBACK (selection_changed), object, G_CONNECT_SWAPPED);
}

static void
pf_sewings_tool_dispose (GObject *object)
{
  PfSewingsTool *self = PF_SEWINGS_TOOL (object);
  if (pf_edge_drag_active (&self->sewing))
    pf_edge_drag_cancel (&self->sewing);
  G_OBJECT_CLASS (pf_sewings_tool_parent_class)->dispose (object);
}

static void
pf_sewings_tool_class_init (PfSewingsToolClass *class)
{
  PfToolClass *tool = PF_TOOL_CLASS (class);
  G_OBJECT_CLASS (class)->constructed = pf_sewings_tool_constructed;
  G_OBJECT_CLASS (class)->dispose = pf_sewings_tool_dispose;
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
  signals[CHANGED] = g_signal_new ("changed", PF_TYPE_SEWINGS_TOOL, G_SIGNAL_RUN_LAST, 0, NULL,
                                   NULL, NULL, G_TYPE_NONE, 0);
  signals[PARTNER] = g_signal_new ("partner", PF_TYPE_SEWINGS_TOOL, G_SIGNAL_RUN_LAST, 0, NULL,
                                   NULL, NULL, G_TYPE_NONE, 1, G_TYPE_UINT);
}

static void
pf_sewings_tool_init (PfSewingsTool *self G_GNUC_UNUSED)
{
}

PfTool *
pf_sewings_tool_new (PfEditor *editor)
{
  return g_object_new (PF_TYPE_SEWINGS_TOOL, "editor", editor, NULL);
}
