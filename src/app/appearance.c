/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The look of windows is GTK's own: its light and dark style, and those with high contrast, which
 * are built into it. With the system's style GTK's settings are left alone.
 */
#include "appearance.h"

static void
update (PfPreferences *preferences)
{
  static const struct {
    const char *theme;
    bool dark;
  } styles[] = {
    [PF_STYLE_LIGHT] = { "Default", false },
    [PF_STYLE_DARK] = { "Default", true },
    [PF_STYLE_CONTRAST] = { "Default-hc", false },
    [PF_STYLE_DARK_CONTRAST] = { "Default-hc-dark", false }, /* dark by itself */
  };
  GtkSettings *settings = gtk_settings_get_default ();
  const PfStyle style = pf_preferences_style (preferences);
  if (style == PF_STYLE_SYSTEM)
    {
      gtk_settings_reset_property (settings, "gtk-theme-name");
      gtk_settings_reset_property (settings, "gtk-application-prefer-dark-theme");
    }
  else
    g_object_set (settings, "gtk-theme-name", styles[style].theme,
                  "gtk-application-prefer-dark-theme", styles[style].dark, NULL);
}

void
pf_appearance_follow (PfPreferences *preferences)
{
  g_signal_connect (preferences, "notify::style", G_CALLBACK (update), NULL);
  update (preferences);
}

bool
pf_appearance_is_dark (GtkWidget *widget)
{
  GdkRGBA words;
  gtk_style_context_get_color (gtk_widget_get_style_context (widget), &words);
  return 0.299 * words.red + 0.587 * words.green + 0.114 * words.blue > 0.5;
}
