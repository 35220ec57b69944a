/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What all tools share: the editor they work on, and the wish to be drawn again. A tool that leaves
 * a function out does nothing there.
 */
#include "tool.h"

typedef struct {
  PfEditor *editor;
} PfToolPrivate;

G_DEFINE_ABSTRACT_TYPE_WITH_PRIVATE (PfTool, pf_tool, G_TYPE_OBJECT)

enum { PROP_EDITOR = 1, N_PROPS };
static GParamSpec *props[N_PROPS];
static guint redraw_signal;

static bool
press_nothing (PfTool *tool G_GNUC_UNUSED, const PfPointer *pointer G_GNUC_UNUSED)
{
  return false;
}

static void
ignore_pointer (PfTool *tool G_GNUC_UNUSED, const PfPointer *pointer G_GNUC_UNUSED)
{
}

static void
ignore (PfTool *tool G_GNUC_UNUSED)
{
}

static bool
ignore_key (PfTool *tool G_GNUC_UNUSED, guint keyval G_GNUC_UNUSED,
            GdkModifierType state G_GNUC_UNUSED, double pixel G_GNUC_UNUSED)
{
  return false;
}

static void
draw_nothing (PfTool *tool G_GNUC_UNUSED, cairo_t *cr G_GNUC_UNUSED, double pixel G_GNUC_UNUSED)
{
}

static const char *
usual_cursor (PfTool *tool G_GNUC_UNUSED)
{
  return NULL;
}

static char *
describe_nothing (PfTool *tool G_GNUC_UNUSED)
{
  return NULL;
}

static void
pf_tool_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_EDITOR)
    g_value_set_object (value, pf_tool_editor (PF_TOOL (object)));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
pf_tool_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  PfToolPrivate *private = pf_tool_get_instance_private (PF_TOOL (object));
  if (id == PROP_EDITOR)
  private->editor = g_value_dup_object (value);
  else G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
pf_tool_dispose (GObject *object)
{
  PfToolPrivate *private = pf_tool_get_instance_private (PF_TOOL (object));
  g_clear_object (&private->editor);
  G_OBJECT_CLASS (pf_tool_parent_class)->dispose (object);
}

static void
pf_tool_class_init (PfToolClass *class)
{
  GObjectClass *object_class = G_OBJECT_CLASS (class);
  object_class->get_property = pf_tool_get_property;
  object_class->set_property = pf_tool_set_property;
  object_class->dispose = pf_tool_dispose;
  class->press = press_nothing;
  class->drag = ignore_pointer;
  class->release = ignore_pointer;
  class->cancel = ignore;
  class->hover = ignore_pointer;
  class->leave = ignore;
  class->key = ignore_key;
  class->draw = draw_nothing;
  class->cursor = usual_cursor;
  class->describe = describe_nothing;
  props[PROP_EDITOR] =
      g_param_spec_object ("editor", NULL, NULL, PF_TYPE_EDITOR,
                           G_PARAM_READWRITE | G_PARAM_CONSTRUCT_ONLY | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
  redraw_signal =
      g_signal_new ("redraw", PF_TYPE_TOOL, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
pf_tool_init (PfTool *tool G_GNUC_UNUSED)
{
}

PfEditor *
pf_tool_editor (PfTool *tool)
{
  return ((PfToolPrivate *) pf_tool_get_instance_private (tool))->editor;
}

void
pf_tool_redraw (PfTool *tool)
{
  g_signal_emit (tool, redraw_signal, 0);
}
