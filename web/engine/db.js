// The phone's store. One place opens it; a handle that the browser closed is opened again, once.
import { deleteDB, openDB, unwrap } from '../vendor/idb/build/index.js';

const NAME = 'exergue';
// Steps of the schema: a store of version v gets those after v. Append; never change one that phones have taken.
const STEPS = [
  (db) => {
    db.createObjectStore('meta'); // phone, reference, snapshot
    db.createObjectStore('packs'); // 'coin/7K' → JSON text [[seq, id, card], …], as the desk sent it
    db.createObjectStore('index'); // 'coin/7K' → search lines of that pack
    db.createObjectStore('overlay', { keyPath: ['kind', 'id'] }); // {kind, id, seq, card}: newer than the packs
    const facts = db.createObjectStore('facts', { keyPath: 'id' });
    facts.createIndex('state', 'state');
    facts.createIndex('order', 'order');
    db.createObjectStore('photos', { keyPath: 'photo' }).createIndex('state', 'state');
  },
];

/** Called when another tab, on an older app, keeps the store from being brought up to date. */
export const told = { blocked() {} };

let handle = null;

function open() {
  handle ??= openDB(NAME, STEPS.length, {
    upgrade(db, from) {
      for (const step of STEPS.slice(from)) step(db);
    },
    blocked: () => told.blocked(),
    blocking(_now, _next, event) {
      event.target.close();
      handle = null;
    },
    terminated() {
      handle = null;
    },
  }).catch((error) => {
    handle = null;
    throw error;
  });
  return handle;
}

/** Run `work(db)`; where the browser had closed the connection, open it anew and run it once more. */
export async function withDb(work) {
  const db = await open();
  try {
    return await work(db);
  } catch (error) {
    if (!closed(error)) throw error;
    handle = null;
    return work(await open());
  }
}

// InvalidStateError: the handle is closed. UnknownError: WebKit lost its storage process while the app slept.
const closed = (error) => error?.name === 'InvalidStateError' || (error?.name === 'UnknownError' && /connection/i.test(error.message));

/**
 * One transaction over `stores`; all of `work(tx)` is on disk when this resolves, or none of it. Work may run twice
 * (see withDb), so it must come to the same. `relaxed` is for what can be fetched again: faster, lost in a power cut.
 */
export function write(stores, work, { relaxed = false } = {}) {
  return withDb(async (db) => {
    const tx = db.transaction(stores, 'readwrite', { durability: relaxed ? 'relaxed' : 'strict' });
    tx.done.catch(() => {}); // told by the await below
    try {
      const result = await work(tx);
      await tx.done;
      return result;
    } catch (error) {
      try { tx.abort(); } catch { /* it is over already */ }
      throw full(tx.error ?? error);
    }
  });
}

/** A store without promises, for many puts: their failure is the transaction's. */
export const bare = (tx, store) => unwrap(tx).objectStore(store);

export const get = (store, key) => withDb((db) => db.get(store, key));
export const all = (store, index, range) => withDb((db) => (index ? db.getAllFromIndex(store, index, range) : db.getAll(store, range)));

/** Everything on this phone, gone. */
export async function erase() {
  (await handle?.catch(() => null))?.close();
  handle = null;
  await deleteDB(NAME);
}

function full(error) {
  if (error?.name !== 'QuotaExceededError' && error?.inner?.name !== 'QuotaExceededError') return error;
  return Object.assign(new Error('This phone’s storage is full, so nothing of this was kept. Make room, then try again.'), { code: 'full' });
}
