/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The commands of pinfold-cli. Each returns the program's exit status.
 */
#pragma once

#include <sheet.h>

enum {
  PF_EXIT_DONE = 0,
  PF_EXIT_BAD_INPUT = 1,
  PF_EXIT_WRONG_USE = 2,
};

int pf_fill_command (int argc, char **argv);
int pf_grounds_command (int argc, char **argv);
int pf_threads_command (int argc, char **argv);

/* Proves the grounds (NULL-terminated) and prints their numbers; what fails is said on standard
 * error, and makes the exit status PF_EXIT_BAD_INPUT. */
int pf_check_grounds (char **names);

/* --- Tables -------------------------------------------------------------------------------------
 */

/* Prints rows of `n_columns` cells each as columns as wide as they must be; the first row is the
 * headings. right[column]: its cells stand at its right end. */
void pf_print_table (const GPtrArray *cells, int n_columns, const bool *right);

/* --- Reading arguments --------------------------------------------------------------------------
 */

/* Parses the options of one command; argv[0] is its name. Help is printed and the program ends with
 * status 0 if asked for. False: the trouble is said on standard error, and the use is wrong. */
bool pf_parse_options (GOptionContext *context, int argc, char **argv);

/* One clear line on standard error. */
void pf_say_error (const char *format, ...) G_GNUC_PRINTF (1, 2);

/* Reads a whole argument as a number; nothing may follow it. `option` names it in the error. An
 * argument that is NULL leaves the value alone. */
bool pf_parse_number (const char *option, const char *argument, double *value);
/* "X,Y" */
bool pf_parse_point (const char *option, const char *argument, PfPoint *point);
/* "X,Y,W,H": the top left corner, width and height. */
bool pf_parse_box (const char *option, const char *argument, PfBox *box);
/* The place of the argument among `words` (NULL-terminated). */
bool pf_parse_choice (const char *option, const char *argument, const char *const *words,
                      int *choice);
/* Does the name end in one of `endings` (NULL-terminated)? */
bool pf_check_ending (const char *option, const char *filename, const char *const *endings);
