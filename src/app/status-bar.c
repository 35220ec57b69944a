/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The counts are those of the filling that is shown, or what keeps it from being there. The view's
 * numbers follow the canvas, and set it.
 */
#include "status-bar.h"

#include <math.h>

#include <glib/gi18n.h>

struct _PfStatusBar {
  GtkBox parent_instance;

  PfEditor *editor;
  PfCanvas *canvas;
  GtkLabel *counts;
  GtkWidget *view;    /* the controls of the canvas */
  GtkWidget *threads; /* they are too small to be shown */
  GtkSpinner *spinner;
  GtkLabel *zoom;
  GtkSpinButton *turn;
  bool updating;
};

G_DEFINE_FINAL_TYPE (PfStatusBar, pf_status_bar, GTK_TYPE_BOX)

/* "24 pairs, at most 18 at once · 410 stitches · ..." */
static char *
counts_text (const PfCounts *c)
{
  g_autofree char *pairs =
      g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%zu pair, at most %zu at once",
                                    "%zu pairs, at most %zu at once", c->new_pairs),
                       c->new_pairs, c->most_at_once);
  g_autofree char *stitches = g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE, "%zu stitch", "%zu stitches", c->stitches), c->stitches);
  g_autofree char *pins =
      g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%zu pin", "%zu pins", c->pins), c->pins);
  g_autofree char *sewings = g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE, "%zu sewing", "%zu sewings", c->sewings), c->sewings);
  g_autofree char *off =
      c->off_line > 0 ? g_strdup_printf (_ (" (%zu off line)"), c->off_line) : g_strdup ("");
  return g_strdup_printf ("%s · %s · %s · %s%s", pairs, stitches, pins, sewings, off);
}

static char *
find_text (PfStatusBar *bar)
{
  const int active = pf_editor_active (bar->editor);
  if (active < 0)
    return g_strdup (_ ("Draw an outline, or open a drawing"));
  if (pf_editor_is_open (bar->editor, (size_t) active))
    return g_strdup (_ ("This outline is still open"));
  const char *trouble = pf_editor_trouble (bar->editor, (size_t) active, NULL);
  if (trouble != NULL)
    return g_strdup (trouble);
  const PfMotif *motif = pf_editor_motif (bar->editor, (size_t) active);
  if (motif == NULL)
    return g_strdup (_ ("Working it out…"));
  if (motif->filling == NULL)
    return g_strdup (_ ("Choose a ground for this motif"));
  return counts_text (&motif->filling->counts);
}

/* Of the whole piece, as the sheet and the report have it. */
static char *
find_totals (PfStatusBar *bar)
{
  g_autoptr (PfPricking) pricking = pf_editor_filled (bar->editor);
  const PfCounts counts = pf_pricking_counts (pricking);
  g_autofree char *text = counts_text (&counts);
  if (pricking->motifs->len < 2)
    return g_steal_pointer (&text);
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u motif together: %s",
                                       "%u motifs together: %s", pricking->motifs->len),
                          pricking->motifs->len, text);
}

/* With several motifs, whose it is. */
static char *
find_whole_text (PfStatusBar *bar)
{
  const PfDraft *draft = pf_editor_draft (bar->editor);
  if (pf_editor_stage (bar->editor) == PF_STAGE_SHEET)
    return find_totals (bar);
  char *text = find_text (bar);
  if (draft == NULL || *draft->name == '\0' || pf_editor_document (bar->editor)->n_drafts < 2)
    return text;
  char *whole = g_strdup_printf (_ ("%s: %s"), draft->name, text);
  g_free (text);
  return whole;
}

static bool
any_off_line (PfStatusBar *bar)
{
  g_autoptr (PfPricking) pricking = pf_editor_filled (bar->editor);
  return pf_pricking_counts (pricking).off_line > 0;
}

static const char *
off_line_words (void)
{
  return _ ("Off line: sewings that pull their pair far off its line, each with a black pennant "
            "outside the edge. Look at them, and choose another place where the thread wouldn’t "
            "lie well.");
}

static void
update_counts (PfStatusBar *bar)
{
  g_autofree char *text = find_whole_text (bar);
  const bool busy = pf_editor_busy (bar->editor);
  g_autofree char *tip =
      any_off_line (bar) ? g_strconcat (text, "\n", off_line_words (), NULL) : g_strdup (text);
  gtk_label_set_label (bar->counts, text);
  gtk_widget_set_tooltip_text (GTK_WIDGET (bar->counts), tip);
  gtk_widget_set_visible (GTK_WIDGET (bar->spinner), busy);
  gtk_spinner_set_spinning (bar->spinner, busy);
}

/* Pages of the sheet aren't zoomed or turned. */
static void
update_stage (PfStatusBar *bar)
{
  gtk_widget_set_visible (bar->view, pf_editor_stage (bar->editor) != PF_STAGE_SHEET);
  update_counts (bar);
}

static void
update_threads (PfStatusBar *bar)
{
  gtk_widget_set_visible (bar->threads, pf_canvas_threads_too_small (bar->canvas));
}

static void
update_view (PfStatusBar *bar)
{
  g_autofree char *zoom = g_strdup_printf (_ ("%.0f %%"), 100 * pf_canvas_zoom (bar->canvas));
  gtk_label_set_label (bar->zoom, zoom);
  bar->updating = true;
  gtk_spin_button_set_value (bar->turn, pf_canvas_turn (bar->canvas));
  bar->updating = false;
  update_threads (bar);
}

static void
turn_changed (PfStatusBar *bar)
{
  if (!bar->updating)
    pf_canvas_set_turn (bar->canvas, gtk_spin_button_get_value (bar->turn));
}

static GtkWidget *
make_button (const char *icon, const char *action, const char *label)
{
  GtkWidget *button = gtk_button_new_from_icon_name (icon);
  gtk_button_set_has_frame (GTK_BUTTON (button), FALSE);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  gtk_widget_set_tooltip_text (button, label);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, label,
                                  -1);
  return button;
}

static GMenu *
make_layers_menu (void)
{
  static const struct {
    const char *label, *action;
  } layers[] = {
    { N_ ("_Edge strip"), "win.edge-strip" },
    { N_ ("_Threads as they lie, from near"), "win.layer-threads" },
    { N_ ("Ground’s pair _lines"), "win.layer-pair-lines" },
    { N_ ("_Pins of the ground"), "win.layer-pins" },
    { N_ ("_Beads"), "win.layer-beads" },
    { N_ ("Pinholes of the e_dge"), "win.layer-pinholes" },
    { N_ ("_Missing pins"), "win.layer-missing" },
    { N_ ("_Repeats at the edge"), "win.layer-repeats" },
    { N_ ("Pairs at the ed_ge"), "win.layer-predicted" },
    { N_ ("_Sewings"), "win.layer-sewings" },
    { N_ ("_Numbers"), "win.layer-numbers" },
    { N_ ("_Other lines of the drawing"), "win.layer-background" },
  };
  GMenu *menu = g_menu_new ();
  for (gsize l = 0; l < G_N_ELEMENTS (layers); l++)
    g_menu_append (menu, _ (layers[l].label), layers[l].action);
  return menu;
}

static GtkWidget *
make_layers_button (void)
{
  GtkWidget *button = gtk_menu_button_new ();
  g_autoptr (GMenu) menu = make_layers_menu ();
  gtk_menu_button_set_label (GTK_MENU_BUTTON (button), _ ("Sho_w"));
  gtk_menu_button_set_use_underline (GTK_MENU_BUTTON (button), TRUE);
  gtk_menu_button_set_direction (GTK_MENU_BUTTON (button), GTK_ARROW_UP);
  gtk_menu_button_set_has_frame (GTK_MENU_BUTTON (button), FALSE);
  gtk_menu_button_set_menu_model (GTK_MENU_BUTTON (button), G_MENU_MODEL (menu));
  gtk_widget_set_tooltip_text (button, _ ("What is shown on the canvas"));
  return button;
}

static void
add_view_controls (PfStatusBar *bar)
{
  bar->view = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkBox *box = GTK_BOX (bar->view);
  gtk_box_append (GTK_BOX (bar), bar->view);
  bar->threads = gtk_button_new_with_mnemonic (_ ("_Zoom in to see the threads"));
  gtk_actionable_set_action_name (GTK_ACTIONABLE (bar->threads), "win.zoom-to-threads");
  gtk_widget_set_tooltip_text (bar->threads,
                               _ ("They are shown as soon as they are thick enough to be seen"));
  gtk_box_append (box, bar->threads);
  gtk_box_append (box, make_layers_button ());
  gtk_box_append (box, gtk_separator_new (GTK_ORIENTATION_VERTICAL));
  gtk_box_append (box, make_button ("zoom-out-symbolic", "win.zoom-out", _ ("Zoom out (Ctrl+-)")));
  bar->zoom = GTK_LABEL (gtk_label_new ("100 %"));
  gtk_label_set_width_chars (bar->zoom, 6);
  /* xgettext:no-c-format */
  gtk_widget_set_tooltip_text (GTK_WIDGET (bar->zoom), _ ("100 % is true size on this screen"));
  gtk_box_append (box, GTK_WIDGET (bar->zoom));
  gtk_box_append (box, make_button ("zoom-in-symbolic", "win.zoom-in", _ ("Zoom in (Ctrl++)")));
  gtk_box_append (box, make_button ("zoom-fit-best-symbolic", "win.fit",
                                    _ ("Show the whole drawing (Ctrl+0)")));
  gtk_box_append (box, make_button ("zoom-original-symbolic", "win.true-size",
                                    _ ("True size on this screen (Ctrl+1)")));
  gtk_box_append (box, gtk_separator_new (GTK_ORIENTATION_VERTICAL));
  GtkWidget *label = gtk_label_new_with_mnemonic (_ ("View tu_rned"));
  bar->turn = GTK_SPIN_BUTTON (gtk_spin_button_new_with_range (-360, 360, 5));
  gtk_spin_button_set_digits (bar->turn, 0);
  gtk_spin_button_set_wrap (bar->turn, TRUE);
  gtk_widget_set_tooltip_text (GTK_WIDGET (bar->turn),
                               _ ("Turn the view, as a pillow is turned: degrees clockwise"));
  gtk_label_set_mnemonic_widget (GTK_LABEL (label), GTK_WIDGET (bar->turn));
  gtk_box_append (box, label);
  gtk_box_append (box, GTK_WIDGET (bar->turn));
  g_signal_connect_swapped (bar->turn, "value-changed", G_CALLBACK (turn_changed), bar);
}

static void
pf_status_bar_dispose (GObject *object)
{
  PfStatusBar *bar = PF_STATUS_BAR (object);
  g_clear_object (&bar->editor);
  g_clear_object (&bar->canvas);
  G_OBJECT_CLASS (pf_status_bar_parent_class)->dispose (object);
}

static void
pf_status_bar_class_init (PfStatusBarClass *class)
{
  G_OBJECT_CLASS (class)->dispose = pf_status_bar_dispose;
}

static void
pf_status_bar_init (PfStatusBar *bar)
{
  gtk_box_set_spacing (GTK_BOX (bar), 6);
  gtk_widget_add_css_class (GTK_WIDGET (bar), "status-bar");
  bar->spinner = GTK_SPINNER (gtk_spinner_new ());
  bar->counts = GTK_LABEL (gtk_label_new (""));
  gtk_label_set_ellipsize (bar->counts, PANGO_ELLIPSIZE_END);
  gtk_label_set_xalign (bar->counts, 0);
  gtk_widget_set_hexpand (GTK_WIDGET (bar->counts), TRUE);
  gtk_box_append (GTK_BOX (bar), GTK_WIDGET (bar->spinner));
  gtk_box_append (GTK_BOX (bar), GTK_WIDGET (bar->counts));
  add_view_controls (bar);
}

GtkWidget *
pf_status_bar_new (PfEditor *editor, PfCanvas *canvas)
{
  PfStatusBar *bar = g_object_new (PF_TYPE_STATUS_BAR, NULL);
  bar->editor = g_object_ref (editor);
  bar->canvas = g_object_ref (canvas);
  g_signal_connect_object (editor, "worked-out", G_CALLBACK (update_counts), bar,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (editor, "selection-changed", G_CALLBACK (update_counts), bar,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (editor, "stage-changed", G_CALLBACK (update_stage), bar,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (canvas, "view-changed", G_CALLBACK (update_view), bar,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (editor, "worked-out", G_CALLBACK (update_threads), bar,
                           G_CONNECT_SWAPPED);
  update_counts (bar);
  update_view (bar);
  return GTK_WIDGET (bar);
}
