/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Are two fillings the same, number by number? */
#pragma once

#include "samples.h"

/* Stops the test where they aren't. Warnings and choices not kept to aren't compared. */
void assert_same_filling (const PfFilling *a, const PfFilling *b);
/* A sewing's place, and what follows from it. */
void assert_same_sewing (const PfSewing *a, const PfSewing *b);
