// The want list in three orders: how badly, how near somebody has one, or by denomination.
import { nearest, nearness } from './seen.js';
import { inYears, serves } from './wanted.js';

export const ORDERS = [['priority', 'Priority'], ['near', 'Seen near'], ['denom', 'Denomination']];
const PRESSING = { high: 0, usual: 1, low: 2 };

/** The sightings, the newest first, that were noted for a want, or for none and are of what it accepts. */
export const seenFor = (want, sightings) => sightings.filter((one) => (one.own?.want ? one.own.want === want.id
  : serves(want, one.type) && (one.year == null || !want.years || inYears(want.years, one.year))));

/**
 * `wants`, each with its `sightings`, in order `by`; each is given `seen`, the nearest of them or null. `at` {show, table} is
 * where one stands, `rank(denom)` a number that orders denominations.
 */
export function ordered(wants, by, at, rank) {
  const rows = wants.map((want) => ({ ...want, seen: nearest(want.sightings, at) }));
  const near = (want) => (want.seen ? nearness(want.seen, at) : 3);
  const how = {
    priority: (a, b) => pressing(a) - pressing(b) || rank(a.denom) - rank(b.denom),
    near: (a, b) => near(a) - near(b) || newer(a.seen, b.seen) || pressing(a) - pressing(b),
    denom: (a, b) => rank(a.denom) - rank(b.denom),
  }[by] ?? (() => 0);
  return rows.sort((a, b) => how(a, b) || (a.years ?? '').localeCompare(b.years ?? '') || a.title.localeCompare(b.title));
}

const pressing = (want) => PRESSING[want.priority] ?? 1;
const newer = (a, b) => (a && b ? b.date.localeCompare(a.date) || (a.id < b.id ? 1 : -1) : 0);
