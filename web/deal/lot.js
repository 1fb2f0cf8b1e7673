// What some pieces of a lot are of the whole: price asked, floor and cost. The desk's rule for a part is money/lots.py.
import { halfUp } from './exact.js';

/** What the next `leaving` of `pieces` alike pieces cost together; the odd cents lie on those that leave first. */
export function share(cents, pieces, leaving) {
  const odd = cents % pieces;
  return leaving * ((cents - odd) / pieces) + Math.min(leaving, odd);
}

/** What `count` of `pieces` cost after `first` of them went before; `cents` is what all cost together. */
export const some = (cents, pieces, first, count) => share(cents, pieces, first + count) - share(cents, pieces, first);

/**
 * {of, left, pieces, ask, floor, cost} of `pieces` of a card (absent: all that is left); cents or null. Price asked and
 * floor of a record are for all its pieces, and lie evenly on them; a cost that is not known, or not ours to see, is null.
 */
export function partOf(card, pieces) {
  const of = card.pieces ?? 1;
  const left = card.pieces ? card.left ?? of : 1;
  const count = pieces ?? left;
  const even = (cents) => (cents === null || cents === undefined ? null : Number(halfUp([BigInt(cents) * BigInt(count), BigInt(of)])));
  const basis = card.theirs ? card.own?.moves?.findLast((move) => move.kind === 'memo')?.cents : card.own?.cost;
  const known = basis !== null && basis !== undefined && count <= left;
  return { of, left, pieces: count, ask: even(card.ask), floor: even(card.own?.floor), cost: known ? some(basis, of, of - left, count) : null };
}
