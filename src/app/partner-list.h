/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The lines that a sewing can turn with, the nearest first, in a popover. The one that is pointed
 * at lights up on the canvas, where a line can be chosen too.
 *
 * Signal "chosen" (guint): a crossing.
 */
#pragma once

#include "sewings-tool.h"

G_BEGIN_DECLS

#define PF_TYPE_PARTNER_LIST (pf_partner_list_get_type ())
G_DECLARE_FINAL_TYPE (PfPartnerList, pf_partner_list, PF, PARTNER_LIST, GtkPopover)

/* For a sewing of the active motif. */
GtkWidget *pf_partner_list_new (PfEditor *editor, PfSewingsTool *tool, guint32 sewing);

G_END_DECLS
