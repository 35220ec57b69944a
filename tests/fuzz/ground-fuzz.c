/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Any bytes as a ground; one that is read is written as it was, and set into a shape with a hole,
 * where all that goes in comes out. Run it for a minute with `ground-fuzz -max_total_time=60
 * CORPUS`, where CORPUS is a folder of grounds to begin with.
 */
#include <string.h>

#include <document-file.h>
#include <pricking.h>

int LLVMFuzzerTestOneInput (const guint8 *data, gsize size);

static PfGround *
parse (const char *json, gsize n)
{
  g_autoptr (GError) error = NULL;
  PfGround *ground = pf_ground_parse (json, n, "fuzz", &error);
  g_assert_true ((ground == NULL) == (error != NULL));
  return ground;
}

static void
write_and_read (const PfGround *ground)
{
  g_autofree char *json = pf_ground_to_json (ground, NULL);
  g_autoptr (PfGround) again = parse (json, strlen (json));
  g_assert_nonnull (again);
  g_assert_true (pf_ground_equal (ground, again));
}

static PfRegion *
frame (void)
{
  PfPoint outer[] = { { 0, 0 }, { 31, 2 }, { 29, 33 }, { 1, 30 } };
  PfPoint inner[] = { { 12, 12 }, { 18, 13 }, { 17, 19 } };
  const PfChain chains[] = { { outer, G_N_ELEMENTS (outer), true },
                             { inner, G_N_ELEMENTS (inner), true } };
  return pf_region_new (chains, G_N_ELEMENTS (chains), NULL);
}

static void
fill (const PfGround *ground)
{
  PfRegion *region = frame ();
  PfEdge edges[2];
  for (size_t l = 0; l < region->n_loops; l++)
    pf_edge_init_even (&edges[l], &region->loops[l], (PfEdgeKind) l, 2, NULL);
  PfFillingSettings settings = pf_filling_settings_default ();
  settings.placement.gap = 4;
  settings.placement.turn = 10;
  PfFilling *filling = pf_filling_new (region, edges, ground, &settings, NULL);
  if (filling != NULL)
    {
      g_assert_true (filling->counts.leaving == filling->counts.entering);
      g_assert_true (filling->n_pairs == filling->counts.new_pairs);
      for (size_t e = 0; e < filling->n_ends; e++)
        g_assert_true (filling->ends[e].pair < filling->n_pairs);
      for (guint32 s = 0; s < filling->n_sewings; s++)
        g_free (pf_explain_sewing (filling, ground, s));
    }
  pf_filling_free (filling);
  for (size_t l = 0; l < region->n_loops; l++)
    pf_edge_clear (&edges[l]);
  pf_region_free (region);
}

int
LLVMFuzzerTestOneInput (const guint8 *data, gsize size)
{
  g_autoptr (PfGround) ground = parse ((const char *) data, size);
  if (ground == NULL)
    return 0;
  write_and_read (ground);
  fill (ground);
  return 0;
}
