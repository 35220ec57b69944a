/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Tools: what the pointer and the keyboard do on the canvas, one for each stage (and some more,
 * such as marking known distances on a scan). The canvas turns events into places on the sheet, in
 * mm; a tool changes the editor's document and draws its own marks on top.
 */
#pragma once

#include <gtk/gtk.h>

#include "editor.h"

G_BEGIN_DECLS

#define PF_TYPE_TOOL (pf_tool_get_type ())
G_DECLARE_DERIVABLE_TYPE (PfTool, pf_tool, PF, TOOL, GObject)

/* One event of the pointer. */
typedef struct {
  PfPoint at;   /* on the sheet, mm */
  double pixel; /* mm to a pixel */
  double reach; /* how near is near, mm */
  int n_press;  /* 2 for the second of a double click */
  guint button;
  GdkModifierType state;
  PfPick number; /* the sewing or pinhole whose number lies there, or PF_PICK_NOTHING */
} PfPointer;

struct _PfToolClass {
  GObjectClass parent_class;

  /* A button went down: true if the tool goes on with it (drag, release follow). */
  bool (*press) (PfTool *tool, const PfPointer *pointer);
  void (*drag) (PfTool *tool, const PfPointer *pointer);
  void (*release) (PfTool *tool, const PfPointer *pointer);
  /* What was begun is given up: Escape, or the system took the pointer away. */
  void (*cancel) (PfTool *tool);
  void (*hover) (PfTool *tool, const PfPointer *pointer);
  void (*leave) (PfTool *tool);
  /* True if the key meant something to the tool. */
  bool (*key) (PfTool *tool, guint keyval, GdkModifierType state, double pixel);
  /* Marks on top of everything, with one user unit to the mm. `pixel` mm are one pixel. */
  void (*draw) (PfTool *tool, cairo_t *cr, double pixel);
  /* The name of a cursor for where the pointer is, or NULL. */
  const char *(*cursor) (PfTool *tool);
  /* What is selected or begun, in words, to be spoken; NULL for nothing. Free with g_free(). */
  char *(*describe) (PfTool *tool);
};

PfEditor *pf_tool_editor (PfTool *tool); /* construct property "editor" */

/* Emits "redraw": the tool's marks changed. */
void pf_tool_redraw (PfTool *tool);

G_END_DECLS
