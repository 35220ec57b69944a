/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Curves in a document's file: a segment of SVG path data (SVG 2, chapter 9) for each node, all
 * letters absolute, and the numbers of the smooth nodes.
 *
 * "M" is the first node; "L" or "C" leads to the next one. Of a closed curve "Z" ends the list. A
 * segment before it that leads back to the first node's place is its last one, and makes no node;
 * where there is none, the last segment is straight. Handles at the ends of an open curve make no
 * segment: they stand by themselves.
 */
#include <string.h>

#include <glib/gi18n-lib.h>

#include "document-file.h"

/* --- Writing --- */

static void
append_point (GString *text, PfPoint p)
{
  const double numbers[] = { p.x, p.y };
  for (int k = 0; k < 2; k++)
    {
      g_string_append_c (text, ' ');
      pf_append_number (text, CLAMP (numbers[k], -PF_LIMIT_MM, PF_LIMIT_MM));
    }
}

static bool
is_same (PfPoint a, PfPoint b)
{
  return a.x == b.x && a.y == b.y;
}

static void
write_segment (PfJsonWriter *writer, const PfNode *from, const PfNode *to)
{
  g_autoptr (GString) text = g_string_new (NULL);
  const bool straight = is_same (from->out, from->at) && is_same (to->in, to->at);
  g_string_append_c (text, straight ? 'L' : 'C');
  if (!straight)
    {
      append_point (text, from->out);
      append_point (text, to->in);
    }
  append_point (text, to->at);
  pf_json_put_text (writer, NULL, text->str);
}

/* Whether the last segment of a closed curve must be written: it is curved, or its two nodes, which
 * are at one place, would be read as one. */
static bool
needs_end (const PfCurve *curve)
{
  const PfNode *first = &curve->nodes[0], *last = &curve->nodes[curve->n_nodes - 1];
  return !is_same (last->out, last->at) || !is_same (first->in, first->at) ||
         (curve->n_nodes > 1 && is_same (last->at, first->at));
}

static void
write_path (PfJsonWriter *writer, const PfCurve *curve)
{
  const PfNode *nodes = curve->nodes;
  const size_t n = curve->n_nodes;
  g_autoptr (GString) start = g_string_new ("M");
  pf_json_open_list (writer, "path", true);
  if (n > 0)
    {
      append_point (start, nodes[0].at);
      pf_json_put_text (writer, NULL, start->str);
    }
  for (size_t k = 1; k < n; k++)
    write_segment (writer, &nodes[k - 1], &nodes[k]);
  if (curve->closed && n > 0)
    {
      if (needs_end (curve))
        write_segment (writer, &nodes[n - 1], &nodes[0]);
      pf_json_put_text (writer, NULL, "Z");
    }
  pf_json_close (writer);
}

static void
write_handle (PfJsonWriter *writer, const char *key, PfPoint handle, PfPoint at)
{
  if (!is_same (handle, at))
    pf_json_put_two (writer, key, CLAMP (handle.x, -PF_LIMIT_MM, PF_LIMIT_MM),
                     CLAMP (handle.y, -PF_LIMIT_MM, PF_LIMIT_MM));
}

void
pf_curve_write (PfJsonWriter *writer, const PfCurve *curve)
{
  write_path (writer, curve);
  if (curve->n_nodes > 0 && !curve->closed)
    {
      const PfNode *last = &curve->nodes[curve->n_nodes - 1];
      write_handle (writer, "handle_before", curve->nodes[0].in, curve->nodes[0].at);
      write_handle (writer, "handle_after", last->out, last->at);
    }
  pf_json_open_list (writer, "smooth", false);
  for (size_t k = 0; k < curve->n_nodes; k++)
    if (curve->nodes[k].smooth)
      pf_json_put_number (writer, NULL, (double) k);
  pf_json_close (writer);
}

/* --- Reading --- */

/* Reads n points at `*text`, each number after a blank, and goes past them. */
static bool
read_points (const char **text, PfPoint *points, int n)
{
  double numbers[6];
  for (int k = 0; k < 2 * n; k++)
    {
      char *end;
      if (**text != ' ' || !strchr ("-0123456789", (*text)[1]) || !(*text)[1])
        return false;
      numbers[k] = g_ascii_strtod (*text, &end) + 0.0; /* 0 for -0 */
      if (end == *text || !(numbers[k] >= -PF_LIMIT_MM && numbers[k] <= PF_LIMIT_MM))
        return false;
      *text = end;
    }
  for (int k = 0; k < n; k++)
    points[k] = (PfPoint){ numbers[2 * k], numbers[2 * k + 1] };
  return true;
}

static void
refuse_segment (PfJsonReader *reader, const char *text)
{
  g_autofree char *shown = pf_json_shown (text);
  pf_json_fail (reader,
                _ ("“%s” isn’t a part of a path: “M x y” comes first, then “L x y” or “C x y x y x "
                   "y”, and “Z” ends a closed one; no number is beyond %.0f."),
                shown, PF_LIMIT_MM);
}

static void
add_node (GArray *nodes, PfPoint at)
{
  const PfNode node = { at, at, at, false };
  g_array_append_val (nodes, node);
}

/* One string of the path: false if it is none. */
static bool
read_segment (const char *text, GArray *nodes, bool *closed)
{
  PfPoint p[3];
  const char letter = *text;
  if (*closed || (letter == 'M') != (nodes->len == 0))
    return false;
  if (letter == 'Z')
    return *closed = text[1] == '\0';
  const int n = letter == 'C' ? 3 : letter == 'M' || letter == 'L' ? 1 : 0;
  const char *rest = text + 1;
  if (n == 0 || !read_points (&rest, p, n) || *rest)
    return false;
  if (letter == 'C')
    g_array_index (nodes, PfNode, nodes->len - 1).out = p[0];
  add_node (nodes, p[n - 1]);
  if (letter == 'C')
    g_array_index (nodes, PfNode, nodes->len - 1).in = p[1];
  return true;
}

static void
join_ends (GArray *nodes)
{
  PfNode *first = &g_array_index (nodes, PfNode, 0);
  const PfNode *last = &g_array_index (nodes, PfNode, nodes->len - 1);
  if (nodes->len == 1 || !is_same (first->at, last->at))
    return;
  first->in = last->in;
  g_array_set_size (nodes, nodes->len - 1);
}

static void
read_smooth (PfJsonReader *reader, JsonObject *object, GArray *nodes)
{
  size_t n;
  g_autofree double *smooth = pf_json_all_numbers (reader, object, "smooth", PF_LIMIT_NUMBER, &n);
  for (size_t k = 0; k < n; k++)
    {
      const size_t node = smooth[k] >= 0 ? (size_t) smooth[k] : nodes->len;
      if (node >= nodes->len || (double) node != smooth[k])
        {
          pf_json_fail (reader, _ ("“smooth” names node %g; the nodes are 0 to %d."), smooth[k],
                        (int) nodes->len - 1);
          return;
        }
      g_array_index (nodes, PfNode, node).smooth = true;
    }
}

static void
read_handle (PfJsonReader *reader, JsonObject *object, const char *key, PfPoint *handle)
{
  double numbers[2];
  if (!pf_json_member (reader, object, key))
    return;
  pf_json_numbers (reader, object, key, PF_LIMIT_MM, numbers, 2);
  *handle = (PfPoint){ numbers[0], numbers[1] };
}

static void
read_path (PfJsonReader *reader, JsonObject *object, GArray *nodes, bool *closed)
{
  JsonArray *path = pf_json_array (reader, object, "path");
  const guint n = path ? json_array_get_length (path) : 0;
  for (guint k = 0; k < n && !reader->error; k++)
    {
      JsonNode *element = json_array_get_element (path, k);
      const char *text = JSON_NODE_HOLDS_VALUE (element) ? json_node_get_string (element) : NULL;
      if (!text || !read_segment (text, nodes, closed))
        refuse_segment (reader, text ? text : "?");
    }
}

PfCurve *
pf_curve_read (PfJsonReader *reader, JsonObject *object)
{
  bool closed = false;
  g_autoptr (GArray) nodes = g_array_new (FALSE, FALSE, sizeof (PfNode));
  read_path (reader, object, nodes, &closed);
  if (nodes->len > 0 && !closed)
    {
      read_handle (reader, object, "handle_before", &g_array_index (nodes, PfNode, 0).in);
      read_handle (reader, object, "handle_after",
                   &g_array_index (nodes, PfNode, nodes->len - 1).out);
    }
  else if (nodes->len > 0)
    join_ends (nodes);
  if (nodes->len > PF_CURVE_MAX_NODES)
    {
      pf_json_fail (reader, _ ("“path” has more than %d nodes."), PF_CURVE_MAX_NODES);
      g_array_set_size (nodes, PF_CURVE_MAX_NODES);
    }
  read_smooth (reader, object, nodes);
  return pf_curve_new ((const PfNode *) (const void *) nodes->data, nodes->len, closed);
}

PfPolyline *
pf_polyline_read (PfJsonReader *reader, const char *text)
{
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (PfPoint));
  bool closed = false, right = true;
  const char *rest = text;
  while (*rest && right && !closed)
    {
      const char letter = *rest++;
      PfPoint p;
      closed = letter == 'Z' && points->len > 0;
      right = closed || (letter == (points->len == 0 ? 'M' : 'L') && read_points (&rest, &p, 1));
      if (right && !closed)
        g_array_append_val (points, p);
      rest += *rest == ' ';
    }
  if (!right || *rest || points->len == 0)
    {
      refuse_segment (reader, text);
      return NULL;
    }
  return pf_polyline_new ((const PfPoint *) (const void *) points->data, points->len, closed);
}
