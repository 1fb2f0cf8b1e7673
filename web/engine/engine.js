// What the screens see: one object over store, outbox, sync and search.
import { told as store } from './db.js';
import { file } from './file.js';
import { newId, parseId } from './ids.js';
import { idle } from './idle.js';
import * as mine from './mine.js';
import * as outbox from './outbox.js';
import * as packs from './packs.js';
import { coinsOf, paint } from './paint.js';
import { persisted, room } from './persist.js';
import * as phones from './phone.js';
import * as photos from './photos.js';
import * as reference from './reference.js';
import * as shell from './shell.js';
import { onchange, ofPhone, set, state } from './state.js';
import * as stock from './stock.js';
import * as tabs from './tabs.js';
import { check } from './valid.js'; // never later: an entry is taken without another file

const FOLD_FROM = 64; // changed cards in the overlay before it is folded
const HOUR_MS = 3_600_000;
const MANY = 500; // changed cards: other tabs read the search anew
const SCAN_FIRST_MS = 4000;
const GLANCE_MS = 1500; // how long an unpaired phone waits at its start for a desk that may know it
let tidied = 0;

// What a scanner that opens first does not need is loaded after it: on a slow phone every module counts.
const joining = () => import('./joining.js');
const sync = () => import('./sync.js').then((module) => {
  Object.assign(module.listeners, heard);
  return module;
});
const soon = () => sync().then((module) => module.soon(), console.error);

/** Read again what this or another tab, or a sync, may have changed; `entries` brings the coins whose entries differ. */
async function refresh(change = {}, entries = mine.load()) {
  const [phone, counts, coins] = await Promise.all([phones.read(), outbox.counts(), entries]);
  Object.assign(state, counts, ofPhone(phone), change);
  if (coins.length) await stock.repaint(await painted(coins));
  set({});
}

async function card(kind, id) {
  return paint(await packs.card(kind, id), mine.about(kind, id), kind, id, brush());
}

const brush = () => ({ target: mine.target, owner: state.role === 'owner' });

/** [[id, card|null, waits]] of coins, as the search shows them. */
const painted = (ids) => Promise.all(ids.map(async (id) => [id, await card('coin', id), mine.about('coin', id).length > 0]));
const finder = () => stock.load(reference.rank, () => painted(mine.coins()));

export const engine = {
  state,
  onchange,
  newId,
  parseId,
  card,
  room,

  /** What phone and desk must both know: grades, denominations, types, kinds. Null before the first sync. */
  get reference() {
    return reference.reference();
  },

  /** Open the store and start the triggers. A paired phone does not wait for the network. */
  async start() {
    store.blocked = () => set({ notice: [{ code: 'tabs', text: 'Close the other tabs of this app, so that it can be brought up to date.' }] });
    tabs.listen(otherTab);
    await Promise.all([reference.load(), refresh()]);
    shell.start(() => set({ shellReady: shell.ready(), update: shell.waits() }));
    persisted().then((kept) => set({ persisted: kept }));
    if (!state.paired) await Promise.race([heard.stranger().catch(() => {}), new Promise((done) => { setTimeout(done, GLANCE_MS); })]);
    const talk = () => Promise.all([sync(), joining()]).then(([module]) => module.watch());
    if (state.cursor) idle(talk);
    else await talk();
    // The search asks for its lines by itself; a scanner that opens first has the phone to itself.
    setTimeout(() => { if (state.cursor) idle(finder); }, SCAN_FIRST_MS);
  },

  /** Pair with a one-time code. Rejects with {code, message}. */
  async pair(code, name) {
    await (await joining()).pair(code, name);
    stock.reset();
    await refresh({ unknown: false, trouble: null, online: true });
    (await sync()).watch();
    tabs.tell({ all: true });
    persisted(true).then((kept) => set({ persisted: kept }));
  },

  /** coin → its card, of those named that are here; each pack is read once. */
  async coins(ids) {
    const held = await packs.coinsOf(ids);
    return new Map(ids.map((id) => [id, paint(held.get(id) ?? null, mine.about('coin', id), 'coin', id, brush())]).filter(([, one]) => one));
  },

  /** All cards of a small kind: want, show, blank, book; with this phone's waiting entries. */
  async list(kind) {
    const found = await packs.cards(kind);
    const known = new Set(found.map((one) => one.id));
    const added = mine.ofKind(`${kind}.add`).map((fact) => fact.body[kind]).filter((id) => !known.has(id));
    return [...found, ...added.map((id) => ({ id, added: true }))]
      .map(({ added: isNew, ...one }) => paint(isNew ? null : one, mine.about(kind, one.id), kind, one.id, brush())).filter(Boolean);
  },

  /** Store one entry. Resolves when it is safe on this phone; rejects with {code: 'full' | 'bad', message}. */
  async record(kind, body, { photo } = {}) {
    try {
      const fact = await outbox.record(kind, body, photo, (...said) => reference.reference() && check(reference.reference(), ...said));
      await refresh({ full: false }, mine.add(fact));
      tabs.tell();
      soon();
      return fact;
    } catch (error) {
      if (error.code === 'full') set({ full: true });
      throw error;
    }
  },

  /** Search the coins: {rows: [{id, title, dateText, grade, place, state, ask, waiting…}], total}. */
  async search(text = '', filters = {}) {
    const { rows, total } = (await finder()).find(text, filters);
    return { rows: rows.map((row) => ({ ...row, waiting: stock.isPainted(row.id) })), total };
  },

  /** The rows of all coins of a type, or of several, whatever became of them. */
  ofType: (type) => engine.ofTypes(new Set([type])),

  async ofTypes(types) {
    return (await finder()).ofTypes(types).map((row) => ({ ...row, waiting: stock.isPainted(row.id) }));
  },

  anyCoin: packs.anyCoin,

  /** The coins that the entry `of` sold or moved, as far as this phone holds its cards or made the entry. */
  async soldBy(of) {
    const [held, entry] = await Promise.all([packs.coinsHolding(of), outbox.fact(of)]);
    const ids = new Set([...(entry ? coinsOf(entry, new Map()) : []), ...held]);
    return (await Promise.all([...ids].map((id) => card('coin', id)))).filter(Boolean);
  },

  /** The places where coins are, in order. */
  async places() {
    return (await finder()).places();
  },

  /** Entries of this phone, newest first: {fact, verdict|null, state}. */
  entries: outbox.entries,

  /** Offer a refused or contested entry anew, as another entry. */
  async retry(id) {
    const made = await outbox.again(id);
    await refresh();
    tabs.tell();
    soon();
    return made;
  },

  /** Put a refused entry away for good; of a contested one, that it was seen. */
  async drop(id) {
    const { state: now } = await outbox.fact(id);
    await outbox.settle(id, now === 'contested' ? 'taken' : 'dropped');
    await refresh();
    tabs.tell();
  },

  /** A refused entry was put right by the entry `made`: it is put away, and says what stands in its place. */
  async replace(id, made) {
    await outbox.replace(id, made);
    await refresh();
    tabs.tell();
  },

  /** Undo the last entry of this phone by a later one. Resolves to the entry that is undone, or null. */
  async voidLast() {
    const last = await outbox.last();
    if (last) await engine.record('void', { of: last.id });
    return last;
  },

  /** Talk to the desk now. Rejects with {code, message}. */
  sync: () => sync().then((module) => module.sync()),

  file,

  /** A photo that waits on this phone, as a Blob, or null. */
  photo: photos.local,

  /** A told notice is put away. */
  async seen(code) {
    if (state.paired) await phones.change((phone) => { phone.notices = phone.notices.filter((one) => one.code !== code); });
    set({ notice: state.notice.filter((one) => one.code !== code) });
  },

  async persist() {
    set({ persisted: await persisted(true) });
    return state.persisted;
  },

  /** Go over to the newer app that waits. */
  update: shell.update,

  /** Unpair and remove everything. Entries that wait are lost: ask first. */
  async leave() {
    await (await joining()).leave();
    await gone();
  },
};

/** What sync tells. */
/** The desk's estimates, where it has others than this phone. A screen that shows them reads them again. */
async function estimates() {
  const { renew } = await import('./worth.js');
  if (await renew()) await refresh();
}

const heard = {
  state: set,
  stranger: () => joining().then((module) => module.recognise()).then(() => refresh()),
  progress: (progress) => set({ progress, online: true }),
  taken: (ids) => mine.linger(ids),
  async filled() {
    stock.reset();
    tabs.tell({ all: true });
    await refresh({ progress: null });
  },
  rows(rows) {
    stock.changed(rows);
    tabs.tell(rows.length > MANY ? { all: true } : { rows: rows.map((row) => row.slice(0, 3)) });
  },
  async done(change) {
    mine.arrived();
    await refresh({ ...change, syncing: false, progress: null });
    tabs.tell();
    idle(() => tidy().catch(() => {}));
    if (change.online && !change.trouble && state.role === 'owner') idle(() => estimates().catch(() => {})); // old ones tell their age
  },
  async revoked() {
    const lost = state.waiting ? ` ${state.waiting} that had not been sent ${state.waiting === 1 ? 'is' : 'are'} lost.` : '';
    await (await joining()).wipe();
    await gone([{ code: 'revoked', text: `The desk has unpaired this phone. Its copy of the book was removed.${lost}`, when: Date.now() }]);
  },
};

async function gone(notice = []) {
  await refresh({ notice, syncing: false, trouble: null, full: false });
  tabs.tell({ all: true });
}

async function otherTab({ all, rows = [] }) {
  if (all) {
    stock.reset();
    await reference.load();
  }
  const coins = rows.filter(([, kind]) => kind === 'coin');
  const cards = await Promise.all(coins.map(([, kind, id]) => packs.card(kind, id)));
  stock.changed(coins.map(([seq, kind, id], i) => [seq, kind, id, cards[i]]));
  await refresh();
}

/** When nothing else is to be done: fold the overlay; once an hour forget what is old and fetch what will be wanted. */
async function tidy() {
  if (!state.cursor) return;
  if ((await packs.overlaySize()) >= FOLD_FROM) idle(fold);
  if (Date.now() - tidied < HOUR_MS) return;
  if (tidied) shell.look(); // the start of the app has looked itself
  tidied = Date.now();
  await outbox.forgetOld();
  await photos.trim();
  if (!state.online) return;
  const { fetchAhead } = await import('./thumbs.js');
  await fetchAhead((await finder()).photos());
}

async function fold() {
  if (!(await packs.foldSome())) idle(fold);
}
