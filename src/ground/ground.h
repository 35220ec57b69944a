/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Grounds: small patterns of pins and crossings that repeat both ways, as periodic graphs of pairs.
 *
 * A ground has its own units and axes: x to the right, y down, the way it is worked. The drawn
 * repeat moved by i·a + j·b is repeat (i, j). See V. Irvine, F. Ruskey, "Developing a mathematical
 * model for bobbin lace", Journal of Mathematics and the Arts 8 (2014).
 */
#pragma once

#include <shape.h>

G_BEGIN_DECLS

#define PF_STITCH_MAX_PAIRS 4

/* The pairs at a stitch from the left, seen with the working direction down: PF_LEFT and PF_RIGHT
 * where two meet, all four where four do. */
typedef enum { PF_LEFT, PF_RIGHT, PF_THIRD, PF_FOURTH } PfSide;

/* What a side is called. */
typedef enum {
  PF_SIDE_LEFT,
  PF_SIDE_INNER_LEFT,
  PF_SIDE_INNER_RIGHT,
  PF_SIDE_RIGHT,
} PfSideName;

/* A place where two pairs meet, or four: then each pair moves as one thread does where two meet.
 */
typedef struct {
  char *name;
  PfPoint at;  /* ground units */
  char *work;  /* letters: c cross, t twist, p the pin is set here, l leadwork: one thread weaves
                  over and under the others, and all come out where they went in */
  int n_pairs; /* 2 or 4 */
  int closes;  /* the stitch whose pin this one closes, or -1 */
  int place;   /* the first stitch of the repeat at the same position: its number */
  bool pin;    /* its work sets a pin */
  bool closed; /* ... which another stitch closes */
  bool core;   /* part of the motif that makes the repeat */
  bool bead;   /* a bead may go here */
  double time; /* working time, ground units; moved by i·a.y + j·b.y in repeat (i, j) */
} PfStitch;

/* One end of a pair line: an exit or an entry of a stitch. */
typedef struct {
  int stitch;
  PfSide side;
} PfEnd;

/* A pair's way from an exit of one stitch to an entry of another, `da` and `db` repeats away. */
typedef struct {
  PfEnd from, to;
  int da, db;
  int twists; /* twists added on the way */
} PfPairLine;

/* A gap at which a ground is usually worked with some thread. */
typedef struct {
  double gap_mm;       /* 0: no source gives one */
  double wraps_per_cm; /* of the thread; 0: not known */
  char *thread;        /* its name; may be empty if its wraps are known */
  char *source;
} PfUsualGap;

typedef struct {
  int refs;    /* private */
  char *name;  /* as it is asked for: lower case, hyphens */
  char *title; /* in the craft's words */
  char **also_called;
  char *family;
  char *source;   /* where its working is published, or "Common practice." */
  char *used_for; /* may be empty, like notes */
  char *notes;
  PfUsualGap usual;
  PfPoint a, b; /* repeat vectors */
  PfStitch *stitches;
  int n_stitches;
  PfPairLine *lines; /* one for each pair of each stitch */
  int n_lines;
  int (*exits)[PF_STITCH_MAX_PAIRS];   /* exits[k][side]: the line that leaves stitch k there */
  int (*entries)[PF_STITCH_MAX_PAIRS]; /* entries[k][side]: the line that reaches it there */
  double spacing; /* between the nearest two pins of the endless ground (without pins: between the
                     nearest two stitches that stand apart), ground units */
  bool has_pins, has_core;
} PfGround;

/* Words and sizes have limits, so that a broken file can't ask for the impossible. */
#define PF_GROUND_MAX_STITCHES 256
#define PF_GROUND_MAX_REACH 8 /* |da|, |db| */

/* An empty ground to be filled in by its reader: strings NULL, arrays with room for n stitches and
 * n_lines lines. */
PfGround *pf_ground_new (int n_stitches, int n_lines);
/* A complete ground never changes, and is shared by counting references, in any thread. */
PfGround *pf_ground_ref (PfGround *ground);
/* Are they drawn and worked alike, stitch by stitch, and called the same? */
bool pf_ground_equal (const PfGround *a, const PfGround *b);
/* Gives a reference back; the last one frees the ground. */
void pf_ground_free (PfGround *ground);

/* Checks the ground and works out all that follows from its drawing: place, pin, closed, time,
 * exits, entries, spacing, has_pins and has_core. Checked, each error naming the stitches
 * (PF_ERROR_GROUND):
 *   - numbers are finite, the repeat vectors don't lie on one line, words hold only c, t, l and one
 *     p, stitches join two or four pairs;
 *   - every stitch has one pair in and one pair out on each side;
 *   - working times exist (no pair would have to be worked before itself);
 *   - the pairs stand round each stitch in the order left in to right in, right out to left out,
 *     clockwise, as drawn, and no two pair lines cross except at a stitch;
 *   - the nearest pins stand 1 to 2 ground units apart. */
bool pf_ground_complete (PfGround *ground, GError **error);

/* How one repeat is worked, step by step: a sentence for each stitch in the order of the working
 * times, before it one for each pair that is twisted on its way there. Of a complete ground.
 * Translated; free with g_strfreev(). */
char **pf_ground_working (const PfGround *ground);
/* The letters of a word from `work` to before `end`, without a pin, by the craft's names: "two
 * twists, cloth stitch". NULL if there are none. Translated; free with g_free(). */
char *pf_work_words (const char *work, const char *end);
/* `names`, of stitches of the repeat that lies (da, db) away, as seen from here: "4", or "4 of the
 * repeat above left"; where the ground is mirrored, as it then lies before the maker. Translated;
 * free with g_free(). */
char *pf_words_of_repeat (const PfGround *ground, bool mirrored, int da, int db, const char *names);
/* How many pairs run through one repeat: as many lines leave it over its two lower sides. */
int pf_ground_pairs (const PfGround *ground);

/* The pieces of pf_ground_complete(), in the order in which they are done. */
bool pf_ground_check_words (PfGround *ground, GError **error);
bool pf_ground_check_pairs (PfGround *ground, GError **error);
bool pf_ground_find_times (PfGround *ground, GError **error);
bool pf_ground_check_drawing (const PfGround *ground, GError **error);
bool pf_ground_find_spacing (PfGround *ground, GError **error);

/* The angle at which the ground's diagonals (its first repeat vector that is neither level nor
 * upright, or the sum of both) stand from the footside, which is upright, in degrees: 45 for
 * torchon. */
double pf_ground_angle (const PfGround *ground);
/* By how much the ground, drawn with its diagonals at `angle` degrees from the footside, is
 * stretched along it; 1 for angle 0, which stands for its own. */
double pf_ground_stretch (const PfGround *ground, double angle);
/* As `spacing`, of the ground stretched so; ground units. */
double pf_ground_stretched_spacing (const PfGround *ground, double stretch);
/* The distance from one pin to the next straight above or below it (without pins: stitches), ground
 * units before any stretch; 0 if none lie so. */
double pf_ground_footside (const PfGround *ground);

/* What side `side` of a stitch of so many pairs is called, and back: false if it has no such side.
 */
static inline PfSideName
pf_side_name (int n_pairs, PfSide side)
{
  return (PfSideName) (n_pairs == 2 ? PF_SIDE_RIGHT * (int) side : (int) side);
}

static inline bool
pf_side_find (int n_pairs, PfSideName name, PfSide *side)
{
  if (n_pairs == 2 && name != PF_SIDE_LEFT && name != PF_SIDE_RIGHT)
    return false;
  *side = (PfSide) (n_pairs == 2 ? (int) name / PF_SIDE_RIGHT : (int) name);
  return true;
}

/* --- What else is proved of a complete ground, and its numbers ----------------------------------
 */

/* Proves that nothing is free to slip out of the ground, which the checks above don't ask
 * (PF_ERROR_GROUND names the stitches): the three pieces below. */
bool pf_ground_prove (const PfGround *ground, GError **error);

/* Each mesh has one stitch at its top, where both of its sides begin, and one at its foot, where
 * they end. (It follows from working times and the order of the pairs; this looks at it.) */
bool pf_ground_check_tops (const PfGround *ground, GError **error);
/* No two crossings that follow each other between the same two pairs undo each other. */
bool pf_ground_check_undone (const PfGround *ground, GError **error);
/* Threads hang together as far as their pairs do, and none of them, alone or with others, lies over
 * all the rest and could be lifted off. */
bool pf_ground_check_layers (const PfGround *ground, GError **error);

/* A closed walk of a pair or a thread: it comes to where it began, `da` and `db` repeats on. */
typedef struct {
  int da, db;
  int n_stitches; /* that it passes on the way */
} PfGroundWalk;

typedef struct {
  int n_stitches, n_pins, n_lines;
  int n_meshes; /* that close: n_lines - n_stitches, Euler's formula on the torus (Irvine, Ruskey,
                   as above) */
  int *degrees; /* of the meshes: lines round each, rising */
  /* Pair lines across any cut from a point to the same point of the next repeat along a, and along
   * b: those across one way less those across the other way. */
  int across_a, across_b;
  /* Pairs that work one repeat, as a maker counts them: pair lines across a level cut as wide as
   * the repeats that lie level with each other. 0 if no two near ones do. */
  int n_pairs;
  PfGroundWalk *pair_walks; /* a pair keeps its side through a stitch */
  int n_pair_walks;
  PfGroundWalk *thread_walks; /* as the words of the stitches say */
  int n_thread_walks;
  /* Rows of level repeats after which every thread lies where it or one level with it began: the
   * order of the permutation of threads from row to row. 0 if there are no rows, or too many. */
  gint64 rows;
} PfGroundNumbers;

/* Counts; free with pf_ground_numbers_free(). */
PfGroundNumbers *pf_ground_count (const PfGround *ground);
void pf_ground_numbers_free (PfGroundNumbers *numbers);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PfGroundNumbers, pf_ground_numbers_free)

/* Where stitch k of repeat (i, j) stands, in ground units. */
static inline PfPoint
pf_ground_position (const PfGround *ground, int k, int i, int j)
{
  const PfPoint at = ground->stitches[k].at;
  return (PfPoint){ at.x + i * ground->a.x + j * ground->b.x,
                    at.y + i * ground->a.y + j * ground->b.y };
}

/* The working time of stitch k of repeat (i, j). */
static inline double
pf_ground_time (const PfGround *ground, int k, int i, int j)
{
  return ground->stitches[k].time + (i * ground->a.y + j * ground->b.y);
}

G_END_DECLS
