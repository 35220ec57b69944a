/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Path data (SVG 1.1, section 8.3; SVG 2, section 9.3). Everything is made absolute before it is
 * drawn. At an error all segments before it stay drawn, as SVG 1.1, appendix F.2 asks.
 */
#include "svg.h"

#include <string.h>

/* One curve within PF_OUTLINE_LIMIT has fewer points than this: a circle of that radius has 9935
 * when its steps rise by 0.005 mm. */
#define MAX_CURVE_POINTS 20000

typedef struct {
  const char *at;
  PfSvgPen *pen;
  PfPoint current, start;
  PfPoint control; /* the last control point of the segment before */
  char last;       /* its command in capitals; 0 at first */
} Parser;

/* Whether `points` more points can be drawn; counts what is there only when it must. */
static bool
afford (PfSvgPen *pen, size_t points)
{
  if (pen->credit < points)
    {
      size_t n_chains, n_points = 0;
      const PfChain *chains = pf_path_chains (pen->path, &n_chains, NULL);
      for (size_t i = 0; chains != NULL && i < n_chains; i++)
        n_points += chains[i].n_points;
      pen->full = chains == NULL || n_points + points > pen->limit;
      pen->credit = pen->full ? 0 : pen->limit - n_points;
    }
  pen->credit -= pen->full ? 0 : points;
  return !pen->full;
}

/* How many numbers a segment of this command takes; -1 for no command. */
static int
count_arguments (char command)
{
  static const char commands[] = "MLHVCSQTAZ";
  static const int counts[] = { 2, 2, 1, 1, 6, 4, 4, 2, 7, 0 };
  const char *found = command != '\0' ? strchr (commands, command) : NULL;
  return found != NULL ? counts[found - commands] : -1;
}

static bool
scan_flag (const char **at, double *value)
{
  if (**at != '0' && **at != '1')
    return false;
  *value = *(*at)++ - '0';
  return true;
}

static bool
scan_arguments (Parser *parser, char command, double *arguments)
{
  const int n = count_arguments (command);
  for (int i = 0; i < n; i++)
    {
      if (i > 0)
        pf_svg_skip_comma (&parser->at);
      const bool flag = command == 'A' && (i == 3 || i == 4);
      if (!(flag ? scan_flag (&parser->at, &arguments[i])
                 : pf_svg_scan_number (&parser->at, &arguments[i])))
        return false;
    }
  return true;
}

/* Adds the current point to relative arguments. H and V become L. */
static char
make_absolute (const Parser *parser, char command, bool relative, double *a)
{
  const PfPoint from = relative ? parser->current : (PfPoint){ 0, 0 };
  if (command == 'H' || command == 'V')
    {
      const double value = a[0];
      a[0] = command == 'H' ? value + from.x : parser->current.x;
      a[1] = command == 'V' ? value + from.y : parser->current.y;
      return 'L';
    }
  const int n = count_arguments (command), first = command == 'A' ? 5 : 0;
  for (int i = first; i < n; i++)
    a[i] += (i - first) % 2 == 0 ? from.x : from.y;
  return command;
}

/* The control point of S or T: the last one mirrored at the current point, if `a` or `b` drew it.
 */
static PfPoint
reflect (const Parser *parser, char a, char b)
{
  if (parser->last != a && parser->last != b)
    return parser->current;
  return (PfPoint){ 2 * parser->current.x - parser->control.x,
                    2 * parser->current.y - parser->control.y };
}

/* Draws a curve, and returns its last control point. */
static PfPoint
draw_curve (const Parser *parser, char command, const double *a, PfPoint to)
{
  PfPath *const path = parser->pen->path;
  PfPoint control = parser->current;
  if (command == 'C' || command == 'S')
    {
      const PfPoint first = command == 'C' ? (PfPoint){ a[0], a[1] } : reflect (parser, 'C', 'S');
      control = command == 'C' ? (PfPoint){ a[2], a[3] } : (PfPoint){ a[0], a[1] };
      pf_path_curve_to (path, first, control, to);
    }
  else if (command == 'Q' || command == 'T')
    {
      control = command == 'Q' ? (PfPoint){ a[0], a[1] } : reflect (parser, 'Q', 'T');
      pf_path_quadratic_to (path, control, to);
    }
  else
    pf_path_arc_to (path, a[0], a[1], a[2], a[3] != 0, a[4] != 0, to);
  return control;
}

/* Draws one segment, its arguments absolute; false if there are too many points. */
static bool
draw_segment (Parser *parser, char command, const double *a)
{
  PfPath *const path = parser->pen->path;
  const int n = count_arguments (command);
  const bool straight = strchr ("MLZ", command) != NULL;
  if (!afford (parser->pen, straight ? 2 : MAX_CURVE_POINTS))
    return false;
  const PfPoint to = n == 0 ? parser->start : (PfPoint){ a[n - 2], a[n - 1] };
  if (command == 'M')
    pf_path_move_to (path, to);
  else if (command == 'L')
    pf_path_line_to (path, to);
  else if (command == 'Z')
    pf_path_close (path);
  else
    parser->control = draw_curve (parser, command, a, to);
  if (command == 'M')
    parser->start = to;
  parser->current = to;
  parser->last = command;
  return true;
}

/* One command letter with all its segments. */
static bool
parse_command (Parser *parser)
{
  const bool relative = g_ascii_islower (*parser->at);
  char command = g_ascii_toupper (*parser->at);
  if (count_arguments (command) < 0 || (parser->last == 0 && command != 'M'))
    return false;
  parser->at++;
  for (bool more = true; more;)
    {
      double arguments[7] = { 0 };
      pf_svg_skip_space (&parser->at);
      if (!scan_arguments (parser, command, arguments) ||
          !draw_segment (parser, make_absolute (parser, command, relative, arguments), arguments))
        return false;
      const char *next = parser->at;
      pf_svg_skip_comma (&next);
      more = command != 'Z' &&
             (*next == '.' || *next == '+' || *next == '-' || g_ascii_isdigit (*next));
      if (more)
        parser->at = next;
      command = command == 'M' ? 'L' : command;
    }
  pf_svg_skip_space (&parser->at);
  return true;
}

bool
pf_svg_path_data (const char *d, PfSvgPen *pen, size_t *bad)
{
  Parser parser = { .at = d, .pen = pen };
  pf_svg_skip_space (&parser.at);
  if (strcmp (parser.at, "none") == 0)
    return true;
  while (*parser.at != '\0')
    if (!parse_command (&parser))
      {
        *bad = (size_t) (parser.at - d);
        return false;
      }
  return true;
}

bool
pf_svg_points (const char *points, bool closed, PfSvgPen *pen, size_t *bad)
{
  const char *at = points;
  size_t n = 0;
  pf_svg_skip_space (&at);
  for (; *at != '\0' && !pen->full; n++)
    {
      PfPoint point;
      const char *next = at;
      if (!pf_svg_scan_number (&next, &point.x))
        break;
      pf_svg_skip_comma (&next);
      if (!pf_svg_scan_number (&next, &point.y) || !afford (pen, 2))
        break;
      if (n == 0)
        pf_path_move_to (pen->path, point);
      else
        pf_path_line_to (pen->path, point);
      at = next;
      pf_svg_skip_comma (&at);
    }
  if (closed && n > 0)
    pf_path_close (pen->path);
  *bad = (size_t) (at - points);
  return *at == '\0';
}
