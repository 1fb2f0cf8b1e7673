// How this phone comes to a desk and leaves it: pairing, being known by its cookie, unpairing, wiping.
import { erase, write } from './db.js';
import { call, fail } from './net.js';
import * as outbox from './outbox.js';
import * as phones from './phone.js';
import { CACHE } from './photos.js';
import * as reference from './reference.js';
import * as stock from './stock.js';

const LEFT = 'exergue.left'; // unpaired with no network: the desk is told later, and the cookie means nothing

/** Pair with a one-time code. Rejects with {code, message}. Entries made for the same book stay and are sent. */
export async function pair(code, name) {
  const held = await phones.read();
  if (localStorage.getItem(LEFT)) await unpair().catch(() => {}); // the desk has not heard yet that this phone left
  const hello = await call('POST', '/api/pair', { code, name });
  localStorage.removeItem(LEFT);
  if (held?.book === hello.book) return again(held, hello);
  if (held && (await outbox.waiting()).length) {
    throw fail('other_book', 'Entries of another book still wait on this phone. Save them to a file and leave that book first.');
  }
  if (held) await wipe();
  return phones.keep(phones.fresh(hello));
}

function again(held, hello) {
  const { device } = phones.known(hello);
  return write(['meta', 'facts', 'packs', 'index', 'overlay'], (tx) => phones.changeIn(tx, async (phone) => {
    Object.assign(phone, { device, bookName: hello.bookName });
    await outbox.numberFrom(tx, phone, hello.device.next_n);
    if (device.role === held.device.role) return;
    // Another role may hold other things: nothing of the former stays.
    for (const store of ['packs', 'index', 'overlay']) tx.objectStore(store).clear();
    tx.objectStore('meta').delete('snapshot');
    Object.assign(phone, { cursor: 0, ready: false });
  }));
}

/** The cookie outlives the storage: a phone that the desk knows but that holds nothing was cleared. */
export async function recognise() {
  if (localStorage.getItem(LEFT)) {
    await unpair();
    localStorage.removeItem(LEFT);
    return;
  }
  const hello = await call('GET', '/api/hello');
  if (!hello.device) return;
  const phone = phones.fresh(hello);
  if (phone.wiped) phones.notice(phone, 'wiped', 'This phone’s storage was cleared by the browser. Entries that were not sent yet are lost; the rest is fetched again.');
  await phones.keep(phone);
}

/**
 * Unpair, and remove everything. With no network the desk is told later. Where the desk answers that it cannot, the
 * phone stays paired and keeps all that it has: rejects with {code, message}.
 */
export async function leave() {
  try {
    await unpair();
  } catch (error) {
    if (error.code !== 'offline') {
      throw fail(error.code, 'The desk could not unpair this phone just now. It is still paired, and nothing was removed. Try again in a moment.', { cause: error });
    }
    localStorage.setItem(LEFT, '1');
  }
  await wipe();
}

/** Tell the desk. A desk that does not know this phone has nothing to unpair. */
async function unpair() {
  try {
    await call('POST', '/api/leave');
  } catch (error) {
    if (!['not_paired', 'revoked'].includes(error.code)) throw error;
  }
}

// Forms that were begun (parts/draft.js), scans that are in no entry yet (floor/queue.js): they are of this book.
const BEGUN = /^exergue\.(draft|scans)\./;

/** Remove everything from this phone. */
export async function wipe() {
  await erase();
  for (const key of Object.keys(localStorage)) if (BEGUN.test(key)) localStorage.removeItem(key);
  if (globalThis.caches) await caches.delete(CACHE);
  reference.forget();
  stock.reset();
}
