/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Whole drawings: which outlines are taken, where they lie in mm, and what is said about the rest.
 *
 * Each case is the inside of a drawing of 100 by 100 mm with one user unit to the mm. What comes
 * out is written as "name area/loops @ left,top right,bottom" for each outline, the area to the
 * nearest half mm² so that what flattening cuts off a curve doesn't show.
 */
#include <math.h>
#include <string.h>

#include <pricking.h>

#define HEAD                                                                                       \
  "<svg xmlns='http://www.w3.org/2000/svg' xmlns:xlink='http://www.w3.org/1999/xlink' "            \
  "xmlns:inkscape='http://www.inkscape.org/namespaces/inkscape' "                                  \
  "width='100mm' height='100mm' viewBox='0 0 100 100'>\n"

static PfDrawing *
parse (const char *svg, const char *const *elements, GError **error)
{
  return pf_drawing_parse (svg, strlen (svg), "test.svg", elements, error);
}

static PfDrawing *
parse_inside (const char *inside, const char *const *elements, GError **error)
{
  g_autofree char *svg = g_strconcat (HEAD, inside, "</svg>\n", NULL);
  g_test_message ("%s", inside);
  return parse (svg, elements, error);
}

/* Rounds to hundredths, without a negative zero. */
static double
hundredths (double value)
{
  return round (value * 100) / 100 + 0.0;
}

static char *
describe (const PfDrawing *drawing)
{
  GString *text = g_string_new (NULL);
  for (guint i = 0; i < drawing->outlines->len; i++)
    {
      const PfOutline *outline = drawing->outlines->pdata[i];
      const PfBox box = outline->region->box;
      g_string_append_printf (text, "%s%s %g/%zu @ %g,%g %g,%g", i > 0 ? "; " : "", outline->name,
                              round (pf_region_area (outline->region) * 2) / 2,
                              outline->region->n_loops, hundredths (box.min.x),
                              hundredths (box.min.y), hundredths (box.max.x),
                              hundredths (box.max.y));
    }
  return g_string_free (text, FALSE);
}

static char *
join_remarks (const PfDrawing *drawing)
{
  GString *text = g_string_new (NULL);
  for (guint i = 0; i < drawing->remarks->len; i++)
    g_string_append_printf (text, "%s\n", (const char *) drawing->remarks->pdata[i]);
  return g_string_free (text, FALSE);
}

typedef struct {
  const char *inside, *outlines;
  const char *remark; /* part of the remarks; NULL if there must be none */
  guint n_background;
} Case;

static void
run_cases (const Case *cases, size_t n)
{
  for (size_t i = 0; i < n; i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (PfDrawing) drawing = parse_inside (cases[i].inside, NULL, &error);
      g_assert_no_error (error);
      g_autofree char *outlines = describe (drawing), *remarks = join_remarks (drawing);
      g_assert_cmpstr (outlines, ==, cases[i].outlines);
      g_test_message ("remarks: %s", remarks);
      if (cases[i].remark == NULL)
        g_assert_cmpstr (remarks, ==, "");
      else
        g_assert_nonnull (strstr (remarks, cases[i].remark));
      g_assert_cmpuint (drawing->background->len, ==, cases[i].n_background);
    }
}

#define SQUARE "<rect x='10' y='10' width='10' height='10'/>"
#define ONE "motif 1 100/1 @ 10,10 20,20"

static void
test_shapes (void)
{
  static const Case cases[] = {
    { SQUARE, ONE, NULL, 0 },
    /* SVG 2, section 10.2: rx alone gives ry, both at most half the side: 100 - (4 - pi)·4 and
     * pi·25. */
    { "<rect x='10' y='10' width='10' height='10' rx='2'/>", "motif 1 96.5/1 @ 10,10 20,20", NULL,
      0 },
    { "<rect x='10' y='10' width='10' height='10' rx='0' ry='2'/>", ONE, NULL, 0 },
    { "<rect x='10' y='10' width='10' height='10' ry='99'/>", "motif 1 78.5/1 @ 10,10 20,20", NULL,
      0 },
    { "<rect x='10%' y='10' width='10%' height='1e1'/>", ONE, NULL, 0 },
    { SQUARE "<rect x='1' y='1' width='4' height='4 4'/>", ONE, "height=\"4 4\" isn't a length",
      0 },
    { "<circle cx='50' cy='50' r='10'/>", "motif 1 314/1 @ 40,40 60,60", NULL, 0 },
    { "<ellipse cx='50' cy='50' rx='20' ry='8'/>", "motif 1 502.5/1 @ 30,42 70,58", NULL, 0 },
    { "<ellipse cx='50' cy='50' ry='10'/>", "motif 1 314/1 @ 40,40 60,60", NULL, 0 },
    { "<polygon points='10,10 20,10 20,20'/>", "motif 1 50/1 @ 10,10 20,20", NULL, 0 },
    { "<polyline points='10,10 20,10 20,20 10,10'/>", "motif 1 50/1 @ 10,10 20,20", NULL, 0 },
    { SQUARE "<polyline points='30,30 40,30 40,40'/><line x1='1' y1='2' x2='3' y2='4'/>", ONE, NULL,
      2 },
    /* Ends that meet within 0.01 mm close a path, with Z or without. */
    { "<path d='M10 10H20V20H10V10.004'/>", ONE, NULL, 0 },
    { "<path d='M10 10H20V20H10V10.004z'/>", ONE, NULL, 0 },
    { SQUARE "<path d='M30 30h10v10h-10v-9.9'/>", ONE, NULL, 1 },
    { SQUARE "<path d='M30 30h10z'/>", ONE, "without area", 1 },
    { SQUARE "<rect width='0' height='5'/><circle r='0'/>", ONE, "no size", 0 },
    { SQUARE "<rect width='-1' height='5'/>", ONE, "no size", 0 },
    { SQUARE "<path/><polygon/><path d=''/>", ONE, NULL, 0 },
    { SQUARE "<path d='M1 1 2 2 zap'/>", ONE,
      "line 2: <path>: its d can't be read from character 12 on", 1 },
    { SQUARE "<text id='t'>A</text>", ONE, "line 2: <text id=\"t\">: it isn't a shape; skipped",
      0 },
    { SQUARE "<rect x='50' y='1' width='4' height='4' transform='turn(5)'/>", ONE, "can't be read",
      0 },
    { SQUARE "<title>T</title><defs><rect width='5' height='5'/></defs><inkscape:path d='x'/>", ONE,
      NULL, 0 },
  };
  run_cases (cases, G_N_ELEMENTS (cases));
}

static void
test_structure (void)
{
  static const Case cases[] = {
    { "<g transform='translate(30,0)'><a><g transform='scale(2)'>" SQUARE "</g></a></g>",
      "motif 1 400/1 @ 50,20 70,40", NULL, 0 },
    { "<g transform='translate(40,0) scale(-1,1)'>" SQUARE "</g>", "motif 1 100/1 @ 20,10 30,20",
      NULL, 0 },
    { "<defs><g id='d'>" SQUARE "</g></defs><use href='#d' x='5'/><use xlink:href='#d' y='50'/>",
      "motif 1 100/1 @ 15,10 25,20; motif 2 100/1 @ 10,60 20,70", NULL, 0 },
    { "<use id='again' href='#r' x='30'/><defs><rect id='r' width='10' height='10'/></defs>",
      "again 100/1 @ 30,0 40,10", NULL, 0 },
    { "<use id='again' href='#r' x='30'/><defs><g id='r'><rect width='10' height='10'/></g></defs>",
      "again 100/1 @ 30,0 40,10", NULL, 0 },
    /* A use of a use. */
    { "<defs><rect id='r' width='10' height='10'/><use id='u' href='#r' x='1'/></defs>"
      "<use href='#u' x='10' transform='translate(5)'/>",
      "u 100/1 @ 16,0 26,10", NULL, 0 },
    { SQUARE "<use href='#none'/>", ONE, "isn't in this drawing", 0 },
    { SQUARE "<use href='other.svg#a'/>", ONE, "isn't in this drawing", 0 },
    { SQUARE "<use id='u' href='#u'/>", ONE, "repeat itself", 0 },
    { SQUARE "<g id='g'><use href='#g'/></g>", ONE, "repeat itself", 0 },
    { SQUARE "<g id='a'><use href='#b'/></g><g id='b'><use href='#a'/></g>", ONE, "repeat itself",
      0 },
    /* SVG 2, section 8.2: a nested viewport, its viewBox fitted in. */
    { "<svg x='10' y='20' width='20' height='10' viewBox='0 0 4 4'><rect width='4' "
      "height='4'/></svg>",
      "motif 1 100/1 @ 15,20 25,30", NULL, 0 },
    { "<svg x='10' y='20' width='20' height='10' viewBox='0 0 4 4' preserveAspectRatio='none'>"
      "<rect width='50%' height='100%'/></svg>",
      "motif 1 100/1 @ 10,20 20,30", NULL, 0 },
    { "<svg x='5' y='5'><rect width='10%' height='10%'/></svg>", "motif 1 100/1 @ 5,5 15,15", NULL,
      0 },
    { "<svg width='50'><svg><rect width='10%' height='10%'/></svg></svg>",
      "motif 1 50/1 @ 0,0 5,10", NULL, 0 },
    { SQUARE "<svg width='0'><rect width='5' height='5'/></svg>", ONE, "no size", 0 },
    /* Section 5.5: a symbol takes the size of its use. */
    { "<symbol id='s' viewBox='0 0 2 2'><rect width='2' height='2'/></symbol>"
      "<use href='#s' x='1' width='10' height='20'/>",
      "motif 1 100/1 @ 1,5 11,15", NULL, 0 },
    { "<symbol id='s' viewBox='0 0 2 2'><rect width='2' height='2'/></symbol><use href='#s'/>",
      "motif 1 10000/1 @ 0,0 100,100", NULL, 0 },
    { "<switch><foreignObject/><g requiredExtensions='x'>" SQUARE "</g><g>" SQUARE "</g>" SQUARE
      "</switch>",
      ONE, NULL, 0 },
    { SQUARE
      "<clipPath><rect width='5' height='5'/></clipPath><mask><rect width='4' height='4'/></mask>"
      "<pattern><rect width='3' height='3'/></pattern><marker><rect width='2' height='2'/>"
      "</marker>",
      ONE, NULL, 0 },
  };
  run_cases (cases, G_N_ELEMENTS (cases));
}

#define OTHER "<rect id='o' class='a b' x='50' y='50' width='10' height='10' "

static void
test_style (void)
{
  static const Case cases[] = {
    { SQUARE OTHER "display='none'/>", ONE, NULL, 0 },
    { SQUARE OTHER "style='fill:red;display : none'/>", ONE, NULL, 0 },
    { SQUARE OTHER "visibility='hidden'/>", ONE, NULL, 0 },
    { SQUARE "<g display='none'>" OTHER "display='inline'/></g>", ONE, NULL, 0 },
    { SQUARE "<g visibility='hidden'>" OTHER "/></g>", ONE, NULL, 0 },
    { "<g visibility='collapse'><rect x='10' y='10' width='10' height='10' "
      "visibility='visible'/></g>",
      ONE, NULL, 0 },
    /* CSS 2.1, section 6.4: style attribute before sheet, sheet before presentation attribute; ids
     * before classes before types; later before earlier. */
    { "<rect x='10' y='10' width='10' height='10' display='none' style='display:inline'/>", ONE,
      NULL, 0 },
    { "<style>rect{display:inline}</style><rect x='10' y='10' width='10' height='10' "
      "display='none'/>",
      ONE, NULL, 0 },
    { SQUARE OTHER "/><style>.b { display: none }</style>", ONE, NULL, 0 },
    { SQUARE OTHER "/><style>rect.a.b{display:none} rect.a{display:inline}</style>", ONE, NULL, 0 },
    { SQUARE OTHER "/><style>#o{display:none}rect.a.b{display:inline}</style>", ONE, NULL, 0 },
    { SQUARE OTHER "/><style>.a{display:inline} .b{display:none}</style>", ONE, NULL, 0 },
    { SQUARE OTHER "/><style>.x, #o {visibility:hidden}</style>", ONE, NULL, 0 },
    { SQUARE OTHER "style='display:inline'/><style>#o{display:none !important}</style>", ONE, NULL,
      0 },
    { SQUARE OTHER "/><style>/* .a{} */ @import 'x'; #o{fill:red;/*;*/display:none}</style>", ONE,
      NULL, 0 },
    { SQUARE OTHER "/><style><![CDATA[.a{display:none}]]></style>", ONE, NULL, 0 },
    { SQUARE "<style>g > rect{display:none} .q{fill:red}</style>", ONE,
      "its rule for “g > rect” isn't", 0 },
    { SQUARE "<style>@media print { rect{display:none} }</style>", ONE, "@media print", 0 },
    { SQUARE "<style>@font-face { x:y } g text{fill:red} }}} {</style>", ONE, NULL, 0 },
    { "<style>.c{fill-rule:evenodd}</style><g class='c'>"
      "<path d='M10 10h10v10h-10zM12 12h6v6h-6z'/></g>",
      "motif 1 64/2 @ 10,10 20,20", NULL, 0 },
  };
  run_cases (cases, G_N_ELEMENTS (cases));
}

#define OUTER "M10 10h20v20h-20z"
#define INNER "M12 12h10v10h-10z"
#define TURNED "M12 12v10h10v-10z"
#define INMOST "M14 14h4v4h-4z"

/* SVG 1.1, section 11.3, fill-rule. */
static void
test_fill_rule (void)
{
  static const Case cases[] = {
    { "<path d='" OUTER INNER "'/>", "motif 1 400/1 @ 10,10 30,30", "makes no hole", 1 },
    { "<path d='" OUTER TURNED "'/>", "motif 1 300/2 @ 10,10 30,30", NULL, 0 },
    { "<path d='" OUTER INNER "' fill-rule='evenodd'/>", "motif 1 300/2 @ 10,10 30,30", NULL, 0 },
    { "<path d='" OUTER TURNED "' transform='scale(-1,1) translate(-40,0)'/>",
      "motif 1 300/2 @ 10,10 30,30", NULL, 0 },
    { "<path d='" OUTER TURNED INMOST "'/>",
      "motif 1 300/2 @ 10,10 30,30; motif 2 16/1 @ 14,14 18,18", NULL, 0 },
    { "<path d='" INMOST INNER OUTER "'/>", "motif 1 400/1 @ 10,10 30,30", "makes no hole", 2 },
    { "<path d='" INMOST INNER OUTER "' fill-rule='evenodd'/>",
      "motif 1 16/1 @ 14,14 18,18; motif 2 300/2 @ 10,10 30,30", NULL, 0 },
    /* Winding 2 within, where one hole the other way only brings it to 1: no hole either. */
    { "<path d='" OUTER INNER "M14 14v4h4v-4z'/>", "motif 1 400/1 @ 10,10 30,30", "makes no hole",
      2 },
    /* A hole that touches the outline in its corners. */
    { "<path d='" OUTER "M20 10L10 20 20 30 30 20z'/>", "motif 1 200/2 @ 10,10 30,30", NULL, 0 },
    /* Elements don't wind round one another: even-odd over all of them. */
    { "<path d='" OUTER "'/><path d='" INNER "'/>", "motif 1 300/2 @ 10,10 30,30", NULL, 0 },
    { "<path id='in' d='" INNER "'/><path id='out' d='" OUTER "'/>", "out 300/2 @ 10,10 30,30",
      NULL, 0 },
    /* The same outline again, begun elsewhere and run the other way. */
    { "<path id='a' d='" OUTER "'/><path id='b' d='M30 30V10H10V30z'/>", "a 400/1 @ 10,10 30,30",
      "line 2: <path id=\"b\">: the same outline is drawn before", 0 },
    { "<path id='a' d='" OUTER OUTER "' fill-rule='evenodd'/>", "a 400/1 @ 10,10 30,30",
      "taken once", 0 },
  };
  run_cases (cases, G_N_ELEMENTS (cases));
}

static void
test_names (void)
{
  static const Case cases[] = {
    { "<path id='leaf' d='M0 0h5v5z M20 0h5v5z M40 0h5v5z'/>",
      "leaf 12.5/1 @ 0,0 5,5; leaf 2 12.5/1 @ 20,0 25,5; leaf 3 12.5/1 @ 40,0 45,5", NULL, 0 },
    { "<path id='leaf 2' d='M0 0h5v5z'/><path id='leaf' d='M20 0h5v5z M40 0h5v5z'/>",
      "leaf 2 12.5/1 @ 0,0 5,5; leaf 12.5/1 @ 20,0 25,5; leaf 3 12.5/1 @ 40,0 45,5", NULL, 0 },
    { "<path id='motif 2' d='M0 0h5v5z'/><path d='M20 0h5v5z'/>",
      "motif 2 12.5/1 @ 0,0 5,5; motif 2 2 12.5/1 @ 20,0 25,5", NULL, 0 },
  };
  run_cases (cases, G_N_ELEMENTS (cases));
}

static void
test_picking (void)
{
  static const char drawing[] =
      "<g id='pair'><rect id='a' x='10' y='10' width='10' height='10'/>"
      "<rect id='b' x='30' y='10' width='10' height='10'/></g><path id='open' d='M0 0h5v5'/>"
      "<rect id='c' x='50' y='10' width='10' height='10'/><g id='none'/><text id='word'/>"
      "<defs><rect id='part' width='5' height='5'/></defs><use id='used' href='#part' y='90'/>"
      "<rect id='gone' display='none' width='5' height='5'/><defs><g id='spare'/></defs>"
      "<circle id='dot' cx='80' cy='80' r='.3'/>";
  static const struct {
    const char *ids, *outlines, *error;
    guint n_background;
  } cases[] = {
    { "b", "b 100/1 @ 30,10 40,20", NULL, 5 },
    { "c,a", "a 100/1 @ 10,10 20,20; c 100/1 @ 50,10 60,20", NULL, 4 },
    { "pair", "a 100/1 @ 10,10 20,20; b 100/1 @ 30,10 40,20", NULL, 4 },
    { "pair,a", "a 100/1 @ 10,10 20,20; b 100/1 @ 30,10 40,20", NULL, 4 },
    { "used", "used 25/1 @ 0,90 5,95", NULL, 5 },
    { "part", "used 25/1 @ 0,90 5,95", NULL, 5 },
    { "a,zzz", NULL, "test.svg has no element “zzz”; it has “pair”, “a”, “b”, “open”, “c”, “none”",
      0 },
    { "open", NULL, "line 2: <path id=\"open\">: it isn't closed: its ends are 7.07 mm apart", 0 },
    { "a,none", NULL, "<g id=\"none\">: it holds no closed outline", 0 },
    { "word", NULL, "<text id=\"word\">: it holds no closed outline", 0 },
    { "gone", NULL, "<rect id=\"gone\">: it is hidden", 0 },
    { "spare", NULL, "<g id=\"spare\">: it is hidden or only a part to be repeated", 0 },
    { "dot", NULL, "<circle id=\"dot\">: it holds no closed outline", 0 },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_auto (GStrv) ids = g_strsplit (cases[i].ids, ",", -1);
      g_autoptr (GError) error = NULL;
      g_autoptr (PfDrawing) found = parse_inside (drawing, (const char *const *) ids, &error);
      g_test_message ("%s", cases[i].ids);
      g_assert_cmpint (found == NULL, ==, cases[i].error != NULL);
      if (found == NULL)
        {
          g_test_message ("%s", error->message);
          g_assert_nonnull (strstr (error->message, cases[i].error));
          continue;
        }
      g_autofree char *outlines = describe (found);
      g_assert_cmpstr (outlines, ==, cases[i].outlines);
      g_assert_cmpuint (found->background->len, ==, cases[i].n_background);
    }
}

/* The pinholes of all loops as text: "1 2.5 | 3". */
static char *
describe_pinholes (const PfDrawing *drawing)
{
  GString *text = g_string_new (NULL);
  for (guint i = 0; i < drawing->outlines->len; i++)
    {
      const PfOutline *outline = drawing->outlines->pdata[i];
      size_t k = 0;
      for (; k < outline->region->n_loops; k++)
        {
          g_string_append (text, i + k > 0 ? " |" : "");
          for (guint j = 0; j < outline->pinholes[k]->len; j++)
            g_string_append_printf (text, " %g",
                                    hundredths (g_array_index (outline->pinholes[k], double, j)));
        }
      g_assert_null (outline->pinholes[k]);
    }
  return g_string_free (text, FALSE);
}

#define FRAME "<path d='M10 10h20v20h-20z M15 15v10h10v-10z'/>"

static void
test_pinholes (void)
{
  static const struct {
    const char *inside, *pinholes, *remark;
    guint n_background;
  } cases[] = {
    { FRAME, " |", NULL, 0 },
    { FRAME "<circle cx='12' cy='10' r='.2'/><circle cx='30.5' cy='11' r='.5'/>", " 2 21 |", NULL,
      0 },
    { FRAME "<circle cx='20' cy='14.2' r='.2'/><circle cx='10.9' cy='20' r='.2'/>", " 70 | 35",
      NULL, 0 },
    /* Order of drawing doesn't matter, nor does the first of two on one place. */
    { "<circle cx='18' cy='10' r='.2'/>" FRAME "<circle cx='12' cy='10' r='.2'/>"
      "<circle cx='18' cy='10' r='.3'/><circle cx='18.004' cy='9.9' r='.3'/>",
      " 2 8 |", NULL, 0 },
    { FRAME "<circle cx='10' cy='10' r='.2'/><circle cx='10' cy='10.003' r='.2'/>", " 0 |", NULL,
      0 },
    /* 1 mm across after mapping, both ways; 0.48 px is 1 mm here once doubled. */
    { FRAME "<g transform='scale(2)'><circle cx='6' cy='5' r='.25'/></g>", " 2 |", NULL, 0 },
    { FRAME "<circle cx='12' cy='8' r='.3'/>", " |", "no outline that is filled lies within 1 mm",
      1 },
    { FRAME "<circle cx='12' cy='9' r='.3'/>", " 2 |", NULL, 0 },
    { FRAME "<ellipse cx='50' cy='50' rx='.2' ry='.6'/>", " | |", NULL, 0 },
    /* On a layer for pinholes: any size, up to 5 mm off. */
    { FRAME "<g id='Pinholes'><circle cx='12' cy='6' r='3'/><rect width='5' height='5'/>"
            "<circle cx='22' cy='4' r='.1'/></g>",
      " 2 |", "only circles are read", 2 },
    { FRAME "<g inkscape:label='pinholes'><g><circle cx='12' cy='6' r='3'/></g></g>", " 2 |", NULL,
      0 },
    { FRAME "<g id='pinholes' display='none'><circle cx='12' cy='10' r='.1'/></g>", " |", NULL, 0 },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (PfDrawing) drawing = parse_inside (cases[i].inside, NULL, &error);
      g_assert_no_error (error);
      g_autofree char *pinholes = describe_pinholes (drawing), *remarks = join_remarks (drawing);
      g_assert_cmpstr (pinholes, ==, cases[i].pinholes);
      g_assert_cmpuint (drawing->background->len, ==, cases[i].n_background);
      g_test_message ("remarks: %s", remarks);
      if (cases[i].remark == NULL)
        g_assert_cmpstr (remarks, ==, "");
      else
        g_assert_nonnull (strstr (remarks, cases[i].remark));
    }
}

/* The size of a drawing. SVG 2, section 8.2, and CSS 2.1, section 10.3.2, for the sides not given.
 */
static void
test_size (void)
{
  static const struct {
    const char *root, *outline;
    double width, height;
  } cases[] = {
    { "width='100mm' height='5cm' viewBox='0 0 100 50'", "a 100/1 @ 0,0 10,10", 100, 50 },
    { "width='1in' height='72pt' viewBox='0 0 96 96'", "a 7/1 @ 0,0 2.65,2.65", 25.4, 25.4 },
    { "width='96' height='96px'", "a 7/1 @ 0,0 2.65,2.65", 25.4, 25.4 },
    { "viewBox='0 0 96 192'", "a 7/1 @ 0,0 2.65,2.65", 25.4, 50.8 },
    { "viewBox='0 0 96 192' width='100%' height='100%'", "a 7/1 @ 0,0 2.65,2.65", 25.4, 50.8 },
    { "viewBox='0 0 10 20' width='50mm'", "a 2500/1 @ 0,0 50,50", 50, 100 },
    { "viewBox='0 0 10 20' height='50mm' width='auto'", "a 625/1 @ 0,0 25,25", 25, 50 },
    { "viewBox='0 0 10 10' width='20mm' height='10mm'", "a 100/1 @ 5,0 15,10", 20, 10 },
    { "viewBox='0 0 10 10' width='20mm' height='10mm' preserveAspectRatio='xMaxYMin slice'",
      "a 400/1 @ 0,0 20,20", 20, 10 },
    { "viewBox='0 0 10 10' width='20mm' height='10mm' preserveAspectRatio='none'",
      "a 200/1 @ 0,0 20,10", 20, 10 },
    { "viewBox='-5 -5 10 10' width='10mm' height='10mm' x='3' y='4'", "a 100/1 @ 5,5 15,15", 10,
      10 },
    { "", "a 7/1 @ 0,0 2.65,2.65", 300 / 96.0 * 25.4, 150 / 96.0 * 25.4 },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *svg = g_strdup_printf ("<svg xmlns='http://www.w3.org/2000/svg' %s>"
                                              "<rect id='a' width='10' height='10'/></svg>",
                                              cases[i].root);
      g_autoptr (GError) error = NULL;
      g_autoptr (PfDrawing) drawing = parse (svg, NULL, &error);
      g_test_message ("%s", cases[i].root);
      g_assert_no_error (error);
      g_autofree char *outlines = describe (drawing);
      g_assert_cmpstr (outlines, ==, cases[i].outline);
      g_assert_cmpfloat_with_epsilon (drawing->width, cases[i].width, 1e-9);
      g_assert_cmpfloat_with_epsilon (drawing->height, cases[i].height, 1e-9);
    }
}

/* The remarks too hold whole letters only. */
static void
test_cut_remarks (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (PfDrawing) drawing = parse_inside (
      SQUARE
      "<g transform='äöüäöüäöüäöüäöüäöüäöüäöüäöü'/><g transform='xäöüäöüäöüäöüäöüäöüäöüäöüäöü'/>",
      NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (drawing->remarks->len, ==, 2);
  for (guint i = 0; i < 2; i++)
    g_assert_true (g_utf8_validate (drawing->remarks->pdata[i], -1, NULL));
}

/* Three hundred letters need few words. */
static void
test_many_remarks (void)
{
  g_autoptr (GString) inside = g_string_new (SQUARE);
  for (int i = 0; i < 300; i++)
    g_string_append (inside, "<text>x</text>\n");
  g_string_append (inside, "<image/>");
  g_autofree char *svg = g_strconcat (HEAD, inside->str, "</svg>", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (PfDrawing) drawing = parse (svg, NULL, &error);
  g_assert_no_error (error);
  g_autofree char *remarks = join_remarks (drawing);
  g_assert_cmpuint (drawing->remarks->len, ==, 22);
  g_assert_nonnull (strstr (remarks, "280 more <text> elements like that of line 2\n"));
  g_assert_nonnull (strstr (remarks, "<image>"));
}

/* Errors say which elements, where, and what to do. */
static void
test_refused (void)
{
  static const struct {
    const char *inside, *error;
    PfError code;
  } cases[] = {
    { "", "test.svg has no closed outline to fill; draw one", PF_ERROR_OUTLINE },
    { "<path d='M0 0h5'/>", "has no closed outline", PF_ERROR_OUTLINE },
    { "<circle cx='5' cy='5' r='.2'/>", "has no closed outline", PF_ERROR_OUTLINE },
    { "\n<path id='eight' d='M0 0h10v10l-5-20z'/>",
      "test.svg, line 3: <path id=\"eight\">: ", PF_ERROR_OUTLINE },
    { "<rect id='a' width='10' height='10'/>\n<rect id='b' x='5' y='5' width='10' height='10'/>",
      "test.svg, line 2: <rect id=\"a\">: with line 3, <rect id=\"b\">: ", PF_ERROR_OUTLINE },
    { "<g", "test.svg, line 2: this isn't well-formed XML", PF_ERROR_FILE },
    { "<g>", "this isn't well-formed XML", PF_ERROR_FILE },
    { "&nothing;", "test.svg, line 2: the entity “&nothing;” isn't plain text", PF_ERROR_FILE },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      g_assert_null (parse_inside (cases[i].inside, NULL, &error));
      g_test_message ("%s", error->message);
      g_assert_error (error, PF_ERROR, (int) cases[i].code);
      g_assert_nonnull (strstr (error->message, cases[i].error));
    }
}

/* Numbers that are no place on a sheet. */
static void
test_huge (void)
{
  static const char *const shapes[] = {
    "<rect id='h' width='1e9' height='5'/>",
    "<path id='h' d='M0 0C1e300 0 1e300 1e300 -1e308 1z'/>",
    "<path id='h' d='M1e308 0l1e308 0 -1 1e308z'/>",
    "<path id='h' d='M0 0A1e200 1e-200 7 1 1 1e9 5z'/>",
    "<circle id='h' cx='5' cy='5' r='1e30'/>",
    "<circle id='h' cx='5' cy='5' r='3' transform='scale(1e300) scale(1e300)'/>",
    "<circle id='h' cx='5' cy='5' r='3' transform='skewX(89.9999999999)'/>",
  };
  static const char *const pick[] = { "h", NULL };
  for (size_t i = 0; i < G_N_ELEMENTS (shapes); i++)
    {
      g_autofree char *inside = g_strconcat (SQUARE, shapes[i], NULL);
      g_autoptr (GError) error = NULL;
      g_autoptr (PfDrawing) drawing = parse_inside (inside, NULL, &error);
      g_assert_no_error (error);
      g_autofree char *outlines = describe (drawing), *remarks = join_remarks (drawing);
      g_assert_cmpstr (outlines, ==, ONE);
      g_assert_nonnull (strstr (remarks, "line 2: "));
      g_assert_null (parse_inside (inside, pick, &error));
      g_assert_error (error, PF_ERROR, PF_ERROR_OUTLINE);
      g_assert_nonnull (strstr (error->message, "test.svg, line 2: "));
    }
}

/* Written by hand, a drawing may lack the namespace; but another namespace isn't SVG. */
static void
test_without_namespace (void)
{
  static const char svg[] = "<svg width='10mm' height='10mm' viewBox='0 0 10 10'>"
                            "<rect id='r' width='2.5' height='4'/></svg>";
  static const char other[] =
      "<svg xmlns='http://example.org/other'><rect width='2' height='2'/></svg>";
  static const char html[] = "<html><svg/></html>";
  g_autoptr (GError) error = NULL;
  g_autoptr (PfDrawing) drawing = parse (svg, NULL, &error);
  g_assert_no_error (error);
  g_autofree char *outlines = describe (drawing);
  g_assert_cmpstr (outlines, ==, "r 10/1 @ 0,0 2.5,4");
  g_assert_null (parse (other, NULL, &error));
  g_assert_error (error, PF_ERROR, PF_ERROR_FILE);
  g_clear_error (&error);
  g_assert_null (parse (html, NULL, &error));
  g_assert_error (error, PF_ERROR, PF_ERROR_FILE);
  g_assert_nonnull (strstr (error->message, "begins with <html>"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/svg/drawing/shapes", test_shapes);
  g_test_add_func ("/svg/drawing/structure", test_structure);
  g_test_add_func ("/svg/drawing/style", test_style);
  g_test_add_func ("/svg/drawing/fill-rule", test_fill_rule);
  g_test_add_func ("/svg/drawing/names", test_names);
  g_test_add_func ("/svg/drawing/picking", test_picking);
  g_test_add_func ("/svg/drawing/pinholes", test_pinholes);
  g_test_add_func ("/svg/drawing/size", test_size);
  g_test_add_func ("/svg/drawing/many-remarks", test_many_remarks);
  g_test_add_func ("/svg/drawing/cut-remarks", test_cut_remarks);
  g_test_add_func ("/svg/drawing/refused", test_refused);
  g_test_add_func ("/svg/drawing/huge", test_huge);
  g_test_add_func ("/svg/drawing/without-namespace", test_without_namespace);
  return g_test_run ();
}
