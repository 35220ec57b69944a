/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The one error domain that every part shares; an error may carry its place on the sheet. */
#include <math.h>

#include "shape.h"

typedef struct {
  PfPoint place; /* NAN: none */
} PfErrorPrivate;

static void
pf_error_private_init (PfErrorPrivate *private)
{
  private->place = (PfPoint){ NAN, NAN };
}

static void
pf_error_private_copy (const PfErrorPrivate *from, PfErrorPrivate *to)
{
  to->place = from->place;
}

static void
pf_error_private_clear (G_GNUC_UNUSED PfErrorPrivate *private)
{
}

G_DEFINE_EXTENDED_ERROR (PfError, pf_error)

void
pf_error_set_place (GError **error, PfPoint place)
{
  if (error && *error && (*error)->domain == PF_ERROR)
    pf_error_get_private (*error)->place = place;
}

PfPoint
pf_error_place (const GError *error)
{
  return error && error->domain == PF_ERROR ? pf_error_get_private (error)->place
                                            : (PfPoint){ NAN, NAN };
}
