/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * pinfold-cli fill: an outline or a document in, prickings and reports out.
 */
#include "fill-options.h"

#include <string.h>

#include <glib/gi18n.h>

/* What the options mean. */
typedef struct {
  PfFillingSettings settings;
  int edge, beads, partial, first, work_by, sew_in;
  double edge_gap;
  PfPageSetup page;
  PfPoint rules; /* as measured: along the short side, along the long */
  PfBox part;    /* of the close-up */
  PfThreadUse thread;
  gint64 now;
  char *date;
} Job;

/* What the options say of the page, over what it is. */
static bool
choose_page (const PfFillOptions *o, PfPageSetup *page)
{
  g_autoptr (GError) error = NULL;
  if (!pf_parse_number ("--enlarge", o->enlarge, &page->enlarge))
    return false;
  if (o->paper != NULL)
    page->paper = pf_paper_find (o->paper, &error);
  if (page->paper == NULL)
    pf_say_error ("%s", error->message);
  page->pins_only = page->pins_only || o->pins_only;
  page->mirror = page->mirror || o->mirror;
  page->background = page->background && !o->no_background;
  return page->paper != NULL;
}

/* What the options say of the thread. */
static bool
choose_thread (const PfFillOptions *o, PfThreadUse *use)
{
  g_autoptr (GError) error = NULL;
  const PfThreadKind *kind = NULL;
  if (o->thread != NULL && o->wraps != NULL)
    {
      pf_say_error (_ ("--thread says how thick it is: leave --wraps out, or --thread."));
      return false;
    }
  if (!pf_parse_number ("--wraps", o->wraps, &use->wraps_per_cm) ||
      !pf_parse_number ("--spare", o->spare, &use->spare))
    return false;
  if (o->thread != NULL && (kind = pf_thread_find (o->thread, &error)) == NULL)
    {
      pf_say_error ("%s", error->message);
      return false;
    }
  if (kind != NULL)
    {
      g_free (use->name);
      use->name = g_strdup (kind->name);
      use->wraps_per_cm = kind->wraps_per_cm;
    }
  return true;
}

/* What the options say of the book: its parts by name, with commas between. */
static bool
choose_contents (const PfFillOptions *o, PfPageSetup *page)
{
  page->pair_colours = page->pair_colours || o->pair_colours;
  if (o->contents == NULL)
    return true;
  /* An empty text has no parts, but a book has some. */
  g_auto (GStrv) parts = g_strsplit (*o->contents != '\0' ? o->contents : ",", ",", -1);
  page->parts = 0;
  for (char **part = parts; *part != NULL; part++)
    {
      int n = 0;
      if (!pf_parse_choice ("--contents", *part, pf_book_part_names (), &n))
        return false;
      page->parts |= (PfBookParts) (1 << n);
    }
  return true;
}

/* Reads every argument; false if one can't be read. */
static bool
read_arguments (const PfFillOptions *o, Job *job)
{
  static const char *const edges[] = { "half", "cloth", NULL };
  static const char *const beads[] = { "none", "whole", "kept", NULL };
  static const char *const partial[] = { "auto", "plain", NULL };
  static const char *const firsts[] = { "left", "right", NULL };
  static const char *const ways[] = { "repeat", "row", NULL };
  static const char *const times[] = { "needed", "first", NULL };
  PfFillingSettings *s = &job->settings;
  if (!pf_parse_number ("--gap", o->gap, &s->placement.gap) ||
      !pf_parse_number ("--turn", o->turn, &s->placement.turn) ||
      !pf_parse_number ("--angle", o->angle, &s->placement.angle) ||
      !pf_parse_box ("--part", o->part, &job->part) ||
      !pf_parse_point ("--origin", o->origin, &s->placement.origin) ||
      !pf_parse_choice ("--edge", o->edge, edges, &job->edge) ||
      !pf_parse_number ("--edge-gap", o->edge_gap, &job->edge_gap) ||
      !pf_parse_choice ("--beads", o->beads, beads, &job->beads) ||
      !pf_parse_choice ("--partial", o->partial, partial, &job->partial) ||
      !pf_parse_choice ("--first", o->first, firsts, &job->first) ||
      !pf_parse_choice ("--work-by", o->work_by, ways, &job->work_by) ||
      !pf_parse_choice ("--sew-in", o->sew_in, times, &job->sew_in) ||
      !pf_parse_number ("--clearance", o->clearance, &s->clearance) ||
      !pf_parse_number ("--carry", o->carry, &s->carry) ||
      !pf_parse_number ("--reach", o->reach, &s->reach) ||
      !pf_parse_number ("--off-line", o->off_line, &s->off_line))
    return false;
  s->beads = (PfBeads) job->beads;
  s->all_plain = job->partial == 1;
  s->habits = (PfWorkingHabits){ job->first == 1, (PfWorkBy) job->work_by, job->sew_in == 1 };
  return pf_parse_point ("--rules", o->rules, &job->rules) && choose_contents (o, &job->page) &&
         choose_thread (o, &job->thread) && choose_page (o, &job->page);
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
make_pricking (const PfFillOptions *o, const Job *job, GError **error)
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
  if (pricking == NULL || !pf_thread_use_check (&job->thread, error) ||
      !pf_pricking_fill (pricking, error))
    return NULL;
  pf_pricking_set_thread (pricking, &job->thread);
  for (guint r = 0; r < remarks->len; r++)
    g_printerr ("%s: %s\n", o->outline, (const char *) g_ptr_array_index (remarks, r));
  return g_steal_pointer (&pricking);
}

/* The document as it was saved, with all the maker's choices. Its page is the job's, but for what
 * the options say. */
static PfPricking *
fill_document (const PfFillOptions *o, Job *job, GError **error)
{
  g_autoptr (PfDocument) document = pf_document_load (o->document, error);
  if (document == NULL)
    return NULL;
  job->page = document->page;
  choose_page (o, &job->page); /* read before: nothing is wrong with them */
  choose_contents (o, &job->page);
  g_autoptr (PfPricking) pricking = pf_document_fill (document, error);
  if (pricking == NULL)
    g_prefix_error (error, "%s: ", o->document);
  else if (pricking->motifs->len > 0)
    return g_steal_pointer (&pricking);
  else
    g_set_error (error, PF_ERROR, PF_ERROR_FILE,
                 _ ("%s: no motif has a ground yet. Open it in Pinfold and choose one."),
                 o->document);
  return NULL;
}

static PfSheetSettings
sheet_settings (const Job *job)
{
  return (PfSheetSettings){
    .paper = job->page.paper,
    .enlarge = job->page.enlarge,
    .pins_only = job->page.pins_only,
    .mirror = job->page.mirror,
    .background = job->page.background,
    .edge_strip = job->page.edge_strip,
    .date = job->date,
    .created = job->now,
    .printer = { job->rules.x, job->rules.y },
  };
}

static bool
save_sheets (const PfFillOptions *o, const Job *job, const PfPricking *pricking, GError **error)
{
  if (o->sheets == NULL)
    return true;
  const PfSheetSettings settings = sheet_settings (job);
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
save_close_ups (const PfFillOptions *o, const Job *job, const PfPricking *pricking, GError **error)
{
  const PfBox *part = o->part != NULL ? &job->part : NULL;
  for (char **f = o->close_ups; f != NULL && *f != NULL; f++)
    {
      if (!pf_close_up_save (pricking, part, job->now, *f, error))
        return false;
      g_print (_ ("Close-up: %s\n"), *f);
    }
  return true;
}

static bool
save_reports (const PfFillOptions *o, const Job *job, const PfPricking *pricking, GError **error)
{
  for (char **f = o->reports; f != NULL && *f != NULL; f++)
    {
      if (!pf_report_save_on (pricking, job->page.paper, job->now, *f, error))
        return false;
      g_print (_ ("Report: %s\n"), *f);
    }
  return true;
}

static bool
save_books (const PfFillOptions *o, const Job *job, const PfPricking *pricking, GError **error)
{
  if (o->books == NULL)
    return true;
  const PfSheetSettings settings = sheet_settings (job);
  g_autoptr (PfBook) book =
      pf_book_new (pricking, job->page.parts, &settings, job->page.pair_colours, error);
  for (char **f = o->books; book != NULL && *f != NULL; f++)
    {
      if (!pf_book_save (book, *f, error))
        return false;
      g_print (_ ("Book: %s\n"), *f);
    }
  return book != NULL;
}

static bool
save_steps (const PfFillOptions *o, const PfPricking *pricking, GError **error)
{
  for (char **f = o->steps; f != NULL && *f != NULL; f++)
    {
      if (!pf_steps_save (pricking, *f, error))
        return false;
      g_print (_ ("Working steps: %s\n"), *f);
    }
  return true;
}

/* Choices that can't be kept to: each is told, as nothing else says that the work differs. */
static void
say_unheeded (const PfMotif *motif)
{
  for (size_t k = 0; k < motif->filling->n_unheeded; k++)
    g_printerr (_ ("Motif “%s”: %s\n"), motif->name, motif->filling->unheeded[k].why);
}

enum { WARNINGS_SHOWN = 5 };

static void
say_warnings (const PfPricking *pricking)
{
  for (guint m = 0; m < pricking->motifs->len; m++)
    {
      const PfMotif *motif = g_ptr_array_index (pricking->motifs, m);
      const PfFilling *filling = motif->filling;
      say_unheeded (motif);
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
say_counts (const PfPricking *pricking, const char *name)
{
  const PfCounts c = pf_pricking_counts (pricking);
  const PfGround *ground = pf_pricking_ground (pricking);
  g_print (_ ("%s in %s: %zu stitches, %zu pins; %zu pairs, at most %zu at once; %zu turns, %zu "
              "carries, %zu sewings.\n"),
           ground != NULL ? ground->title : _ ("Several grounds"),
           *pricking->title != '\0' ? pricking->title : name, c.stitches, c.pins, c.new_pairs,
           c.most_at_once, c.turned, c.carried, c.sewings);
}

static int
do_job (const PfFillOptions *o, Job *job)
{
  g_autoptr (GError) error = NULL;
  find_date (job);
  g_autoptr (PfPricking) pricking =
      o->document != NULL ? fill_document (o, job, &error) : make_pricking (o, job, &error);
  if (pricking == NULL || !save_sheets (o, job, pricking, &error) ||
      !save_close_ups (o, job, pricking, &error) || !save_reports (o, job, pricking, &error) ||
      !save_books (o, job, pricking, &error) || !save_steps (o, pricking, &error))
    {
      pf_say_error ("%s", error->message);
      return PF_EXIT_BAD_INPUT;
    }
  if (o->sheets == NULL && o->reports == NULL && o->close_ups == NULL && o->books == NULL &&
      o->steps == NULL)
    {
      g_autofree char *report = pf_report_text (pricking);
      g_print ("%s", report);
      return PF_EXIT_DONE;
    }
  say_counts (pricking, o->document != NULL ? o->document : o->outline);
  say_warnings (pricking);
  return PF_EXIT_DONE;
}

int
pf_fill_command (int argc, char **argv)
{
  PfFillOptions options = { 0 };
  Job job = { .settings = pf_filling_settings_default (),
              .thread = pf_thread_use_default (),
              .edge_gap = 2,
              .rules = { PF_RULE_LENGTH, PF_RULE_LENGTH } };
  job.page = (PfPageSetup){ pf_paper_find ("A4", NULL), .enlarge = 1, .background = true,
                            .parts = PF_BOOK_PRICKING | PF_BOOK_NOTES | PF_BOOK_REPORT };
  int status = PF_EXIT_WRONG_USE;
  if (pf_fill_options_parse (&options, argc, argv) && read_arguments (&options, &job))
    status = do_job (&options, &job);
  pf_fill_options_clear (&options);
  pf_thread_use_clear (&job.thread);
  g_free (job.date);
  return status;
}
