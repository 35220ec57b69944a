/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Journals: unsaved work, written by a thread of its own soon after each change.
 *
 * The thread takes the newest document and writes it whole; changes that come meanwhile wait for
 * the next turn. A file is whole at every moment (pf_file_save()), and a document never changes, so
 * nothing but a few fields is shared, under one lock. What can't be written is tried again.
 */
#include <errno.h>
#include <unistd.h>

#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>

#include "journal-file.h"

#define WAIT (300 * G_TIME_SPAN_MILLISECOND) /* leaves 200 ms of the promised 500 to write in */
#define WAIT_AGAIN (5 * G_TIME_SPAN_SECOND)

struct PfJournal {
  char *path;
  int lock; /* the open file that holds the lock */
  GThread *thread;
  GMutex mutex; /* of all that follows */
  GCond cond;
  char *filename;
  PfDocument *document; /* unsaved; NULL: nothing is */
  bool waiting;         /* something is to be written or removed at `due` */
  gint64 due;           /* monotonic time */
  bool running;         /* a turn of the thread */
  guint64 turns;        /* of the thread that are over */
  GError *error;        /* of the last turn that failed since the last flush */
  bool ended;
};

/* Without the lock: writes or removes the file. */
static bool
take_turn (const char *path, const PfDocument *document, const char *filename, GError **error)
{
  if (document)
    return pf_journal_file_save (path, document, filename, error);
  if (g_unlink (path) == 0 || errno == ENOENT)
    return true;
  g_set_error (error, PF_ERROR, PF_ERROR_FILE, _ ("“%s” can’t be removed: %s."), path,
               g_strerror (errno));
  return false;
}

/* With the lock, which is let go while the disk is busy. */
static void
run_turn (PfJournal *journal)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (PfDocument) document = journal->document ? pf_document_ref (journal->document) : NULL;
  g_autofree char *filename = g_strdup (journal->filename);
  journal->waiting = false;
  journal->running = true;
  g_mutex_unlock (&journal->mutex);
  const bool done = take_turn (journal->path, document, filename, &error);
  g_mutex_lock (&journal->mutex);
  journal->running = false;
  journal->turns++;
  if (!done)
    {
      g_clear_error (&journal->error);
      journal->error = g_steal_pointer (&error);
      if (!journal->waiting)
        {
          journal->waiting = true;
          journal->due = g_get_monotonic_time () + WAIT_AGAIN;
        }
    }
  g_cond_broadcast (&journal->cond);
}

static gpointer
write_turns (gpointer data)
{
  PfJournal *journal = data;
  g_mutex_lock (&journal->mutex);
  while (!journal->ended)
    if (!journal->waiting)
      g_cond_wait (&journal->cond, &journal->mutex);
    else if (g_get_monotonic_time () < journal->due)
      g_cond_wait_until (&journal->cond, &journal->mutex, journal->due);
    else
      run_turn (journal);
  g_mutex_unlock (&journal->mutex);
  return NULL;
}

PfJournal *
pf_journal_new (const char *folder, const char *filename, GError **error)
{
  int lock;
  char *path = pf_journal_file_new (folder, &lock, error);
  if (!path)
    return NULL;
  PfJournal *journal = g_new0 (PfJournal, 1);
  journal->path = path;
  journal->lock = lock;
  journal->filename = g_strdup (filename);
  g_mutex_init (&journal->mutex);
  g_cond_init (&journal->cond);
  journal->thread = g_thread_new ("journal", write_turns, journal);
  return journal;
}

/* With the lock: a turn is due at that time, or as one waits already, no later than that one is. */
static void
ask_for_turn (PfJournal *journal, gint64 due)
{
  journal->due = journal->waiting ? MIN (journal->due, due) : due;
  journal->waiting = true;
  g_cond_broadcast (&journal->cond);
}

void
pf_journal_set_filename (PfJournal *journal, const char *filename)
{
  g_mutex_lock (&journal->mutex);
  g_free (journal->filename);
  journal->filename = g_strdup (filename);
  if (journal->document)
    ask_for_turn (journal, g_get_monotonic_time () + WAIT);
  g_mutex_unlock (&journal->mutex);
}

void
pf_journal_write (PfJournal *journal, PfDocument *document)
{
  PfDocument *new = document ? pf_document_ref (document) : NULL;
  g_mutex_lock (&journal->mutex);
  PfDocument *old = journal->document;
  journal->document = new;
  ask_for_turn (journal, g_get_monotonic_time () + (document ? WAIT : 0));
  g_mutex_unlock (&journal->mutex);
  pf_document_unref (old);
}

GError *
pf_journal_take_error (PfJournal *journal)
{
  g_mutex_lock (&journal->mutex);
  GError *last = g_steal_pointer (&journal->error);
  g_mutex_unlock (&journal->mutex);
  return last;
}

bool
pf_journal_flush (PfJournal *journal, GError **error)
{
  g_mutex_lock (&journal->mutex);
  if (journal->waiting)
    ask_for_turn (journal, 0);
  /* A turn that runs now may write the document before the last. */
  const guint64 wanted = journal->turns + journal->running + journal->waiting;
  while (journal->turns < wanted)
    g_cond_wait (&journal->cond, &journal->mutex);
  GError *last = g_steal_pointer (&journal->error);
  g_mutex_unlock (&journal->mutex);
  if (last)
    g_propagate_error (error, last);
  return last == NULL;
}

void
pf_journal_free (PfJournal *journal, bool remove)
{
  if (!journal)
    return;
  if (remove)
    pf_journal_write (journal, NULL);
  pf_journal_flush (journal, NULL);
  g_mutex_lock (&journal->mutex);
  journal->ended = true;
  g_cond_broadcast (&journal->cond);
  g_mutex_unlock (&journal->mutex);
  g_thread_join (journal->thread);
  pf_journal_file_end (journal->path, journal->lock);
  pf_document_unref (journal->document);
  g_clear_error (&journal->error);
  g_mutex_clear (&journal->mutex);
  g_cond_clear (&journal->cond);
  g_free (journal->filename);
  g_free (journal->path);
  g_free (journal);
}
