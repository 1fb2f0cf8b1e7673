// The phone's store. One place opens it; a handle that the browser closed is opened again, once.
import { deleteDB, openDB } from '../vendor/idb/build/index.js';

const NAME = 'exergue';
const STEPS = [
  (db) => {
    db.createObjectStore('meta'); // phone, reference, snapshot
    db.createObjectStore('packs'); // 'coin/7K' → JSON text {id: [seq, card]}
    db.createObjectStore('index'); // 'coin/7K' → search lines of that pack
    db.createObjectStore('overlay', { keyPath: ['kind', 'id'] }); // {kind, id, seq, card}: newer than the packs
    const facts = db.createObjectStore('facts', { keyPath: 'id' });
    facts.createIndex('state', 'state');
    facts.createIndex('order', 'order');
    db.createObjectStore('photos', { keyPath: 'photo' }).createIndex('state', 'state');
  },
];

let handle = null;

function open() {
  handle ??= openDB(NAME, STEPS.length, {
    upgrade(db, from) {
      for (const step of STEPS.slice(from)) step(db);
    },
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

/** Run `work(db)`; when the browser had closed the connection, open it anew and run it once more. */
export async function withDb(work) {
  const db = await open();
  try {
    return await work(db);
  } catch (error) {
    if (error?.name !== 'InvalidStateError') throw error;
    handle = null;
    return work(await open());
  }
}

/** One transaction over `stores`; all of `work(tx)` is on disk when this resolves, or none of it. */
export function write(stores, work) {
  return withDb(async (db) => {
    const tx = db.transaction(stores, 'readwrite', { durability: 'strict' });
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
  return Object.assign(new Error('This phone’s storage is full. Nothing was kept of this entry; make room, then try again.'), { code: 'full' });
}
