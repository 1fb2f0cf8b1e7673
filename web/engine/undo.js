// Undoing, on this phone's copy of a card, an entry that the desk has already taken.
import { edited, seen, wanted } from './new-coin.js';
import { GONE, here, movesOf, unmove } from './standing.js';

const without = (rows, fact) => rows.filter((one) => one.fact !== fact.id);

/** The move of an entry taken back, where no later one rests on it; `otherwise` on a helper's card, which has no moves. */
function back(card, fact, otherwise) {
  if (!card.own) return otherwise(card);
  unmove(card, fact.id);
  return card;
}

/** On a helper's card: what had gone is here again, of a lot as many pieces as had gone. */
const unsold = (state, rows) => (card) => {
  if (card.pieces) card.left = Math.min(card.pieces, card.left + (rows.find((row) => row.coin === card.id)?.pieces ?? card.pieces));
  return card.state === state ? here(card) : card;
};

/** On a helper's card: here again, if it is where this entry put it. */
const unplaced = (why) => (card, { date, with: who = '' }) => (card.where?.why === why && card.where.date === date && card.where.with === who ? here(card) : card);

/** A coin that did not come in: gone, where the entry made it and nothing was entered of it since. */
function uncome(card, row, fact) {
  const since = card.own ? movesOf(card).some((move) => move.fact !== fact.id) : GONE.includes(card.state);
  if (Object.keys(row.set ?? {}).length) return since ? card : null;
  cameNot(card, fact);
  if (card.own) Object.assign(card.own, { costs: [], cost: null, purchase: null });
  return card;
}

function cameNot(card, { body: { show } }) {
  delete card.came?.[show];
  if (!Object.keys(card.came ?? {}).length) delete card.came;
}

/** A lot without the pieces that a purchase had added. */
function fewer(card, fact, pieces) {
  if (card.own?.purchase?.show !== fact.body.show) cameNot(card, fact);
  Object.assign(card, { pieces: card.pieces - pieces, left: Math.max(0, card.left - pieces) });
  if (card.own) Object.assign(card.own, { costs: without(card.own.costs, fact), cost: null });
  if (card.own?.units) card.own.units = without(card.own.units, fact);
  return card;
}

/** kind of fact → (card, the undone fact) → card, or null where nothing is left of it. */
export const UNDO = {
  sale: (card, fact) => back(card, fact, unsold('sold', [])),
  ticket: (card, fact) => back(card, fact, unsold('sold', fact.body.sold)),
  return(card, fact) {
    const { pieces } = fact.body;
    return back(card, fact, (one) => {
      if (one.pieces && pieces) one.left = Math.max(0, one.left - pieces);
      return one.state === 'in stock' && !(one.pieces && pieces && one.left) ? Object.assign(one, { state: 'sold' }) : one;
    });
  },
  trade(card, fact) {
    const row = fact.body.in.find((one) => one.coin === card.id);
    return row ? uncome(card, row, fact) : back(card, fact, unsold('traded', fact.body.out));
  },
  acquired: (card, fact) => uncome(card, fact.body.coins.find((row) => row.coin === card.id), fact),
  memo(card, fact) {
    const row = fact.body.coins.find((one) => one.coin === card.id);
    const out = fact.body.way === 'out';
    if (!out && Object.keys(row.set ?? {}).length) return uncome(card, row, fact);
    return back(card, fact, (one) => (out ? unplaced(fact.body.kind)(one, fact.body) : Object.assign(one, { state: 'returned' })));
  },
  away: (card, fact) => back(card, fact, (one) => unplaced(fact.body.why)(one, fact.body)),
  back: (card, fact) => back(card, fact, (one) => one), // where it was before is the desk's to say
  lost(card, fact) {
    return back(card, fact, (one) => {
      if (one.pieces) one.left = Math.min(one.pieces, one.left + (fact.body.pieces ?? one.pieces));
      return unplaced(fact.body.how)(one, fact.body);
    });
  },
  withdrawn(card, fact) {
    if (!card.own || movesOf(card).findLast((move) => move.kind === 'withdrawn')?.fact !== fact.id) return card;
    unmove(card, fact.id);
    const before = movesOf(card).findLast((move) => move.kind === 'withdrawn');
    if (before) card.own.held = before.how;
    else delete card.own.held; // as it was entered, or as the book's setting says: the desk knows
    return card;
  },
  cost(card, fact) {
    if (!card.own) return card;
    const lines = without(card.own.costs, fact);
    const gone = card.own.costs.filter((line) => line.fact === fact.id && !line.after).reduce((sum, line) => sum + line.cents, 0);
    for (const one of [card.own.sale, ...(card.own.moves ?? [])]) if (gone && one?.gain != null) one.gain = card.pieces ? null : one.gain + gone;
    return Object.assign(card, { own: { ...card.own, costs: lines, cost: card.own.cost == null ? null : card.own.cost - gone } });
  },
  purchase(card, fact) {
    const { set = {}, pieces } = fact.body.bought.find((row) => row.coin === card.id) ?? {};
    const added = !Object.keys(set).length && pieces && card.pieces > pieces && card.own?.purchase?.fact !== fact.id;
    return added ? fewer(card, fact, pieces) : uncome(card, { set }, fact);
  },
  pack(card, { body }) { // one that took it out: the box is the desk's to say
    if (!body.undo && card.packed?.show === body.show) delete card.packed;
    return card;
  },
  'coin.add': () => null,
  'coin.edit': (card, fact) => edited(card, fact.body.base),
  note: (card, fact) => ({ ...card, notes: without(card.notes, fact) }),
  photo: (card, fact) => ({ ...card, photos: without(card.photos, fact) }),
  receipt(card, { body: { of, photo } }) {
    const { [of]: photos = [], ...others } = card.own?.receipts ?? {};
    const left = photos.filter((one) => one !== photo);
    if (card.own) card.own.receipts = { ...others, ...(left.length ? { [of]: left } : {}) };
    if (card.own && !Object.keys(card.own.receipts).length) delete card.own.receipts;
    return card;
  },
  check(card, { when, body: { key, base } }) {
    if (base) card.checks[key] = { answer: base, note: '', when };
    else delete card.checks[key];
    return card;
  },
  'want.add': () => null,
  'want.edit': (card, { body }) => wanted(card, body.base, Boolean(card.own)),
  'contact.add': () => null,
  'contact.edit': (card, { body }) => ({ ...card, ...body.base }),
  'sighting.add': () => null,
  'sighting.edit': (card, { body }) => seen(card, body.base, Boolean(card.own)),
};
