// The service worker: the app's own files kept on the phone, and updates that wait for consent.
import { idle } from './idle.js';

const CALM_MS = 300;
const ASK_AGAIN_MS = 4000;
const MORE = 3;
let registration = null;

/** Register the worker; `told()` is called when its state changes. */
export async function start(told) {
  const container = navigator.serviceWorker;
  if (!container) return;
  let had = Boolean(container.controller);
  // A newer app took over, here or in another tab: this page's own files are gone, so it begins anew.
  container.addEventListener('controllerchange', () => (had ? location.reload() : told((had = true))));
  try {
    registration = await container.register('/sw.js', { updateViaCache: 'none' });
  } catch {
    return; // not a secure address, or the desk is out of reach on the very first visit: the app works, but not offline
  }
  const watch = (worker) => worker?.addEventListener('statechange', told);
  watch(registration.installing);
  registration.addEventListener('updatefound', () => {
    watch(registration.installing);
    told();
  });
  container.ready.then(told);
  told();
}

/** Everything that the app is made of is on this phone. */
export const ready = () => Boolean(registration?.active);

/** A newer app is here and waits. */
export const waits = () => Boolean(registration?.waiting && navigator.serviceWorker.controller);

/** Look for a newer app: an installed one may stay open for days. */
export const look = () => registration?.update().catch(() => {});

/** Go over to the newer app: every page of it loads anew once the new worker is in charge. */
export async function update() {
  // While the old worker still answers for this page's own files, a change of workers can stall both.
  if (document.readyState !== 'complete') await new Promise((done) => { addEventListener('load', done, { once: true }); });
  await new Promise((done) => { idle(() => setTimeout(done, CALM_MS)); });
  const ask = () => registration?.waiting?.postMessage('take-over');
  ask();
  // A browser that was busy with both workers may let the wish fall: it is said again until this page begins anew.
  for (let again = 1; again <= MORE; again++) setTimeout(ask, again * ASK_AGAIN_MS);
}
