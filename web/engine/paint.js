// What this phone's own waiting entries make of a card, until the desk has answered. Shallow: the desk computes.
const sum = (lines) => lines.reduce((total, line) => total + line.cents, 0);

/** Whether a fact is about this thing. `byId` finds the entry that a void undoes. */
export function touches(fact, kind, id, byId) {
  const { body } = fact;
  if (fact.kind === 'void') return Boolean(byId.get(body.of) && touches(byId.get(body.of), kind, id, byId));
  if (kind === 'coin') return body.coin === id || Boolean(body.bought?.some((row) => row.coin === id));
  if (kind === 'blank') return Boolean(body.bought?.some((row) => row.coin === id)) || (fact.kind === 'coin.add' && body.coin === id);
  return body[kind] === id;
}

/** `card` (null: unknown here) with waiting facts on top; `waiting` lists them. */
export function paint(card, facts, kind, id, { names, byId }) {
  const undone = new Set(facts.filter((fact) => fact.kind === 'void').map((fact) => fact.body.of));
  const mine = facts.filter((fact) => touches(fact, kind, id, byId));
  if (!mine.length) return card;
  let painted = card ? structuredClone(card) : null;
  for (const fact of mine) {
    if (undone.has(fact.id)) continue;
    painted = (BRUSHES[fact.kind] ?? same)(painted, fact, { kind, id, names, byId });
  }
  if (painted) painted.waiting = mine;
  return painted;
}

const same = (card) => card;

function newCoin(id, about, names) {
  const denomName = names.denomination(about.denom);
  const typeName = names.type(about.type);
  const what = typeName || about.title || '';
  return {
    id, denom: '', type: '', variety: '', mint: '', grade: '', place: '', year: null, ask: null, publish: [], certified_by: '', certificate: '',
    ...about, state: 'in stock', denomName, typeName, gradeName: '', gradeNumber: null, notes: [], checks: {}, photos: [], looks: 0,
    title: [denomName, what].filter(Boolean).join(', ') || 'Coin not named yet',
    dateText: dateText(about.year, about.mint),
  };
}

const dateText = (year, mint) => (year == null ? 'no date' : mint ? `${year}-${mint}` : String(year));

const BRUSHES = {
  purchase(card, fact, { kind, id, names }) {
    if (kind === 'blank') return null;
    const row = fact.body.bought.find((one) => one.coin === id);
    const painted = card ?? newCoin(id, row.set, names);
    const costs = fact.body.bought.length === 1 ? fact.body.costs : []; // a lot is split at the desk
    const { date, from = '', show = null, payment = null, note = '' } = fact.body;
    painted.own = { floor: row.set.floor ?? null, costs, cost: costs.length ? sum(costs) : null, sale: null,
      ...(card?.own?.cost == null ? {} : card.own), purchase: { fact: fact.id, date, from, show, payment, note } };
    return painted;
  },
  'coin.add': (card, fact, { kind, id, names }) => (kind === 'blank' ? null : card ?? newCoin(id, fact.body.set, names)),
  'coin.edit'(card, fact) {
    if (!card) return card;
    const { floor, ...open } = fact.body.set;
    Object.assign(card, open);
    if (floor !== undefined && card.own) card.own.floor = floor;
    card.dateText = dateText(card.year, card.mint);
    return card;
  },
  sale(card, fact) {
    if (!card || card.state === 'sold') return card;
    card.state = 'sold';
    const { price, costs = [], to = '', date, show = null, payment = null, note = '' } = fact.body;
    if (card.own) {
      const gain = card.own.cost == null ? null : price - sum(costs) - card.own.cost;
      card.own.sale = { fact: fact.id, price, costs, to, date, show, payment, note, gain };
    }
    return card;
  },
  check(card, fact) {
    if (card) card.checks[fact.body.key] = { answer: fact.body.answer, note: fact.body.note ?? '', when: fact.when };
    return card;
  },
  note(card, fact) {
    card?.notes.push({ fact: fact.id, when: fact.when, text: fact.body.text, by: 'this phone' });
    return card;
  },
  photo(card, fact) {
    card?.photos.push({ photo: fact.body.photo, side: fact.body.side, fact: fact.id, local: true });
    return card;
  },
  void(card, fact, { kind, id, byId }) {
    const target = byId.get(fact.body.of);
    if (!card || target.state === 'waiting') return card; // undone before it was sent: its brush was left out
    const undo = UNDO[target.kind];
    return undo ? undo(card, target, kind, id) : card;
  },
};

// Undoing what the desk has already taken.
const UNDO = {
  sale(card) {
    card.state = 'in stock';
    if (card.own) card.own.sale = null;
    return card;
  },
  purchase: (card, target, kind) => (kind === 'coin' ? { ...card, state: 'void' } : card),
  'coin.edit': (card, target) => Object.assign(card, target.body.base),
  note: (card, target) => ({ ...card, notes: card.notes.filter((one) => one.fact !== target.id) }),
  photo: (card, target) => ({ ...card, photos: card.photos.filter((one) => one.fact !== target.id) }),
  check(card, target) {
    if (target.body.base) card.checks[target.body.key] = { answer: target.body.base, note: '', when: target.when };
    else delete card.checks[target.body.key];
    return card;
  },
};
