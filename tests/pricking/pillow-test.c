/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Where the maker is at the pillow: steps found again by their names, in the same filling and in
 * others. That each has one name, and what comes before what, follows from the list of steps.
 */
#include <string.h>

#include "samples.h"

static const char *const grounds[] = { "torchon", "armure", "rose", "spider", "plait-lattice" };

static PfMotif *
motif_of (const PfDraft *draft)
{
  g_autoptr (GError) error = NULL;
  PfMotif *motif = pf_motif_new (draft, NULL, &error);
  g_assert_no_error (error);
  return motif;
}

static void
test_names (void)
{
  for (size_t g = 0; g < G_N_ELEMENTS (grounds); g++)
    for (int habits = 0; habits < 4; habits++)
      {
        g_autoptr (PfDraft) draft = sample_square ("leaf", 10, 10, 50, grounds[g]);
        draft->settings.habits.right_first = habits % 2 != 0;
        draft->settings.habits.sew_in_first = habits / 2 != 0;
        g_autoptr (PfMotif) motif = motif_of (draft);
        const PfWorkingSteps *steps = pf_motif_steps (motif);
        g_assert_cmpuint (steps->n_steps, >, 50);
        g_assert_true (steps == pf_motif_steps (motif));
        for (size_t n = 0; n < steps->n_steps; n++)
          {
            const PfStepId id = pf_working_step_id (steps, motif->filling, n);
            g_assert_cmpint (id.kind, ==, steps->steps[n].kind);
            g_assert_cmpuint (pf_working_steps_find (steps, motif->filling, id), ==, n);
          }
      }
}

/* A place through a draft, for each step. */
static void
test_place (void)
{
  g_autoptr (PfDraft) draft = sample_ring ("ring", "armure");
  g_autoptr (PfMotif) motif = motif_of (draft);
  const PfWorkingSteps *steps = pf_motif_steps (motif);
  g_assert_cmpuint (pf_pillow_position (&draft->pillow, motif), ==, 0);
  for (size_t n = 0; n < steps->n_steps; n++)
    {
      g_autoptr (PfDraft) copy = pf_draft_copy (draft);
      const PfStepId id = pf_working_step_id (steps, motif->filling, n);
      pf_draft_set_pillow (copy, PF_PILLOW_BEGUN, motif->ground, &id);
      g_assert_cmpuint (pf_pillow_position (&copy->pillow, motif), ==, n);
      pf_draft_set_pillow (copy, PF_PILLOW_DONE, NULL, NULL);
      g_assert_cmpuint (pf_pillow_position (&copy->pillow, motif), ==, steps->n_steps);
    }
}

/* The step of the same name, or else one whose stitch is worked before the missing one. */
static void
check_near (const PfMotif *motif, PfStepId id, size_t at)
{
  const PfWorkingSteps *steps = pf_motif_steps (motif);
  const size_t exact = pf_working_steps_find (steps, motif->filling, id);
  if (exact < steps->n_steps)
    {
      g_assert_cmpuint (at, ==, exact);
      return;
    }
  g_assert_cmpuint (at, <, steps->n_steps);
  const PfStitchId got = motif->filling->stitches[steps->steps[at].stitch].id;
  const PfStitchId was = id.line.stitch;
  const bool same = got.k == was.k && got.i == was.i && got.j == was.j;
  if (!same && at > 0)
    g_assert_cmpfloat (pf_ground_time (motif->ground, got.k, got.i, got.j), <=,
                       pf_ground_time (motif->ground, was.k, was.i, was.j) + 1e-9);
}

static void
test_other_gap (void)
{
  size_t kept = 0, missing = 0;
  for (size_t g = 0; g < G_N_ELEMENTS (grounds); g++)
    {
      g_autoptr (PfDraft) draft = sample_square ("leaf", 10, 10, 60, grounds[g]);
      g_autoptr (PfDraft) wider = pf_draft_copy (draft);
      wider->settings.placement.gap = 5;
      g_autoptr (PfMotif) before = motif_of (draft), after = motif_of (wider);
      const PfWorkingSteps *steps = pf_motif_steps (before);
      for (size_t n = 0; n < steps->n_steps; n++)
        {
          const PfStepId id = pf_working_step_id (steps, before->filling, n);
          pf_draft_set_pillow (wider, PF_PILLOW_BEGUN, before->ground, &id);
          check_near (after, id, pf_pillow_position (&wider->pillow, after));
          g_assert_cmpuint (pf_pillow_position (&wider->pillow, before), ==, n);
          const PfWorkingSteps *others = pf_motif_steps (after);
          const size_t found = pf_working_steps_find (others, after->filling, id);
          found < others->n_steps ? kept++ : missing++;
        }
    }
  g_assert_cmpuint (kept, >, 100);
  g_assert_cmpuint (missing, >, 100);
}

/* A repeat that is left out has its steps nowhere; the place waits just before it, and comes back
 * with it. */
static void
test_left_out (void)
{
  g_autoptr (PfDraft) draft = sample_square ("leaf", 10, 10, 50, "torchon");
  g_autoptr (PfMotif) before = motif_of (draft);
  const PfStepId id = { PF_WORK_STITCH, { { 0, 0, 1 }, PF_LEFT, false } };
  pf_draft_set_pillow (draft, PF_PILLOW_BEGUN, before->ground, &id);
  pf_draft_set_pillow_note (draft, before->ground, &id, "two twists");
  const size_t was = pf_pillow_position (&draft->pillow, before);
  const PfWorkingSteps *steps = pf_motif_steps (before);
  g_assert_cmpint (steps->steps[was].kind, ==, PF_WORK_STITCH);
  g_assert_cmpuint (pf_pillow_note_position (&draft->pillow, 0, before), ==, was);

  g_autoptr (PfDraft) without = pf_draft_copy (draft);
  pf_draft_set_repeat (without, 0, 1, PF_REPEAT_LEFT_OUT);
  g_autoptr (PfMotif) after = motif_of (without);
  const PfWorkingSteps *others = pf_motif_steps (after);
  const size_t now = pf_pillow_position (&without->pillow, after);
  g_assert_cmpuint (now, <, others->n_steps);
  check_near (after, id, now);
  g_assert_cmpuint (pf_pillow_note_position (&without->pillow, 0, after), ==, others->n_steps);
  g_assert_cmpstr (without->pillow.notes[0].text, ==, "two twists");

  pf_draft_set_repeat (without, 0, 1, PF_REPEAT_WHOLE);
  g_autoptr (PfMotif) again = motif_of (without);
  g_assert_cmpuint (pf_pillow_position (&without->pillow, again), ==, was);
  g_assert_cmpuint (pf_pillow_note_position (&without->pillow, 0, again), ==, was);
}

/* Another ground has stitches of the same names, which aren't the same steps. */
static void
test_other_ground (void)
{
  g_autoptr (PfDraft) draft = sample_square ("leaf", 10, 10, 50, "torchon");
  g_autoptr (PfGround) torchon = sample_ground ("torchon"), armure = sample_ground ("armure");
  const PfStepId id = { PF_WORK_STITCH, { { 0, 0, 1 }, PF_LEFT, false } };
  pf_draft_set_pillow (draft, PF_PILLOW_BEGUN, torchon, &id);
  pf_draft_set_pillow_note (draft, torchon, &id, "mind the pin");
  pf_draft_set_ground (draft, armure, NULL);
  g_autoptr (PfMotif) other = motif_of (draft);
  g_assert_cmpuint (pf_pillow_position (&draft->pillow, other), ==, 0);
  g_assert_cmpuint (draft->pillow.n_notes, ==, 1);
  g_assert_cmpuint (pf_pillow_note_position (&draft->pillow, 0, other), ==,
                    pf_motif_steps (other)->n_steps);
  pf_draft_set_ground (draft, torchon, NULL);
  g_autoptr (PfMotif) back = motif_of (draft);
  g_assert_cmpuint (pf_pillow_position (&draft->pillow, back), >, 0);
  g_assert_cmpuint (pf_pillow_note_position (&draft->pillow, 0, back), ==,
                    pf_pillow_position (&draft->pillow, back));
}

static void
test_notes (void)
{
  g_autoptr (PfDraft) draft = sample_square ("leaf", 10, 10, 50, "torchon");
  const PfStepId steps[] = { { PF_WORK_STITCH, { { 0, 0, 1 }, PF_LEFT, false } },
                             { PF_WORK_SEW_IN, { { 0, 0, 1 }, PF_LEFT, false } },
                             { PF_WORK_SEW_OUT, { { 0, 0, 1 }, PF_LEFT, true } } };
  for (size_t n = 0; n < G_N_ELEMENTS (steps); n++)
    pf_draft_set_pillow_note (draft, draft->ground, &steps[n], "a");
  pf_draft_set_pillow_note (draft, draft->ground, &steps[1], "b");
  g_assert_cmpuint (draft->pillow.n_notes, ==, 3);
  g_assert_cmpstr (draft->pillow.notes[1].text, ==, "b");
  pf_draft_set_pillow_note (draft, draft->ground, &steps[0], "");
  g_assert_cmpuint (draft->pillow.n_notes, ==, 2);
  g_assert_cmpstr (draft->pillow.notes[0].text, ==, "b");
  pf_draft_remove_pillow_note (draft, 0);
  g_assert_cmpstr (draft->pillow.notes[0].text, ==, "a");
}

/* Each half of a mirrored pair is worked by itself. */
static void
test_image (void)
{
  g_autoptr (PfDocument) document = sample_document ();
  const int image = 2;
  g_assert_nonnull (document->drafts[image]->mirror_of);
  g_autoptr (PfDraft) whole = pf_document_resolve (document, (size_t) image);
  g_autoptr (PfMotif) motif = motif_of (whole);
  const PfStepId id = pf_working_step_id (pf_motif_steps (motif), motif->filling, 40);
  PfDraft *copy = pf_draft_copy (document->drafts[image]);
  pf_draft_set_pillow (copy, PF_PILLOW_BEGUN, motif->ground, &id);
  pf_draft_set_pillow_note (copy, motif->ground, &id, "so");
  g_assert_true (pf_draft_works_alike (copy, document->drafts[image]));
  g_autoptr (PfDocument) with = pf_document_with_draft (document, (size_t) image, copy);
  g_autoptr (PfDraft) resolved = pf_document_resolve (with, (size_t) image);
  g_assert_cmpuint (pf_pillow_position (&resolved->pillow, motif), ==, 40);
  g_assert_cmpint (with->drafts[1]->pillow.state, ==, PF_PILLOW_NOT_BEGUN);

  gsize n;
  g_autofree char *json = pf_document_to_json (with, NULL, &n);
  g_autoptr (GError) error = NULL;
  g_autoptr (PfDocument) read = pf_document_parse (json, n, "piece", NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (pf_pillow_position (&read->drafts[image]->pillow, motif), ==, 40);
  g_assert_cmpstr (read->drafts[image]->pillow.notes[0].text, ==, "so");
  g_autofree char *again = pf_document_to_json (read, NULL, NULL);
  g_assert_cmpstr (again, ==, json);
}

/* What is worked out is kept through steps at the pillow, and through nothing else. */
static void
test_alike (void)
{
  g_autoptr (PfDraft) draft = sample_ring ("ring", "armure");
  PfDraft *copies[6];
  const double pinhole = 1;
  for (size_t n = 0; n < G_N_ELEMENTS (copies); n++)
    {
      copies[n] = pf_draft_copy (draft);
      g_assert_true (pf_draft_works_alike (draft, copies[n]));
    }
  pf_draft_set_name (copies[0], "other");
  copies[1]->settings.placement.gap += 1;
  pf_draft_set_repeat (copies[2], 0, 0, PF_REPEAT_PLAIN);
  pf_draft_set_pinholes (copies[3], 1, &pinhole, 1);
  copies[4]->thread.wraps_per_cm = 30;
  copies[5]->settings.habits.sew_in_first = true;
  for (size_t n = 0; n < G_N_ELEMENTS (copies); n++)
    g_assert_false (pf_draft_works_alike (draft, copies[n]));
  for (size_t n = 0; n < G_N_ELEMENTS (copies); n++)
    g_clear_pointer (&copies[n], pf_draft_unref);
}

static void
test_broken (void)
{
  static const struct {
    const char *pillow, *error;
  } rows[] = {
    { "{'state': 'begun'}", "*“at”*" },
    { "{'state': 'done', 'at': {'step': 'stitch', 'stitch': '1'}}", "*“at”*" },
    { "{'state': 'begun', 'at': {'step': 'knit', 'stitch': '1'}}", "*must be one of*" },
    { "{'state': 'begun', 'at': {'stitch': '1'}}", "*“step” is missing*" },
    { "{'state': 'begun', 'at': {'step': 'stitch'}}", "*“stitch”*" },
    { "{'state': 'begun', 'at': {'step': 'stitch', 'stitch': '1', 'leaves': true}}", "*leaves*" },
    { "{'notes': [{'step': 'stitch', 'stitch': '1', 'txt': ''}]}", "*txt*" },
  };
  for (size_t r = 0; r < G_N_ELEMENTS (rows); r++)
    {
      g_autofree char *text =
          g_strdup_printf ("{'format': 'pinfold', 'version': 1, 'motifs': [{'id': 'm1', 'curves': "
                           "[{'path': ['M 0 0', 'L 9 0', 'L 9 9', 'Z']}], 'pillow': %s}]}",
                           rows[r].pillow);
      g_strdelimit (text, "'", '"');
      g_autoptr (GError) error = NULL;
      g_autoptr (PfDocument) read = pf_document_parse (text, strlen (text), "piece", NULL, &error);
      g_assert_null (read);
      g_assert_error (error, PF_ERROR, PF_ERROR_FILE);
      g_test_message ("%s", error->message);
      g_assert_true (g_pattern_match_simple (rows[r].error, error->message));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/pillow/names", test_names);
  g_test_add_func ("/pillow/place", test_place);
  g_test_add_func ("/pillow/other-gap", test_other_gap);
  g_test_add_func ("/pillow/left-out", test_left_out);
  g_test_add_func ("/pillow/other-ground", test_other_ground);
  g_test_add_func ("/pillow/notes", test_notes);
  g_test_add_func ("/pillow/image", test_image);
  g_test_add_func ("/pillow/alike", test_alike);
  g_test_add_func ("/pillow/broken", test_broken);
  return g_test_run ();
}
