// What this phone's own waiting entries make of a card, until the desk has answered. Shallow: the desk computes.
import { edited, named, newCoin } from './new-coin.js';
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
  if (kind === 'want' && fact.kind === 'purchase') return body.want === id;
  if (kind === 'coin' || kind === 'blank') return coinsOf(fact, byId).includes(id);
  return fact.kind.startsWith(`${kind}.`) && body[kind] === id; // a sale names its show, but does not change it
}

const GONE = ['sold', 'traded', 'returned'];

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
const rowOf = (rows, id) => rows?.find((row) => row.coin === id);

/** Pieces leave a coin or a lot: the state changes with the last of them. */
function less(card, pieces, state) {
  if (card.pieces) {
    card.left = Math.max(0, card.left - (pieces ?? card.left));
    if (card.left) return card;
  }
  card.state = state;
  delete card.where;
  return card;
}

/** A coin that comes in without a purchase; what it counts as having cost is the desk's to say, but for a trade. */
function came(card, { id: fact, body }, row, { id, owner }, how, costs = []) {
  const painted = card ?? newCoin(id, { ...row.set, ...(row.pieces ? { pieces: row.pieces } : {}) });
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

function topped(card, fact, { bought, costs, date }, { pieces }) {
  if (!card.left) card.state = 'in stock';
  Object.assign(card, { pieces: card.pieces + pieces, left: card.left + pieces });
  if (card.own) {
    const known = bought.length === 1 && costs.length && card.own.cost != null; // else it is the desk's to say
    card.own.cost = known ? card.own.cost + sum(costs) : null;
    card.own.costs = [...card.own.costs, ...(known ? costs.map((line) => ({ ...line, fact, date })) : [])];
    delete card.own.cost_left;
  }
  return card;
}

/** With whom a coin is from now on. */
function elsewhere(card, { date, due, with: who = '' }, state, why) {
  return Object.assign(card, { state, where: { with: who, date, why, ...(due ? { due } : {}) } });
}

const AWAY = { grading: 'at grading', memo: 'on memo', consignment: 'on consignment' };

// kind of fact → (card, fact, {kind, id, owner}) → card
const BRUSHES = {
  purchase(card, { id: fact, body }, { kind, id, owner }) {
    if (kind !== 'coin') return null; // the label is used, the want filled
    const row = body.bought.find((one) => one.coin === id);
    if (tops(card, row)) return topped(card, fact, body, row);
    const painted = card ?? newCoin(id, { ...row.set, ...(row.pieces ? { pieces: row.pieces } : {}) });
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
    if (!card || GONE.includes(card.state)) return card; // sold twice: the desk keeps both, and a person decides
    less(card, null, 'sold');
    const { price, costs = [], to = '', date, show = null, payment = null, note = '' } = body;
    if (card.own) {
      const gain = card.own.cost == null ? null : price - sum(costs) - card.own.cost;
      card.own.sale = { fact, price, costs, to, date, show, payment, note, gain };
    }
    return card;
  },
  ticket(card, { id: fact, body }, { id }) {
    if (!card || GONE.includes(card.state)) return card;
    less(card, rowOf(body.sold, id).pieces, 'sold');
    if (card.own && body.sold.length === 1 && !card.pieces) { // several, or some of a lot, are split at the desk
      const { price, costs = [], to = '', date, show = null, payments = [], note = '' } = body;
      const gain = card.own.cost == null ? null : price - sum(costs) - card.own.cost;
      card.own.sale = { fact, price, costs, to, date, show, payment: payments.length === 1 ? payments[0].how : null, note, gain };
    }
    return card;
  },
  return(card, { body: { pieces } }) {
    if (!card) return card;
    if (card.pieces) card.left = Math.min(card.pieces, pieces ? card.left + pieces : card.pieces); // how many of all is the desk's to say
    card.state = 'in stock';
    if (card.own) card.own.sale = null;
    return card;
  },
  trade(card, fact, about) {
    const [gone, row] = [rowOf(fact.body.out, about.id), rowOf(fact.body.in, about.id)];
    if (about.kind === 'blank') return row ? null : card;
    if (row) return came(card, fact, row, about, 'trade', [{ what: 'trade', cents: row.value }]);
    return !card || GONE.includes(card.state) ? card : less(card, gone.pieces, 'traded');
  },
  acquired: (card, fact, about) => (about.kind === 'blank' ? null : came(card, fact, rowOf(fact.body.coins, about.id), about, fact.body.how)),
  memo(card, { body }, { kind, id, owner }) {
    if (kind === 'blank') return null;
    const row = rowOf(body.coins, id);
    const state = AWAY[body.kind];
    if (body.way === 'out') return card && elsewhere(card, body, state, body.kind);
    const painted = card ?? Object.assign(newCoin(id, { ...row.set }), owner ? { own: { floor: null, costs: [], cost: null, purchase: null, sale: null } } : {});
    return Object.assign(elsewhere(painted, body, state, body.kind), { theirs: true });
  },
  away: (card, { body }) => card && elsewhere(card, body, AWAY[body.why] ?? 'away', body.why),
  back(card) {
    if (!card || ['sold', 'traded', 'returned'].includes(card.state)) return card;
    card.state = card.theirs && ['on memo', 'on consignment'].includes(card.state) ? 'returned' : 'in stock';
    delete card.where;
    return card;
  },
  lost(card, { body }) {
    if (!card || card.state === 'missing') return card;
    less(card, body.pieces, 'missing');
    return card.state === 'missing' ? elsewhere(card, body, 'missing', body.how) : card;
  },
  withdrawn(card, { body }) {
    if (card?.own) card.own.held = body.to;
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
