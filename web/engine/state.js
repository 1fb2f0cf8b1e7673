// What screens may read of the engine, and who is told when it changes.
export const state = {
  paired: false, unknown: false, book: null, bookName: '', currency: 'USD', role: null, device: null, cursor: 0,
  waiting: 0, refused: 0, contested: 0, online: navigator.onLine, syncing: false, lastSync: null, progress: null,
  persisted: false, shellReady: false, update: false, full: false, notice: [], skewMs: 0, trouble: null,
};

const listeners = new Set();

/** Be told of every change; returns a function that ends it. */
export function onchange(listener) {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

export function set(change) {
  Object.assign(state, change);
  for (const listener of listeners) listener(state);
}

/** The part of the state that stands in the phone's record (null: not paired). `cursor` is 0 until the first copy is whole. */
export function ofPhone(phone) {
  if (!phone) return { paired: false, unknown: false, book: null, bookName: '', device: null, role: null, cursor: 0, lastSync: null, progress: null, skewMs: 0 };
  const { book, bookName, currency, device, lastSync, skewMs, notices } = phone;
  return { paired: true, book, bookName, currency, device, role: device.role, cursor: phone.ready ? Math.max(1, phone.cursor) : 0, lastSync, skewMs, notice: notices };
}
