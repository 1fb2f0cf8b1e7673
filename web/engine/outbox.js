// Entries made on this phone: stored whole before anything is sent, and let go only with their verdict.
import { all, get, withDb, write } from './db.js';
import { changeIn } from './phone.js';
import { uuid7 } from './uuid7.js';

const SEASON_MS = 120 * 86_400_000; // how long a taken entry is kept, to heal a desk put back from a backup

/** Waiting entries in the order of their numbers. */
export async function waiting() {
  return (await all('facts', 'state', 'waiting')).sort((a, b) => a.n - b.n);
}

/** Store one entry with its photo in one transaction. Resolves to the stored fact; rejects with code 'full'. */
export async function record(kind, body, photo) {
  const kept = photo ? await asPhoto(photo) : null;
  const said = kept ? { ...body, photo: kept.photo, digest: kept.digest } : body;
  return write(['meta', 'facts', 'photos'], (tx) => changeIn(tx, async (phone) => {
    phone.n += 1;
    phone.order += 1;
    const when = Date.now();
    const fact = { id: uuid7(when), n: phone.n, kind, when, body: said, state: 'waiting', order: phone.order, verdict: null };
    if (kept) await tx.objectStore('photos').put({ ...kept, coin: said.coin, fact: fact.id });
    await tx.objectStore('facts').put(fact);
    return fact;
  }));
}

async function asPhoto(blob) {
  const bytes = await blob.arrayBuffer();
  const digest = [...new Uint8Array(await crypto.subtle.digest('SHA-256', bytes))].map((b) => b.toString(16).padStart(2, '0')).join('');
  // As bytes, not as a Blob: some browsers lose a Blob kept in IndexedDB.
  return { photo: uuid7(), digest, bytes, type: blob.type || 'image/jpeg', state: 'waiting' };
}

/** Keep the desk's verdicts, inside the transaction that also moves the cursor. */
export async function told(tx, verdicts) {
  const facts = tx.objectStore('facts');
  for (const verdict of verdicts) {
    const fact = await facts.get(verdict.id);
    if (fact) await facts.put({ ...fact, state: STATES[verdict.verdict] ?? 'contested', verdict, told: fact.told ?? Date.now() });
  }
}

const STATES = { applied: 'taken', merged: 'taken', contested: 'contested', refused: 'refused' };

/** Offer everything again that is kept, numbered from `n`: the desk knows by its id what it has. */
export async function offerAgain(tx, phone, n) {
  const facts = tx.objectStore('facts');
  const again = (await facts.getAll()).filter((fact) => ['waiting', 'taken', 'contested'].includes(fact.state)).sort((a, b) => a.order - b.order);
  await number(facts, phone, again, n);
}

/** Number what waits from `n`, in the order it was made. */
export async function numberFrom(tx, phone, n) {
  const facts = tx.objectStore('facts');
  const rows = (await facts.index('state').getAll('waiting')).sort((a, b) => a.order - b.order);
  await number(facts, phone, rows, n);
}

async function number(facts, phone, rows, n) {
  let next = n;
  for (const fact of rows) await facts.put({ ...fact, n: next++, state: 'waiting' });
  phone.n = next - 1;
}

/** Newest first: {fact, verdict, state}. `limit` bounds those with verdicts; what waits is always there. */
export async function entries(limit = 200) {
  const rows = await withDb(async (db) => {
    const found = [];
    let cursor = await db.transaction('facts').store.index('order').openCursor(null, 'prev');
    while (cursor && found.length < limit) {
      found.push(cursor.value);
      cursor = await cursor.continue();
    }
    return found;
  });
  const seen = new Set(rows.map((fact) => fact.id));
  const older = (await all('facts')).filter((fact) => !seen.has(fact.id) && ['waiting', 'refused', 'contested'].includes(fact.state));
  return [...rows, ...older].sort((a, b) => b.order - a.order).map((fact) => ({ fact, verdict: fact.verdict, state: fact.state }));
}

/** How many entries are in each state that matters to people. */
export async function counts() {
  return withDb(async (db) => {
    const index = db.transaction('facts').store.index('state');
    const [wait, refused, contested] = await Promise.all(['waiting', 'refused', 'contested'].map((state) => index.count(state)));
    return { waiting: wait, refused, contested };
  });
}

/** A refused or contested entry is offered anew as another entry, or put out of sight. */
export async function settle(id, state) {
  await write(['facts'], async (tx) => {
    const fact = await tx.store.get(id);
    if (!fact || fact.state === 'waiting') throw Object.assign(new Error('This entry still waits for its verdict.'), { code: 'bad' });
    await tx.store.put({ ...fact, state });
  });
  return get('facts', id);
}

/** Forget taken entries of the season before. */
export async function forgetOld(now = Date.now()) {
  const old = (await all('facts')).filter((fact) => ['taken', 'dropped'].includes(fact.state) && fact.told < now - SEASON_MS);
  if (old.length) await write(['facts'], (tx) => Promise.all(old.map((fact) => tx.store.delete(fact.id))));
}
