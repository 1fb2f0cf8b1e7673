// What this phone's own waiting entries make of a card, until the desk has answered. Shallow: the desk computes.
import { edited, named, newCoin } from './new-coin.js';
import { UNDO } from './undo.js';

const sum = (lines) => lines.reduce((total, line) => total + line.cents, 0);

/** Whether a fact is about this thing. `byId` finds the entry that a void undoes. */
export function touches(fact, kind, id, byId) {
  const { body } = fact;
  if (fact.kind === 'void') return byId.has(body.of) && touches(byId.get(body.of), kind, id, byId);
  if (kind === 'want' && fact.kind === 'purchase') return body.want === id;
  if (kind === 'coin' || kind === 'blank') return body.coin === id || Boolean(body.bought?.some((row) => row.coin === id));
  return fact.kind.startsWith(`${kind}.`) && body[kind] === id; // a sale names its show, but does not change it
}

/**
 * `card` (null: unknown here) with `facts` about it on top; `card.waiting` lists them. Null where they leave nothing.
 * `target(id)` finds an entry of this phone, `owner` says whether it may hold costs.
 */
export function paint(card, facts, kind, id, { target, owner }) {
  if (!facts.length) return card;
  const undone = new Set(facts.filter((fact) => fact.kind === 'void').map((fact) => fact.body.of));
  const mine = new Set(facts.map((fact) => fact.id));
  let painted = card ? structuredClone(card) : null;
  for (const fact of facts) {
    if (undone.has(fact.id)) continue;
    if (fact.kind !== 'void') painted = (BRUSHES[fact.kind] ?? same)(painted, fact, { kind, id, owner });
    else if (painted && !mine.has(fact.body.of)) painted = (UNDO[target(fact.body.of)?.kind] ?? same)(painted, target(fact.body.of));
  }
  if (painted) painted.waiting = facts;
  return painted;
}

const same = (card) => card;

// kind of fact → (card, fact, {kind, id, owner}) → card
const BRUSHES = {
  purchase(card, { id: fact, body }, { kind, id, owner }) {
    if (kind !== 'coin') return null; // the label is used, the want filled
    const row = body.bought.find((one) => one.coin === id);
    const painted = card ?? newCoin(id, row.set);
    if (!owner) return painted;
    const costs = body.bought.length === 1 ? body.costs : []; // a lot is split at the desk
    const { date, from = '', show = null, payment = null, note = '' } = body;
    painted.own = {
      floor: row.set.floor ?? null, sale: null, ...painted.own,
      costs, cost: costs.length ? sum(costs) : null, purchase: { fact, date, from, show, payment, note, total: sum(body.costs) },
    };
    return painted;
  },
  'coin.add'(card, { body }, { kind, id, owner }) {
    if (kind === 'blank') return null;
    if (card) return card;
    return Object.assign(newCoin(id, body.set), owner ? { own: { floor: body.set.floor ?? null, costs: [], cost: null, purchase: null, sale: null } } : {});
  },
  'coin.edit': (card, { body }) => card && edited(card, body.set),
  sale(card, { id: fact, body }) {
    if (!card || card.state === 'sold') return card; // sold twice: the desk keeps both, and a person decides
    card.state = 'sold';
    const { price, costs = [], to = '', date, show = null, payment = null, note = '' } = body;
    if (card.own) {
      const gain = card.own.cost == null ? null : price - sum(costs) - card.own.cost;
      card.own.sale = { fact, price, costs, to, date, show, payment, note, gain };
    }
    return card;
  },
  check(card, { when, body: { key, answer, note = '' } }) {
    if (!card) return card;
    if (answer || note) card.checks[key] = { answer, note, when };
    else delete card.checks[key];
    return card;
  },
  note(card, { id: fact, when, body }) {
    card?.notes.push({ fact, when, text: body.text, by: 'this phone' });
    return card;
  },
  photo(card, { id: fact, body: { photo, side } }) {
    card?.photos.push({ photo, side, fact, local: true });
    return card;
  },
  'want.add': (card, { body }, { id }) => card ?? { id, ...body.set, ...named(body.set) },
  'want.edit': (card, { body }) => card && Object.assign(card, body.set, named({ ...card, ...body.set })),
  'want.drop': () => null,
  'show.add': (card, { body }, { id }) => card ?? { id, ...body.set },
  'show.edit': (card, { body }) => card && Object.assign(card, body.set),
};
