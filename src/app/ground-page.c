/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Pictures are drawn in a thread; until they are there, their places are white.
 */
#include "ground-page.h"

#include <glib/gi18n-lib.h>

#include "form.h"
#include "ground-facts.h"
#include "ground-pictures.h"

#define SIDE 720 /* of a picture, pixels; shown smaller */
#define WIDTH 780
#define HEIGHT 660
#define LEAST_SIDE 240

typedef struct {
  GtkLabel *name, *value;
} Fact;

enum { ALSO_CALLED, FAMILY, USED_FOR, REPEAT, USUAL, BEAD, SOURCE, SHORT_NAME, N_FACTS };

struct _PfGroundPage {
  GtkBox parent_instance;

  GPtrArray *grounds;
  guint n;
  PfUnits units;
  GtkWidget *scroller;
  GtkPicture *drawing, *threads;
  GtkLabel *title, *notes, *steps;
  Fact facts[N_FACTS];
  GtkWidget *before, *after, *place; /* in the window's title bar */
  GCancellable *cancellable;         /* of the pictures in work */
};

G_DEFINE_FINAL_TYPE (PfGroundPage, pf_ground_page, GTK_TYPE_BOX)

static guint use_signal;

static PfGround *
ground_of (PfGroundPage *page)
{
  return g_ptr_array_index (page->grounds, page->n);
}

/* --- From the ground to the widgets -------------------------------------------------------------
 */

static void
drawn (GObject *source G_GNUC_UNUSED, GAsyncResult *result, gpointer data)
{
  g_autoptr (GtkPicture) picture = data;
  g_autoptr (GdkTexture) texture = pf_ground_picture_finish (result, NULL);
  if (texture != NULL)
    gtk_picture_set_paintable (picture, GDK_PAINTABLE (texture));
}

static void
show_picture (PfGroundPage *page, GtkPicture *picture, PfGroundPicture kind, const char *words)
{
  const int side = SIDE * gtk_widget_get_scale_factor (GTK_WIDGET (page));
  g_autoptr (GdkPaintable) empty = gdk_paintable_new_empty (side, side);
  gtk_picture_set_paintable (picture, empty);
  gtk_picture_set_alternative_text (picture, words);
  gtk_widget_set_tooltip_text (GTK_WIDGET (picture), words);
  pf_ground_picture_draw (ground_of (page), kind, side, page->cancellable, drawn,
                          g_object_ref (picture));
}

static void
show_pictures (PfGroundPage *page)
{
  g_autofree char *drawing = pf_ground_drawing_words (ground_of (page));
  g_autofree char *threads = pf_ground_threads_words (ground_of (page));
  g_cancellable_cancel (page->cancellable);
  g_clear_object (&page->cancellable);
  page->cancellable = g_cancellable_new ();
  show_picture (page, page->drawing, PF_GROUND_DRAWING, drawing);
  show_picture (page, page->threads, PF_GROUND_THREADS, threads);
}

/* What isn't known is left out. */
static void
show_text (GtkLabel *label, const char *text)
{
  gtk_label_set_label (label, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (label), text != NULL && *text != '\0');
}

static void
show_fact (PfGroundPage *page, int fact, const char *text)
{
  show_text (page->facts[fact].value, text);
  gtk_widget_set_visible (GTK_WIDGET (page->facts[fact].name),
                          gtk_widget_get_visible (GTK_WIDGET (page->facts[fact].value)));
}

static void
show_facts (PfGroundPage *page)
{
  const PfGround *ground = ground_of (page);
  g_autofree char *names =
      ground->also_called != NULL ? g_strjoinv (", ", ground->also_called) : NULL;
  g_autofree char *repeat = pf_ground_repeat_words (ground);
  g_autofree char *usual = pf_ground_usual_words (ground, page->units);
  g_autofree char *bead = pf_ground_bead_words (ground);
  show_fact (page, ALSO_CALLED, names);
  show_fact (page, FAMILY, ground->family);
  show_fact (page, USED_FOR, ground->used_for);
  show_fact (page, REPEAT, repeat);
  show_fact (page, USUAL, usual);
  show_fact (page, BEAD, bead);
  show_fact (page, SOURCE, ground->source);
  show_fact (page, SHORT_NAME, ground->name);
}

static void
show_ground (PfGroundPage *page)
{
  const PfGround *ground = ground_of (page);
  g_autofree char *steps = pf_ground_steps_words (ground);
  g_autofree char *place = g_strdup_printf (_ ("%u of %u"), page->n + 1, page->grounds->len);
  show_text (page->title, ground->title);
  show_text (page->notes, ground->notes);
  show_text (page->steps, steps);
  show_facts (page);
  show_pictures (page);
  gtk_label_set_label (GTK_LABEL (page->place), place);
  gtk_widget_set_sensitive (page->before, page->n > 0);
  gtk_widget_set_sensitive (page->after, page->n + 1 < page->grounds->len);
  /* It has the keyboard at first, and its name is heard. */
  gtk_accessible_update_property (GTK_ACCESSIBLE (page->scroller), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  ground->title, -1);
  gtk_adjustment_set_value (
      gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (page->scroller)), 0);
}

void
pf_ground_page_show (PfGroundPage *page, GPtrArray *grounds, guint n, PfUnits units)
{
  g_return_if_fail (n < grounds->len);
  g_ptr_array_ref (grounds);
  g_clear_pointer (&page->grounds, g_ptr_array_unref);
  page->grounds = grounds;
  page->n = n;
  page->units = units;
  show_ground (page);
}

/* --- What the maker does ------------------------------------------------------------------------
 */

static void
go (PfGroundPage *page, int by)
{
  if (by < 0 ? page->n == 0 : page->n + 1 >= page->grounds->len)
    return;
  page->n = page->n + (guint) by;
  show_ground (page);
  /* A button that isn't sensitive any more has lost the keyboard. */
  if (gtk_root_get_focus (gtk_widget_get_root (GTK_WIDGET (page))) == NULL)
    gtk_widget_grab_focus (page->scroller);
}

static void
go_back (PfGroundPage *page)
{
  go (page, -1);
}

static void
go_on (PfGroundPage *page)
{
  go (page, 1);
}

static gboolean
key_for_other (GtkWidget *widget, GVariant *by, gpointer data G_GNUC_UNUSED)
{
  go (PF_GROUND_PAGE (widget), g_variant_get_int32 (by));
  return TRUE;
}

static void
use_clicked (PfGroundPage *page)
{
  GtkRoot *window = gtk_widget_get_root (GTK_WIDGET (page));
  g_autofree char *name = g_strdup (ground_of (page)->name);
  g_signal_emit (page, use_signal, 0, name);
  gtk_window_close (GTK_WINDOW (window));
}

/* --- The widget ---------------------------------------------------------------------------------
 */

static GtkLabel *
text_new (const char *css_class)
{
  GtkWidget *label = gtk_label_new (NULL);
  gtk_label_set_selectable (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_yalign (GTK_LABEL (label), 0);
  if (css_class != NULL)
    gtk_widget_add_css_class (label, css_class);
  return GTK_LABEL (label);
}

static GtkWidget *
heading_new (const char *text)
{
  GtkWidget *heading = gtk_label_new (text);
  gtk_label_set_xalign (GTK_LABEL (heading), 0);
  gtk_widget_add_css_class (heading, "heading");
  return heading;
}

static GtkPicture *
add_picture (GtkWidget *row, const char *name, const char *caption)
{
  GtkWidget *column = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  GtkWidget *picture = gtk_picture_new ();
  GtkWidget *label = gtk_label_new (caption);
  gtk_widget_set_size_request (picture, LEAST_SIDE, LEAST_SIDE);
  gtk_widget_add_css_class (picture, "ground-tile");
  pf_name_widget (picture, name);
  gtk_widget_add_css_class (label, "caption");
  gtk_widget_add_css_class (label, "dim-label");
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_box_append (GTK_BOX (column), picture);
  gtk_box_append (GTK_BOX (column), label);
  gtk_widget_set_hexpand (column, TRUE);
  gtk_box_append (GTK_BOX (row), column);
  return GTK_PICTURE (picture);
}

static GtkWidget *
facts_new (PfGroundPage *page)
{
  const char *const names[N_FACTS] = {
    [ALSO_CALLED] = _ ("Also called"), [FAMILY] = _ ("Family"),         [USED_FOR] = _ ("Used for"),
    [REPEAT] = _ ("In one repeat"),    [USUAL] = _ ("Usual gap"),       [BEAD] = _ ("Bead"),
    [SOURCE] = _ ("Source"),           [SHORT_NAME] = _ ("Short name"),
  };
  GtkWidget *form = pf_form_new ();
  for (int f = 0; f < N_FACTS; f++)
    {
      Fact *fact = &page->facts[f];
      fact->name = GTK_LABEL (gtk_label_new (names[f]));
      fact->value = text_new (NULL);
      gtk_label_set_xalign (fact->name, 0);
      gtk_label_set_yalign (fact->name, 0);
      gtk_widget_add_css_class (GTK_WIDGET (fact->name), "dim-label");
      gtk_widget_set_hexpand (GTK_WIDGET (fact->value), TRUE);
      gtk_grid_attach (GTK_GRID (form), GTK_WIDGET (fact->name), 0, f, 1, 1);
      gtk_grid_attach (GTK_GRID (form), GTK_WIDGET (fact->value), 1, f, 1, 1);
      gtk_accessible_update_relation (GTK_ACCESSIBLE (fact->value),
                                      GTK_ACCESSIBLE_RELATION_DESCRIBED_BY, fact->name, NULL, -1);
    }
  return form;
}

static GtkWidget *
content_new (PfGroundPage *page)
{
  GtkWidget *content = gtk_box_new (GTK_ORIENTATION_VERTICAL, 18);
  GtkWidget *pictures = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 18);
  GtkWidget *working = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  gtk_widget_add_css_class (content, "ground-page");
  gtk_box_set_homogeneous (GTK_BOX (pictures), TRUE);
  page->title = text_new ("title-2");
  page->drawing = add_picture (pictures, _ ("Drawing"),
                               _ ("Pins, stitches and pair lines; one repeat on a tint"));
  page->threads =
      add_picture (pictures, _ ("Threads"), _ ("Its threads, over and under each other"));
  page->notes = text_new (NULL);
  page->steps = text_new ("numeric");
  gtk_box_append (GTK_BOX (working), heading_new (_ ("Working one repeat")));
  gtk_box_append (GTK_BOX (working), GTK_WIDGET (page->steps));
  gtk_box_append (GTK_BOX (content), GTK_WIDGET (page->title));
  gtk_box_append (GTK_BOX (content), pictures);
  gtk_box_append (GTK_BOX (content), GTK_WIDGET (page->notes));
  gtk_box_append (GTK_BOX (content), facts_new (page));
  gtk_box_append (GTK_BOX (content), working);
  return content;
}

static void
pf_ground_page_dispose (GObject *object)
{
  PfGroundPage *page = PF_GROUND_PAGE (object);
  g_cancellable_cancel (page->cancellable);
  g_clear_object (&page->cancellable);
  g_clear_pointer (&page->grounds, g_ptr_array_unref);
  G_OBJECT_CLASS (pf_ground_page_parent_class)->dispose (object);
}

static void
pf_ground_page_class_init (PfGroundPageClass *class)
{
  G_OBJECT_CLASS (class)->dispose = pf_ground_page_dispose;
  use_signal = g_signal_new ("use", PF_TYPE_GROUND_PAGE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                             G_TYPE_NONE, 1, G_TYPE_STRING);
}

static void
pf_ground_page_init (PfGroundPage *page)
{
  GtkWidget *viewport = gtk_viewport_new (NULL, NULL);
  page->scroller = gtk_scrolled_window_new ();
  /* Pictures are as high as they are wide. */
  gtk_scrollable_set_vscroll_policy (GTK_SCROLLABLE (viewport), GTK_SCROLL_NATURAL);
  gtk_viewport_set_child (GTK_VIEWPORT (viewport), content_new (page));
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (page->scroller), GTK_POLICY_NEVER,
                                  GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (page->scroller), viewport);
  gtk_widget_set_focusable (page->scroller, TRUE); /* arrows scroll at once */
  gtk_widget_set_hexpand (page->scroller, TRUE);
  gtk_widget_set_vexpand (page->scroller, TRUE);
  gtk_box_append (GTK_BOX (page), page->scroller);
}

/* --- Its window ---------------------------------------------------------------------------------
 */

static GtkWidget *
arrow_new (GtkWidget *bar, const char *icon, const char *tip)
{
  GtkWidget *button = gtk_button_new_from_icon_name (icon);
  gtk_widget_set_tooltip_text (button, tip);
  pf_name_widget (button, tip);
  gtk_header_bar_pack_start (GTK_HEADER_BAR (bar), button);
  return button;
}

static void
add_keys (GtkWidget *page)
{
  const struct {
    guint key;
    int by;
  } keys[] = { { GDK_KEY_Left, -1 }, { GDK_KEY_Right, 1 } };
  GtkEventController *controller = gtk_shortcut_controller_new ();
  gtk_shortcut_controller_set_scope (GTK_SHORTCUT_CONTROLLER (controller),
                                     GTK_SHORTCUT_SCOPE_GLOBAL);
  for (gsize k = 0; k < G_N_ELEMENTS (keys); k++)
    {
      GtkShortcut *shortcut =
          gtk_shortcut_new (gtk_keyval_trigger_new (keys[k].key, GDK_ALT_MASK),
                            gtk_callback_action_new (key_for_other, NULL, NULL));
      gtk_shortcut_set_arguments (shortcut, g_variant_new_int32 (keys[k].by));
      gtk_shortcut_controller_add_shortcut (GTK_SHORTCUT_CONTROLLER (controller), shortcut);
    }
  gtk_widget_add_controller (page, controller);
}

GtkWidget *
pf_ground_page_window_new (GtkWindow *parent, PfGroundPage **new_page)
{
  GtkWidget *window = pf_dialog_new (parent, _ ("About this ground"), false);
  GtkWidget *bar = gtk_window_get_titlebar (GTK_WINDOW (window));
  PfGroundPage *page = g_object_new (PF_TYPE_GROUND_PAGE, NULL);
  GtkWidget *use = pf_dialog_add_button (GTK_WINDOW (window), _ ("_Use this ground"), true);
  page->before = arrow_new (bar, "go-previous-symbolic", _ ("Ground before (Alt+Left)"));
  page->after = arrow_new (bar, "go-next-symbolic", _ ("Next ground (Alt+Right)"));
  page->place = gtk_label_new (NULL);
  gtk_widget_add_css_class (page->place, "numeric");
  gtk_widget_add_css_class (page->place, "dim-label");
  gtk_header_bar_pack_start (GTK_HEADER_BAR (bar), page->place);
  gtk_widget_add_css_class (use, "suggested-action");
  g_signal_connect_object (page->before, "clicked", G_CALLBACK (go_back), page, G_CONNECT_SWAPPED);
  g_signal_connect_object (page->after, "clicked", G_CALLBACK (go_on), page, G_CONNECT_SWAPPED);
  g_signal_connect_object (use, "clicked", G_CALLBACK (use_clicked), page, G_CONNECT_SWAPPED);
  add_keys (GTK_WIDGET (page));
  gtk_window_set_default_size (GTK_WINDOW (window), WIDTH, HEIGHT);
  gtk_window_set_child (GTK_WINDOW (window), GTK_WIDGET (page));
  gtk_window_set_focus (GTK_WINDOW (window), page->scroller);
  *new_page = page;
  return window;
}
