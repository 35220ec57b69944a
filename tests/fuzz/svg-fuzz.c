/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Any bytes as a drawing, once with all outlines and once with one picked. Run it for a minute with
 * `svg-fuzz -max_total_time=60 CORPUS`, where CORPUS is a folder of drawings to begin with.
 */
#include <pricking.h>

int LLVMFuzzerTestOneInput (const guint8 *data, gsize size);

static void
try_drawing (const char *svg, gsize n, const char *const *elements)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (PfDrawing) drawing = pf_drawing_parse (svg, n, "fuzz", elements, &error);
  g_assert_true ((drawing == NULL) == (error != NULL));
}

int
LLVMFuzzerTestOneInput (const guint8 *data, gsize size)
{
  static const char *const picked[] = { "a", NULL };
  try_drawing ((const char *) data, size, NULL);
  try_drawing ((const char *) data, size, picked);
  return 0;
}
