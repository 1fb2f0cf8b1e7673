// Asking the browser to keep this phone's data.

/** True where the browser promised to keep it. `ask`: ask for the promise. */
export async function persisted(ask = false) {
  const { storage } = navigator;
  if (!storage?.persisted) return false;
  if (await storage.persisted()) return true;
  return ask && storage.persist ? storage.persist() : false;
}

/** {usage, quota} in bytes, or null. */
export const room = () => navigator.storage?.estimate?.() ?? null;
