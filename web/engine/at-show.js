// What this phone knows of a show: its money, the coins that should be there, rounds of counting. Loaded with the screens that ask.
import { get, write } from './db.js';
import { engine } from './engine.js';
import * as mine from './mine.js';
import { ask } from './net.js';
import * as packs from './packs.js';
import { paint } from './paint.js';
import { lent } from './standing.js';
import { standing } from '../floor/cash.js';

const ALL = 1e6;

/** Whether a coin is here, in our case. */
export const isHere = (card) => card.state === 'in stock' || lent(card);

/** {cash, spent, budget, left, float, drawer} of a show in cents, with what waits on this phone; null on a helper's phone. */
export async function money(show) {
  if (!show.own) return null;
  const facts = mine.all();
  const atShow = new Map();
  for (const fact of facts) { // a return is of the show of its sale, which may be another phone's
    for (const one of [fact, fact.kind === 'void' && mine.target(fact.body.of)]) {
      if (one?.kind === 'return' && !atShow.has(one.id)) atShow.set(one.id, await showOfSale(one.body.of));
    }
  }
  return standing(show.own, facts, {
    target: mine.target, last: show.ends || show.starts,
    atShow: (fact) => (fact.kind === 'return' ? atShow.get(fact.id) : fact.body.show) === show.id,
  });
}

async function showOfSale(of) {
  const entry = mine.target(of);
  if (entry) return entry.body.show ?? null;
  const cards = await packs.cardsHolding(of); // as they are without this phone's return
  return [...cards.values()].map((card) => card.own?.sale).find((sale) => sale?.fact === of)?.show ?? null;
}

function painted(id, card) {
  return paint(card, mine.about('coin', id), 'coin', id, { target: mine.target, owner: engine.state.role === 'owner' });
}

/** coin → {card, how, box, here, due}: all that were packed for a show, bought or traded in there, as far as this phone knows. */
export async function coinsAt(show) {
  const held = await packs.cardsHolding(show);
  const found = new Map();
  for (const id of new Set([...held.keys(), ...mine.coins()])) {
    const card = held.has(id) ? painted(id, held.get(id)) : await engine.card('coin', id);
    const how = card ? cameTo(show, card) : '';
    if (!how) continue;
    const here = isHere(card);
    found.set(id, { card, how, box: card.packed?.show === show ? card.packed.box ?? '' : how === 'packed' ? '' : card.place ?? '', here, due: here });
  }
  return found;
}

function cameTo(show, card) {
  return card.came?.[show] ?? (card.packed?.show === show ? 'packed' : '');
}

/** The same for the whole stock. `card` is a row of the search, for those of another's the card. */
export async function wholeStock() {
  const states = await Promise.all(['in stock', 'on memo', 'on consignment'].map((state) => engine.search('', { state, limit: ALL })));
  const rows = states[0].rows.map((row) => ({ ...row, waiting: mine.about('coin', row.id) }));
  const others = await Promise.all([...states[1].rows, ...states[2].rows].map(({ id }) => engine.card('coin', id)));
  const here = [...rows, ...others.filter((card) => card && isHere(card))];
  return new Map(here.map((card) => [card.id, { card, how: 'in the book', box: card.place ?? '', here: true, due: true }]));
}

export const expected = (show) => (show ? coinsAt(show) : wholeStock());

const counts = () => {
  const undone = new Set(mine.ofKind('void').map((fact) => fact.body.of));
  return mine.ofKind('count').filter((fact) => !undone.has(fact.id));
};

/** [{id, when, seen}] of a show or of the whole stock, the latest last. `seen` is the desk's number. */
export async function rounds(show) {
  const found = (await packs.cards('round')).filter((one) => (one.show ?? '') === (show ?? ''));
  for (const { body, when } of counts()) {
    if ((body.show ?? '') === (show ?? '') && !found.some((one) => one.id === body.count)) found.push({ id: body.count, when, seen: 0 });
  }
  return found.sort((a, b) => a.when - b.when || (a.id < b.id ? -1 : 1));
}

/** coin → [{place, how, when, by}] of a round, oldest first: what all phones scanned, as far as this one knows. */
export async function scansOf(round) {
  const found = new Map();
  const add = (coin, scan) => (found.get(coin) ?? found.set(coin, []).get(coin)).push(scan);
  for (const one of await packs.cards('seen')) {
    if (one.round !== round) continue;
    const byHand = new Set(one.hand ?? []);
    for (const coin of one.coins) add(coin, { place: one.place ?? '', how: byHand.has(coin) ? 'hand' : 'scan', when: one.when, by: one.by });
  }
  for (const { body, when } of counts()) {
    if (body.count === round) for (const { coin, how = 'scan' } of body.seen) add(coin, { place: body.place ?? '', how, when, by: engine.state.device.id });
  }
  for (const several of found.values()) several.sort((a, b) => a.when - b.when);
  return found;
}

/** key → words of differences explained on this phone that the desk has not answered yet. */
export const explained = () => mine.ofKind('settle').map((fact) => [fact.body.key, fact.body.note ?? '']);

const NAME = (show) => `floor/${show ?? 'stock'}`;

/** What the desk said last of a count and a close: {made, count, close?, cash_key?}; null: nothing yet. */
export const saidBefore = (show) => get('meta', NAME(show)).then((found) => found ?? null);

/** Ask the desk anew; it is kept. Rejects as `ask` does. */
export async function askDesk(show) {
  const response = await ask('GET', `/api/floor${show ? `/${show}` : ''}`);
  const said = { ...(await response.json()), made: Date.now() };
  await write(['meta'], (tx) => tx.store.put(said, NAME(show)), { relaxed: true });
  return said;
}
