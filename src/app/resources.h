/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The files that are built into the program: templates, style, the demo.
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

#define PF_RESOURCES "/org/pinfold/Pinfold/"

/* Makes them known; again does nothing. What is linked from a library isn't known by itself. */
void pf_use_resources (void);

G_END_DECLS
