/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * One property in a key file.
 */
#pragma once

#include <stdbool.h>

#include <glib-object.h>

G_BEGIN_DECLS

/* The value of the property's key; false if there is none, or none that the property can have. */
bool pf_preferences_key_read (GKeyFile *keys, GParamSpec *pspec, GValue *value);
/* Writes the property's key, or removes it if the value is the default. */
void pf_preferences_key_write (GKeyFile *keys, GParamSpec *pspec, const GValue *value);

/* "#rrggbb"? */
bool pf_preferences_is_colour (const char *text);

G_END_DECLS
