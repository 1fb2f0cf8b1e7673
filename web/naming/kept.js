// What was answered of the coin in the hand outlives a look elsewhere, and goes when the app is closed.
const KEY = 'exergue.naming';
const NAMED = 'exergue.named';
const ASKED = 'exergue.asked-by';

export const fresh = () => ({ answers: {}, order: [], grade: '', prior: 'survivors', tools: { glass: true, scale: true, water: false } });

export function readKept() {
  try { return { ...fresh(), ...JSON.parse(sessionStorage.getItem(KEY)) }; } catch { return fresh(); }
}

export const keep = (state) => sessionStorage.setItem(KEY, JSON.stringify(state));

/** Naming was asked for by the purchase at `path`: the name goes back to it. */
export const askedBy = (path) => sessionStorage.setItem(ASKED, path);

/** Whether a sighting's form asked for the name. */
export const askedBySighting = () => Boolean(sessionStorage.getItem(ASKED)?.startsWith('/seen'));

/** Naming was asked for by nobody: a name makes a purchase of its own. */
export const askedByNone = () => sessionStorage.removeItem(ASKED);

/** Hand {denom, type, year, mint, grade} over to a purchase, which may fill a want; its address. */
export function handOver(values, want = '') {
  const path = sessionStorage.getItem(ASKED);
  askedByNone();
  sessionStorage.setItem(NAMED, JSON.stringify({ values: { ...values, want }, goOn: Boolean(path) }));
  return path ?? '/buy';
}

/** Hand values over to the form at `path`, begun anew; the path. */
export function handTo(path, values) {
  askedByNone();
  sessionStorage.setItem(NAMED, JSON.stringify({ values, goOn: false }));
  return path;
}

/** {values, goOn}: what was named, and whether the purchase was begun before. No values: nothing was. */
export function takeOver() {
  const told = sessionStorage.getItem(NAMED);
  sessionStorage.removeItem(NAMED);
  return told ? JSON.parse(told) : { values: null, goOn: true };
}
