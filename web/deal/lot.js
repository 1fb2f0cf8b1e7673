// What some pieces of a lot are of the whole: price asked, floor and cost. The desk's rule for a part is money/lots.py.
import { halfUp } from './exact.js';
import { draw, share } from '../engine/standing.js';

/** What `count` of `pieces` cost after `first` of them went before; `cents` is what all cost together. */
export const some = (cents, pieces, first, count) => share(cents, pieces, first + count) - share(cents, pieces, first);

/**
 * {of, left, pieces, ask, floor, cost, loss?} of `pieces` of a card (absent: all that is left); cents or null. Price asked and
 * floor of a record are for all its pieces, and lie evenly on them; a cost that is not known, or not ours to see, is null.
 * `from`: the purchase that the pieces came by; absent: the first in. `loss`: the basis for a loss, where a gift has its own.
 */
export function partOf(card, pieces, from) {
  const of = card.pieces ?? 1;
  const left = card.pieces ? card.left ?? of : 1;
  const count = pieces ?? left;
  const even = (cents) => (cents === null || cents === undefined ? null : Number(halfUp([BigInt(cents) * BigInt(count), BigInt(of)])));
  const loss = card.own?.loss_basis;
  return {
    of, left, pieces: count, ask: even(card.ask), floor: even(card.own?.floor), cost: count <= left ? costOf(card, of, left, count, from) : null,
    ...(loss === undefined || count > left ? {} : { loss: loss === null ? null : share(loss, left, count) }),
  };
}

function costOf(card, of, left, count, from) {
  if (card.own?.units) {
    const taken = draw(card.own.units, count, from)?.taken;
    return !taken || taken.some(({ costs }) => costs === null) ? null : taken.reduce((sum, { costs }) => costs.reduce((all, cents) => all + cents, sum), 0);
  }
  const basis = card.theirs ? card.own?.moves?.findLast((move) => move.kind === 'memo')?.cents : card.own?.cost;
  return basis === null || basis === undefined ? null : some(basis, of, of - left, count);
}

/** The purchases of which pieces of a lot are left, first in first: [{fact, left, cents (null: not known), date, from, how}]; [] of one purchase alone. */
export function partsOf(card) {
  const found = new Map();
  for (const { fact, left, costs, date, from, how = '' } of card?.own?.units ?? []) {
    const one = found.get(fact) ?? { fact, left: 0, cents: 0, date, from, how };
    found.set(fact, { ...one, left: one.left + left, cents: one.cents === null || costs === null ? null : costs.reduce((sum, cents) => sum + cents, one.cents) });
  }
  return [...found.values()].filter(({ how }) => how !== 'entered');
}
