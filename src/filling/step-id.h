/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What a working step is called through changes of the design: not by its number, which each change
 * of the gap or of the order moves, but by what is done, and at which line of which stitch.
 */
#pragma once

#include "working-steps.h"

G_BEGIN_DECLS

typedef struct {
  PfWorkKind kind;
  PfLineId line; /* of a stitch itself: side 0, and it doesn't leave */
} PfStepId;

/* What step n (less than steps->n_steps) of `filling` is called. */
PfStepId pf_working_step_id (const PfWorkingSteps *steps, const PfFilling *filling, size_t n);

/* The number of the step of that name, whose stitch is one of the ground's; steps->n_steps if there
 * is none now. */
size_t pf_working_steps_find (const PfWorkingSteps *steps, const PfFilling *filling, PfStepId id);

/* The same; where there is none now, the nearest earlier step: of those at the same stitch; else
 * the last at the stitch, first in the same repeat and then in any, whose working time comes just
 * before that of the missing one. 0 if there is no earlier one. */
size_t pf_working_steps_find_near (const PfWorkingSteps *steps, const PfFilling *filling,
                                   const PfGround *ground, PfStepId id);

G_END_DECLS
