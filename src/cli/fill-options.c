/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The options of pinfold-cli fill: told in its help, read, and checked against one another.
 */
#include "fill-options.h"

#include <string.h>

#include <glib/gstdio.h>

#include <glib/gi18n.h>

void
pf_fill_options_clear (PfFillOptions *o)
{
  char *strings[] = { o->outline,  o->ground,  o->gap,     o->turn,      o->origin,   o->edge,
                      o->edge_gap, o->beads,   o->partial, o->clearance, o->carry,    o->reach,
                      o->off_line, o->enlarge, o->paper,   o->angle,     o->thread,   o->wraps,
                      o->spare,    o->first,   o->work_by, o->sew_in,    o->contents, o->rules };
  for (size_t s = 0; s < G_N_ELEMENTS (strings); s++)
    g_free (strings[s]);
  g_strfreev (o->documents);
  g_strfreev (o->elements);
  g_strfreev (o->reports);
  g_strfreev (o->sheets);
  g_strfreev (o->close_ups);
  g_strfreev (o->books);
  g_strfreev (o->steps);
  g_free (o->part);
}

#define STRING(name, variable, help, value)                                                        \
  {                                                                                                \
    name, 0, 0, G_OPTION_ARG_STRING, variable, help, value                                         \
  }
#define FILES(name, variable, help)                                                                \
  {                                                                                                \
    name, 0, 0, G_OPTION_ARG_FILENAME_ARRAY, variable, help, N_ ("FILE")                           \
  }

/* What is filled with what, and how the ground lies in it. */
static void
add_placing (GOptionContext *context, PfFillOptions *o)
{
  const GOptionEntry entries[] = {
    { "outline", 0, 0, G_OPTION_ARG_FILENAME, &o->outline,
      N_ ("SVG drawing of the motif’s outline"), N_ ("FILE") },
    { "element", 0, 0, G_OPTION_ARG_STRING_ARRAY, &o->elements,
      N_ ("Take only the element with this id (may be given several times)"), N_ ("ID") },
    STRING ("ground", &o->ground,
            N_ ("The ground that fills it: a name from “pinfold-cli grounds”, or a .json file"),
            N_ ("NAME")),
    STRING ("gap", &o->gap, N_ ("Distance between the nearest two pins"), N_ ("MM")),
    STRING ("turn", &o->turn, N_ ("Turn the ground clockwise (default 0)"), N_ ("DEG")),
    STRING ("angle", &o->angle,
            N_ ("Angle of the ground’s diagonals from the footside (default: its own; torchon has "
                "45)"),
            N_ ("DEG")),
    STRING ("origin", &o->origin,
            N_ ("Where the ground’s origin lies, in mm from the drawing’s top left (default: the "
                "middle of each motif)"),
            N_ ("X,Y")),
    STRING ("edge", &o->edge, N_ ("The edge: half stitch (default) or cloth stitch"), "half|cloth"),
    STRING ("edge-gap", &o->edge_gap, N_ ("Distance between the edge’s pinholes (default 2)"),
            N_ ("MM")),
    G_OPTION_ENTRY_NULL,
  };
  g_option_context_add_main_entries (context, entries, GETTEXT_PACKAGE);
}

/* How it is worked, in which thread. */
static void
add_working (GOptionContext *context, PfFillOptions *o)
{
  const GOptionEntry entries[] = {
    STRING ("beads", &o->beads,
            N_ ("Beads: none (default), in whole repeats, or in whole and kept ones"),
            "none|whole|kept"),
    STRING ("partial", &o->partial,
            N_ ("Partial repeats: keep their middle where it can be (default), or work all plain"),
            "auto|plain"),
    STRING ("first", &o->first, N_ ("Work the left first (default), or the right"), "left|right"),
    STRING ("work-by", &o->work_by,
            N_ ("Work repeat by repeat (default), or in diagonal rows of repeats"), "repeat|row"),
    STRING ("sew-in", &o->sew_in,
            N_ ("Sew new pairs in when they are needed (default), or all before the first stitch"),
            "needed|first"),
    STRING ("thread", &o->thread, N_ ("The thread: a name from “pinfold-cli threads”"),
            N_ ("NAME")),
    STRING ("wraps", &o->wraps, N_ ("Its thickness instead: how many turns of it lie on 1 cm"),
            N_ ("N")),
    STRING ("spare", &o->spare,
            N_ ("Thread to spare at each bobbin, for hitching and handling (default 300)"),
            N_ ("MM")),
    G_OPTION_ENTRY_NULL,
  };
  g_option_context_add_main_entries (context, entries, GETTEXT_PACKAGE);
}

/* What is still near enough. */
static void
add_limits (GOptionContext *context, PfFillOptions *o)
{
  const GOptionEntry entries[] = {
    STRING ("clearance", &o->clearance,
            N_ ("Least distance of a stitch from the edge, in gaps (default 0.25)"), N_ ("F")),
    STRING ("carry", &o->carry,
            N_ ("Farthest a pair is carried along the edge, in gaps (default 1)"), N_ ("F")),
    STRING ("reach", &o->reach,
            N_ ("Farthest a sewing moves to a pinhole of a half stitch edge, in edge gaps (default "
                "0.25)"),
            N_ ("F")),
    STRING ("off-line", &o->off_line,
            N_ ("Mark sewings farther off their line than this (default 8)"), N_ ("DEG")),
    G_OPTION_ENTRY_NULL,
  };
  g_option_context_add_main_entries (context, entries, GETTEXT_PACKAGE);
}

/* What is written. */
static void
add_saving (GOptionContext *context, PfFillOptions *o)
{
  const GOptionEntry entries[] = {
    FILES ("report", &o->reports,
           N_ ("Write the pair-count report: .pdf, .html, .ods, .txt, .json, .csv for the sewings, "
               "-winding.csv for what to wind (may be given several times)")),
    FILES ("sheet", &o->sheets,
           N_ ("Write the pricking: .pdf, .svg or .png (may be given several times)")),
    FILES ("close-up", &o->close_ups,
           N_ ("Draw the threads as they lie: .svg, .pdf or .png (may be given several times)")),
    STRING ("part", &o->part,
            N_ ("Only this part in the close-up, in mm from the drawing’s top left (default: all)"),
            N_ ("X,Y,W,H")),
    FILES ("book", &o->books,
           N_ ("Write several parts as one PDF, with page numbers and bookmarks: .pdf")),
    STRING ("contents", &o->contents,
            N_ ("What is in it, with commas between: pricking, notes, worksheet, answers, report "
                "(default: as the document says; pricking,notes,report without one)"),
            N_ ("PARTS")),
    { "pair-colours", 0, 0, G_OPTION_ARG_NONE, &o->pair_colours,
      N_ ("Give pairs colours in its drawings of repeats"), NULL },
    FILES ("steps", &o->steps,
           N_ ("Write every working step in words: .txt (may be given several times)")),
    G_OPTION_ENTRY_NULL,
  };
  g_option_context_add_main_entries (context, entries, GETTEXT_PACKAGE);
}

/* The page, and the document itself. */
static void
add_page (GOptionContext *context, PfFillOptions *o)
{
  const GOptionEntry entries[] = {
    { "pins-only", 0, 0, G_OPTION_ARG_NONE, &o->pins_only,
      N_ ("Only pins and outline, for the pillow"), NULL },
    { "mirror", 0, 0, G_OPTION_ARG_NONE, &o->mirror, N_ ("Print the mirror image"), NULL },
    { "no-background", 0, 0, G_OPTION_ARG_NONE, &o->no_background,
      N_ ("Leave out the drawing’s other lines, else shown faintly"), NULL },
    STRING ("enlarge", &o->enlarge, N_ ("Print so many times as large (default 1)"), N_ ("N")),
    STRING ("paper", &o->paper, N_ ("Paper size (default A4)"), "A4|A3|Letter"),
    STRING ("rules", &o->rules,
            N_ ("What the check rules measured on your printer, in mm, along the short side of the "
                "paper and along the long one (default 50,50); the pricking is corrected by it"),
            N_ ("MM,MM")),
    { G_OPTION_REMAINING, 0, 0, G_OPTION_ARG_FILENAME_ARRAY, &o->documents, NULL,
      N_ ("[FILE.pinfold]") },
    G_OPTION_ENTRY_NULL,
  };
  g_option_context_add_main_entries (context, entries, GETTEXT_PACKAGE);
}

static GOptionContext *
describe_options (PfFillOptions *o)
{
  GOptionContext *context = g_option_context_new (NULL);
  add_placing (context, o);
  add_working (context, o);
  add_limits (context, o);
  add_saving (context, o);
  add_page (context, o);
  g_option_context_set_summary (context, _ ("Fills the motifs of a drawing with a ground, or those "
                                            "of a saved document as it says, and "
                                            "writes prickings and reports."));
  g_option_context_set_description (
      context,
      _ ("Examples:\n"
         "  pinfold-cli fill --outline leaf.svg --ground torchon --gap 4 --sheet leaf.pdf --report "
         "leaf.txt\n"
         "  pinfold-cli fill --outline leaf.svg --ground armure --gap 3 --turn 30 --edge cloth \\\n"
         "      --beads whole --sheet leaf.pdf --sheet leaf.png --enlarge 3\n"
         "  pinfold-cli fill leaf.pinfold --pins-only --sheet pillow.pdf\n"));
  return context;
}

/* A document says all of this itself. */
static bool
check_alone (const PfFillOptions *o)
{
  const struct {
    const char *name;
    bool given;
  } options[] = {
    { "--outline", o->outline != NULL },     { "--element", o->elements != NULL },
    { "--ground", o->ground != NULL },       { "--gap", o->gap != NULL },
    { "--turn", o->turn != NULL },           { "--origin", o->origin != NULL },
    { "--edge", o->edge != NULL },           { "--edge-gap", o->edge_gap != NULL },
    { "--beads", o->beads != NULL },         { "--partial", o->partial != NULL },
    { "--clearance", o->clearance != NULL }, { "--carry", o->carry != NULL },
    { "--reach", o->reach != NULL },         { "--off-line", o->off_line != NULL },
    { "--angle", o->angle != NULL },         { "--thread", o->thread != NULL },
    { "--wraps", o->wraps != NULL },         { "--spare", o->spare != NULL },
    { "--first", o->first != NULL },         { "--work-by", o->work_by != NULL },
    { "--sew-in", o->sew_in != NULL },
  };
  for (size_t k = 0; k < G_N_ELEMENTS (options); k++)
    if (options[k].given)
      {
        pf_say_error (_ ("%s can’t be given with a document: “%s” says it itself. Leave one of the "
                         "two out."),
                      options[k].name, o->document);
        return false;
      }
  return true;
}

static bool
check_required (const PfFillOptions *o)
{
  if (o->document != NULL && o->documents[1] != NULL)
    {
      pf_say_error (_ ("fill takes one document, not “%s” and “%s”."), o->document,
                    o->documents[1]);
      return false;
    }
  if (o->document != NULL)
    return check_alone (o);
  if (o->outline != NULL && o->ground != NULL && o->gap != NULL)
    return true;
  pf_say_error (_ ("fill needs a document, or --outline, --ground and --gap. Try “pinfold-cli fill "
                   "--help”."));
  return false;
}

static bool
check_endings (char **filenames, const char *option, const char *const *endings)
{
  for (char **f = filenames; f != NULL && *f != NULL; f++)
    if (!pf_check_ending (option, *f, endings))
      return false;
  return true;
}

static bool
check_part (const PfFillOptions *o)
{
  if (o->part == NULL || o->close_ups != NULL)
    return true;
  pf_say_error (_ ("--part is a part of the close-up: give --close-up too."));
  return false;
}

static bool
check_contents (const PfFillOptions *o)
{
  if (o->books != NULL || (o->contents == NULL && !o->pair_colours))
    return true;
  pf_say_error (_ ("%s is of the book: give --book too."),
                o->contents != NULL ? "--contents" : "--pair-colours");
  return false;
}

/* The number of the page that NAME-N.svg would be for NAME.svg, taken off: NAME.svg; else the name
 * itself. */
static char *
without_page_number (const char *name)
{
  const char *dot = strrchr (name, '.');
  const char *end = dot;
  while (end != NULL && end > name && g_ascii_isdigit (end[-1]))
    end--;
  if (end == NULL || end == dot || end == name || end[-1] != '-')
    return g_strdup (name);
  return g_strdup_printf ("%.*s%s", (int) (end - 1 - name), name, dot);
}

/* Would writing `output`, or one of its pages, write over `input`? */
static bool
is_same_file (const char *output, const char *input)
{
  GStatBuf a, b;
  if (g_stat (output, &a) == 0 && g_stat (input, &b) == 0 && a.st_dev == b.st_dev &&
      a.st_ino == b.st_ino)
    return true;
  g_autofree char *out = g_canonicalize_filename (output, NULL);
  g_autofree char *in = g_canonicalize_filename (input, NULL);
  g_autofree char *first_page = without_page_number (in);
  return strcmp (out, first_page) == 0;
}

/* The maker's document, drawing and ground are never written over. */
static bool
check_outputs (const PfFillOptions *o)
{
  char **const outputs[] = { o->sheets, o->reports, o->close_ups, o->books, o->steps };
  const char *const inputs[] = { o->outline, o->ground, o->document };
  for (size_t k = 0; k < G_N_ELEMENTS (outputs); k++)
    for (char **f = outputs[k]; f != NULL && *f != NULL; f++)
      for (size_t n = 0; n < G_N_ELEMENTS (inputs); n++)
        if (inputs[n] != NULL && is_same_file (*f, inputs[n]))
          {
            pf_say_error (_ ("“%s” would be written over “%s”. Choose another name."), *f,
                          inputs[n]);
            return false;
          }
  return true;
}

bool
pf_fill_options_parse (PfFillOptions *o, int argc, char **argv)
{
  static const char *const reports[] = { ".pdf", ".html", ".ods", ".txt", ".json", ".csv", NULL };
  static const char *const sheets[] = { ".pdf", ".svg", ".png", NULL };
  static const char *const books[] = { ".pdf", NULL }, *const steps[] = { ".txt", NULL };
  g_autoptr (GOptionContext) context = describe_options (o);
  if (!pf_parse_options (context, argc, argv))
    return false;
  o->document = o->documents != NULL ? o->documents[0] : NULL;
  return check_required (o) && check_endings (o->reports, "--report", reports) &&
         check_endings (o->sheets, "--sheet", sheets) &&
         check_endings (o->close_ups, "--close-up", sheets) &&
         check_endings (o->books, "--book", books) && check_endings (o->steps, "--steps", steps) &&
         check_part (o) && check_contents (o) && check_outputs (o);
}
