// The one-time code of an address such as https://host/#pair=CODE. It is taken out of the address bar at once.
let held = null;
let asked = false; // a person wants to pair a phone that is paired already

export function pairingCode() {
  const found = location.hash.match(/^#pair=([\w-]{4,40})$/);
  if (found) {
    held = found[1];
    history.replaceState(history.state, '', location.pathname);
  }
  return held;
}

export const pairingWanted = () => asked || pairingCode() !== null;

export function askPairing() {
  asked = true;
}

export function forgetCode() {
  held = null;
  asked = false;
}

// A scanned or typed text: the code in it, or null. A coin's label is none.
export function codeIn(text) {
  const address = text.match(/#pair=([\w-]{4,40})\s*$/i);
  if (address) return address[1];
  const plain = text.replace(/[\s-]/g, '').toUpperCase();
  return /^[0-9A-Z]{8}$/.test(plain) ? plain : null;
}
