/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The walk from the root through every element that is drawn, `use` followed where it stands. A
 * frame on the stack for each element on the way is all that a shape inherits; the frames also tell
 * when a `use` would repeat something within itself. What stops the walk is set in the reader once.
 */
#include "svg.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

static bool read_element (PfSvgReader *reader, const PfSvgFrame *parent, const xmlNode *node);

/* Elements that draw nothing where they stand, and need no remark. */
static const char *const silent[] = {
  "defs",    "symbol",         "clipPath",         "mask",         "marker", "pattern",
  "title",   "desc",           "metadata",         "style",        "script", "view",
  "filter",  "linearGradient", "radialGradient",   "meshgradient", "hatch",  "solidcolor",
  "animate", "animateMotion",  "animateTransform", "animateColor", "set",    "cursor",
  "font",    "font-face",      "color-profile",    "stop",         NULL,
};

static bool
stopped (PfSvgReader *reader, const xmlNode *node, PfError code, const char *what)
{
  pf_svg_set_error (reader, node, &reader->error, code, "%s", what);
  return false;
}

static bool
read_children (PfSvgReader *reader, const PfSvgFrame *frame)
{
  for (const xmlNode *child = frame->node->children; child != NULL; child = child->next)
    if (!read_element (reader, frame, child))
      return false;
  return true;
}

/* The first child that needs nothing but SVG. */
static bool
read_switch (PfSvgReader *reader, const PfSvgFrame *frame)
{
  for (const xmlNode *child = frame->node->children; child != NULL; child = child->next)
    if (pf_svg_is_element (child) && !pf_svg_is_named (child, "foreignObject") &&
        pf_svg_attribute (child, "requiredExtensions") == NULL)
      return read_element (reader, frame, child);
  return true;
}

/* --- Viewports ----------------------------------------------------------------------------------
 */

/* Whether the frame's element is repeated by a `use`, whose width and height count then. */
static bool
is_used (const PfSvgFrame *frame)
{
  return frame->parent != NULL && frame->node->parent != frame->parent->node &&
         pf_svg_is_named (frame->parent->node, "use");
}

/* Changes the frame to the inside of the viewport; false if nothing of it shows. */
static bool
enter_viewport (PfSvgReader *reader, PfSvgFrame *frame, PfSvgBox viewport)
{
  const char *const text = pf_svg_attribute (frame->node, "viewBox");
  PfSvgBox box = { 0, 0, viewport.width, viewport.height };
  PfAffine fit = { 1, 0, 0, 1, viewport.x, viewport.y };
  if (text != NULL && !pf_svg_view_box (text, &box))
    pf_svg_remark (reader->remarks, frame->node, _ ("viewBox=\"%.40s\" isn't four numbers; unused"),
                   text);
  else if (text != NULL && box.width > 0 && box.height > 0)
    fit = pf_svg_fit (box, pf_svg_attribute (frame->node, "preserveAspectRatio"), viewport);
  if (!(viewport.width > 0 && viewport.height > 0 && box.width > 0 && box.height > 0))
    {
      pf_svg_remark (reader->remarks, frame->node,
                     _ ("its viewport has no size; nothing of it shows"));
      return false;
    }
  frame->to_sheet = pf_affine_compose (frame->to_sheet, fit);
  frame->width = box.width;
  frame->height = box.height;
  return true;
}

static bool
read_viewport (PfSvgReader *reader, const PfSvgFrame *frame)
{
  PfSvgFrame inner = *frame, outer = *frame;
  PfSvgBox box = { 0, 0, frame->width, frame->height };
  if (pf_svg_is_named (frame->node, "svg") &&
      (!pf_svg_frame_length (reader, frame, "x", 'x', &box.x) ||
       !pf_svg_frame_length (reader, frame, "y", 'y', &box.y) ||
       !pf_svg_frame_length (reader, frame, "width", 'x', &box.width) ||
       !pf_svg_frame_length (reader, frame, "height", 'y', &box.height)))
    return true;
  outer.node = is_used (frame) ? frame->parent->node : frame->node;
  if (!pf_svg_frame_length (reader, &outer, "width", 'x', &box.width) ||
      !pf_svg_frame_length (reader, &outer, "height", 'y', &box.height))
    return true;
  return !enter_viewport (reader, &inner, box) || read_children (reader, &inner);
}

static bool
read_symbol (PfSvgReader *reader, const PfSvgFrame *frame)
{
  return !is_used (frame) || read_viewport (reader, frame);
}

/* --- use ----------------------------------------------------------------------------------------
 */

static bool
read_use (PfSvgReader *reader, const PfSvgFrame *frame)
{
  const char *const id = pf_svg_reference (frame->node);
  const xmlNode *const target = id != NULL ? g_hash_table_lookup (reader->ids, id) : NULL;
  PfSvgFrame moved = *frame;
  double x = 0, y = 0;
  if (target == NULL)
    {
      pf_svg_remark (reader->remarks, frame->node,
                     _ ("what it repeats isn't in this drawing; skipped"));
      return true;
    }
  for (const PfSvgFrame *outer = frame; outer != NULL; outer = outer->parent)
    if (outer->node == target)
      {
        pf_svg_remark (reader->remarks, frame->node,
                       _ ("it would repeat itself for ever; skipped"));
        return true;
      }
  if (!pf_svg_frame_length (reader, frame, "x", 'x', &x) ||
      !pf_svg_frame_length (reader, frame, "y", 'y', &y))
    return true;
  moved.to_sheet = pf_affine_compose (frame->to_sheet, (PfAffine){ 1, 0, 0, 1, x, y });
  return read_element (reader, &moved, target);
}

/* --- Shapes -------------------------------------------------------------------------------------
 */

static const xmlNode *
nearest_use (const PfSvgFrame *frame)
{
  for (frame = frame->parent; frame != NULL; frame = frame->parent)
    if (pf_svg_is_named (frame->node, "use"))
      return frame->node;
  return NULL;
}

/* A copy of the chain. One that comes back to its start is closed, and its last point, if it is
 * only a rounded repeat of the first, is dropped: it would make a corner of its own. */
static PfChain
copy_chain (const PfChain *chain)
{
  PfChain copy = { g_memdup2 (chain->points, chain->n_points * sizeof (PfPoint)), chain->n_points,
                   chain->closed };
  const PfPoint first = copy.points[0], last = copy.points[copy.n_points - 1];
  if (copy.n_points > 3 && hypot (last.x - first.x, last.y - first.y) <= PF_SVG_CLOSE)
    {
      copy.n_points--;
      copy.closed = true;
    }
  return copy;
}

/* The chain's curve. Where the copy has lost its last point, and that is a node, the curve ends in
 * its first node too. */
static PfCurve *
copy_curve (const PfPath *path, size_t n, const PfChain *chain, const PfChain *copied)
{
  PfCurve *curve = pf_path_curve (path, n);
  const PfNode last = curve->nodes[curve->n_nodes - 1];
  const PfPoint end = chain->points[chain->n_points - 1];
  if (copied->n_points == chain->n_points ||
      hypot (last.at.x - end.x, last.at.y - end.y) > PF_TOUCH)
    return curve;
  g_autoptr (PfCurve) open = curve;
  PfNode first = open->nodes[0];
  first.in = (PfPoint){ last.in.x + first.at.x - last.at.x, last.in.y + first.at.y - last.at.y };
  first.smooth = pf_node_runs_smooth (&first);
  open->nodes[0] = first;
  return pf_curve_new (open->nodes, open->n_nodes - 1, true);
}

static void
take_chains (PfSvgReader *reader, PfSvgShape *shape, const PfPath *path, const PfChain *chains,
             size_t n)
{
  shape->chains = g_new0 (PfChain, n);
  shape->curves = g_new0 (PfCurve *, n);
  for (size_t i = 0; i < n; i++)
    {
      reader->n_points += chains[i].n_points;
      shape->chains[i] = copy_chain (&chains[i]);
      shape->curves[i] = copy_curve (path, i, &chains[i], &shape->chains[i]);
      shape->n_chains++;
    }
}

static bool
is_picked (const PfSvgReader *reader)
{
  bool picked = reader->n_wanted == 0;
  for (size_t i = 0; i < reader->n_wanted; i++)
    picked = picked || reader->wanted[i].active > 0;
  return picked;
}

static bool
finish_shape (PfSvgReader *reader, const PfSvgFrame *frame, const PfSvgPen *pen, PfSvgShape *shape)
{
  size_t n;
  g_autoptr (GError) error = NULL;
  const PfChain *const chains = pf_path_chains (pen->path, &n, &error);
  if (chains == NULL)
    {
      if (is_picked (reader) && reader->n_wanted > 0)
        return stopped (reader, frame->node, PF_ERROR_OUTLINE, error->message);
      pf_svg_remark (reader->remarks, frame->node, _ ("%s It is skipped."), error->message);
      return true;
    }
  if (pen->full)
    return stopped (reader, frame->node, PF_ERROR_TOO_BIG,
                    _ ("the drawing is too big to read; simplify its paths"));
  shape->node = frame->node;
  shape->use = nearest_use (frame);
  shape->even_odd = frame->style.even_odd;
  shape->pinhole_layer = frame->pinholes;
  shape->picked = is_picked (reader);
  take_chains (reader, shape, pen->path, chains, n);
  pf_svg_note_wanted (reader, shape);
  g_array_append_val (reader->shapes, *shape);
  return true;
}

static bool
read_shape (PfSvgReader *reader, const PfSvgFrame *frame)
{
  PfSvgShape shape = { 0 };
  PfSvgPen pen = { .path = pf_path_new (frame->to_sheet),
                   .limit = PF_SVG_MAX_POINTS - MIN (reader->n_points, PF_SVG_MAX_POINTS) };
  bool ok = true;
  if (!frame->style.hidden)
    switch (pf_svg_shape_draw (reader, frame, &pen, &shape))
      {
      case PF_SVG_DRAWN:
        ok = finish_shape (reader, frame, &pen, &shape);
        break;
      case PF_SVG_NO_SHAPE:
        if (!g_strv_contains (silent, (const char *) frame->node->name))
          pf_svg_remark (reader->remarks, frame->node, _ ("it isn't a shape; skipped"));
        break;
      case PF_SVG_SKIPPED:
        ok = !pen.full || stopped (reader, frame->node, PF_ERROR_TOO_BIG,
                                   _ ("the drawing is too big to read; simplify its paths"));
        break;
      }
  pf_path_free (pen.path);
  return ok;
}

/* --- Elements -----------------------------------------------------------------------------------
 */

static const struct {
  const char *name;
  bool (*read) (PfSvgReader *reader, const PfSvgFrame *frame);
} elements[] = {
  { "g", read_children }, { "a", read_children },    { "svg", read_viewport },
  { "use", read_use },    { "switch", read_switch }, { "symbol", read_symbol },
};

static bool
dispatch (PfSvgReader *reader, const PfSvgFrame *frame)
{
  for (size_t i = 0; i < G_N_ELEMENTS (elements); i++)
    if (strcmp ((const char *) frame->node->name, elements[i].name) == 0)
      return elements[i].read (reader, frame);
  return read_shape (reader, frame);
}

/* Counts the reader in or out of the elements asked for. */
static void
mark_wanted (PfSvgReader *reader, const xmlNode *node, int step)
{
  const char *const id = reader->n_wanted > 0 ? pf_svg_attribute (node, "id") : NULL;
  for (size_t i = 0; id != NULL && i < reader->n_wanted; i++)
    if (strcmp (id, reader->wanted[i].id) == 0)
      {
        reader->wanted[i].active += step;
        reader->wanted[i].drawn = true;
      }
}

static bool
apply_transform (PfSvgReader *reader, PfSvgFrame *frame)
{
  const char *const text = pf_svg_attribute (frame->node, "transform");
  PfAffine transform = PF_AFFINE_IDENTITY;
  if (text != NULL && !pf_svg_transform (text, &transform))
    {
      pf_svg_remark (reader->remarks, frame->node, _ ("transform=\"%.40s\" can't be read; skipped"),
                     text);
      return false;
    }
  frame->to_sheet = pf_affine_compose (frame->to_sheet, transform);
  return true;
}

static bool
read_element (PfSvgReader *reader, const PfSvgFrame *parent, const xmlNode *node)
{
  if (!pf_svg_is_element (node))
    return true;
  PfSvgFrame frame = *parent;
  frame.parent = parent;
  frame.node = node;
  frame.depth++;
  frame.pinholes = parent->pinholes || pf_svg_is_pinhole_layer (node);
  if (++reader->n_elements > PF_SVG_MAX_ELEMENTS)
    return stopped (reader, node, PF_ERROR_TOO_BIG,
                    _ ("the drawing has too many elements, repeats included; simplify it"));
  if (frame.depth > PF_SVG_MAX_DEPTH)
    return stopped (reader, node, PF_ERROR_TOO_BIG,
                    _ ("elements lie too deep within one another; ungroup them"));
  if (!pf_svg_style_apply (reader->rules, node, &frame.style) || !apply_transform (reader, &frame))
    return true;
  mark_wanted (reader, node, 1);
  const bool ok = dispatch (reader, &frame);
  mark_wanted (reader, node, -1);
  return ok;
}

/* --- The root -----------------------------------------------------------------------------------
 */

/* One side of the drawing in px, `whole` if it isn't given; false if it has no size of its own. */
static bool
root_side (PfSvgReader *reader, const PfSvgFrame *frame, const char *name, double whole, double *px)
{
  const char *const text = pf_svg_attribute (frame->node, name);
  PfSvgFrame page = *frame;
  page.width = whole;
  *px = whole;
  return pf_svg_frame_length (reader, &page, name, 'x', px) && text != NULL &&
         strchr (text, '%') == NULL && strcmp (text, "auto") != 0;
}

/* The drawing's viewport in px. Without width or height it is as large as the viewBox, or keeps its
 * shape (CSS 2.1, section 10.3.2: width from height and ratio; 300 by 150 px if nothing is known).
 */
static PfSvgBox
root_viewport (PfSvgReader *reader, const PfSvgFrame *frame)
{
  const char *const text = pf_svg_attribute (frame->node, "viewBox");
  PfSvgBox view = { 0, 0, 300, 150 }, box = { 0, 0, 0, 0 };
  const bool has_view = text != NULL && pf_svg_view_box (text, &view);
  const bool has_width = root_side (reader, frame, "width", view.width, &box.width);
  const bool has_height = root_side (reader, frame, "height", view.height, &box.height);
  if (has_view && has_width && !has_height && view.width > 0)
    box.height = box.width * view.height / view.width;
  if (has_view && has_height && !has_width && view.height > 0)
    box.width = box.height * view.width / view.height;
  if (!has_width && !has_height)
    pf_svg_remark (reader->remarks, frame->node,
                   _ ("it has no width or height; its units are taken as 1/96 inch (0.26 mm)"));
  return box;
}

static bool
read_root (PfSvgReader *reader, const xmlNode *root)
{
  const double mm = 1 / PF_SVG_PX_PER_MM;
  PfSvgFrame frame = { .node = root, .to_sheet = { mm, 0, 0, mm, 0, 0 }, .depth = 1 };
  const PfSvgBox viewport = root_viewport (reader, &frame);
  reader->n_elements++;
  reader->width = viewport.width * mm;
  reader->height = viewport.height * mm;
  if (!(reader->width <= PF_OUTLINE_LIMIT && reader->height <= PF_OUTLINE_LIMIT))
    return stopped (reader, root, PF_ERROR_FILE,
                    _ ("its width or height isn't that of a sheet; check its units"));
  if (pf_svg_attribute (root, "transform") != NULL)
    pf_svg_remark (reader->remarks, root, _ ("its transform isn't used"));
  if (!pf_svg_style_apply (reader->rules, root, &frame.style) ||
      !enter_viewport (reader, &frame, viewport))
    return true;
  mark_wanted (reader, root, 1);
  const bool ok = read_children (reader, &frame);
  mark_wanted (reader, root, -1);
  return ok;
}

bool
pf_svg_reader_run (PfSvgReader *reader, GError **error)
{
  if (read_root (reader, xmlDocGetRootElement (reader->doc)))
    return true;
  g_propagate_error (error, g_steal_pointer (&reader->error));
  return false;
}
