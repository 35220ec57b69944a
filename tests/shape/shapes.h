/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shapes for the tests, and their twins in GEOS (libgeos), the geometry library we check against.
 */
#pragma once

#include <geos_c.h>
#include <math.h>

#include <shape.h>

G_BEGIN_DECLS

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PfPath, pf_path_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PfRegion, pf_region_free)

/* A closed chain from an array of coordinates; valid as long as the array is. */
#define CHAIN(points) ((PfChain){ (PfPoint *) (points), G_N_ELEMENTS (points), true })

/* The distance of `p` from the straight line between `a` and `b`, ends included. */
double distance_to_step (PfPoint p, PfPoint a, PfPoint b);
/* The least of these over all steps of a chain. */
double distance_to_chain (PfPoint p, const PfChain *chain);
/* The same over the step after *step steps and the next few; *step becomes the nearest of them. */
double distance_ahead (PfPoint p, const PfChain *chain, size_t *step);

/* A chain of n points round `centre`, none farther than `radius`, that doesn't cross itself; it has
 * sharp spikes if `low` is near 0. Its first point is random, its direction too. Free the points.
 */
PfChain random_star (PfPoint centre, double low, double radius, size_t n);
/* n points on the whole numbers from 0 to `size`; the loop may cross or touch itself. */
PfChain random_lattice_chain (int size, size_t n);

/* A random star about 100 mm wide with several holes, some of them tiny. */
PfRegion *random_region (void);
/* A region with all its points on whole mm: no line of which GEOS says that it isn't simple. */
PfRegion *random_lattice_region (int size, size_t n);

GEOSGeometry *geos_ring (GEOSContextHandle_t geos, const PfPoint *points, size_t n);
GEOSGeometry *geos_polygon (GEOSContextHandle_t geos, const PfRegion *region);
GEOSGeometry *geos_point (GEOSContextHandle_t geos, PfPoint p);
GEOSGeometry *geos_line (GEOSContextHandle_t geos, PfPoint a, PfPoint b);

G_END_DECLS
