// The sales of a coin that a buyer can still give back.

/**
 * [{fact, kind, to, date, cents, pieces}], the newest first: of the owner's card, or on a helper's phone of `entries`, this
 * phone's own. `cents` is null where the desk has not said yet what of the price is this coin's.
 */
export function salesOf(card, entries = []) {
  if (!card.own) return card.state === 'sold' ? ofPhone(card.id, entries) : [];
  const { moves, sale } = card.own;
  if (!moves) return sale ? [{ fact: sale.fact, kind: 'sale', to: sale.to, date: sale.date, cents: sale.price, pieces: 1 }] : [];
  const back = new Set(moves.filter((move) => move.kind === 'return').map((move) => move.of));
  const again = (one) => moves.some((move) => move.kind === 'memo' && moves.indexOf(move) > moves.indexOf(one) && card.theirs);
  return moves.filter((one) => ['sale', 'ticket'].includes(one.kind) && !back.has(one.fact) && !again(one)).reverse()
    .map(({ fact, kind, with: to, date, cents, pieces = 1 }) => ({ fact, kind, to, date, cents, pieces }));
}

function ofPhone(coin, entries) {
  const stands = entries.filter(({ state }) => ['waiting', 'taken', 'contested'].includes(state)).map(({ fact }) => fact);
  const ended = new Set(stands.filter(({ kind }) => kind === 'void' || kind === 'return').map(({ body }) => body.of));
  return stands.filter(({ id, kind, body }) => !ended.has(id) && ((kind === 'sale' && body.coin === coin) || (kind === 'ticket' && body.sold.some((row) => row.coin === coin))))
    .map(({ id, kind, body }) => ({ fact: id, kind, to: body.to ?? '', date: body.date, cents: kind === 'sale' || body.sold.length === 1 ? body.price : body.sold.find((row) => row.coin === coin).price ?? null, pieces: 1 }));
}
