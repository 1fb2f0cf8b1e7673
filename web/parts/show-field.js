// The show that purchases and sales are made at, chosen once under More and carried until it ends.
import { choice } from './field.js';
import { today } from './dates.js';

const KEY = 'exergue.show';

/** The one chosen on this phone, also when it is over, or null. */
export const chosenShow = (shows) => shows.find((one) => one.id === localStorage.getItem(KEY)) ?? null;

export function currentShow(shows, day = today()) {
  const found = chosenShow(shows);
  return found && (!found.ends || day <= found.ends) ? found : null;
}

export function chooseShow(id) {
  if (id) localStorage.setItem(KEY, id);
  else localStorage.removeItem(KEY);
}

// Shows for a picker: those that are on or near first.
export function byDate(shows) {
  return shows.toSorted((a, b) => (b.starts ?? '').localeCompare(a.starts ?? ''));
}

export function showField(form, shows) {
  if (!shows.length) return null;
  return choice(form, 'show', 'Show', [['', 'None'], ...byDate(shows).map((one) => [one.id, one.name])]);
}
