// The one-time code of an address such as https://host/#pair=CODE. It is taken out of the address bar at once.
let held = null;

export function pairingCode() {
  const found = location.hash.match(/^#pair=([\w-]{4,40})$/);
  if (found) {
    held = found[1];
    history.replaceState(history.state, '', location.pathname);
  }
  return held;
}

export function forgetCode() {
  held = null;
}

// A scanned or typed text: the code in it, or null. A coin's label is none.
export function codeIn(text) {
  const address = text.match(/#pair=([\w-]{4,40})\s*$/i);
  if (address) return address[1];
  const plain = text.replace(/[\s-]/g, '').toUpperCase();
  return /^[0-9A-Z]{8}$/.test(plain) ? plain : null;
}
