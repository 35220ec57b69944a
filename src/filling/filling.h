/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Fillings: a ground set into a region. Which stitches are worked, where each pair comes from and
 * goes to at the edge, where it is sewn, and in which order all is done.
 *
 * Everything is worked out at once by pf_filling_new() and never changes afterwards. Lengths in mm,
 * angles in degrees clockwise as seen on the sheet. Left and right are the ground's own.
 */
#pragma once

#include <ground.h>

G_BEGIN_DECLS

/* How the ground lies on the sheet: mirrored left to right (if asked), stretched along its
 * footside, scaled, turned, moved. */
typedef struct {
  double gap;     /* mm between the nearest pins */
  double turn;    /* degrees clockwise */
  PfPoint origin; /* where the ground's origin lies on the sheet, mm */
  bool mirror;
  double angle; /* of the ground's diagonals from its footside, degrees; 0: its own */
} PfPlacement;

#define PF_GAP_MIN 0.2
#define PF_GAP_MAX 100.0
#define PF_ANGLE_MIN 20.0
#define PF_ANGLE_MAX 80.0

/* The map from the ground's units to the sheet. */
PfAffine pf_placement_map (const PfGround *ground, PfPlacement placement);
/* From one pin to the next along the footside, mm; 0 if no pins of the ground lie so. */
double pf_placement_footside (const PfGround *ground, PfPlacement placement);

/* --- What the maker chooses ---------------------------------------------------------------------
 */

typedef enum {
  PF_BEADS_NONE,
  PF_BEADS_WHOLE, /* in whole repeats */
  PF_BEADS_KEPT,  /* in whole and kept repeats */
} PfBeads;

typedef enum {
  PF_REPEAT_WHOLE,    /* all its stitches are inside */
  PF_REPEAT_PARTIAL,  /* some are; the ground has no core */
  PF_REPEAT_KEPT,     /* some are, and its core is worked */
  PF_REPEAT_PLAIN,    /* some are, and its core is dropped */
  PF_REPEAT_LEFT_OUT, /* none of its pins is inside, or the maker leaves it out */
} PfRepeatState;

/* The maker's own choice for one repeat: PF_REPEAT_KEPT, PF_REPEAT_PLAIN or PF_REPEAT_LEFT_OUT. */
typedef struct {
  int i, j;
  PfRepeatState state;
} PfRepeatChoice;

/* Stitch k of repeat (i, j). */
typedef struct {
  int k, i, j;
} PfStitchId;

/* The line that is cut at the edge, by the stitch that stays: its exit where the pair leaves, its
 * entry where one enters. It names the same line whatever the gap and the origin. */
typedef struct {
  PfStitchId stitch;
  PfSide side;
  bool leaves;
} PfLineId;

typedef enum {
  PF_SEW_ALONE,   /* the pair is sewn in new, or sewn out and finished, and not used again */
  PF_SEW_TURN,    /* the pair that leaves turns here and enters at `other`: one sewing */
  PF_SEW_PINHOLE, /* the sewing goes into the pinhole nearest to `place` */
  PF_SEW_BAR,     /* it goes round the bar at `place` */
} PfSewingChoiceKind;

/* The maker's own choice for one cut line, or for the sewing that ends or begins there. One line
 * may have a choice of pair (alone, turn) and a choice of place (pinhole, bar). Of choices that
 * can't go together, the later one counts. */
typedef struct {
  PfLineId line;
  PfSewingChoiceKind kind;
  PfLineId other; /* of PF_SEW_TURN: the line that enters (`line` is the one that leaves) */
  PfPlace place;  /* of PF_SEW_PINHOLE and PF_SEW_BAR */
} PfSewingChoice;

/* How the maker likes to work. None of it changes what is worked, only when. */
typedef enum {
  PF_WORK_BY_REPEAT, /* what is earliest next */
  PF_WORK_BY_ROW,    /* a diagonal row of repeats to its end, as far as it can be worked */
} PfWorkBy;

typedef struct {
  bool right_first; /* of two that are equally early, the right one; rows then run down to the
                       right, else to the left (right and left are the ground's own) */
  PfWorkBy by;
  bool sew_in_first; /* all new pairs are sewn in before the first stitch; else each when it is
                        needed */
} PfWorkingHabits;

typedef struct {
  PfPlacement placement;
  double clearance; /* least distance of a stitch from the outline, in gaps */
  double carry;     /* farthest a pair runs along the edge, in gaps */
  double reach;     /* farthest a sewing moves to a pinhole of a half stitch edge, in edge gaps */
  double off_line;  /* degrees off its line above which a sewing is marked */
  int sewings_per_pinhole; /* at most */
  PfBeads beads;
  bool all_plain; /* every partial repeat is plain */
  PfWorkingHabits habits;
  const PfRepeatChoice *choices;
  size_t n_choices;
  const PfSewingChoice *sewing_choices;
  size_t n_sewing_choices;
} PfFillingSettings;

/* The defaults: clearance 0.25, carry 1, reach 0.25, off line 8 degrees, two sewings to a pinhole,
 * no beads; gap 5 mm, no turn, origin (0, 0); repeat by repeat, the left first, pairs sewn in as
 * they are needed. */
PfFillingSettings pf_filling_settings_default (void);

/* Checks every setting against its range, and that the choices have values that exist
 * (PF_ERROR_SETTING). Whether a choice makes sense shows when the ground is set into a shape. */
bool pf_filling_settings_check (const PfFillingSettings *settings, GError **error);

/* --- What comes out -----------------------------------------------------------------------------
 */

/* Stands for "none" where an index is expected. */
#define PF_NONE G_MAXUINT32

/* A repeat some of whose stitches are inside, but not all; whole repeats that the maker changed
 * too. */
typedef struct {
  int i, j;
  PfRepeatState state;
  bool chosen;     /* by the maker */
  int core_inside; /* how many stitches of its core are inside, dropped or not */
} PfRepeat;

/* One side of a worked stitch: the entry and the exit there, and the pair that comes and goes. */
typedef struct {
  guint32 to;       /* the worked stitch the pair goes on to, or PF_NONE: it leaves */
  guint32 from;     /* the worked stitch it comes from, or PF_NONE: it enters */
  guint32 leaving;  /* if it leaves: its crossing, else PF_NONE */
  guint32 entering; /* if it enters: its crossing, else PF_NONE */
  guint32 pair;     /* counted from 0 */
  guint8 to_side;   /* the side of `to` where it comes in */
} PfWorkedEnd;

/* A stitch that is worked. */
typedef struct {
  PfStitchId id;
  guint32 first_end : 29; /* in PfFilling.ends, its sides from the left ... */
  guint32 n_sides : 3;    /* ... and how many: one for each pair */
  PfPoint at;             /* mm */
} PfWorkedStitch;

typedef enum {
  PF_PAIR_NEW,      /* sewn in */
  PF_PAIR_TURNED,   /* sewn once at a missing place, and back */
  PF_PAIR_CARRIED,  /* sewn out, run along the edge, sewn in again */
  PF_PAIR_FINISHED, /* sewn out, tied and cut */
} PfPairKind;

/* A pair line that is cut at the edge. */
typedef struct {
  guint32 stitch; /* the worked stitch it leaves or enters */
  PfSide side;
  bool leaves;
  bool has_missing; /* a stitch is missing at its other end */
  PfStitchId missing;
  PfPoint missing_at; /* mm; where the cut line was going, also without a missing stitch */
  PfPlace place;      /* where it crosses the outline */
  PfPoint at;         /* that point, mm */
  PfPairKind kind;
  bool chosen;    /* the maker chose what its pair does */
  guint32 match;  /* the crossing where the same pair enters or leaves again, or PF_NONE */
  guint32 sewing; /* its sewing */
  guint32 pair;   /* counted from 0 */
} PfCrossing;

/* Where a pair is sewn to the edge. Numbered in the order of work. */
typedef struct {
  PfPairKind kind;
  guint32 leaving;  /* the crossing it ends, or PF_NONE */
  guint32 entering; /* the crossing it begins, or PF_NONE; a turned pair has both */
  guint32 pair;     /* counted from 0 */
  bool chosen;      /* the maker chose its pair or its place */
  PfPlace target;
  PfPoint target_at; /* mm */
  PfPlace place;
  PfPoint at;         /* mm */
  guint32 pinhole;    /* on the target's loop, or PF_NONE: round the bar, at its target or where the
                         maker chose */
  guint32 between[2]; /* the pinholes before and after that bar; PF_NONE at a pinhole, or if the
                         loop has none */
  double distance;    /* along the outline (of a stretch: within it) from target to place, mm */
  double run;         /* of a carried pair: along the outline between its two places, mm; else 0 */
  double angle;       /* off its line, degrees */
  bool off_line;
} PfSewing;

/* A pair's way: sewing, stitches, turns, sewing. */
typedef struct {
  size_t first_step; /* in PfFilling.path_steps */
  size_t n_steps;
  guint32 sewn_in;  /* its first sewing */
  guint32 sewn_out; /* its last */
} PfPair;

typedef enum {
  PF_STEP_SEWING, /* index into sewings */
  PF_STEP_STITCH, /* index into worked stitches */
} PfStepKind;

typedef struct {
  guint32 kind : 1; /* PfStepKind */
  guint32 side : 2; /* of a stitch: the side it enters and leaves by; a pair keeps its side */
  guint32 index : 29;
} PfPathStep;

typedef struct {
  size_t stitches, pins, beads;
  size_t whole, partial, kept, plain, left_out;
  size_t leaving, entering;
  size_t new_pairs, turned, carried, finished, reused, most_at_once;
  double carry_mm; /* the matching's total distance along the outline */
  size_t sewings, at_pinhole, round_bar, off_line;
  double place_mm; /* total distance from targets to places */
} PfCounts;

/* What the maker should look at. */
typedef enum {
  PF_WARNING_NOTHING_FITS,
  PF_WARNING_LONE_STITCH,  /* all its pairs are sewn in and out again */
  PF_WARNING_CORE_DROPPED, /* in most repeats */
  PF_WARNING_NARROW,       /* narrower than two gaps along a stretch */
  PF_WARNING_CROWDED_EDGE, /* more sewings than the pinholes of a cloth stitch edge or stretch hold
                            */
} PfWarningKind;

typedef struct {
  PfWarningKind kind;
  PfPoint at; /* mm */
  char *text; /* for the maker, translated */
} PfWarning;

/* A choice of the maker's that makes no sense where the ground lies now. */
typedef struct {
  bool of_sewing; /* index into settings->sewing_choices, else into settings->choices */
  size_t index;
  char *why; /* for the maker, translated */
} PfUnheeded;

typedef struct {
  PfPlacement placement;
  PfWorkingHabits habits;
  PfAffine to_sheet; /* from ground units */
  PfCounts counts;
  PfWorkedStitch *stitches; /* by k, then j, then i */
  size_t n_stitches;
  PfWorkedEnd *ends; /* of the stitches, in their order */
  size_t n_ends;
  guint32 *order;    /* n_stitches: the stitches in working order */
  PfRepeat *repeats; /* those that are partial or left out, by j, then i */
  size_t n_repeats;
  guint32 *beads;        /* counts.beads stitches that carry one, rising */
  PfCrossing *crossings; /* by loop and distance along */
  size_t n_crossings;
  PfSewing *sewings;
  size_t n_sewings;
  PfPair *pairs;
  size_t n_pairs;
  PfPathStep *path_steps;
  size_t n_path_steps;
  PfWarning *warnings;
  size_t n_warnings;
  PfUnheeded *unheeded; /* choices that couldn't be kept to, in their order */
  size_t n_unheeded;
} PfFilling;

/* Sets `ground` into `region`. `edges` has one PfEdge for each loop of the region. Each stretch of
 * one kind is an edge of its own: sewings whose target lies in it go into its own pinholes. Those
 * of a cloth stitch stretch without any go into the nearest pinhole of the loop, with a warning: a
 * lace maker would rather sew there, and see it, than pull a hole into cloth stitch. All three must
 * stay alive only for the call. Errors: PF_ERROR_SETTING; PF_ERROR_TOO_BIG if the region holds more
 * stitches than PF_FILLING_MAX_STITCHES. */
PfFilling *pf_filling_new (const PfRegion *region, const PfEdge *edges, const PfGround *ground,
                           const PfFillingSettings *settings, GError **error);
void pf_filling_free (PfFilling *filling);

#define PF_FILLING_MAX_STITCHES 4000000

/* The sides of a worked stitch, from the left: stitch->n_sides of them. */
static inline PfWorkedEnd *
pf_worked_ends (const PfFilling *filling, const PfWorkedStitch *stitch)
{
  return filling->ends + stitch->first_end;
}

/* How a worked stitch is worked: its word in the ground; but in a plain repeat a pin gets half
 * stitch, pin, half stitch, of which a closing stitch of its own works the second. Where four pairs
 * meet, and at a leadwork, the word stays. */
const char *pf_filling_work (const PfFilling *filling, const PfGround *ground,
                             const PfWorkedStitch *stitch);

/* The state of repeat (i, j): PF_REPEAT_WHOLE if it isn't among `repeats`. */
PfRepeatState pf_filling_repeat_state (const PfFilling *filling, int i, int j);

/* How far along the outline a chosen place may be from where its pair meets the edge, mm; a choice
 * farther off isn't kept to. */
double pf_chosen_place_reach (const PfFillingSettings *settings, const PfEdge *edge);

/* The cut line of a crossing, and the crossing of a cut line (PF_NONE if it isn't cut now). */
PfLineId pf_crossing_line (const PfFilling *filling, guint32 crossing);
guint32 pf_filling_find_crossing (const PfFilling *filling, PfLineId line);

/* What happens at a repeat, a sewing or along a pair's way, and why, in words for the maker:
 * "Pin 3 is missing: the pair from pin 1 turns here." Translated, several sentences at most; after
 * those on a repeat, one line for each of its cut pairs. Free with g_free(). */
char *pf_explain_repeat (const PfFilling *filling, const PfGround *ground, int i, int j);
char *pf_explain_sewing (const PfFilling *filling, const PfGround *ground, guint32 sewing);
char *pf_explain_pair (const PfFilling *filling, const PfGround *ground, guint32 pair);
/* The length of a pair's way on the sheet, from its first sewing to its last, runs along the
 * outline included, in mm. */
double pf_pair_length (const PfFilling *filling, guint32 pair);
/* The points of that way, n of them: one for each of the pair's steps; free with g_free(). A
 * carried pair's run along the outline is a straight line here. */
PfPoint *pf_pair_way (const PfFilling *filling, guint32 pair, size_t *n);

/* Adds `more` to `sum`; the most pairs at once are those of the larger. */
void pf_counts_add (PfCounts *sum, const PfCounts *more);

G_END_DECLS
