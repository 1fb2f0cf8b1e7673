// Photos taken on this phone wait here until the desk has them; then they live in the photo cache.
import { all, get, write } from './db.js';
import { ask } from './net.js';

export const CACHE = 'exergue-photos'; // kept over updates of the app; the worker bounds it

/** A photo that this phone still holds itself, as a Blob; null if it must be fetched. */
export async function local(photo) {
  const held = await get('photos', photo);
  return held ? new Blob([held.bytes], { type: held.type }) : null;
}

/** Send waiting photos whose entries the desk has taken. Rejects on the first that cannot be sent. */
export async function send() {
  for (const held of await all('photos', 'state', 'waiting')) {
    const fact = await get('facts', held.fact);
    if (fact?.state === 'waiting') continue;
    if (fact && ['taken', 'contested'].includes(fact.state)) {
      try {
        await ask('PUT', `/api/photo/${held.photo}`, held.bytes, { 'Content-Type': 'application/octet-stream', 'X-Digest': held.digest }, 120_000);
      } catch (error) {
        if (['not_a_photo', 'too_large', 'photo_used'].includes(error.code)) await mark(held, 'refused');
        throw error;
      }
      await putBy(held);
      await write(['photos'], (tx) => tx.store.delete(held.photo));
    } else await mark(held, 'refused');
  }
}

const mark = (held, state) => write(['photos'], (tx) => tx.store.put({ ...held, state }));

async function putBy(held) {
  if (!globalThis.caches) return;
  const cache = await caches.open(CACHE);
  for (const size of ['thumb', 'full']) {
    await cache.put(`/api/photo/${held.photo}?size=${size}`, new Response(held.bytes, { headers: { 'Content-Type': held.type } })).catch(() => {});
  }
}
