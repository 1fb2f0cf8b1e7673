// This phone's entries that are painted on cards: those that wait, and those taken whose cards are still on their way.
import { get } from './db.js';
import * as outbox from './outbox.js';
import { coinsOf, touches } from './paint.js';

let facts = [];
let byId = new Map(); // the same, and the entries that they undo
let byCoin = new Map(); // coin → its facts
let lingering = []; // taken, but the answer that had their verdict had more cards to come

// One after the other: what is read anew must not undo what is taken up meanwhile.
let turn = Promise.resolve();
const inTurn = (work) => (turn = turn.then(work, work));

/** Read the entries again. Resolves to the IDs of coins whose entries changed. */
export const load = () => inTurn(read);

async function read() {
  const waiting = await outbox.waiting();
  const ids = new Set(waiting.map((fact) => fact.id));
  const rows = [...lingering.filter((fact) => !ids.has(fact.id)), ...waiting];
  const known = new Map(rows.map((fact) => [fact.id, fact]));
  for (const fact of rows) await meet(fact, known);
  const before = new Set(facts.map((fact) => fact.id));
  const here = new Set(rows.map((fact) => fact.id));
  const differ = [...rows.filter((fact) => !before.has(fact.id)), ...facts.filter((fact) => !here.has(fact.id))];
  const changed = new Set(differ.flatMap((fact) => coinsOf(fact, known.has(fact.body.of) ? known : byId)));
  [facts, byId, byCoin] = [rows, known, new Map()];
  for (const fact of rows) enter(fact);
  return [...changed];
}

/** Take up one entry that was just made: what it costs does not grow with those that wait. Resolves to its coins' IDs. */
export const add = (fact) => inTurn(() => take(fact));

async function take(fact) {
  if (byId.has(fact.id)) return coinsOf(fact, byId); // read meanwhile, with the others; whoever read it may not have painted yet
  facts.push(fact);
  byId.set(fact.id, fact);
  await meet(fact, byId);
  return enter(fact);
}

/** What `fact` takes back is known, too; a void of a return leads on to the sale. */
async function meet(fact, known) {
  for (let at = fact; at && (at.kind === 'void' || at.kind === 'return');) {
    const target = known.get(at.body.of) ?? await get('facts', at.body.of);
    if (target) known.set(target.id, target);
    at = target;
  }
}

function enter(fact) {
  const about = coinsOf(fact, byId);
  for (const coin of about) byCoin.set(coin, byCoin.get(coin) ?? []).get(coin).push(fact);
  return about;
}

/** The entries about one thing, oldest first. */
export function about(kind, id) {
  if (kind === 'coin' || kind === 'blank') return byCoin.get(id) ?? [];
  return facts.filter((fact) => touches(fact, kind, id, byId));
}

/** Entries of a kind of fact, such as want.add: what they make is on no card yet. */
export const ofKind = (kind) => facts.filter((fact) => fact.kind === kind);

/** All of them, in their order. */
export const all = () => facts;

/** The IDs of all coins with such entries. */
export const coins = () => [...byCoin.keys()];

/** The entry that a void undoes. */
export const target = (id) => byId.get(id);

/** Go on painting these taken entries until their cards are here. */
export const linger = (ids) => { lingering.push(...facts.filter((fact) => ids.includes(fact.id) && !lingering.includes(fact))); };
export const arrived = () => { lingering = []; };
