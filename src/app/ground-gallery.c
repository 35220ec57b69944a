/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ground-gallery.h"

#include <glib/gi18n-lib.h>

#include "form.h"
#include "ground-finder.h"
#include "ground-page.h"
#include "ground-tiles.h"

struct _PfGroundGallery {
  GtkBox parent_instance;

  GPtrArray *grounds; /* of PfGround, by family and title */
  PfGroundFinder *finder;
  PfGroundTiles *tiles;
  GtkStack *stack; /* tiles, or what to do if none is found */
  GtkLabel *count;
  GtkWidget *about;
  PfUnits units;
  GtkWidget *window; /* of the page, or NULL */
  PfGroundPage *page;
};

G_DEFINE_FINAL_TYPE (PfGroundGallery, pf_ground_gallery, GTK_TYPE_BOX)

static guint chosen_signal;

void
pf_ground_gallery_set_chosen (PfGroundGallery *gallery, const char *name)
{
  pf_ground_tiles_set_chosen (gallery->tiles, name);
}

void
pf_ground_gallery_set_units (PfGroundGallery *gallery, PfUnits units)
{
  gallery->units = units;
}

static void
chosen (PfGroundGallery *gallery, const char *name)
{
  g_signal_emit (gallery, chosen_signal, 0, name);
}

/* --- Searching ----------------------------------------------------------------------------------
 */

static void
search (PfGroundGallery *gallery)
{
  const guint n_all = gallery->grounds->len;
  const guint n =
      pf_ground_tiles_search (gallery->tiles, pf_ground_finder_search (gallery->finder));
  g_autofree char *count =
      n == n_all
          ? g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u ground", "%u grounds", n_all), n_all)
          : g_strdup_printf (_ ("%u of %u grounds"), n, n_all);
  gtk_label_set_label (gallery->count, count);
  gtk_stack_set_visible_child_name (gallery->stack, n > 0 ? "tiles" : "none");
  gtk_widget_set_sensitive (gallery->about, n > 0);
}

static void
show_all (PfGroundGallery *gallery)
{
  pf_ground_finder_clear (gallery->finder);
  pf_ground_finder_focus_words (gallery->finder);
}

/* The keyboard goes on to what is there: the tiles, or the button for all of them. */
static void
leave_finder (PfGroundGallery *gallery)
{
  if (pf_ground_tiles_current (gallery->tiles) != NULL)
    pf_ground_tiles_focus_first (gallery->tiles);
  else
    gtk_widget_child_focus (GTK_WIDGET (gallery->stack), GTK_DIR_TAB_FORWARD);
}

/* --- The page of one ----------------------------------------------------------------------------
 */

static void
window_gone (PfGroundGallery *gallery)
{
  gallery->window = NULL;
  gallery->page = NULL;
}

static void
open_window (PfGroundGallery *gallery)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (gallery));
  gallery->window = pf_ground_page_window_new (GTK_WINDOW (root), &gallery->page);
  g_signal_connect_object (gallery->window, "destroy", G_CALLBACK (window_gone), gallery,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (gallery->page, "use", G_CALLBACK (chosen), gallery, G_CONNECT_SWAPPED);
}

static void
tell_about (PfGroundGallery *gallery, const char *name)
{
  g_autoptr (GPtrArray) shown = pf_ground_tiles_shown (gallery->tiles);
  for (guint n = 0; n < shown->len; n++)
    {
      const PfGround *ground = g_ptr_array_index (shown, n);
      if (g_strcmp0 (ground->name, name) != 0)
        continue;
      if (gallery->window == NULL)
        open_window (gallery);
      pf_ground_page_show (gallery->page, shown, n, gallery->units);
      gtk_window_present (GTK_WINDOW (gallery->window));
    }
}

static void
about_clicked (PfGroundGallery *gallery)
{
  const PfGround *ground = pf_ground_tiles_current (gallery->tiles);
  if (ground != NULL)
    tell_about (gallery, ground->name);
}

/* --- The widget ---------------------------------------------------------------------------------
 */

static int
compare_grounds (gconstpointer a, gconstpointer b)
{
  return pf_ground_compare (*(const PfGround *const *) a, *(const PfGround *const *) b);
}

static GPtrArray *
load_grounds (void)
{
  GPtrArray *grounds = g_ptr_array_new_with_free_func ((GDestroyNotify) pf_ground_free);
  g_auto (GStrv) names = pf_ground_names ();
  for (char **name = names; *name != NULL; name++)
    {
      PfGround *ground = pf_ground_load (*name, NULL);
      if (ground != NULL)
        g_ptr_array_add (grounds, ground);
    }
  g_ptr_array_sort (grounds, compare_grounds);
  return grounds;
}

static void
threads_toggled (PfGroundGallery *gallery, GtkToggleButton *threads)
{
  pf_ground_tiles_show_threads (gallery->tiles, gtk_toggle_button_get_active (threads));
}

/* What tiles show, and how many there are. */
static GtkWidget *
switch_new (PfGroundGallery *gallery)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *linked = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  GtkWidget *drawings = gtk_toggle_button_new_with_label (_ ("Drawings"));
  GtkWidget *threads = gtk_toggle_button_new_with_label (_ ("Threads"));
  GtkWidget *count = gtk_label_new (NULL);
  gtk_toggle_button_set_group (GTK_TOGGLE_BUTTON (threads), GTK_TOGGLE_BUTTON (drawings));
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (drawings), TRUE);
  gtk_widget_set_tooltip_text (drawings, _ ("Show pins, stitches and pair lines"));
  gtk_widget_set_tooltip_text (threads, _ ("Show the threads close up"));
  g_signal_connect_swapped (threads, "toggled", G_CALLBACK (threads_toggled), gallery);
  gtk_widget_add_css_class (linked, "linked");
  gtk_box_append (GTK_BOX (linked), drawings);
  gtk_box_append (GTK_BOX (linked), threads);
  gtk_widget_add_css_class (count, "dim-label");
  gtk_widget_add_css_class (count, "caption");
  gtk_widget_set_hexpand (count, TRUE);
  gtk_label_set_xalign (GTK_LABEL (count), 1);
  gtk_box_append (GTK_BOX (row), linked);
  gtk_box_append (GTK_BOX (row), count);
  gallery->count = GTK_LABEL (count);
  return row;
}

static GtkWidget *
none_new (PfGroundGallery *gallery)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWidget *heading = gtk_label_new (_ ("No ground is like that"));
  GtkWidget *hint = gtk_label_new (_ ("Search with fewer words, or for any number of pairs and all "
                                      "families."));
  GtkWidget *button = gtk_button_new_with_mnemonic (_ ("_Show all grounds"));
  gtk_widget_add_css_class (heading, "heading");
  gtk_label_set_wrap (GTK_LABEL (hint), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (hint), 30);
  gtk_label_set_justify (GTK_LABEL (hint), GTK_JUSTIFY_CENTER);
  gtk_widget_set_halign (button, GTK_ALIGN_CENTER);
  gtk_widget_set_valign (box, GTK_ALIGN_CENTER);
  g_signal_connect_swapped (button, "clicked", G_CALLBACK (show_all), gallery);
  gtk_box_append (GTK_BOX (box), heading);
  gtk_box_append (GTK_BOX (box), hint);
  gtk_box_append (GTK_BOX (box), button);
  return box;
}

static void
pf_ground_gallery_dispose (GObject *object)
{
  PfGroundGallery *gallery = PF_GROUND_GALLERY (object);
  if (gallery->window != NULL)
    gtk_window_destroy (GTK_WINDOW (gallery->window));
  g_clear_pointer (&gallery->grounds, g_ptr_array_unref);
  G_OBJECT_CLASS (pf_ground_gallery_parent_class)->dispose (object);
}

static void
pf_ground_gallery_class_init (PfGroundGalleryClass *class)
{
  G_OBJECT_CLASS (class)->dispose = pf_ground_gallery_dispose;
  chosen_signal = g_signal_new ("chosen", PF_TYPE_GROUND_GALLERY, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
}

static void
connect_parts (PfGroundGallery *gallery)
{
  g_signal_connect_swapped (gallery->finder, "changed", G_CALLBACK (search), gallery);
  g_signal_connect_swapped (gallery->finder, "leave", G_CALLBACK (leave_finder), gallery);
  g_signal_connect_swapped (gallery->finder, "accept", G_CALLBACK (pf_ground_tiles_choose_first),
                            gallery->tiles);
  g_signal_connect_swapped (gallery->tiles, "chosen", G_CALLBACK (chosen), gallery);
  g_signal_connect_swapped (gallery->tiles, "about", G_CALLBACK (tell_about), gallery);
  g_signal_connect_swapped (gallery->tiles, "left-upwards",
                            G_CALLBACK (pf_ground_finder_focus_words), gallery->finder);
  g_signal_connect_swapped (gallery->about, "clicked", G_CALLBACK (about_clicked), gallery);
  pf_ground_finder_listen_in (gallery->finder, GTK_WIDGET (gallery->tiles));
}

static void
pf_ground_gallery_init (PfGroundGallery *gallery)
{
  gallery->grounds = load_grounds ();
  gallery->finder = PF_GROUND_FINDER (pf_ground_finder_new (gallery->grounds));
  gallery->tiles = PF_GROUND_TILES (pf_ground_tiles_new (gallery->grounds));
  gallery->stack = GTK_STACK (gtk_stack_new ());
  gallery->about = gtk_button_new_with_mnemonic (_ ("About this groun_d…"));
  gtk_widget_set_tooltip_text (
      gallery->about,
      _ ("How it is worked, its threads and where it comes from (Space, on a ground)"));
  gtk_stack_add_named (gallery->stack, GTK_WIDGET (gallery->tiles), "tiles");
  gtk_stack_add_named (gallery->stack, none_new (gallery), "none");
  gtk_orientable_set_orientation (GTK_ORIENTABLE (gallery), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (gallery), 6);
  gtk_box_append (GTK_BOX (gallery), GTK_WIDGET (gallery->finder));
  gtk_box_append (GTK_BOX (gallery), switch_new (gallery));
  gtk_box_append (GTK_BOX (gallery), GTK_WIDGET (gallery->stack));
  gtk_box_append (GTK_BOX (gallery), gallery->about);
  connect_parts (gallery);
  search (gallery);
}

GtkWidget *
pf_ground_gallery_new (void)
{
  return g_object_new (PF_TYPE_GROUND_GALLERY, NULL);
}
