/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The one error domain that every part shares. */
#include "shape.h"

G_DEFINE_QUARK (pf - error - quark, pf_error)
