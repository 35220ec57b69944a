/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What the files of the window share: window.c (its widgets), window-actions.c (its menu and
 * actions), window-say.c (what is said above the canvas), window-queue.c (files waiting to be
 * opened, drag and drop), window-pillow.c (the mode beside the pillow),
 * window-files.c (reading and taking them), window-backup.c (the last
 * version of a broken file), window-journal.c (unsaved work), window-save.c (saving, closing),
 * window-export.c (printing and exporting), window-dialogs.c (file choosers).
 */
#pragma once

#include "panel.h"
#include "pillow-page.h"
#include "window.h"

G_BEGIN_DECLS

struct _PfWindow {
  GtkApplicationWindow parent_instance;

  /* Owned */
  PfEditor *editor;
  GFile *file;        /* where the document is saved, or NULL */
  char *file_state;   /* of that file when it was read or saved; NULL if it wasn't there */
  PfJournal *journal; /* NULL if it can't be kept */
  GCancellable *work; /* cancels what is in work */
  int n_works;
  guint work_timer;
  GMenu *menu;
  char *folder;   /* the last one chosen, or NULL */
  GQueue to_open; /* of GFile */
  GTask *waiting; /* a file that was read, until the hand is off the drawing; or NULL */
  guint hand_timer;
  bool opening;      /* a file is in work, or asks something */
  GPtrArray *errors; /* of strings: what was said since the first of these files */
  char *said;        /* and what else; or NULL */
  bool unused;       /* nothing was drawn or opened yet */
  bool closing;      /* the maker has decided: the window may go */
  bool saving;
  bool journal_failed; /* it was said already */
  guint journal_look;  /* a timer: was it written? */
  PfStage shown;       /* the stage whose panel is shown */
  bool strip_wanted;   /* where there is one */
  bool at_pillow;
  guint awake;         /* the screen is kept from going dark: its cookie, or 0 */
  PfDocument *advised; /* of whose scan the bar tells what to do with it; or NULL */

  /* Borrowed: widgets */
  GtkWidget *canvas, *strip, *preview;
  GtkWidget *panels[PF_N_STAGES];
  GtkLabel *title_label, *saved_label, *info_label;
  GtkWidget *undo_button, *redo_button, *menu_button, *save_button, *open_button;
  GtkInfoBar *info_bar;
  GtkWidget *info_backup;
  GtkStack *view_stack, *panel_stack;
  GtkPaned *strip_paned;
  GtkScrolledWindow *panel_scroller;
  GtkWidget *work_bar;
  GtkLabel *work_label;
  GtkSpinner *work_spinner;
  GtkBox *panel_place, *rail_place, *preview_place, *status_place;
  GtkWidget *rail_separator, *panel_separator, *status_separator;
  GtkWidget *pillow;
};

/* window.c */
void pf_window_update_title (PfWindow *window);
PfPreferences *pf_window_preferences (PfWindow *window);

/* It was destroyed, and lives only for a thread or dialog that ends. */
bool pf_window_is_gone (PfWindow *window);
/* The drawing, the pages or the pillow. */
void pf_window_show_view (PfWindow *window);
/* Whether the edge strip is shown in the stages that have one. */
void pf_window_want_strip (PfWindow *window, bool wanted);

/* window-say.c: from here on, and until no file waits any more, errors are kept and said together.
 */
void pf_window_begin_saying (PfWindow *window);
void pf_window_end_saying (PfWindow *window);
/* Says what is to be done with the document's scan; and after a change of the document puts that
 * away if it was done. */
void pf_window_advise_scan (PfWindow *window);
void pf_window_end_advice (PfWindow *window);

/* window-queue.c: a file is opened, or failed: the next one is due. */
void pf_window_file_done (PfWindow *window);
void pf_window_forget_files (PfWindow *window);
/* Calls pf_window_take() with the task's data as soon as nothing is dragged. */
void pf_window_take_when_free (PfWindow *window, GTask *task);
void pf_window_accept_drops (PfWindow *window);

/* window-work.c: a task for a thread, which the maker can cancel; `text` says what is in work.
 * `done` gives its result to pf_window_end_work(), which says an error, and is true if there was
 * none. */
GTask *pf_window_begin_work (PfWindow *window, const char *text, GAsyncReadyCallback done);
bool pf_window_end_work (PfWindow *window, GAsyncResult *result);
void pf_window_cancel_work (PfWindow *window);
void pf_window_stop_work (PfWindow *window); /* the window goes */

/* window-actions.c: adds all actions; decides which can be done. */
void pf_window_add_actions (PfWindow *window);
void pf_window_update_actions (PfWindow *window);
/* Shows these layers, and in the menu that they are shown. */
void pf_window_show_layers (PfWindow *window, PfLayers shown);

/* window-pillow.c: the mode beside the pillow, in place of all but the header and what is said. */
void pf_window_add_pillow (PfWindow *window);
void pf_window_go_to_pillow (PfWindow *window, bool there);
/* Makes its letters and its drawing larger. */
void pf_window_scale_pillow (PfWindow *window, double factor);
/* Lets the screen go dark again. */
void pf_window_let_sleep (PfWindow *window);

/* window-journal.c */
void pf_window_start_journal (PfWindow *window);
void pf_window_stop_journal (PfWindow *window, bool remove);
void pf_window_journal_change (PfWindow *window);

/* window-files.c: reads a file in a thread; takes what was read. pf_window_file_done() follows. */
void pf_window_read (PfWindow *window, GFile *file);
void pf_window_take (PfWindow *window, gpointer reading);
void pf_window_set_file (PfWindow *window, GFile *file);
/* What tells one content of a file from the next; NULL if there is no file. Free with g_free(). */
char *pf_window_file_state (GFile *file);
void pf_window_choose_open (PfWindow *window);
void pf_window_choose_import (PfWindow *window);
/* Shows the document in this window if nothing was done in it, else in a new one, which it gives.
 */
PfWindow *pf_window_take_document (PfWindow *window, PfDocument *document, GFile *file);

/* window-backup.c: offers, under the error that was said, the last version of a file that can't be
 * read; and opens it. */
void pf_window_offer_backup (PfWindow *window, PfDocument *document, GFile *file);
void pf_window_open_backup (PfWindow *window);

/* window-save.c */
void pf_window_save (PfWindow *window);
void pf_window_choose_save (PfWindow *window);
/* False if the maker is asked first; the window is closed then by what she answers. */
bool pf_window_may_close (PfWindow *window);

/* window-dialogs.c: a file chooser in the folder used last; `chosen` gets the file. */
typedef void (*PfChosen) (PfWindow *window, GFile *file);
typedef struct {
  const char *name;            /* of the filter, translated */
  const char *const *patterns; /* NULL-terminated */
} PfFileKind;
void pf_window_choose_file (PfWindow *window, const char *title, GtkFileChooserAction action,
                            const char *suggested, const PfFileKind *kinds, gsize n_kinds,
                            PfChosen chosen);

/* window-export.c */
void pf_window_print (PfWindow *window);
void pf_window_choose_export (PfWindow *window);
void pf_window_choose_report (PfWindow *window);
void pf_window_choose_steps (PfWindow *window);

G_END_DECLS
