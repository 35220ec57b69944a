/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "moves.h"

int
pf_word_moves (const char *work, PfMove moves[PF_MOVES_MAX])
{
  int n = 0;
  for (int step = 0; work[step] != '\0' && step < PF_WORD_MAX; step++)
    {
      const guint8 s = (guint8) step;
      switch (work[step])
        {
        case 'c':
          moves[n++] = (PfMove){ PF_MOVE_SWAP, s, 1, true };
          break;
        case 't':
          moves[n++] = (PfMove){ PF_MOVE_SWAP, s, 0, false };
          moves[n++] = (PfMove){ PF_MOVE_SWAP, s, 2, false };
          break;
        case 'p':
          moves[n++] = (PfMove){ PF_MOVE_PIN, s, 1, false };
          break;
        case 'l':
          moves[n++] = (PfMove){ PF_MOVE_WEAVE, s, 0, false };
          break;
        default:
          g_assert_not_reached ();
        }
    }
  return n;
}

void
pf_moves_order (const PfMove *moves, int n, guint8 order[PF_PLACES])
{
  for (guint8 place = 0; place < PF_PLACES; place++)
    order[place] = place;
  for (int m = 0; m < n; m++)
    if (moves[m].kind == PF_MOVE_SWAP)
      {
        const guint8 left = order[moves[m].place];
        order[moves[m].place] = order[moves[m].place + 1];
        order[moves[m].place + 1] = left;
      }
}
