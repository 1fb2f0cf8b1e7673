// What this phone's own waiting entries make of a card, until the desk has answered. Shallow: the desk computes.
import { edited, newCoin, seen, wanted } from './new-coin.js';
import { cameBack, cameIn, gaveBack, heldAs, lost, off, ours, sold, traded } from './moves.js';
import { GONE } from './standing.js';
import { UNDO } from './undo.js';

const sum = (lines) => lines.reduce((total, line) => total + line.cents, 0);

const LISTS = ['bought', 'coins', 'sold', 'out', 'in'];

/** The coins that a fact is about. `byId` finds the entry that a void undoes, or whose coins a return gives back. */
export function coinsOf(fact, byId) {
  const { body } = fact;
  const whole = fact.kind === 'void' || (fact.kind === 'return' && !body.coins);
  if (whole) return byId.has(body.of) ? coinsOf(byId.get(body.of), byId) : [];
  const rows = LISTS.flatMap((name) => (Array.isArray(body[name]) ? body[name] : []));
  return [...new Set([body.coin, ...rows.map((row) => row.coin ?? row)].filter(Boolean))];
}

/** Whether a fact is about this thing. `byId` finds the entry that a void undoes. */
export function touches(fact, kind, id, byId) {
  const { body } = fact;
  if (fact.kind === 'void') return byId.has(body.of) && touches(byId.get(body.of), kind, id, byId);
  if (kind === 'want' && (fact.kind === 'purchase' || fact.kind === 'trade')) return body.want === id || (body.bought ?? body.in).some((row) => row.want === id);
  if (kind === 'coin' || kind === 'blank') return coinsOf(fact, byId).includes(id);
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
const CONTACT = { name: '', table: '', phone: '', note: '' };
const rowOf = (rows, id) => rows?.find((row) => row.coin === id);

/** The card with the show at which the coin came in, where the entry names one. */
function cameAt(card, { kind, body: { show } }) {
  if (show) card.came = { ...card.came, [show]: kind === 'trade' ? 'traded in' : 'bought' };
  return card;
}

/** A coin that comes in without a purchase; what it counts as having cost is the desk's to say, but for a trade. */
function came(card, entry, row, { id, owner }, how, costs = []) {
  const { id: fact, body } = entry;
  const painted = cameAt(card ?? newCoin(id, { ...row.set, ...(row.pieces ? { pieces: row.pieces } : {}) }), entry);
  if (!owner) return painted;
  const { date, note = '', show = null } = body;
  const total = sum(costs);
  painted.own = {
    floor: row.set?.floor ?? null, sale: null, ...painted.own, costs, cost: costs.length ? total : null,
    purchase: { fact, date, from: body.from ?? body.with ?? '', show, payment: null, note, total, how },
  };
  return painted;
}

/** Whether a purchase adds pieces to a lot that was bought: it says how many, and nothing else of the coin. */
const tops = (card, row) => Boolean(card?.pieces && row.pieces && !Object.keys(row.set).length && card.own?.purchase !== null);

function topped(card, fact, { bought, costs, date, from = '' }, { pieces }) {
  if (!card.left) card.state = 'in stock';
  Object.assign(card, { pieces: card.pieces + pieces, left: card.left + pieces });
  if (card.own) {
    const known = bought.length === 1 && costs.length && card.own.cost != null; // else it is the desk's to say
    card.own.cost = known ? card.own.cost + sum(costs) : null;
    card.own.costs = [...card.own.costs, ...(known ? costs.map((line) => ({ ...line, fact, date, pieces, from })) : [])];
    delete card.own.cost_left;
    delete card.own.loss_basis;
    card.own.units?.push({ at: card.own.units.length, fact, left: pieces, costs: known ? costs.map((line) => line.cents) : null, date, from });
  }
  return card;
}

// kind of fact → (card, fact, {kind, id, owner}) → card
const BRUSHES = {
  purchase(card, entry, { kind, id, owner }) {
    const { id: fact, body } = entry;
    if (kind !== 'coin') return null; // the label is used, the want filled
    const row = body.bought.find((one) => one.coin === id);
    if (tops(card, row)) return cameAt(topped(card, fact, body, row), entry);
    const painted = cameAt(card ? ours(card) : newCoin(id, { ...row.set, ...(row.pieces ? { pieces: row.pieces } : {}) }), entry);
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
  sale: (card, fact) => card && sold(card, fact, fact.body, { price: fact.body.price, payment: fact.body.payment ?? null }),
  ticket(card, fact, { id }) {
    if (!card) return card;
    const { sold: rows, payments = [], ...body } = fact.body;
    const [row, alone] = [rowOf(rows, id), rows.length === 1]; // without a price each, that of several is divided at the desk
    const price = alone ? body.price : rows.every((one) => one.price != null) ? row.price : null;
    return sold(card, fact, alone ? body : { ...body, costs: body.costs?.length ? null : [] }, { price, pieces: row.pieces, from: row.of, payment: payments.length === 1 ? payments[0].how : null });
  },
  return: (card, fact, { id }) => card && gaveBack(card, fact, id),
  trade(card, fact, about) {
    const [gone, row] = [rowOf(fact.body.out, about.id), rowOf(fact.body.in, about.id)];
    if (about.kind === 'want') return null; // filled
    if (about.kind === 'blank') return row ? null : card;
    if (row) return came(card, fact, row, about, 'trade', [{ what: 'trade', cents: row.value }]);
    return card && traded(card, fact, gone);
  },
  acquired: (card, fact, about) => (about.kind === 'blank' ? null : came(card, fact, rowOf(fact.body.coins, about.id), about, fact.body.how)),
  memo(card, fact, { kind, id, owner }) {
    const { body } = fact;
    if (kind === 'blank') return null;
    const row = rowOf(body.coins, id);
    if (body.way === 'out') return card && (card.theirs ? card : off(card, fact, { how: body.kind, due: body.due, cents: row.net }));
    const painted = card ?? Object.assign(newCoin(id, { ...row.set }), owner ? { own: { floor: null, costs: [], cost: null, purchase: null, sale: null } } : {});
    if (card && !(card.theirs && card.state === 'returned')) return card;
    return cameIn(painted, fact, row);
  },
  away: (card, fact) => card && off(card, fact, { how: fact.body.why }),
  back: (card, fact) => card && cameBack(card, fact),
  lost: (card, fact) => card && lost(card, fact),
  withdrawn: (card, fact) => card && heldAs(card, fact),
  cost(card, { id: fact, body }) {
    if (!card?.own) return card;
    const { own } = card;
    const alone = body.coins.length === 1; // several: divided at the desk
    const gone = GONE.includes(card.state); // then it is none of the coin's: neither cost nor gain follow
    own.costs = [...own.costs, ...body.costs.map(({ what, cents }) => ({ what, cents: alone ? cents : null, fact, date: body.date, ...(gone ? { after: true } : {}) }))];
    if (!gone) own.cost = own.cost === null || !alone ? null : own.cost + sum(body.costs);
    if (!gone && own.loss_basis != null) own.loss_basis = alone ? own.loss_basis + sum(body.costs) : null;
    if (!gone) for (const unit of own.units ?? []) unit.costs = null; // divided over them at the desk
    return card;
  },
  pack(card, { body: { show, box = '', undo } }) {
    if (!undo) return card && Object.assign(card, { packed: { show, ...(box ? { box } : {}) } });
    if (card?.packed?.show === show) delete card.packed;
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
  receipt(card, { body: { of, photo } }) {
    if (card?.own) card.own.receipts = { ...card.own.receipts, [of]: [...(card.own.receipts?.[of] ?? []), photo] };
    return card;
  },
  'want.add': (card, { body }, { id, owner }) => card ?? wanted({ id }, body.set, owner),
  'want.edit': (card, { body }, { owner }) => card && wanted(card, body.set, owner),
  'want.drop': () => null,
  'contact.add': (card, { body }, { id }) => card ?? { id, ...CONTACT, ...body.set },
  'contact.edit': (card, { body }) => card && Object.assign(card, body.set),
  'contact.drop': () => null,
  'sighting.add': (card, { body }, { id, owner }) => card ?? seen({ id }, body.set, owner),
  'sighting.edit': (card, { body }, { owner }) => card && seen(card, body.set, owner),
  'sighting.drop': () => null,
  'show.add': (card, { body }, { id }) => card ?? { id, ...body.set },
  'show.edit': (card, { body }) => card && Object.assign(card, body.set),
  'show.close': (card, { body }) => card && Object.assign(card, { closed: body.date }),
  'show.open'(card) {
    delete card?.closed;
    return card;
  },
};
