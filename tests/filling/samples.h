/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Regions, grounds and placements for the tests of src/filling, and the same regions for GEOS, the
 * reference library for geometry in the plane (https://libgeos.org).
 */
#pragma once

#include <geos_c.h>

#include <lattice.h>
#include <pricking.h>

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PfRegion, pf_region_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PfFilling, pf_filling_free)

/* A ground that comes with the program. */
PfGround *sample_ground (const char *name);

/* A region with one loop. */
PfRegion *sample_polygon (const PfPoint *points, size_t n);

/* A random outline of n corners between `inner` and `outer` mm from `centre`, with up to two small
 * holes of the same kind within `inner`. */
PfRegion *sample_star (PfPoint centre, double inner, double outer, size_t n, size_t n_holes);

/* A random gap between the two given, turn, origin within 100 mm, and mirroring. */
PfPlacement sample_placement (double least_gap, double most_gap);

/* A region as GEOS sees it. */
typedef struct {
  GEOSContextHandle_t handle;
  GEOSGeometry *area, *outline;
  const GEOSPreparedGeometry *inside, *near; /* of the area, of the outline */
} GeosRegion;

GeosRegion *geos_region_new (const PfRegion *region);
void geos_region_free (GeosRegion *geos);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (GeosRegion, geos_region_free)

/* To be freed with GEOSGeom_destroy_r(). */
GEOSGeometry *geos_point (const GeosRegion *geos, PfPoint p);
GEOSGeometry *geos_line (const GeosRegion *geos, PfPoint from, PfPoint to);

/* Is `p` strictly within? And how far is it from the outline? */
bool geos_contains (const GeosRegion *geos, PfPoint p);
double geos_distance (const GeosRegion *geos, PfPoint p);

/* How many mm of the line lie outside. */
double geos_outside (const GeosRegion *geos, PfPoint from, PfPoint to);
