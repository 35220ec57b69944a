/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What all panels share: they listen to the editor, and look only while they are shown.
 */
#include "panel.h"

#include <glib/gi18n-lib.h>

#include "form.h"
#include "number-entry.h"
#include "panel-wheel.h"
#include "resources.h"

#define SCROLL_ROOM 6 /* pixels beyond what is scrolled to */

typedef struct {
  PfEditor *editor;
  PfCanvas *canvas;
  PfTool *tool;
  bool updating;
} PfPanelPrivate;

G_DEFINE_ABSTRACT_TYPE_WITH_PRIVATE (PfPanel, pf_panel, GTK_TYPE_BOX)

enum { PROP_0, PROP_EDITOR, PROP_CANVAS, PROP_TOOL, N_PROPS };
static GParamSpec *props[N_PROPS];
static guint say_signal;

static PfPanelPrivate *
get_private (PfPanel *panel)
{
  return pf_panel_get_instance_private (panel);
}

PfEditor *
pf_panel_editor (PfPanel *panel)
{
  return get_private (panel)->editor;
}

PfCanvas *
pf_panel_canvas (PfPanel *panel)
{
  return get_private (panel)->canvas;
}

PfTool *
pf_panel_tool (PfPanel *panel)
{
  return get_private (panel)->tool;
}

void
pf_panel_set_tool (PfPanel *panel, PfTool *tool)
{
  if (g_set_object (&get_private (panel)->tool, tool))
    g_object_notify_by_pspec (G_OBJECT (panel), props[PROP_TOOL]);
}

bool
pf_panel_updating (PfPanel *panel)
{
  return get_private (panel)->updating;
}

void
pf_panel_update (PfPanel *panel)
{
  PfPanelPrivate *priv = get_private (panel);
  if (priv->updating || !gtk_widget_get_mapped (GTK_WIDGET (panel)))
    return;
  priv->updating = true;
  PF_PANEL_GET_CLASS (panel)->update (panel);
  priv->updating = false;
}

void
pf_panel_say (PfPanel *panel, const char *text)
{
  g_signal_emit (panel, say_signal, 0, text);
}

PfDraft *
pf_panel_edit (PfPanel *panel)
{
  PfEditor *editor = pf_panel_editor (panel);
  if (pf_editor_draft (editor) == NULL)
    pf_panel_say (panel, _ ("There is no motif yet. Draw one or import a drawing first."));
  else if (pf_editor_follows (editor))
    pf_panel_say (panel, _ ("This motif is the mirror image of another one and follows it. Change "
                            "that one."));
  return pf_editor_edit (editor);
}

/* What was shown only now has its place after the next frame. */
static gboolean
scroll_after_a_frame (GtkWidget *widget, GdkFrameClock *clock G_GNUC_UNUSED, gpointer data)
{
  int *frames = data;
  GtkWidget *scroller = gtk_widget_get_ancestor (widget, GTK_TYPE_SCROLLED_WINDOW);
  graphene_rect_t bounds;
  if ((*frames)++ == 0)
    return G_SOURCE_CONTINUE;
  if (scroller == NULL || !gtk_widget_get_mapped (widget) ||
      !gtk_widget_compute_bounds (
          widget, gtk_scrolled_window_get_child (GTK_SCROLLED_WINDOW (scroller)), &bounds))
    return G_SOURCE_REMOVE;
  GtkAdjustment *down = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scroller));
  const double top = gtk_adjustment_get_value (down) + bounds.origin.y;
  gtk_adjustment_clamp_page (down, top - SCROLL_ROOM, top + bounds.size.height + SCROLL_ROOM);
  return G_SOURCE_REMOVE;
}

void
pf_panel_scroll_to (GtkWidget *widget)
{
  gtk_widget_add_tick_callback (widget, scroll_after_a_frame, g_new0 (int, 1), g_free);
}

static void
pf_panel_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (pf_panel_parent_class)->map (widget);
  pf_panel_update (PF_PANEL (widget));
}

/* Drop-downs are named as by their labels. What an expander hides isn't in the window: the keyboard
 * mustn't look for it there. */
static void
prepare_inside (GtkWidget *widget)
{
  if (GTK_IS_DROP_DOWN (widget))
    {
      g_autoptr (GList) labels = gtk_widget_list_mnemonic_labels (widget);
      if (labels != NULL)
        pf_name_choice (GTK_DROP_DOWN (widget), gtk_label_get_text (labels->data));
      return;
    }
  if (GTK_IS_EXPANDER (widget))
    {
      GtkWidget *hidden = gtk_expander_get_child (GTK_EXPANDER (widget));
      g_object_bind_property (widget, "expanded", hidden, "visible", G_BINDING_SYNC_CREATE);
      prepare_inside (hidden);
      return;
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    prepare_inside (child);
}

static void
pf_panel_constructed (GObject *object)
{
  static const char *const changes[] = { "document-changed", "worked-out", "selection-changed",
                                         "units-changed" };
  G_OBJECT_CLASS (pf_panel_parent_class)->constructed (object);
  prepare_inside (GTK_WIDGET (object));
  for (gsize c = 0; c < G_N_ELEMENTS (changes); c++)
    g_signal_connect_object (pf_panel_editor (PF_PANEL (object)), changes[c],
                             G_CALLBACK (pf_panel_update), object, G_CONNECT_SWAPPED);
  pf_number_entries_prepare (GTK_WIDGET (object), PF_PANEL (object));
  pf_panel_wheel_moves_only (GTK_WIDGET (object));
}

static void
pf_panel_get_property (GObject *object, guint id, GValue *value, GParamSpec *spec)
{
  PfPanelPrivate *priv = get_private (PF_PANEL (object));
  if (id == PROP_EDITOR)
    g_value_set_object (value, priv->editor);
  else if (id == PROP_CANVAS)
    g_value_set_object (value, priv->canvas);
  else if (id == PROP_TOOL)
    g_value_set_object (value, priv->tool);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
pf_panel_set_property (GObject *object, guint id, const GValue *value, GParamSpec *spec)
{
  PfPanelPrivate *priv = get_private (PF_PANEL (object));
  if (id == PROP_EDITOR)
    priv->editor = g_value_dup_object (value);
  else if (id == PROP_CANVAS)
    priv->canvas = g_value_dup_object (value);
  else if (id == PROP_TOOL)
    pf_panel_set_tool (PF_PANEL (object), g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
pf_panel_dispose (GObject *object)
{
  PfPanelPrivate *priv = get_private (PF_PANEL (object));
  g_clear_object (&priv->tool);
  g_clear_object (&priv->canvas);
  g_clear_object (&priv->editor);
  G_OBJECT_CLASS (pf_panel_parent_class)->dispose (object);
}

static void
pf_panel_class_init (PfPanelClass *class)
{
  pf_use_resources ();
  GObjectClass *object = G_OBJECT_CLASS (class);
  const GParamFlags once = G_PARAM_READWRITE | G_PARAM_CONSTRUCT_ONLY | G_PARAM_STATIC_STRINGS;
  object->constructed = pf_panel_constructed;
  object->get_property = pf_panel_get_property;
  object->set_property = pf_panel_set_property;
  object->dispose = pf_panel_dispose;
  GTK_WIDGET_CLASS (class)->map = pf_panel_map;
  props[PROP_EDITOR] = g_param_spec_object ("editor", NULL, NULL, PF_TYPE_EDITOR, once);
  props[PROP_CANVAS] = g_param_spec_object ("canvas", NULL, NULL, PF_TYPE_CANVAS, once);
  props[PROP_TOOL] = g_param_spec_object ("tool", NULL, NULL, PF_TYPE_TOOL,
                                          G_PARAM_READWRITE | G_PARAM_CONSTRUCT |
                                              G_PARAM_STATIC_STRINGS | G_PARAM_EXPLICIT_NOTIFY);
  g_object_class_install_properties (object, N_PROPS, props);
  say_signal = g_signal_new ("say", PF_TYPE_PANEL, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                             G_TYPE_NONE, 1, G_TYPE_STRING);
}

static void
pf_panel_init (PfPanel *panel)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (panel), GTK_ORIENTATION_VERTICAL);
}
