/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A motif is known by the draft it was made from and those that one follows, which never change. It
 * is as good for others that would be worked out alike: those in which the maker has only gone on
 * at the pillow.
 */
#include "working.h"

#include <math.h>

/* Fillings of more stitches than this, about, go to a thread: some 20 ms of work. */
#define STITCHES_AT_ONCE 30000.0
/* So many threads at most. What waits may be out of date before its turn, and is never begun. */
#define MAX_RUNNING 2

typedef struct {
  gatomicrefcount refs; /* the list and the thread that works on it share it */
  GPtrArray *chain;     /* of PfDraft: the one it is made from, and those that one follows */
  PfMotif *motif;
  char *trouble;
  PfPoint where;
  PfDraft *waiting; /* to be worked out when a thread is free */
  bool in_work;     /* waiting, or in a thread */
} Worked;

struct PfWorking {
  GPtrArray *list; /* of Worked, one for each draft */
  int running;
  void (*done) (gpointer data);
  gpointer data;
  GCancellable *closing;
};

/* What a thread works on, and where the result goes. */
typedef struct {
  Worked *worked;
  PfDraft *resolved;
  PfWorking *working; /* not looked at once `closing` is cancelled */
  PfMotif *motif;
  GError *error;
  PfPoint where;
} Job;

static void
worked_unref (Worked *worked)
{
  if (!g_atomic_ref_count_dec (&worked->refs))
    return;
  g_ptr_array_unref (worked->chain);
  g_clear_pointer (&worked->waiting, pf_draft_unref);
  pf_motif_unref (worked->motif);
  g_free (worked->trouble);
  g_free (worked);
}

/* Takes over `chain`. */
static Worked *
worked_new (GPtrArray *chain)
{
  Worked *worked = g_new0 (Worked, 1);
  g_atomic_ref_count_init (&worked->refs);
  worked->chain = chain;
  return worked;
}

static void
job_free (gpointer data)
{
  Job *job = data;
  worked_unref (job->worked);
  pf_draft_unref (job->resolved);
  pf_motif_unref (job->motif);
  g_clear_error (&job->error);
  g_free (job);
}

PfWorking *
pf_working_new (void (*done) (gpointer data), gpointer data)
{
  PfWorking *working = g_new0 (PfWorking, 1);
  working->list = g_ptr_array_new_with_free_func ((GDestroyNotify) worked_unref);
  working->done = done;
  working->data = data;
  working->closing = g_cancellable_new ();
  return working;
}

void
pf_working_free (PfWorking *working)
{
  g_cancellable_cancel (working->closing);
  g_object_unref (working->closing);
  g_ptr_array_unref (working->list);
  g_free (working);
}

static void
take_result (Worked *worked, PfMotif *motif, GError *error, PfPoint where)
{
  worked->in_work = false;
  worked->motif = motif;
  worked->trouble = error != NULL ? g_strdup (error->message) : NULL;
  worked->where = where;
}

static void
work_in_thread (GTask *task, gpointer source G_GNUC_UNUSED, gpointer data,
                GCancellable *cancellable G_GNUC_UNUSED)
{
  Job *job = data;
  job->motif = pf_motif_new (job->resolved, &job->where, &job->error);
  g_task_return_boolean (task, TRUE);
}

static void start_waiting (PfWorking *working);

static void
thread_done (GObject *source G_GNUC_UNUSED, GAsyncResult *result, gpointer data)
{
  GTask *task = G_TASK (result);
  Job *job = data;
  if (g_cancellable_is_cancelled (g_task_get_cancellable (task)))
    return;
  PfWorking *working = job->working;
  take_result (job->worked, g_steal_pointer (&job->motif), job->error, job->where);
  working->running--;
  start_waiting (working);
  working->done (working->data);
}

static void
start_thread (PfWorking *working, Worked *worked)
{
  g_atomic_ref_count_inc (&worked->refs);
  Job *job = g_new0 (Job, 1);
  job->worked = worked;
  job->resolved = g_steal_pointer (&worked->waiting);
  job->working = working;
  job->where = (PfPoint){ NAN, NAN };
  working->running++;
  g_autoptr (GTask) task = g_task_new (NULL, working->closing, thread_done, job);
  g_task_set_task_data (task, job, job_free);
  g_task_run_in_thread (task, work_in_thread);
}

static void
start_waiting (PfWorking *working)
{
  for (guint n = 0; n < working->list->len && working->running < MAX_RUNNING; n++)
    {
      Worked *worked = g_ptr_array_index (working->list, n);
      if (worked->waiting != NULL)
        start_thread (working, worked);
    }
}

/* About how many stitches the filling will have: no more than pins at every gap in the box. */
static double
guess_stitches (const PfDraft *draft)
{
  if (draft->ground == NULL || draft->n_curves == 0)
    return 0;
  const PfBox box = pf_curve_box (draft->curves[0]);
  const double gap = fmax (draft->settings.placement.gap, PF_GAP_MIN);
  return 2 * (box.max.x - box.min.x) * (box.max.y - box.min.y) / (gap * gap);
}

/* Takes over `resolved`. */
static void
work_out (Worked *worked, PfDraft *resolved)
{
  if (guess_stitches (resolved) > STITCHES_AT_ONCE)
    {
      worked->in_work = true;
      worked->waiting = resolved;
      return;
    }
  g_autoptr (GError) error = NULL;
  PfPoint where = { NAN, NAN };
  PfMotif *motif = pf_motif_new (resolved, &where, &error);
  take_result (worked, motif, error, where);
  pf_draft_unref (resolved);
}

static bool
works_alike (const GPtrArray *a, const GPtrArray *b)
{
  if (a->len != b->len)
    return false;
  for (guint n = 0; n < a->len; n++)
    if (!pf_draft_works_alike (g_ptr_array_index (a, n), g_ptr_array_index (b, n)))
      return false;
  return true;
}

static Worked *
find_worked (const PfWorking *working, const GPtrArray *chain)
{
  for (guint n = 0; n < working->list->len; n++)
    {
      Worked *worked = g_ptr_array_index (working->list, n);
      if (works_alike (worked->chain, chain))
        return worked;
    }
  return NULL;
}

/* Draft n and those that it follows, referenced. */
static GPtrArray *
find_chain (const PfDocument *document, size_t n)
{
  GPtrArray *chain = g_ptr_array_new_with_free_func ((GDestroyNotify) pf_draft_unref);
  for (int at = (int) n; at >= 0 && chain->len <= document->n_drafts;)
    {
      PfDraft *draft = document->drafts[at];
      g_ptr_array_add (chain, pf_draft_ref (draft));
      at = draft->mirror_of != NULL ? pf_document_find (document, draft->mirror_of) : -1;
    }
  return chain;
}

void
pf_working_set_document (PfWorking *working, const PfDocument *document)
{
  GPtrArray *list = g_ptr_array_new_with_free_func ((GDestroyNotify) worked_unref);
  for (size_t n = 0; n < document->n_drafts; n++)
    {
      GPtrArray *chain = find_chain (document, n);
      Worked *worked = find_worked (working, chain);
      if (worked != NULL)
        {
          g_ptr_array_unref (worked->chain);
          worked->chain = chain;
          g_atomic_ref_count_inc (&worked->refs);
        }
      else
        {
          worked = worked_new (chain);
          work_out (worked, pf_document_resolve (document, n));
        }
      g_ptr_array_add (list, worked);
    }
  g_ptr_array_unref (working->list);
  working->list = list;
  start_waiting (working);
}

const PfMotif *
pf_working_motif (const PfWorking *working, size_t n)
{
  return n < working->list->len ? ((Worked *) g_ptr_array_index (working->list, n))->motif : NULL;
}

const char *
pf_working_trouble (const PfWorking *working, size_t n, PfPoint *where)
{
  if (n >= working->list->len)
    return NULL;
  const Worked *worked = g_ptr_array_index (working->list, n);
  if (where != NULL)
    *where = worked->where;
  return worked->trouble;
}

bool
pf_working_busy (const PfWorking *working)
{
  for (guint n = 0; n < working->list->len; n++)
    if (((Worked *) g_ptr_array_index (working->list, n))->in_work)
      return true;
  return false;
}

GPtrArray *
pf_working_motifs (const PfWorking *working, bool filled)
{
  GPtrArray *motifs = g_ptr_array_new_with_free_func ((GDestroyNotify) pf_motif_unref);
  for (guint n = 0; n < working->list->len; n++)
    {
      PfMotif *motif = ((Worked *) g_ptr_array_index (working->list, n))->motif;
      if (motif != NULL && (!filled || motif->filling != NULL))
        g_ptr_array_add (motifs, pf_motif_ref (motif));
    }
  return motifs;
}
