// A newer version of the app: fetched in the background, taken only with a person's consent.
let waiting = null;
let asked = false;

export const updateReady = () => Boolean(waiting);

// Tells `changed` when a newer worker stands ready.
export async function watchUpdates(changed) {
  const container = navigator.serviceWorker;
  if (!container) return;
  container.addEventListener('controllerchange', () => { if (asked) location.reload(); });
  const registration = await container.getRegistration();
  if (!registration) return;
  const found = (worker) => {
    if (worker && container.controller) { waiting = worker; changed(); }
  };
  found(registration.waiting);
  registration.addEventListener('updatefound', () => {
    const fresh = registration.installing;
    fresh?.addEventListener('statechange', () => { if (fresh.state === 'installed') found(fresh); });
  });
}

export function takeUpdate() {
  asked = true;
  waiting?.postMessage({ take: true });
}
