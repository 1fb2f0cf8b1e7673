// Cards in packs named by kind and the first characters of the ID, newer ones in a small overlay on top. The desk says
// how many characters: one in a small book, two in a large one, so that a pack is quick to read and packs are few.
import { all, bare, withDb, write } from './db.js';
import { add } from './crc32.js';
import { lineOf, seqIn } from './lines.js';

const packOf = (kind, id, prefix) => `${kind}/${id.slice(0, prefix)}`;
const ofKind = (kind) => IDBKeyRange.bound(`${kind}/`, `${kind}/\uffff`);
const newerOf = (kind) => IDBKeyRange.bound([kind], [kind, []]);
const rowsOf = (text) => (text ? JSON.parse(text) : []);

/** The card as the desk last sent it, or null. Reads one pack at most. */
export async function card(kind, id) {
  const [newer, pack] = await withDb(async (db) => {
    const tx = db.transaction(['meta', 'overlay', 'packs']);
    const [phone, found] = await Promise.all([tx.objectStore('meta').get('phone'), tx.objectStore('overlay').get([kind, id])]);
    if (found || !phone) return [found, null];
    const named = (prefix) => tx.objectStore('packs').get(packOf(kind, id, prefix));
    return [null, (await named(phone.prefix)) ?? (await named(3 - phone.prefix))]; // copied anew, it may have its new name already
  });
  return newer ? newer.card : (rowsOf(pack).find((row) => row[1] === id)?.[2] ?? null);
}

/** coin → its card as the desk last sent it, of those named that are here. Each pack is read once. */
export async function coinsOf(ids) {
  const wanted = new Set(ids);
  const found = new Map();
  const [texts, newer] = await withDb(async (db) => {
    const tx = db.transaction(['meta', 'overlay', 'packs']);
    const { prefix } = (await tx.objectStore('meta').get('phone')) ?? {};
    const names = new Set(prefix ? [...wanted].flatMap((id) => [packOf('coin', id, prefix), packOf('coin', id, 3 - prefix)]) : []);
    return Promise.all([Promise.all([...names].map((name) => tx.objectStore('packs').get(name))), tx.objectStore('overlay').getAll(newerOf('coin'))]);
  });
  for (const text of texts) for (const [, id, one] of rowsOf(text)) if (wanted.has(id)) found.set(id, one);
  for (const { id, card: one } of newer) if (wanted.has(id)) one ? found.set(id, one) : found.delete(id);
  return found;
}

/** All cards of a small kind (want, show, blank, book). */
export async function cards(kind) {
  const [packs, newer] = await withDb((db) => {
    const tx = db.transaction(['overlay', 'packs']);
    return Promise.all([tx.objectStore('packs').getAll(ofKind(kind)), tx.objectStore('overlay').getAll(newerOf(kind))]);
  });
  const found = new Map(packs.flatMap(rowsOf).map(([, id, one]) => [id, one]));
  for (const { id, card: one } of newer) one ? found.set(id, one) : found.delete(id);
  return [...found.values()];
}

/** coin → its card as the desk last sent it, of all that hold `text`. Only packs with that text are parsed. */
export async function cardsHolding(text) {
  const found = new Map();
  await withDb(async (db) => {
    let cursor = await db.transaction('packs').store.openCursor(ofKind('coin'));
    while (cursor) {
      if (cursor.value.includes(text)) for (const [, id, one] of rowsOf(cursor.value)) if (JSON.stringify(one).includes(text)) found.set(id, one);
      cursor = await cursor.continue();
    }
  });
  for (const { id, card: one } of await overlayCoins()) one && JSON.stringify(one).includes(text) ? found.set(id, one) : found.delete(id);
  return found;
}

export const coinsHolding = async (text) => [...(await cardsHolding(text)).keys()];

/** A line of the first sync made ready to be kept: {pack, text, index, count, last}. Its cards are added to `digest`. */
export function packed(line, digest) {
  const { pack, cards: rows } = JSON.parse(line);
  const kind = pack.slice(0, pack.indexOf('/'));
  for (const [seq, id] of rows) add(digest, kind, id, seq);
  const text = line.slice(line.indexOf('"cards":') + 8, line.lastIndexOf('}'));
  const index = kind === 'coin' ? rows.map(([seq, , one]) => lineOf(one, seq)).join('\n') : null;
  return { pack, text, index, count: rows.length, last: `${kind}/${rows.at(-1)[1]}` };
}

/** Put packs in place of all that is held between the pack named `before` and the last of them. */
export function putPacks(tx, before, packs) {
  const [texts, index] = [bare(tx, 'packs'), bare(tx, 'index')];
  const gone = IDBKeyRange.bound(before, packs.at(-1).pack, true);
  texts.delete(gone);
  index.delete(gone);
  for (const one of packs) {
    texts.put(one.text, one.pack);
    if (one.index !== null) index.put(one.index, one.pack);
  }
}

/** Forget packs that come after the one named `last`: the desk no longer has them. */
export function dropAfter(tx, last) {
  for (const store of ['packs', 'index']) bare(tx, store).delete(IDBKeyRange.lowerBound(last, true));
}

/** Changed cards [[seq, kind, id, card|null]] into the overlay; the phone's digest follows. Needs overlay, packs, index. */
export async function change(tx, rows, { digest, prefix }) {
  const overlay = bare(tx, 'overlay');
  const held = await seqsHeld(tx, rows, prefix);
  rows.forEach(([seq, kind, id, one], at) => {
    if (held[at] !== null && held[at] >= seq) return; // already here, or newer
    if (held[at] !== null) add(digest, kind, id, held[at], -1);
    if (one) add(digest, kind, id, seq);
    overlay.put({ kind, id, seq, card: one });
  });
}

/** The versions of cards that are held now, or null. A coin's stands in its search line: no pack is parsed. */
function seqsHeld(tx, rows, prefix) {
  const packs = new Map(); // each is read once
  const packFor = (kind, id) => {
    const name = packOf(kind, id, prefix);
    if (!packs.has(name)) packs.set(name, tx.objectStore(kind === 'coin' ? 'index' : 'packs').get(name));
    return packs.get(name);
  };
  return Promise.all(rows.map(async ([, kind, id]) => {
    const [newer, pack] = await Promise.all([tx.objectStore('overlay').get([kind, id]), packFor(kind, id)]);
    if (newer) return newer.card ? newer.seq : null;
    if (!pack) return null;
    return kind === 'coin' ? seqIn(pack, id) : (rowsOf(pack).find((row) => row[1] === id)?.[0] ?? null);
  }));
}

/** Fold the overlay into the packs, `most` packs at a time. Resolves to true when nothing is left. */
export function foldSome(most = 4) {
  return write(['meta', 'overlay', 'packs', 'index'], async (tx) => {
    const groups = new Map();
    const [phone, left] = await Promise.all([tx.objectStore('meta').get('phone'), tx.objectStore('overlay').getAll()]);
    for (const row of phone ? left : []) {
      const name = packOf(row.kind, row.id, phone.prefix);
      if (!groups.has(name) && groups.size === most) break;
      groups.set(name, [...(groups.get(name) ?? []), row]);
    }
    let done = 0;
    for (const [name, newer] of groups) {
      await foldPack(tx, name, newer);
      done += newer.length;
    }
    return !phone || done === left.length;
  }, { relaxed: true });
}

async function foldPack(tx, name, newer) {
  const [packs, index, overlay] = ['packs', 'index', 'overlay'].map((store) => bare(tx, store));
  const held = new Map(rowsOf(await tx.objectStore('packs').get(name)).map((row) => [row[1], row]));
  for (const { kind, id, seq, card: one } of newer) {
    one ? held.set(id, [seq, id, one]) : held.delete(id);
    overlay.delete([kind, id]);
  }
  const rows = [...held.values()].sort((a, b) => (a[1] < b[1] ? -1 : 1));
  if (!rows.length) {
    packs.delete(name);
    index.delete(name);
    return;
  }
  packs.put(JSON.stringify(rows), name);
  if (name.startsWith('coin/')) index.put(rows.map(([seq, , one]) => lineOf(one, seq)).join('\n'), name);
}

export const overlaySize = () => withDb((db) => db.count('overlay'));
/** Search lines of some packs, from the one after `after` on: [[name, lines]]. */
export const indexFrom = (after, most) => withDb(async (db) => {
  const range = IDBKeyRange.lowerBound(after, true);
  const store = db.transaction('index').store;
  const [names, texts] = await Promise.all([store.getAllKeys(range, most), store.getAll(range, most)]);
  return names.map((name, i) => [name, texts[i]]);
});
/** The ID of some coin that is held, or null. */
export const anyCoin = () => withDb(async (db) => {
  const cursor = await db.transaction('packs').store.openCursor(ofKind('coin'));
  return rowsOf(cursor?.value)[0]?.[1] ?? null;
});
export const newest = (id) => withDb((db) => db.get('overlay', ['coin', id]));
export const overlayCoins = () => all('overlay', null, newerOf('coin'));
