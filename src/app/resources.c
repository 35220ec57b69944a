/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Resources of the window. */
#include "resources.h"

#include "app-resources.h"

void
pf_use_resources (void)
{
  static gsize done;
  if (!g_once_init_enter (&done))
    return;
  g_resources_register (pf_app_get_resource ());
  g_once_init_leave (&done, 1);
}
