// Entries made on this phone: stored whole before anything is sent, and let go only with their verdict.
import { all, get, withDb, write } from './db.js';
import { makeRoom, prepared, wanted } from './photos.js';
import { changeIn } from './phone.js';
import { uuid7 } from './uuid7.js';

const SEASON_MS = 120 * 86_400_000; // how long a taken entry is kept, to heal a desk put back from a backup
const STATES = { applied: 'taken', merged: 'taken', contested: 'contested', refused: 'refused' };
const UNDONE = [ // kinds that a void takes back
  'purchase', 'acquired', 'cost', 'sale', 'ticket', 'return', 'trade', 'memo', 'away', 'back', 'lost', 'withdrawn', 'money', 'pack', 'drawer',
  'coin.add', 'coin.edit', 'note', 'check', 'photo', 'receipt', 'want.add', 'want.edit', 'want.drop',
  'contact.add', 'contact.edit', 'contact.drop', 'sighting.add', 'sighting.edit', 'sighting.drop',
];

/** Waiting entries in the order of their numbers. */
export async function waiting() {
  return (await all('facts', 'state', 'waiting')).sort((a, b) => a.n - b.n);
}

/**
 * Store one entry with its photo (a Blob) in one transaction. Resolves to the stored fact; rejects with code 'full',
 * or with what `check(kind, body)` throws; then nothing of it is kept.
 */
export async function record(kind, body, blob, check) {
  const photo = blob ? await prepared(blob) : null;
  const said = sound(photo ? naming(kind, body, photo) : body);
  check(kind, said);
  const when = Date.now();
  const made = { id: uuid7(when), kind, when, body: said, state: 'waiting', verdict: null };
  try {
    return await keep(made, photo);
  } catch (error) {
    if (error.code !== 'full' || !(await makeRoom())) throw error;
    return keep(made, photo);
  }
}

// A photo of a coin or of a receipt names its bytes; the receipt of a deal and the photo of a sighting are one of its fields.
const OF_BYTES = ['photo', 'receipt'];
const DEALS = ['purchase', 'trade'];
const naming = (kind, body, { photo, digest }) => (OF_BYTES.includes(kind) ? { ...body, photo, digest }
  : DEALS.includes(kind) ? { ...body, receipt: photo } : { ...body, set: { ...body.set, photo } });
const photoOf = ({ kind, body }) => (OF_BYTES.includes(kind) ? body.photo : DEALS.includes(kind) ? body.receipt : body.set?.photo);

// As the desk will read it: what JSON cannot carry is left out, half of a character pair is replaced.
const sound = (body) => JSON.parse(JSON.stringify(body), (_, value) => (typeof value === 'string' ? (value.toWellFormed?.() ?? value) : value));

function keep(made, photo) {
  return write(['meta', 'facts', 'photos'], async (tx) => {
    if (photo) await tx.objectStore('photos').put({ ...photo, coin: made.body.coin, fact: made.id });
    return add(tx, made);
  });
}

async function add(tx, made) {
  const facts = tx.objectStore('facts');
  return (await facts.get(made.id)) ?? changeIn(tx, async (phone) => {
    phone.n += 1;
    phone.order += 1;
    const fact = { ...made, n: phone.n, order: phone.order };
    await facts.put(fact);
    return fact;
  });
}

/** Offer a refused or contested entry anew, as another entry; its photo goes with it. Resolves to the new fact. */
export function again(id) {
  const when = Date.now();
  const fresh = uuid7(when);
  return write(['meta', 'facts', 'photos'], async (tx) => {
    const photos = tx.objectStore('photos');
    const facts = tx.objectStore('facts');
    // A second press finds it retried; so does this very transaction where a lost connection made it run again.
    if ((await facts.get(id))?.state === 'retried' && !(await facts.get(fresh))) throw fixed();
    const { kind, body } = await settleIn(tx, id, 'retried');
    const named = photoOf({ kind, body });
    const photo = named && (await photos.get(named));
    if (photo) await photos.put({ ...photo, fact: fresh, state: 'waiting' });
    return add(tx, { id: fresh, kind, when, body, state: 'waiting', verdict: null });
  });
}

/** Keep the desk's verdicts, inside the transaction that also moves the cursor. */
export async function told(tx, verdicts) {
  const facts = tx.objectStore('facts');
  await Promise.all(verdicts.map(async (verdict) => {
    const fact = await facts.get(verdict.id);
    if (fact) await facts.put({ ...fact, state: STATES[verdict.verdict] ?? 'contested', verdict, told: fact.told ?? Date.now() });
  }));
}

/**
 * Offer everything again that is kept, numbered from `n`: the desk knows by its id what it has. What it refused had no
 * effect and is not offered again: a person may have settled it by another entry.
 */
export async function offerAgain(tx, phone, n) {
  const again = (await tx.objectStore('facts').getAll()).filter((fact) => ['waiting', 'taken', 'contested'].includes(fact.state));
  await number(tx, phone, again, n);
  await wanted(tx);
}

/** Number what waits from `n`, in the order it was made. */
export async function numberFrom(tx, phone, n) {
  await number(tx, phone, await tx.objectStore('facts').index('state').getAll('waiting'), n);
}

async function number(tx, phone, rows, n) {
  let next = n;
  rows.sort((a, b) => a.order - b.order);
  await Promise.all(rows.map((fact) => tx.objectStore('facts').put({ ...fact, n: next++, state: 'waiting' })));
  phone.n = next - 1;
}

/** Newest first: {fact, verdict, state}. `limit` bounds those with verdicts; what waits or needs a person is always there. */
export async function entries(limit = 200) {
  const [recent, ...open] = await withDb(async (db) => {
    const store = db.transaction('facts').store;
    const newest = newestOf(store, limit);
    return Promise.all([newest, ...['waiting', 'refused', 'contested'].map((state) => store.index('state').getAll(state))]);
  });
  const rows = new Map([...recent, ...open.flat()].map((fact) => [fact.id, fact]));
  return [...rows.values()].sort((a, b) => b.order - a.order).map((fact) => ({ fact, verdict: fact.verdict, state: fact.state }));
}

// The many entries of a round of counting count as one, so that they push no others out; within reason.
async function newestOf(store, limit) {
  const found = [];
  const lines = new Set();
  let cursor = await store.index('order').openCursor(null, 'prev');
  while (cursor && lines.size < limit && found.length < 10 * limit) {
    found.push(cursor.value);
    lines.add(cursor.value.kind === 'count' ? cursor.value.body.count : cursor.value.id);
    cursor = await cursor.continue();
  }
  return found;
}

/** How many entries are in each state that matters to people. */
export async function counts() {
  return withDb(async (db) => {
    const index = db.transaction('facts').store.index('state');
    const [wait, refused, contested] = await Promise.all(['waiting', 'refused', 'contested'].map((state) => index.count(state)));
    return { waiting: wait, refused, contested };
  });
}

const fixed = () => Object.assign(new Error('Only an entry that was refused or contested can be settled.'), { code: 'bad' });

/** A refused or contested entry is done with: `state` is dropped, or taken (a contested one was seen). */
export const settle = (id, state) => write(['facts', 'photos'], (tx) => settleIn(tx, id, state));

/** A refused entry was put right by the entry `made`: dropped, it says what stands in its place. */
export const replace = (id, made) => write(['facts', 'photos'], (tx) => settleIn(tx, id, 'dropped', { by: made }));

async function settleIn(tx, id, state, more = {}) {
  const facts = tx.objectStore('facts');
  const fact = await facts.get(id);
  if (!['refused', 'contested', state].includes(fact?.state)) {
    throw fixed();
  }
  await facts.put({ ...fact, state, ...more });
  const named = state === 'dropped' && photoOf(fact);
  if (named && !more.by) await tx.objectStore('photos').delete(named);
  const heir = named && more.by ? await facts.get(more.by) : null; // it names the same photo: that waits for this entry now
  const photo = heir && photoOf(heir) === named ? await tx.objectStore('photos').get(named) : null;
  if (photo) await tx.objectStore('photos').put({ ...photo, fact: heir.id, state: 'waiting' });
  return fact;
}

/** The last entry of this phone that stands and can be undone, or null. */
export async function last() {
  const rows = (await entries()).map(({ fact }) => fact);
  const undone = new Set(rows.filter((fact) => fact.kind === 'void' && fact.state !== 'refused').map((fact) => fact.body.of));
  return rows.find((fact) => UNDONE.includes(fact.kind) && !undone.has(fact.id) && ['waiting', 'taken', 'contested'].includes(fact.state)) ?? null;
}

/** Forget what was settled before the season. */
export async function forgetOld(now = Date.now()) {
  const old = (await all('facts')).filter((fact) => ['taken', 'retried', 'dropped'].includes(fact.state) && fact.told < now - SEASON_MS);
  if (!old.length) return;
  await write(['facts', 'photos'], (tx) => Promise.all(old.flatMap((fact) => [
    tx.objectStore('facts').delete(fact.id), photoOf(fact) ? tx.objectStore('photos').delete(photoOf(fact)) : null,
  ])));
}

/** One entry of this phone, or undefined. */
export const fact = (id) => get('facts', id);
