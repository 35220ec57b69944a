/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The teller. Only widgets can be heard, not what is drawn in them; so a child without a look of
 * its own has the keyboard focus, and says what the canvas shows as selected.
 */
#include "teller.h"

#define PF_TYPE_TELLER (pf_teller_get_type ())
G_DECLARE_FINAL_TYPE (PfTeller, pf_teller, PF, TELLER, GtkWidget)

struct _PfTeller {
  GtkWidget parent_instance;
  char *words;
};

G_DEFINE_FINAL_TYPE (PfTeller, pf_teller, GTK_TYPE_WIDGET)

static void
pf_teller_finalize (GObject *object)
{
  g_free (PF_TELLER (object)->words);
  G_OBJECT_CLASS (pf_teller_parent_class)->finalize (object);
}

static void
pf_teller_class_init (PfTellerClass *class)
{
  G_OBJECT_CLASS (class)->finalize = pf_teller_finalize;
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (class), GTK_ACCESSIBLE_ROLE_LABEL);
}

static void
pf_teller_init (PfTeller *teller)
{
  gtk_widget_set_focusable (GTK_WIDGET (teller), TRUE);
  gtk_widget_set_can_target (GTK_WIDGET (teller), FALSE);
}

GtkWidget *
pf_teller_new (void)
{
  return g_object_new (PF_TYPE_TELLER, NULL);
}

void
pf_teller_tell (GtkWidget *widget, const char *words)
{
  PfTeller *teller = PF_TELLER (widget);
  if (g_strcmp0 (teller->words, words) == 0)
    return;
  g_free (teller->words);
  teller->words = g_strdup (words);
  gtk_accessible_update_property (GTK_ACCESSIBLE (teller), GTK_ACCESSIBLE_PROPERTY_LABEL, words,
                                  -1);
}
