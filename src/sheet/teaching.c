/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Sets the working notes.
 *
 * In a drawing pairs are numbered for themselves, as the same drawing stands for several repeats; a
 * table below it says which pair of the motif each is, and where it is sewn, repeat by repeat.
 */
#include "teaching.h"

#include <glib/gi18n-lib.h>

#include "notes.h"
#include "repeat-drawing.h"

#define PICTURE_WIDTH 92.0 /* at most, with the steps beside it, ... */
#define PICTURE_HEIGHT 120.0
#define MANY_STITCHES 24 /* ... unless so many are worked that they need the whole page */
#define SHORT_TABLE 4    /* rows */

char *
pf_kind_letters (guint32 n)
{
  GString *letters = g_string_new (NULL);
  for (n++; n > 0; n = (n - 1) / 26)
    g_string_prepend_c (letters, (char) ('A' + (n - 1) % 26));
  return g_string_free (letters, FALSE);
}

/* --- Grounds ------------------------------------------------------------------------------------
 */

static const PfMotif *
motif_of (const PfPricking *pricking, guint m)
{
  return g_ptr_array_index (pricking->motifs, m);
}

static bool
is_known (const PfPricking *pricking, guint m)
{
  for (guint before = 0; before < m; before++)
    if (pf_ground_equal (motif_of (pricking, before)->ground, motif_of (pricking, m)->ground))
      return true;
  return false;
}

static void
add_ground (PfFlow *flow, const PfGround *ground)
{
  g_autofree char *heading = g_strdup_printf (_ ("How to work one repeat: %s"), ground->title);
  pf_flow_heading (flow, 2, heading);
  g_auto (GStrv) steps = pf_ground_working (ground);
  for (guint s = 0; steps[s] != NULL; s++)
    {
      g_autofree char *number = g_strdup_printf ("%u.", s + 1);
      pf_flow_item (flow, number, steps[s]);
    }
  if (ground->notes != NULL && *ground->notes != '\0')
    pf_flow_caption (flow, ground->notes);
}

static void
add_beginning (PfFlow *flow, const PfPricking *pricking)
{
  g_auto (GStrv) habits = pf_explain_sewing_habits ();
  for (guint m = 0; m < pricking->motifs->len; m++)
    if (!is_known (pricking, m))
      add_ground (flow, motif_of (pricking, m)->ground);
  pf_flow_heading (flow, 2, _ ("At the edge"));
  for (char **sentence = habits; *sentence != NULL; sentence++)
    pf_flow_bullet (flow, *sentence);
}

/* --- Kinds --------------------------------------------------------------------------------------
 */

static const PfWorkedRepeat *
first_of (const PfNotes *notes, guint32 kind)
{
  return &notes->kinds->repeats[notes->kinds->kinds[kind].repeats[0]];
}

static char *
kind_heading (const PfNotes *notes, guint32 k)
{
  const PfRepeatKind *kind = &notes->kinds->kinds[k];
  g_autofree char *letters = pf_kind_letters (k);
  GString *numbers = g_string_new (NULL);
  for (size_t n = 0; n < MIN (kind->n_repeats, 12); n++)
    g_string_append_printf (numbers, "%s%u", n > 0 ? ", " : "", kind->repeats[n] + 1);
  if (kind->n_repeats > 12)
    g_string_append (numbers, ", …");
  char *heading = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "Kind %s: repeat %s",
                                                "Kind %s: repeats %s", (gulong) kind->n_repeats),
                                   letters, numbers->str);
  g_string_free (numbers, TRUE);
  return heading;
}

/* Steps as the lines beside a drawing; on a worksheet, lines to be filled in. */
static GPtrArray *
step_lines (const PfNotes *notes, const PfRepeatWork *work)
{
  const PfStepNames names = pf_repeat_work_names (work);
  GPtrArray *lines = g_ptr_array_new_with_free_func (g_free);
  for (guint s = 0; s < work->steps->len; s++)
    g_ptr_array_add (lines, pf_explain_step (notes->motif->filling, notes->motif->ground,
                                             &g_array_index (work->steps, PfWorkStep, s), &names));
  return lines;
}

/* Room for each of them. */
static GPtrArray *
empty_lines (const PfRepeatWork *work)
{
  GPtrArray *lines = g_ptr_array_new_with_free_func (g_free);
  for (guint n = 0; n < work->steps->len; n++)
    g_ptr_array_add (lines, g_strdup ("____________________"));
  return lines;
}

static guint
n_stitches_of (const PfRepeatWork *work)
{
  guint n = 0;
  for (guint s = 0; s < work->steps->len; s++)
    n += g_array_index (work->steps, PfWorkStep, s).kind == PF_WORK_STITCH;
  return n;
}

static void
add_picture (const PfNotes *notes, PfRepeatWork *work, const PfWorkedRepeat *repeat)
{
  const bool worksheet = notes->what == PF_TEACHING_WORKSHEET;
  const bool large = n_stitches_of (work) > MANY_STITCHES;
  g_autoptr (GPtrArray) lines = worksheet ? empty_lines (work) : step_lines (notes, work);
  PfRepeatPicture *picture =
      pf_repeat_picture_new (notes->motif, work, repeat->i, repeat->j,
                             (PfRepeatLook){ .worksheet = worksheet, .colour = notes->colour },
                             large ? pf_flow_width (notes->flow) : PICTURE_WIDTH,
                             large ? 0.75 * pf_flow_height (notes->flow) : PICTURE_HEIGHT);
  g_autofree PfFlowText *beside = g_new0 (PfFlowText, lines->len);
  g_autoptr (GPtrArray) numbers = g_ptr_array_new_with_free_func (g_free);
  for (guint n = 0; n < lines->len; n++)
    {
      g_ptr_array_add (numbers, g_strdup_printf ("%u.", n + 1));
      beside[n] = (PfFlowText){ g_ptr_array_index (numbers, n), g_ptr_array_index (lines, n) };
    }
  double width, height;
  pf_repeat_picture_size (picture, &width, &height);
  pf_flow_box (notes->flow, &(PfFlowBox){ .width = width,
                                          .height = height,
                                          .draw = pf_repeat_picture_draw,
                                          .data = picture,
                                          .destroy = (GDestroyNotify) pf_repeat_picture_free,
                                          .caption = pf_repeat_picture_left_out (picture),
                                          .beside = beside,
                                          .n_beside = lines->len });
}

static void
add_kind (const PfNotes *notes, guint32 k)
{
  const PfWorkedRepeat *repeat = first_of (notes, k);
  const PfFilling *filling = notes->motif->filling;
  const PfGround *ground = notes->motif->ground;
  PfRepeatWork *work = pf_repeat_work_new (filling, ground, notes->steps, repeat->i, repeat->j);
  g_autofree char *heading = kind_heading (notes, k);
  g_autofree char *difference = pf_explain_difference (filling, ground, repeat->i, repeat->j);
  pf_flow_keep_begin (notes->flow);
  pf_flow_heading (notes->flow, 3, heading);
  pf_flow_paragraph (notes->flow, difference);
  if (notes->what == PF_TEACHING_NOTES)
    {
      g_auto (GStrv) origins = pf_explain_origins (filling, ground, work, repeat->i, repeat->j);
      g_autofree char *joined = g_strjoinv (" ", origins);
      if (*joined != '\0')
        pf_flow_paragraph (notes->flow, joined);
    }
  add_picture (notes, work, repeat);
  /* A short table stays with its drawing, too. */
  const bool is_short = notes->kinds->kinds[k].n_repeats <= SHORT_TABLE;
  if (!is_short)
    pf_flow_keep_end (notes->flow);
  if (notes->what == PF_TEACHING_NOTES)
    pf_kind_table_add (notes->flow, notes->motif, notes->kinds, notes->steps, k);
  if (is_short)
    pf_flow_keep_end (notes->flow);
}

static void
add_motif (PfFlow *flow, const PfMotif *motif, PfTeaching what, bool colour, bool several)
{
  g_autoptr (PfWorkingSteps) steps = pf_working_steps_new (motif->filling, motif->ground);
  g_autoptr (PfRepeatKinds) kinds = pf_repeat_kinds_new (motif->filling, motif->ground, steps);
  const PfNotes notes = { flow, motif, steps, kinds, what, colour };
  g_autofree char *heading = several ? g_strdup_printf (_ ("Motif “%s”"), motif->name)
                                     : g_strdup (_ ("The order of work"));
  if (what == PF_TEACHING_NOTES || several)
    pf_flow_heading (flow, 2, heading);
  if (what == PF_TEACHING_NOTES)
    pf_notes_add_order (&notes);
  for (guint32 k = 0; k < kinds->n_kinds; k++)
    add_kind (&notes, k);
}

void
pf_teaching_add (PfFlow *flow, const PfPricking *pricking, PfTeaching what, bool colour)
{
  const char *const headings[] = { _ ("Working notes"), _ ("Worksheet"), _ ("Answers") };
  pf_flow_heading (flow, 1, headings[what]);
  if (what == PF_TEACHING_NOTES)
    add_beginning (flow, pricking);
  if (what == PF_TEACHING_WORKSHEET)
    pf_flow_paragraph (
        flow, _ ("For each kind of repeat, draw the way of every pair, mark where it is sewn in "
                 "or out and where it turns, and write down the steps."));
  if (what != PF_TEACHING_NOTES)
    pf_flow_paragraph (flow, pf_explain_pair_numbers ());
  for (guint m = 0; m < pricking->motifs->len; m++)
    add_motif (flow, motif_of (pricking, m), what, colour, pricking->motifs->len > 1);
}
