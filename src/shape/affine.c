/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Affine maps as values: each function gives a new map. */
#include "shape.h"

PfAffine
pf_affine_compose (PfAffine outer, PfAffine inner)
{
  const PfPoint origin = pf_affine_map (outer, (PfPoint){ inner.x0, inner.y0 });

  return (PfAffine){
    .xx = outer.xx * inner.xx + outer.xy * inner.yx,
    .xy = outer.xx * inner.xy + outer.xy * inner.yy,
    .yx = outer.yx * inner.xx + outer.yy * inner.yx,
    .yy = outer.yx * inner.xy + outer.yy * inner.yy,
    .x0 = origin.x,
    .y0 = origin.y,
  };
}

PfAffine
pf_affine_invert (PfAffine m)
{
  const double det = pf_affine_determinant (m);
  const PfAffine linear = { m.yy / det, -m.xy / det, -m.yx / det, m.xx / det, 0, 0 };
  const PfPoint origin = pf_affine_map (linear, (PfPoint){ -m.x0, -m.y0 });

  return (PfAffine){ linear.xx, linear.xy, linear.yx, linear.yy, origin.x, origin.y };
}
