/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Any bytes as a ground. Run it for a minute with `ground-fuzz -max_total_time=60 CORPUS`, where
 * CORPUS is a folder of grounds to begin with.
 */
#include <pricking.h>

int LLVMFuzzerTestOneInput (const guint8 *data, gsize size);

int
LLVMFuzzerTestOneInput (const guint8 *data, gsize size)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (PfGround) ground = pf_ground_parse ((const char *) data, size, "fuzz", &error);
  g_assert_true ((ground == NULL) == (error != NULL));
  return 0;
}
