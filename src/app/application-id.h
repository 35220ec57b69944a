/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The name under which the desktop knows Pinfold: of its icon, its desktop file, its D-Bus name.
 */
#pragma once

#define PF_APPLICATION_ID "org.pinfold.Pinfold"
