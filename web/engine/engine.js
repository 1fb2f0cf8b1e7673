// What the screens see: one object over store, outbox, sync and search.
import { erase, get, write } from './db.js';
import { newId, parseId } from './ids.js';
import { call, fail } from './net.js';
import * as outbox from './outbox.js';
import * as packs from './packs.js';
import { paint } from './paint.js';
import { persisted, room } from './persist.js';
import * as phones from './phone.js';
import * as photos from './photos.js';
import * as reference from './reference.js';
import * as shell from './shell.js';
import * as stock from './stock.js';
import * as syncing from './sync.js';

const FOLD_FROM = 64; // changed cards in the overlay before it is folded
const listeners = new Set();
const others = 'BroadcastChannel' in globalThis ? new BroadcastChannel('exergue') : null;
let waiting = []; // entries that wait, in memory: every card is painted with them
let byId = new Map(); // entries of this phone that a void may undo

const state = {
  paired: false, book: null, bookName: '', currency: 'USD', role: null, device: null, cursor: 0,
  waiting: 0, refused: 0, contested: 0, online: null, syncing: false, lastSync: null, progress: null,
  persisted: false, shellReady: false, update: false, full: false, notice: [], skewMs: 0, trouble: null,
  unknown: false, // the desk answers, but does not know this phone: pair it again, nothing here is lost
};

function tell() {
  for (const listener of listeners) listener(state);
}

/** Read again what other tabs or a sync may have changed. */
async function refresh() {
  const [phone, counts, rows] = await Promise.all([phones.read(), outbox.counts(), outbox.waiting()]);
  waiting = rows;
  byId = new Map(rows.map((fact) => [fact.id, fact]));
  for (const fact of rows) {
    if (fact.kind !== 'void' || byId.has(fact.body.of)) continue;
    const target = await get('facts', fact.body.of);
    if (target) byId.set(target.id, target);
  }
  Object.assign(state, counts, { shellReady: shell.ready(), update: shell.waits() });
  if (phone) {
    Object.assign(state, {
      paired: true, book: phone.book, bookName: phone.bookName, currency: phone.currency, device: phone.device, role: phone.device.role,
      cursor: phone.ready ? Math.max(1, phone.cursor) : 0, lastSync: phone.lastSync, skewMs: phone.skewMs, notice: phone.notices,
    });
  } else Object.assign(state, { paired: false, book: null, device: null, role: null, cursor: 0, lastSync: null });
  await stock.repaint(paintedCards);
}

async function refreshed(told = false) {
  await refresh();
  if (told) others?.postMessage('changed');
  tell();
}

const brush = () => ({ names: reference.names, byId });

async function card(kind, id) {
  return paint(await packs.card(kind, id), waiting, kind, id, brush());
}

/** Coins with waiting entries, painted: [[id, card|null]]. */
async function paintedCards() {
  const ids = new Set();
  for (const fact of waiting) {
    const about = fact.kind === 'void' ? byId.get(fact.body.of) : fact;
    for (const row of about?.body.bought ?? []) ids.add(row.coin);
    if (about?.body.coin) ids.add(about.body.coin);
  }
  return Promise.all([...ids].map(async (id) => [id, await card('coin', id)]));
}

export const engine = {
  state,
  newId,
  parseId,

  get reference() {
    return reference.reference;
  },

  /** Open the store and start the triggers. A phone whose storage was cleared is found by its cookie. */
  async start() {
    await reference.load();
    await refresh();
    shell.start(() => { Object.assign(state, { shellReady: shell.ready(), update: shell.waits() }); tell(); });
    others?.addEventListener('message', () => refreshed());
    Object.assign(syncing.listeners, {
      progress(progress) { Object.assign(state, { progress, online: true }); tell(); },
      rows(rows) { stock.changed(rows); },
      filled() { state.progress = null; stock.reset(); },
      state(change) { Object.assign(state, change); if (change.syncing === false) settled(); tell(); },
      revoked() { wipe({ code: 'revoked', text: 'The desk has unpaired this phone. Its copy of the book was removed.' }); },
    });
    if (!state.paired) await recognise();
    if (state.paired) {
      syncing.watch();
      persisted().then((kept) => { state.persisted = kept; tell(); });
    }
    tell();
  },

  /** Be told of every change of `state`; returns a function that ends it. */
  onchange(listener) {
    listeners.add(listener);
    return () => listeners.delete(listener);
  },

  /** Pair with a one-time code. Rejects with {code, message}. */
  async pair(code, name) {
    const hello = await call('POST', '/api/pair', { code, name });
    const held = await phones.read();
    if (held && held.book === hello.book) { // paired again: entries that wait go out under the new identity
      await write(['meta', 'facts'], (tx) => phones.changeIn(tx, async (phone) => {
        Object.assign(phone, { device: phones.known(hello).device, bookName: hello.bookName });
        await outbox.numberFrom(tx, phone, hello.device.next_n);
      }));
    } else {
      if (held && state.waiting) throw fail('other_book', 'Entries of another book still wait on this phone. Save them to a file and leave that book first.');
      if (held) await erase();
      await phones.keep(phones.fresh(hello));
    }
    Object.assign(state, { persisted: await persisted(true), unknown: false, trouble: null });
    stock.reset();
    await refreshed(true);
    syncing.watch();
  },

  /** A card with this phone's waiting entries painted on; null if it is not on this phone. */
  card,

  /** All cards of a small kind: want, show, blank, book. */
  async list(kind) {
    const found = await packs.cards(kind);
    return found.map((one) => paint(one, waiting, kind, one.id, brush())).filter(Boolean);
  },

  /** Store one entry. Resolves when it is safe on this phone; rejects with {code: 'full' | 'bad', message}. */
  async record(kind, body, { photo } = {}) {
    if (reference.reference && !reference.reference.kinds[kind]) throw fail('bad', `This app does not know entries of kind ${kind}.`);
    let fact;
    try {
      fact = await outbox.record(kind, body, photo);
    } catch (error) {
      if (error.code === 'full') { state.full = true; tell(); }
      throw error;
    }
    state.full = false;
    await refreshed(true);
    syncing.soon();
    return fact;
  },

  /** Search the coins: {rows, total}. */
  async search(text, filters = {}) {
    const finder = await stock.load(reference.rank, paintedCards);
    const { rows, total } = finder.find(text, filters);
    return { rows: rows.map((row) => ({ ...row, waiting: stock.isPainted(row.id) })), total };
  },

  /** Places where coins are, in order. */
  async places() {
    return (await stock.load(reference.rank, paintedCards)).places();
  },

  entries: outbox.entries,

  /** Offer a refused or contested entry anew, as another entry. */
  async retry(id) {
    const fact = await outbox.settle(id, 'retried');
    return engine.record(fact.kind, fact.body);
  },

  /** Put a refused or contested entry out of sight. */
  async drop(id) {
    await outbox.settle(id, 'dropped');
    await refreshed(true);
  },

  /** Undo the last entry of this phone by a later one. Resolves to the entry that is undone, or null. */
  async voidLast() {
    const rows = (await outbox.entries()).map(({ fact }) => fact);
    const undone = new Set(rows.filter((fact) => fact.kind === 'void').map((fact) => fact.body.of));
    const last = rows.find((fact) => fact.kind !== 'void' && !undone.has(fact.id) && ['waiting', 'taken', 'contested'].includes(fact.state));
    if (!last) return null;
    await engine.record('void', { of: last.id, reason: '' });
    return last;
  },

  /** Talk to the desk now. Rejects with {code, message}. */
  sync: () => syncing.sync(),

  /** All waiting entries as a file that the desk can load. */
  async file() {
    const phone = await phones.read();
    const facts = (await outbox.waiting()).map(({ id, n, kind, when, body }) => ({ id, n, kind, when, body }));
    const text = JSON.stringify({ exergue: 'entries', book: phone.book, device: phone.device.id, saved: Date.now(), facts });
    return new Blob([text], { type: 'application/json' });
  },

  /** A photo that this phone still holds itself, as a Blob, or null. */
  photo: photos.local,

  /** A told notice is put away. */
  async seen(code) {
    await phones.change((phone) => { phone.notices = phone.notices.filter((one) => one.code !== code); });
    await refreshed();
  },

  room,

  async persist() {
    state.persisted = await persisted(true);
    tell();
    return state.persisted;
  },

  /** Go over to the newer app that waits. */
  update: shell.update,

  /** Unpair and remove everything. Entries that wait are lost: ask first. */
  async leave() {
    await call('POST', '/api/leave').catch((error) => { if (error.code === 'offline') throw error; });
    await wipe();
  },
};

/** The cookie outlives the storage: a phone that the desk knows but that holds nothing was cleared. */
async function recognise() {
  const hello = await call('GET', '/api/hello').catch(() => null);
  if (!hello?.device) return;
  const phone = phones.fresh(hello);
  if (phone.wiped) phones.notice(phone, 'wiped', 'This phone’s storage was cleared by the browser. Entries that were not sent yet are lost; the rest is fetched again.');
  await phones.keep(phone);
  await refresh();
}

async function settled() {
  await refreshed(true);
  await outbox.forgetOld();
  if ((await packs.overlaySize()) >= FOLD_FROM) idle(fold);
}

async function fold() {
  if (!(await packs.foldSome())) idle(fold);
}

const idle = (work) => (globalThis.requestIdleCallback ?? ((run) => setTimeout(run, 200)))(work);

async function wipe(notice) {
  await erase();
  if (globalThis.caches) await caches.delete(photos.CACHE);
  stock.reset();
  Object.assign(state, { progress: null, online: null, trouble: null });
  await refreshed(true);
  if (notice) {
    state.notice = [{ ...notice, when: Date.now() }];
    tell();
  }
}
