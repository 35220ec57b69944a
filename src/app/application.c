/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * One process for all windows. At the start it offers back work that was left behind, and shows the
 * demo motif to one who comes for the first time.
 */
#include "application.h"

#include <glib/gi18n.h>

#include "appearance.h"
#include "left-work-dialog.h"
#include "preferences-window.h"
#include "resources.h"
#include "shortcuts.h"
#include "printer-dialog.h"
#include "true-size-dialog.h"
#include "window.h"

struct _PfApplication {
  GtkApplication parent_instance;

  PfPreferences *preferences;
  bool looked_for_left_work;
};

G_DEFINE_FINAL_TYPE (PfApplication, pf_application, GTK_TYPE_APPLICATION)

PfPreferences *
pf_application_preferences (PfApplication *application)
{
  return application->preferences;
}

char *
pf_application_journal_folder (void)
{
  return g_build_filename (g_get_user_state_dir (), "pinfold", NULL);
}

/* --- Actions ------------------------------------------------------------------------------------
 */

static void
new_window_activated (GSimpleAction *action G_GNUC_UNUSED, GVariant *parameter G_GNUC_UNUSED,
                      gpointer application)
{
  gtk_window_present (GTK_WINDOW (pf_window_new (application)));
}

static void
demo_activated (GSimpleAction *action G_GNUC_UNUSED, GVariant *parameter G_GNUC_UNUSED,
                gpointer application)
{
  PfWindow *window = pf_window_new (application);
  pf_window_open_demo (window);
  gtk_window_present (GTK_WINDOW (window));
}

static void
preferences_activated (GSimpleAction *action G_GNUC_UNUSED, GVariant *parameter G_GNUC_UNUSED,
                       gpointer application)
{
  GtkWidget *window = pf_preferences_window_new (gtk_application_get_active_window (application),
                                                 PF_APPLICATION (application)->preferences);
  gtk_window_present (GTK_WINDOW (window));
}

static void
shortcuts_activated (GSimpleAction *action G_GNUC_UNUSED, GVariant *parameter G_GNUC_UNUSED,
                     gpointer application)
{
  gtk_window_present (
      GTK_WINDOW (pf_shortcuts_window_new (gtk_application_get_active_window (application))));
}

static void
true_size_activated (GSimpleAction *action G_GNUC_UNUSED, GVariant *parameter G_GNUC_UNUSED,
                     gpointer application)
{
  GtkWidget *dialog = pf_true_size_dialog_new (gtk_application_get_active_window (application),
                                               PF_APPLICATION (application)->preferences);
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
printer_activated (GSimpleAction *action G_GNUC_UNUSED, GVariant *parameter G_GNUC_UNUSED,
                   gpointer application)
{
  GtkWidget *dialog = pf_printer_dialog_new (gtk_application_get_active_window (application),
                                             PF_APPLICATION (application)->preferences);
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
about_activated (GSimpleAction *action G_GNUC_UNUSED, GVariant *parameter G_GNUC_UNUSED,
                 gpointer application)
{
  pf_about_dialog_show (gtk_application_get_active_window (application));
}

static void
quit_activated (GSimpleAction *action G_GNUC_UNUSED, GVariant *parameter G_GNUC_UNUSED,
                gpointer application)
{
  g_autoptr (GList) windows = g_list_copy (gtk_application_get_windows (application));
  for (GList *window = windows; window != NULL; window = window->next)
    gtk_window_close (window->data);
}

static void
add_actions (PfApplication *application)
{
  static const GActionEntry entries[] = {
    { .name = "new-window", .activate = new_window_activated },
    { .name = "demo", .activate = demo_activated },
    { .name = "preferences", .activate = preferences_activated },
    { .name = "shortcuts", .activate = shortcuts_activated },
    { .name = "true-size", .activate = true_size_activated },
    { .name = "printer", .activate = printer_activated },
    { .name = "about", .activate = about_activated },
    { .name = "quit", .activate = quit_activated },
  };
  g_action_map_add_action_entries (G_ACTION_MAP (application), entries, G_N_ELEMENTS (entries),
                                   application);
  pf_shortcuts_install (GTK_APPLICATION (application));
}

/* --- Windows ------------------------------------------------------------------------------------
 */

static bool
open_left_work (const PfLeftWork *left, gpointer window)
{
  return pf_window_open_left (window, left);
}

/* Work left behind is offered once, in the first window. */
static void
look_for_left_work (PfApplication *application, PfWindow *window)
{
  if (application->looked_for_left_work)
    return;
  application->looked_for_left_work = true;
  g_autofree char *folder = pf_application_journal_folder ();
  g_autoptr (GPtrArray) left = pf_journal_list (folder);
  if (left->len > 0)
    gtk_window_present (
        GTK_WINDOW (pf_left_work_dialog_new (GTK_WINDOW (window), left, open_left_work, window)));
}

static void
pf_application_activate (GApplication *gapplication)
{
  PfApplication *application = PF_APPLICATION (gapplication);
  GtkWindow *open = gtk_application_get_active_window (GTK_APPLICATION (application));
  if (open != NULL)
    {
      gtk_window_present (open);
      return;
    }
  PfWindow *window = pf_window_new (application);
  if (!pf_preferences_welcome_shown (application->preferences))
    {
      pf_window_open_demo (window);
      g_object_set (application->preferences, "welcome-shown", TRUE, NULL);
    }
  gtk_window_present (GTK_WINDOW (window));
  look_for_left_work (application, window);
}

static void
pf_application_open (GApplication *gapplication, GFile **files, int n_files,
                     const char *hint G_GNUC_UNUSED)
{
  PfApplication *application = PF_APPLICATION (gapplication);
  GtkWindow *active = gtk_application_get_active_window (GTK_APPLICATION (application));
  PfWindow *first = NULL;
  for (int f = 0; f < n_files; f++)
    {
      const bool unused =
          f == 0 && PF_IS_WINDOW (active) && pf_window_is_unused (PF_WINDOW (active));
      PfWindow *window = unused ? PF_WINDOW (active) : pf_window_new (application);
      first = first != NULL ? first : window;
      gtk_window_present (GTK_WINDOW (window));
      pf_window_open (window, files[f]);
    }
  if (first != NULL)
    look_for_left_work (application, first);
}

static void
load_css (void)
{
  g_autoptr (GtkCssProvider) provider = gtk_css_provider_new ();
  gtk_css_provider_load_from_resource (provider, PF_RESOURCES "style.css");
  gtk_style_context_add_provider_for_display (gdk_display_get_default (),
                                              GTK_STYLE_PROVIDER (provider),
                                              GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
}

static void
pf_application_startup (GApplication *gapplication)
{
  PfApplication *application = PF_APPLICATION (gapplication);
  G_APPLICATION_CLASS (pf_application_parent_class)->startup (gapplication);
  pf_use_resources ();
  g_set_application_name (_ ("Pinfold"));
  gtk_window_set_default_icon_name (PF_APPLICATION_ID);
  application->preferences = pf_preferences_new (NULL);
  pf_appearance_follow (application->preferences);
  load_css ();
  add_actions (application);
}

static void
pf_application_dispose (GObject *object)
{
  g_clear_object (&PF_APPLICATION (object)->preferences);
  G_OBJECT_CLASS (pf_application_parent_class)->dispose (object);
}

static void
pf_application_class_init (PfApplicationClass *class)
{
  G_OBJECT_CLASS (class)->dispose = pf_application_dispose;
  G_APPLICATION_CLASS (class)->startup = pf_application_startup;
  G_APPLICATION_CLASS (class)->activate = pf_application_activate;
  G_APPLICATION_CLASS (class)->open = pf_application_open;
}

static void
pf_application_init (PfApplication *application G_GNUC_UNUSED)
{
}

PfApplication *
pf_application_new (void)
{
  return g_object_new (PF_TYPE_APPLICATION, "application-id", PF_APPLICATION_ID, "flags",
                       G_APPLICATION_HANDLES_OPEN, "resource-base-path", "/org/pinfold/Pinfold",
                       NULL);
}
