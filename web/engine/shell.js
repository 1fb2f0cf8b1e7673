// The service worker: the app's own files kept on the phone, and updates that wait for consent.
let registration = null;

/** Register the worker; `told()` is called when its state changes. */
export async function start(told) {
  if (!navigator.serviceWorker) return;
  try {
    registration = await navigator.serviceWorker.register('/sw.js', { updateViaCache: 'none' });
  } catch {
    return; // not a secure address: the app works, but not offline
  }
  const watch = (worker) => worker?.addEventListener('statechange', told);
  watch(registration.installing);
  registration.addEventListener('updatefound', () => {
    watch(registration.installing);
    told();
  });
  navigator.serviceWorker.addEventListener('controllerchange', told);
  navigator.serviceWorker.ready.then(told);
}

/** Everything that the app is made of is on this phone. */
export const ready = () => Boolean(registration?.active);

/** A newer app is here and waits. */
export const waits = () => Boolean(registration?.waiting && navigator.serviceWorker.controller);

/** Look for a newer app, quietly. */
export const look = () => registration?.update().catch(() => {});

/** Go over to the newer app: the page loads anew once the new worker is in charge. */
export function update() {
  if (!registration?.waiting) return;
  navigator.serviceWorker.addEventListener('controllerchange', () => location.reload(), { once: true });
  registration.waiting.postMessage('take-over');
}
