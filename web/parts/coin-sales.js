// The sales of a coin that a buyer can still give back.
import { movesOf, read, share } from '../engine/standing.js';

/**
 * [{fact, kind, to, date, cents, pieces, of}], the newest first: of the owner's card, or on a helper's phone of `entries`, this
 * phone's own. `pieces` are not back yet, of so many sold; `cents` is what they were sold for, null where the desk has not
 * said yet what of the price is this coin's.
 */
export function salesOf(card, entries = []) {
  if (!card.own) return card.state === 'sold' ? ofPhone(card.id, entries) : [];
  const out = read(card.pieces ?? 1, movesOf(card), Boolean(card.theirs))?.out;
  return movesOf(card).filter((one) => ['sale', 'ticket'].includes(one.kind) && out?.has(one.fact)).reverse()
    .map(({ fact, kind, with: to, date, cents, pieces: of = 1 }) => ({ fact, kind, to, date, pieces: out.get(fact), of, sum: cents, cents: pricedAt(cents, of, out.get(fact)) }));
}

/** What the next `count` of the pieces that are not back yet were sold for. */
export const pricedAt = (sum, of, left, count = left) => (sum === null ? null : share(sum, of, of - left + count) - share(sum, of, of - left));

function ofPhone(coin, entries) {
  const stands = entries.filter(({ state }) => ['waiting', 'taken', 'contested'].includes(state)).map(({ fact }) => fact);
  const ended = new Set(stands.filter(({ kind }) => kind === 'void' || kind === 'return').map(({ body }) => body.of));
  return stands.filter(({ id, kind, body }) => !ended.has(id) && ((kind === 'sale' && body.coin === coin) || (kind === 'ticket' && body.sold.some((row) => row.coin === coin))))
    .map(({ id, kind, body }) => ({ fact: id, kind, to: body.to ?? '', date: body.date, cents: kind === 'sale' || body.sold.length === 1 ? body.price : body.sold.find((row) => row.coin === coin).price ?? null, pieces: 1, of: 1 }));
}
