// Photos taken on this phone: sent after the entries that name them, kept for the season in case the desk loses them.
import { get, withDb, write } from './db.js';
import { ask } from './net.js';
import { uuid7 } from './uuid7.js';

export const CACHE = 'exergue-photos'; // small ones from the desk; outlives updates of the app, the worker bounds it
const KEPT = 400; // sent photos
const HOPELESS = ['not_a_photo', 'too_large', 'photo_used', 'bad_photo'];

/** A photo as it is kept, from a Blob. As bytes: some browsers lose a Blob kept in IndexedDB. */
export async function prepared(blob) {
  const bytes = await blob.arrayBuffer();
  const digest = [...new Uint8Array(await crypto.subtle.digest('SHA-256', bytes))].map((b) => b.toString(16).padStart(2, '0')).join('');
  return { photo: uuid7(), digest, bytes, type: blob.type || 'image/jpeg', state: 'waiting' };
}

/** A photo that waits on this phone, as a Blob; null if the desk has it. */
export async function local(photo) {
  const held = await get('photos', photo);
  return held && held.state !== 'sent' ? new Blob([held.bytes], { type: held.type }) : null;
}

/** Send waiting photos whose entries the desk has taken. Rejects with the first trouble, after trying them all. */
export async function send() {
  let trouble = null;
  for (const photo of await withDb((db) => db.getAllKeysFromIndex('photos', 'state', 'waiting'))) {
    const held = await get('photos', photo); // one at a time: they are large
    const { state } = (held && await get('facts', held.fact)) ?? {};
    if (state !== 'taken' && state !== 'contested') continue; // its entry waits, or was refused: a person decides
    try {
      await ask('PUT', `/api/photo/${held.photo}`, held.bytes, { 'Content-Type': 'application/octet-stream', 'X-Digest': held.digest }, 120_000);
      await mark(held, 'sent');
    } catch (error) {
      if (HOPELESS.includes(error.code)) await mark(held, 'refused');
      trouble ??= error;
      if (error.code === 'offline') break;
    }
  }
  if (trouble) throw trouble;
}

const mark = (held, state) => write(['photos'], (tx) => tx.store.put({ ...held, state }));

/** After a restore of the desk: all photos of this phone are offered again. */
export async function wanted(tx) {
  const store = tx.objectStore('photos');
  for (const held of await store.index('state').getAll('sent')) await store.put({ ...held, state: 'waiting' });
}

/** Keep the newest `most` of the sent photos. Resolves to how many were given up. */
export async function trim(most = KEPT) {
  const sent = await withDb((db) => db.getAllKeysFromIndex('photos', 'state', 'sent')); // in the order of their time: UUIDv7
  const old = sent.slice(0, Math.max(0, sent.length - most));
  if (old.length) await write(['photos'], (tx) => Promise.all(old.map((photo) => tx.store.delete(photo))));
  return old.length;
}

/** The phone is full: give up what the desk has as well. True if there was anything. */
export async function makeRoom() {
  const gone = await trim(0);
  const cache = globalThis.caches && await caches.open(CACHE);
  const cached = cache ? (await cache.keys()).length : 0;
  if (cached) await caches.delete(CACHE);
  return gone + cached > 0;
}
