// The app open in several tabs: what one does, the others are told.
const channel = 'BroadcastChannel' in globalThis ? new BroadcastChannel('exergue') : null;

/** {rows: [[seq, kind, id]…]} changed cards, {all: true} many of them, {} entries or the phone itself. */
export const tell = (what = {}) => channel?.postMessage(what);

export const listen = (heard) => channel?.addEventListener('message', (event) => heard(event.data));
