/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * pinfold-cli fill: an outline in, prickings and reports out.
 */
#include "commands.h"

#include <string.h>

#include <glib/gstdio.h>

#include <glib/gi18n.h>

/* The options as they were given; NULL where they weren't. */
typedef struct {
  char *outline, **elements, *ground;
  char *gap, *turn, *origin;
  char *edge, *edge_gap;
  char *beads, *partial;
  char *clearance, *carry, *reach, *off_line;
  char **reports, **sheets;
  gboolean pins_only, mirror, no_background;
  char *enlarge, *paper;
} Options;

/* What they mean. */
typedef struct {
  PfFillingSettings settings;
  int edge, beads, partial;
  double edge_gap, enlarge;
  const PfPaper *paper;
  gint64 now;
  char *date;
} Job;

static void
options_clear (Options *o)
{
  char *strings[] = { o->outline, o->ground,   o->gap,      o->turn,    o->origin,
                      o->edge,    o->edge_gap, o->beads,    o->partial, o->clearance,
                      o->carry,   o->reach,    o->off_line, o->enlarge, o->paper };
  for (size_t s = 0; s < G_N_ELEMENTS (strings); s++)
    g_free (strings[s]);
  g_strfreev (o->elements);
  g_strfreev (o->reports);
  g_strfreev (o->sheets);
}

#define STRING(name, variable, help, value)                                                        \
  {                                                                                                \
    name, 0, 0, G_OPTION_ARG_STRING, variable, help, value                                         \
  }
#define FILES(name, variable, help)                                                                \
  {                                                                                                \
    name, 0, 0, G_OPTION_ARG_FILENAME_ARRAY, variable, help, N_ ("FILE")                           \
  }

static GOptionContext *
describe_options (Options *o)
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
    STRING ("origin", &o->origin,
            N_ ("Where the ground’s origin lies, in mm from the drawing’s top left (default: the "
                "middle of each motif)"),
            N_ ("X,Y")),
    STRING ("edge", &o->edge, N_ ("The edge: half stitch (default) or cloth stitch"), "half|cloth"),
    STRING ("edge-gap", &o->edge_gap, N_ ("Distance between the edge’s pinholes (default 2)"),
            N_ ("MM")),
    STRING ("beads", &o->beads,
            N_ ("Beads: none (default), in whole repeats, or in whole and kept ones"),
            "none|whole|kept"),
    STRING ("partial", &o->partial,
            N_ ("Partial repeats: keep their middle where it can be (default), or work all plain"),
            "auto|plain"),
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
    FILES ("report", &o->reports,
           N_ ("Write the pair-count report: .txt, .json or .csv (may be given several times)")),
    FILES ("sheet", &o->sheets,
           N_ ("Write the pricking: .pdf, .svg or .png (may be given several times)")),
    { "pins-only", 0, 0, G_OPTION_ARG_NONE, &o->pins_only,
      N_ ("Only pins and outline, for the pillow"), NULL },
    { "mirror", 0, 0, G_OPTION_ARG_NONE, &o->mirror, N_ ("Print the mirror image"), NULL },
    { "no-background", 0, 0, G_OPTION_ARG_NONE, &o->no_background,
      N_ ("Leave out the drawing’s other lines, else shown faintly"), NULL },
    STRING ("enlarge", &o->enlarge, N_ ("Print so many times as large (default 1)"), N_ ("N")),
    STRING ("paper", &o->paper, N_ ("Paper size (default A4)"), "A4|A3|Letter"),
    G_OPTION_ENTRY_NULL,
  };
  GOptionContext *context = g_option_context_new (NULL);
  g_option_context_add_main_entries (context, entries, GETTEXT_PACKAGE);
  g_option_context_set_summary (
      context,
      _ ("Fills the motifs of a drawing with a ground, and writes prickings and reports."));
  g_option_context_set_description (
      context,
      _ ("Examples:\n"
         "  pinfold-cli fill --outline leaf.svg --ground torchon --gap 4 --sheet leaf.pdf --report "
         "leaf.txt\n"
         "  pinfold-cli fill --outline leaf.svg --ground armure --gap 3 --turn 30 --edge cloth \\\n"
         "      --beads whole --sheet leaf.pdf --sheet leaf.png --enlarge 3\n"));
  return context;
}

static bool
check_required (const Options *o)
{
  if (o->outline != NULL && o->ground != NULL && o->gap != NULL)
    return true;
  pf_say_error (_ ("fill needs --outline, --ground and --gap. Try “pinfold-cli fill --help”."));
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

/* The maker's drawing and ground are never written over. */
static bool
check_outputs (const Options *o)
{
  char **const outputs[] = { o->sheets, o->reports };
  const char *const inputs[] = { o->outline, o->ground };
  for (size_t k = 0; k < G_N_ELEMENTS (outputs); k++)
    for (char **f = outputs[k]; f != NULL && *f != NULL; f++)
      for (size_t n = 0; n < G_N_ELEMENTS (inputs); n++)
        if (is_same_file (*f, inputs[n]))
          {
            pf_say_error (_ ("“%s” would be written over “%s”. Choose another name."), *f,
                          inputs[n]);
            return false;
          }
  return true;
}

/* Reads every argument; false if one can't be read. */
static bool
read_arguments (const Options *o, Job *job)
{
  static const char *const edges[] = { "half", "cloth", NULL };
  static const char *const beads[] = { "none", "whole", "kept", NULL };
  static const char *const partial[] = { "auto", "plain", NULL };
  static const char *const reports[] = { ".txt", ".json", ".csv", NULL };
  static const char *const sheets[] = { ".pdf", ".svg", ".png", NULL };
  PfFillingSettings *s = &job->settings;
  g_autoptr (GError) error = NULL;
  if (!pf_parse_number ("--gap", o->gap, &s->placement.gap) ||
      !pf_parse_number ("--turn", o->turn, &s->placement.turn) ||
      !pf_parse_point ("--origin", o->origin, &s->placement.origin) ||
      !pf_parse_choice ("--edge", o->edge, edges, &job->edge) ||
      !pf_parse_number ("--edge-gap", o->edge_gap, &job->edge_gap) ||
      !pf_parse_choice ("--beads", o->beads, beads, &job->beads) ||
      !pf_parse_choice ("--partial", o->partial, partial, &job->partial) ||
      !pf_parse_number ("--clearance", o->clearance, &s->clearance) ||
      !pf_parse_number ("--carry", o->carry, &s->carry) ||
      !pf_parse_number ("--reach", o->reach, &s->reach) ||
      !pf_parse_number ("--off-line", o->off_line, &s->off_line) ||
      !pf_parse_number ("--enlarge", o->enlarge, &job->enlarge) ||
      !check_endings (o->reports, "--report", reports) ||
      !check_endings (o->sheets, "--sheet", sheets))
    return false;
  job->paper = pf_paper_find (o->paper != NULL ? o->paper : "A4", &error);
  if (job->paper == NULL)
    pf_say_error ("%s", error->message);
  s->beads = (PfBeads) job->beads;
  s->all_plain = job->partial == 1;
  return job->paper != NULL;
}

/* The time of the work: SOURCE_DATE_EPOCH where it is set (reproducible-builds.org), so that the
 * same input gives the same bytes, else now. */
static void
find_date (Job *job)
{
  const char *epoch = g_getenv ("SOURCE_DATE_EPOCH");
  job->now = g_get_real_time () / G_USEC_PER_SEC;
  if (epoch != NULL &&
      !g_ascii_string_to_signed (epoch, 10, 0, G_GINT64_CONSTANT (253402300799), &job->now, NULL))
    g_printerr (_ ("SOURCE_DATE_EPOCH is “%s”, not a number of seconds; today’s date is used.\n"),
                epoch);
  g_autoptr (GDateTime) time = g_date_time_new_from_unix_utc (job->now);
  job->date = g_date_time_format (time, "%Y-%m-%d");
}

static PfPricking *
make_pricking (const Options *o, const Job *job, GError **error)
{
  g_autoptr (PfGround) ground = pf_ground_load (o->ground, error);
  if (ground == NULL)
    return NULL;
  PfDrawing *drawing = pf_drawing_load (o->outline, (const char *const *) o->elements, error);
  if (drawing == NULL)
    return NULL;
  g_autoptr (GPtrArray) remarks = g_ptr_array_ref (drawing->remarks);
  g_autofree char *name = g_path_get_basename (o->outline);
  if (g_str_has_suffix (name, ".svg"))
    name[strlen (name) - strlen (".svg")] = '\0';
  g_autofree char *title = g_filename_display_name (name);
  g_autoptr (PfPricking) pricking =
      pf_pricking_new (title, drawing, g_steal_pointer (&ground), (PfEdgeKind) job->edge,
                       job->edge_gap, &job->settings, o->origin != NULL, error);
  if (pricking == NULL || !pf_pricking_fill (pricking, error))
    return NULL;
  for (guint r = 0; r < remarks->len; r++)
    g_printerr ("%s: %s\n", o->outline, (const char *) g_ptr_array_index (remarks, r));
  return g_steal_pointer (&pricking);
}

static bool
save_sheets (const Options *o, const Job *job, const PfPricking *pricking, GError **error)
{
  if (o->sheets == NULL)
    return true;
  const PfSheetSettings settings = {
    .paper = job->paper,
    .enlarge = job->enlarge,
    .pins_only = o->pins_only,
    .mirror = o->mirror,
    .background = !o->no_background,
    .date = job->date,
    .created = job->now,
  };
  g_autoptr (PfSheet) sheet = pf_sheet_new (pricking, &settings, error);
  if (sheet == NULL)
    return false;
  for (char **f = o->sheets; *f != NULL; f++)
    {
      g_auto (GStrv) files = NULL;
      if (!pf_sheet_save (sheet, *f, &files, error))
        return false;
      for (char **file = files; *file != NULL; file++)
        g_print (_ ("Pricking: %s\n"), *file);
    }
  return true;
}

static bool
save_reports (const Options *o, const PfPricking *pricking, GError **error)
{
  for (char **f = o->reports; f != NULL && *f != NULL; f++)
    {
      if (!pf_report_save (pricking, *f, error))
        return false;
      g_print (_ ("Report: %s\n"), *f);
    }
  return true;
}

enum { WARNINGS_SHOWN = 5 };

static void
say_warnings (const PfPricking *pricking)
{
  for (guint m = 0; m < pricking->motifs->len; m++)
    {
      const PfMotif *motif = g_ptr_array_index (pricking->motifs, m);
      const PfFilling *filling = motif->filling;
      for (size_t w = 0; w < MIN (filling->n_warnings, WARNINGS_SHOWN); w++)
        g_printerr (_ ("Motif “%s”: %s\n"), motif->name, filling->warnings[w].text);
      if (filling->n_warnings > WARNINGS_SHOWN)
        g_printerr (g_dngettext (GETTEXT_PACKAGE,
                                 "Motif “%s”: %zu more like these; the report lists all.\n",
                                 "Motif “%s”: %zu more like these; the report lists all.\n",
                                 filling->n_warnings - WARNINGS_SHOWN),
                    motif->name, filling->n_warnings - WARNINGS_SHOWN);
    }
}

static void
say_counts (const PfPricking *pricking)
{
  const PfCounts c = pf_pricking_counts (pricking);
  const PfGround *ground = pf_pricking_ground (pricking);
  g_print (_ ("%s in %s: %zu stitches, %zu pins; %zu pairs, at most %zu at once; %zu turns, %zu "
              "carries, %zu sewings.\n"),
           ground != NULL ? ground->title : _ ("Several grounds"), pricking->title, c.stitches,
           c.pins, c.new_pairs, c.most_at_once, c.turned, c.carried, c.sewings);
}

static int
do_job (const Options *o, Job *job)
{
  g_autoptr (GError) error = NULL;
  find_date (job);
  g_autoptr (PfPricking) pricking = make_pricking (o, job, &error);
  if (pricking == NULL || !save_sheets (o, job, pricking, &error) ||
      !save_reports (o, pricking, &error))
    {
      pf_say_error ("%s", error->message);
      return PF_EXIT_BAD_INPUT;
    }
  if (o->sheets == NULL && o->reports == NULL)
    {
      g_autofree char *report = pf_report_text (pricking);
      g_print ("%s", report);
      return PF_EXIT_DONE;
    }
  say_counts (pricking);
  say_warnings (pricking);
  return PF_EXIT_DONE;
}

int
pf_fill_command (int argc, char **argv)
{
  Options options = { 0 };
  Job job = { .settings = pf_filling_settings_default (), .edge_gap = 2, .enlarge = 1 };
  g_autoptr (GOptionContext) context = describe_options (&options);
  int status = PF_EXIT_WRONG_USE;
  if (pf_parse_options (context, argc, argv) && check_required (&options) &&
      read_arguments (&options, &job) && check_outputs (&options))
    status = do_job (&options, &job);
  options_clear (&options);
  g_free (job.date);
  return status;
}
