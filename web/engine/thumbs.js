// Small photos of the coins in stock, fetched ahead while the desk is in reach, so that they show on the floor.
import { CACHE } from './photos.js';

const MOST = 600;

/** Fetch the thumbs of these photos that this phone has not. Stops where the desk does not answer. */
export async function fetchAhead(photos) {
  if (!globalThis.caches || navigator.connection?.saveData) return;
  const cache = await caches.open(CACHE);
  const held = new Set((await cache.keys()).map((request) => new URL(request.url).pathname));
  const missing = photos.slice(0, MOST).filter((photo) => !held.has(`/api/photo/${photo}`));
  for (const photo of missing) {
    const response = await fetch(`/api/photo/${photo}?size=thumb`).catch(() => null); // the worker keeps it
    if (!response?.ok && response?.status !== 404) return;
  }
}
