/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Keys at the pillow. They come here only if no entry or button has use for them.
 */
#include "pillow-page-private.h"

static bool
is_typing (PfPillowPage *page)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (page));
  return root != NULL && GTK_IS_EDITABLE (gtk_root_get_focus (root));
}

static void
escape (PfPillowPage *page)
{
  if (pf_pillow_words_close_note (page->words))
    return;
  if (is_typing (page))
    {
      pf_pillow_page_to_view (page);
      pf_pillow_page_update (page);
      return;
    }
  pf_pillow_page_leave (page);
}

static bool
move_by_key (PfPillowPage *page, guint key)
{
  switch (key)
    {
    case GDK_KEY_space:
    case GDK_KEY_KP_Space:
    case GDK_KEY_Return:
    case GDK_KEY_KP_Enter:
    case GDK_KEY_Right:
    case GDK_KEY_KP_Right:
    case GDK_KEY_Down:
    case GDK_KEY_KP_Down:
    case GDK_KEY_Page_Down:
    case GDK_KEY_KP_Page_Down:
      pf_pillow_page_forward (page);
      return true;
    case GDK_KEY_BackSpace:
    case GDK_KEY_Left:
    case GDK_KEY_KP_Left:
    case GDK_KEY_Up:
    case GDK_KEY_KP_Up:
    case GDK_KEY_Page_Up:
    case GDK_KEY_KP_Page_Up:
      pf_pillow_page_back (page);
      return true;
    case GDK_KEY_Home:
    case GDK_KEY_KP_Home:
      pf_pillow_page_go (page, 0, true);
      return true;
    case GDK_KEY_End:
    case GDK_KEY_KP_End:
      if (page->plan != NULL)
        pf_pillow_page_go (page, page->plan->steps->n_steps - 1, true);
      return true;
    default:
      return false;
    }
}

static bool
command_by_key (PfPillowPage *page, guint key)
{
  switch (gdk_keyval_to_lower (key))
    {
    case GDK_KEY_n:
      pf_pillow_words_open_note (page->words);
      return true;
    case GDK_KEY_g:
      if (page->plan != NULL)
        gtk_widget_grab_focus (GTK_WIDGET (page->repeat));
      return true;
    case GDK_KEY_w:
      pf_pillow_page_set_whole (page, !page->whole);
      return true;
    default:
      return false;
    }
}

gboolean
pf_pillow_page_key (GtkEventControllerKey *keys G_GNUC_UNUSED, guint key, guint code G_GNUC_UNUSED,
                    GdkModifierType state, PfPillowPage *page)
{
  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SUPER_MASK)) != 0)
    return GDK_EVENT_PROPAGATE;
  if (key == GDK_KEY_Escape)
    {
      escape (page);
      return GDK_EVENT_STOP;
    }
  return !is_typing (page) && (move_by_key (page, key) || command_by_key (page, key));
}
