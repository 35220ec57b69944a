/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The panel of the first stage: motifs are drawn, imported or traced, and their outlines changed.
 */
#pragma once

#include "panel.h"

G_BEGIN_DECLS

#define PF_TYPE_OUTLINE_PANEL (pf_outline_panel_get_type ())
G_DECLARE_FINAL_TYPE (PfOutlinePanel, pf_outline_panel, PF, OUTLINE_PANEL, PfPanel)

G_END_DECLS
