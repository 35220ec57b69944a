/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What a straight edge does to one repeat of the eight-thread armure, worked out by hand for every
 * set of pins it can leave. Common practice: three of the cases are what makers of this ground are
 * taught (a missing side pin is turned at twice; with pins 1 and 2 missing two pairs are sewn in
 * and the second is turned at missing pin 2; one pin alone is worked half stitch, pin, half
 * stitch). The others follow from the pair lines in the same way, line by line.
 *
 *        1            The region is the diamond round one repeat, cut by a straight line. Its other
 * pair lines all / | \          end outside, at pins of other repeats: the pairs that enter at 1
 * left, 1 right, 2 left and 2  c  3         3 right, and leave from 2 left, 3 right, 4 left and 4
 * right. \ | /
 *        4
 */
#include "armure.h"

typedef struct {
  const char *name;
  double nx, ny, offset; /* what lies at nx·x + ny·y > offset is kept */
  size_t stitches, pins, kept, plain;
  size_t entering; /* leaving is the same */
  size_t turned;
  const char *turns;    /* at which missing pins, in the order of work: a letter each */
  const char *new_from; /* missing pins of the repeat from which new pairs come, sorted */
} Case;

static const Case cases[] = {
  /* three pins, so the middle is inside: the repeat is kept */
  /* 1 missing: 2.R and 3.L get new pairs as if from 1 */
  { "2 3 4", 0, 1, -0.7, 6, 3, 1, 0, 4, 0, "", "11" },
  /* 2 missing: the pair from 1 turns before the middle, and again after it */
  { "1 3 4", 1, 0, -0.7, 5, 3, 1, 0, 5, 2, "22", "" },
  { "1 2 4", -1, 0, -0.7, 5, 3, 1, 0, 5, 2, "33", "" },
  /* 4 missing: both pairs towards it are finished */
  { "1 2 3", 0, -1, -0.7, 6, 3, 1, 0, 4, 0, "", "" },
  /* two pins and the middle */
  /* 3 and 4 missing: the pair from 1 turns at 3 before the middle, and is finished towards 3 after
     it */
  { "1 2 and middle", -1, -1, -0.3, 4, 2, 1, 0, 4, 1, "3", "" },
  { "1 3 and middle", 1, -1, -0.3, 4, 2, 1, 0, 4, 1, "2", "" },
  /* 1 and 2 missing: new pairs as if from 1 and 2, the second turns at 2 after the middle */
  { "3 4 and middle", 1, 1, -0.3, 4, 2, 1, 0, 4, 1, "2", "12" },
  { "2 4 and middle", -1, 1, -0.3, 4, 2, 1, 0, 4, 1, "3", "13" },
  /* two pins without the middle: the repeat is plain, the middle is dropped */
  { "1 2", -1, -1, 0.3, 3, 2, 0, 1, 3, 0, "", "" },
  { "1 3", 1, -1, 0.3, 3, 2, 0, 1, 3, 0, "", "" },
  { "3 4", 1, 1, 0.3, 3, 2, 0, 1, 3, 0, "", "12" },
  { "2 4", -1, 1, 0.3, 3, 2, 0, 1, 3, 0, "", "13" },
  /* one pin alone: half stitch, pin, half stitch (2 and 3 have a closing stitch of their own) */
  { "1", 0, -1, 0.7, 1, 1, 0, 1, 2, 0, "", "" },
  { "2", -1, 0, 0.7, 2, 1, 0, 1, 2, 0, "", "1" },
  { "3", 1, 0, 0.7, 2, 1, 0, 1, 2, 0, "", "1" },
  { "4", 0, 1, 0.7, 1, 1, 0, 1, 2, 0, "", "23" },
};

static PfFilling *
fill_case (const Case *c, const PfGround *ground)
{
  return armure_fill (ground, (ArmureCut){ c->nx, c->ny, c->offset }, NULL);
}

/* The missing pin of the repeat itself that a crossing belongs to, '1' to '4', or 0. */
static char
own_pin (const PfGround *ground, const PfCrossing *crossing)
{
  if (!crossing->has_missing || crossing->missing.i != 0 || crossing->missing.j != 0)
    return 0;
  const char *name = ground->stitches[ground->stitches[crossing->missing.k].place].name;
  return name[0];
}

static void
test_case (gconstpointer data)
{
  const Case *c = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (PfGround) ground = pf_ground_load ("armure", &error);
  g_assert_no_error (error);
  PfFilling *filling = fill_case (c, ground);
  const PfCounts *n = &filling->counts;
  g_assert_cmpuint (n->stitches, ==, c->stitches);
  g_assert_cmpuint (n->pins, ==, c->pins);
  g_assert_cmpuint (n->whole, ==, 0);
  g_assert_cmpuint (n->partial, ==, 1);
  g_assert_cmpuint (n->kept, ==, c->kept);
  g_assert_cmpuint (n->plain, ==, c->plain);
  g_assert_cmpuint (n->entering, ==, c->entering);
  g_assert_cmpuint (n->leaving, ==, c->entering);
  g_assert_cmpuint (n->turned, ==, c->turned);
  g_assert_cmpuint (n->carried, ==, 0);
  g_assert_cmpuint (n->new_pairs, ==, c->entering - c->turned);
  g_assert_cmpuint (n->finished, ==, c->entering - c->turned);
  g_assert_cmpuint (n->sewings, ==, 2 * c->entering - c->turned);
  g_assert_cmpuint (filling->n_pairs, ==, n->new_pairs);

  g_autoptr (GString) turns = g_string_new (NULL);
  for (size_t s = 0; s < filling->n_sewings; s++)
    if (filling->sewings[s].kind == PF_PAIR_TURNED)
      {
        const PfSewing *sewing = &filling->sewings[s];
        const char pin = own_pin (ground, &filling->crossings[sewing->leaving]);
        g_assert_cmpint (pin, ==, own_pin (ground, &filling->crossings[sewing->entering]));
        g_string_append_c (turns, pin);
      }
  g_assert_cmpstr (turns->str, ==, c->turns);

  g_autoptr (GString) new_from = g_string_new (NULL);
  for (char pin = '1'; pin <= '4'; pin++)
    for (size_t k = 0; k < filling->n_crossings; k++)
      if (filling->crossings[k].kind == PF_PAIR_NEW &&
          own_pin (ground, &filling->crossings[k]) == pin)
        g_string_append_c (new_from, pin);
  g_assert_cmpstr (new_from->str, ==, c->new_from);
  pf_filling_free (filling);
}

/* A pair that is turned before the middle and after it is one pair all the way: in at pin 1, and
 * out. */
static void
test_turned_twice (void)
{
  g_autoptr (PfGround) ground = pf_ground_load ("armure", NULL);
  PfFilling *filling = fill_case (&cases[2], ground);
  guint32 turned[2] = { PF_NONE, PF_NONE };
  size_t n = 0;
  for (size_t s = 0; s < filling->n_sewings; s++)
    if (filling->sewings[s].kind == PF_PAIR_TURNED)
      turned[n++] = filling->sewings[s].pair;
  g_assert_cmpuint (n, ==, 2);
  g_assert_cmpuint (turned[0], ==, turned[1]);
  pf_filling_free (filling);
}

/* One pin alone is worked half stitch, pin, half stitch, whether or not the ground has a stitch
 * that closes it (common practice). */
static void
test_plain_work (void)
{
  g_autoptr (PfGround) ground = pf_ground_load ("armure", NULL);
  for (size_t c = G_N_ELEMENTS (cases) - 4; c < G_N_ELEMENTS (cases); c++)
    {
      PfFilling *filling = fill_case (&cases[c], ground);
      g_autoptr (GString) work = g_string_new (NULL);
      for (size_t n = 0; n < filling->n_stitches; n++)
        g_string_append (work,
                         pf_filling_work (filling, ground, &filling->stitches[filling->order[n]]));
      g_assert_cmpstr (work->str, ==, "ctpct");
      pf_filling_free (filling);
    }
  PfFilling *kept = fill_case (&cases[0], ground);
  for (size_t s = 0; s < kept->n_stitches; s++)
    g_assert_cmpstr (pf_filling_work (kept, ground, &kept->stitches[s]), ==,
                     ground->stitches[kept->stitches[s].id.k].work);
  pf_filling_free (kept);
}

/* The whole repeat by itself: four pairs in, four out, its middle worked, nothing turned. */
static void
test_whole (void)
{
  g_autoptr (PfGround) ground = pf_ground_load ("armure", NULL);
  const Case whole = { .nx = 0, .ny = 1, .offset = -2 };
  PfFilling *filling = fill_case (&whole, ground);
  g_assert_cmpuint (filling->counts.stitches, ==, 7);
  g_assert_cmpuint (filling->counts.whole, ==, 1);
  g_assert_cmpuint (filling->counts.partial, ==, 0);
  g_assert_cmpuint (filling->counts.entering, ==, 4);
  g_assert_cmpuint (filling->counts.new_pairs, ==, 4);
  g_assert_cmpuint (filling->counts.most_at_once, ==, 4);
  g_assert_cmpuint (filling->counts.sewings, ==, 8);
  pf_filling_free (filling);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (size_t c = 0; c < G_N_ELEMENTS (cases); c++)
    {
      g_autofree char *path = g_strdup_printf ("/armure/pins/%s", cases[c].name);
      g_test_add_data_func (path, &cases[c], test_case);
    }
  g_test_add_func ("/armure/turned-twice", test_turned_twice);
  g_test_add_func ("/armure/plain-work", test_plain_work);
  g_test_add_func ("/armure/whole", test_whole);
  return g_test_run ();
}
