// Undoing, on this phone's copy of a card, an entry that the desk has already taken.
import { edited } from './new-coin.js';

const without = (rows, fact) => rows.filter((one) => one.fact !== fact.id);

/** A coin that is here again; of a lot, as many pieces as had gone. */
function here(card, rows = []) {
  if (card.pieces) card.left = Math.min(card.pieces, card.left + (rows.find((row) => row.coin === card.id)?.pieces ?? card.pieces));
  if (card.own) card.own.sale = null;
  delete card.where;
  return Object.assign(card, { state: 'in stock' });
}

/** A coin that did not come in: gone, where the entry made it. */
function uncome(card, row) {
  if (Object.keys(row.set).length) return null;
  if (card.own) Object.assign(card.own, { costs: [], cost: null, purchase: null });
  return card;
}

/** A lot without the pieces that a purchase had added. */
function fewer(card, fact, pieces) {
  Object.assign(card, { pieces: card.pieces - pieces, left: Math.max(0, card.left - pieces) });
  if (card.own) Object.assign(card.own, { costs: without(card.own.costs, fact), cost: null });
  return card;
}

/** kind of fact → (card, the undone fact) → card, or null where nothing is left of it. */
export const UNDO = {
  sale(card, fact) {
    if (card.own?.sale && card.own.sale.fact !== fact.id) return card; // another sale stands
    card.state = 'in stock';
    if (card.own) card.own.sale = null;
    return card;
  },
  ticket: (card, fact) => here(card, fact.body.sold),
  return(card, { body: { pieces } }) {
    if (card.pieces && pieces) card.left = Math.max(0, card.left - pieces);
    return Object.assign(card, card.pieces && pieces && card.left ? {} : { state: 'sold' });
  },
  trade(card, fact) {
    const row = fact.body.in.find((one) => one.coin === card.id);
    return row ? uncome(card, row) : here(card, fact.body.out);
  },
  acquired: (card, fact) => uncome(card, fact.body.coins.find((row) => row.coin === card.id)),
  memo(card, fact) {
    const row = fact.body.coins.find((one) => one.coin === card.id);
    return fact.body.way === 'out' ? here(card) : Object.keys(row.set ?? {}).length ? null : Object.assign(card, { state: 'returned' });
  },
  away: (card) => here(card),
  lost: (card, fact) => here(card, [fact.body]),
  cost(card, fact) {
    if (!card.own) return card;
    const lines = without(card.own.costs, fact);
    const gone = card.own.costs.filter((line) => line.fact === fact.id).reduce((sum, line) => sum + line.cents, 0);
    return Object.assign(card, { own: { ...card.own, costs: lines, cost: card.own.cost == null ? null : card.own.cost - gone } });
  },
  purchase(card, fact) {
    const { set, pieces } = fact.body.bought.find((row) => row.coin === card.id) ?? {};
    if (set && !Object.keys(set).length && pieces && card.pieces > pieces && card.own?.purchase?.fact !== fact.id) return fewer(card, fact, pieces);
    if (Object.keys(fact.body.bought.find((row) => row.coin === card.id)?.set ?? {}).length) return null; // it made the coin
    if (card.own) Object.assign(card.own, { costs: [], cost: null, purchase: null });
    return card;
  },
  'coin.add': () => null,
  'coin.edit': (card, fact) => edited(card, fact.body.base),
  note: (card, fact) => ({ ...card, notes: without(card.notes, fact) }),
  photo: (card, fact) => ({ ...card, photos: without(card.photos, fact) }),
  check(card, { when, body: { key, base } }) {
    if (base) card.checks[key] = { answer: base, note: '', when };
    else delete card.checks[key];
    return card;
  },
};
