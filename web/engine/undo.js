// Undoing, on this phone's copy of a card, an entry that the desk has already taken.
import { edited } from './new-coin.js';

const without = (rows, fact) => rows.filter((one) => one.fact !== fact.id);

/** kind of fact → (card, the undone fact) → card, or null where nothing is left of it. */
export const UNDO = {
  sale(card, fact) {
    if (card.own?.sale && card.own.sale.fact !== fact.id) return card; // another sale stands
    card.state = 'in stock';
    if (card.own) card.own.sale = null;
    return card;
  },
  purchase(card, fact) {
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
