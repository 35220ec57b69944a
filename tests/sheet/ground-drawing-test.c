/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Drawings of grounds by themselves: every one that comes with the program, with all its stitches
 * named and all words on the page.
 */
#include <string.h>

#include "samples.h"
#include "view.h"

/* How many of the page's words hold `name` as a whole word between commas. */
static bool
is_named (const GPtrArray *texts, const char *name)
{
  for (guint i = 0; i < texts->len; i++)
    {
      g_autofree char *text = text_of (g_ptr_array_index (texts, i));
      g_auto (GStrv) names = g_strsplit (text, ", ", -1);
      if (g_strv_contains ((const char *const *) names, name))
        return true;
    }
  return false;
}

static void
check_words (xmlDoc *page)
{
  const xmlNode *root = xmlDocGetRootElement (page);
  const double width = number_of (root, "width"), height = number_of (root, "height");
  g_autoptr (GPtrArray) texts = elements_of (page, NULL, "text");
  for (guint i = 0; i < texts->len; i++)
    {
      g_autofree char *text = text_of (g_ptr_array_index (texts, i));
      if (!*text)
        continue;
      const PfBox box = text_ink (g_ptr_array_index (texts, i));
      g_assert_true (box.min.x > 0 && box.min.y > 0 && box.max.x < width && box.max.y < height);
      for (guint j = 0; j < i; j++)
        g_assert_false (pf_boxes_meet (box, text_ink (g_ptr_array_index (texts, j))));
    }
}

static void
test_all (void)
{
  g_auto (GStrv) names = pf_ground_names ();
  g_assert_cmpuint (g_strv_length (names), >=, 12);
  for (char **name = names; *name; name++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (PfGround) ground = pf_ground_load (*name, &error);
      g_assert_no_error (error);
      g_test_message ("%s", *name);
      g_autofree char *svg = pf_ground_drawing_svg (ground);
      g_autofree char *again = pf_ground_drawing_svg (ground);
      g_assert_cmpstr (svg, ==, again);
      xmlDoc *page = read_page (svg);
      g_autoptr (GPtrArray) labels = elements_of (page, "numbers", "text");
      for (int k = 0; k < ground->n_stitches; k++)
        g_assert_true (is_named (labels, ground->stitches[k].name));
      check_words (page);
      g_assert_cmpuint (count_of (page, "pair-lines", "polyline"), >=, (guint) ground->n_lines / 2);
      g_assert_cmpint (count_of (page, "pins", "circle") > 0, ==, ground->has_pins);
      xmlFreeDoc (page);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sheet/ground-drawing/all", test_all);
  return g_test_run ();
}
