/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The grounds to choose from, each with a small picture and its title; what is searched for among
 * them; and a window that tells all of one.
 */
#pragma once

#include <gtk/gtk.h>
#include <pricking.h>

#include "length.h"

G_BEGIN_DECLS

#define PF_TYPE_GROUND_GALLERY (pf_ground_gallery_get_type ())
G_DECLARE_FINAL_TYPE (PfGroundGallery, pf_ground_gallery, PF, GROUND_GALLERY, GtkBox)

/* Signal "chosen" (const char *name): the maker chose one that comes with the program. */
GtkWidget *pf_ground_gallery_new (void);

/* Marks the one of that name as chosen; none for NULL or a name that isn't among them. */
void pf_ground_gallery_set_chosen (PfGroundGallery *gallery, const char *name);
/* The unit in which lengths are told. */
void pf_ground_gallery_set_units (PfGroundGallery *gallery, PfUnits units);

G_END_DECLS
