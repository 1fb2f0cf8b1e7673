// Cards in packs named by kind and the first two characters of the ID, newer ones in a small overlay on top.
import { all, withDb, write } from './db.js';
import { add } from './crc32.js';
import { lineOf, seqIn } from './lines.js';

const PREFIX = 2;
const FOLD_PACKS = 40; // packs written anew in one transaction

export const packOf = (kind, id) => `${kind}/${id.slice(0, PREFIX)}`;
const range = (kind) => IDBKeyRange.bound(`${kind}/`, `${kind}/\uffff`);

/** The card as the desk last sent it, or null. Reads one pack at most. */
export async function card(kind, id) {
  return withDb(async (db) => {
    const newer = await db.get('overlay', [kind, id]);
    if (newer) return newer.card;
    const pack = await db.get('packs', packOf(kind, id));
    return pack ? (JSON.parse(pack)[id]?.[1] ?? null) : null;
  });
}

/** All cards of a small kind (want, show, blank, book). */
export async function cards(kind) {
  const [packs, newer] = await Promise.all([all('packs', null, range(kind)), all('overlay', null, IDBKeyRange.bound([kind], [kind, []]))]);
  const found = new Map();
  for (const pack of packs) for (const [id, [, one]] of Object.entries(JSON.parse(pack))) found.set(id, one);
  for (const { id, card: one } of newer) one ? found.set(id, one) : found.delete(id);
  return [...found.values()];
}

/** One line of the first sync: a whole pack, with its search lines. Adds its cards to `digest`. */
export function putPack(tx, { pack, cards: rows }, digest) {
  const kind = pack.slice(0, pack.indexOf('/'));
  const held = {};
  for (const [seq, id, one] of rows) {
    held[id] = [seq, one];
    add(digest, kind, id, seq);
  }
  tx.objectStore('packs').put(JSON.stringify(held), pack);
  if (kind === 'coin') tx.objectStore('index').put(rows.map(([seq, , one]) => lineOf(one, seq)).join('\n'), pack);
}

/** Forget packs whose names lie between two others (both excluded): the desk no longer has them. */
export function dropBetween(tx, before, after) {
  const gap = after === null ? IDBKeyRange.lowerBound(before, true) : IDBKeyRange.bound(before, after, true, true);
  if (after !== null && before >= after) return;
  tx.objectStore('packs').delete(gap);
  tx.objectStore('index').delete(gap);
}

/** Changed cards [[seq, kind, id, card|null]] into the overlay; `digest` follows. Needs overlay, packs, index. */
export async function change(tx, rows, digest) {
  const overlay = tx.objectStore('overlay');
  const held = await Promise.all(rows.map(([, kind, id]) => seqHeld(tx, kind, id)));
  rows.forEach(([seq, kind, id, one], at) => {
    if (held[at] !== null && held[at] >= seq) return; // already here, or newer
    if (held[at] !== null) add(digest, kind, id, held[at], -1);
    if (one) add(digest, kind, id, seq);
    overlay.put({ kind, id, seq, card: one });
  });
}

/** The version of a card that is held now, or null. A coin's stands in its search line: no pack is parsed. */
async function seqHeld(tx, kind, id) {
  const newer = await tx.objectStore('overlay').get([kind, id]);
  if (newer) return newer.card ? newer.seq : null;
  const pack = await tx.objectStore(kind === 'coin' ? 'index' : 'packs').get(packOf(kind, id));
  if (!pack) return null;
  return kind === 'coin' ? seqIn(pack, id) : (JSON.parse(pack)[id]?.[0] ?? null);
}

/** Fold the overlay into the packs, some packs at a time. Resolves to true when nothing is left. */
export async function foldSome() {
  const rows = await all('overlay');
  const groups = Map.groupBy ? Map.groupBy(rows, (row) => packOf(row.kind, row.id)) : group(rows);
  const some = [...groups].slice(0, FOLD_PACKS);
  if (some.length) {
    await write(['overlay', 'packs', 'index'], async (tx) => {
      for (const [name, changed] of some) await foldPack(tx, name, changed);
    });
  }
  return some.length === groups.size;
}

function group(rows) {
  const groups = new Map();
  for (const row of rows) {
    const name = packOf(row.kind, row.id);
    groups.set(name, [...(groups.get(name) ?? []), row]);
  }
  return groups;
}

async function foldPack(tx, name, changed) {
  const [packs, index, overlay] = ['packs', 'index', 'overlay'].map((store) => tx.objectStore(store));
  const held = JSON.parse((await packs.get(name)) ?? '{}');
  for (const { kind, id, seq } of changed) {
    const now = await overlay.get([kind, id]);
    if (now?.seq !== seq) continue; // changed again meanwhile
    if (now.card) held[id] = [seq, now.card];
    else delete held[id];
    await overlay.delete([kind, id]);
  }
  const ids = Object.keys(held).sort();
  if (!ids.length) {
    await Promise.all([packs.delete(name), index.delete(name)]);
    return;
  }
  await packs.put(JSON.stringify(Object.fromEntries(ids.map((id) => [id, held[id]]))), name);
  if (name.startsWith('coin/')) await index.put(ids.map((id) => lineOf(held[id][1], held[id][0])).join('\n'), name);
}

export const overlaySize = () => withDb((db) => db.count('overlay'));
export const indexPacks = () => all('index');
export const newest = (id) => withDb((db) => db.get('overlay', ['coin', id]));
export const overlayCoins = () => all('overlay', null, IDBKeyRange.bound(['coin'], ['coin', []]));
