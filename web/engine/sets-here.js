// Sets as they stand on this phone: what its own waiting entries did to coins is in them before the desk has answered.
import { engine } from './engine.js';
import * as mine from './mine.js';
import { GONE } from './standing.js';
import { fill } from '../plan/filling.js';
import { issueOf } from '../plan/judge.js';
import { makeRungs } from '../plan/rungs.js';

const NOT_HERE = [...GONE, 'missing']; // no longer ours, or not to be found
const MOST = 200; // spare and unclear coins that a card names, as the desk's do

/** A set's card as `engine.card` has it, filled anew where waiting entries concern it; `here` is true of such a one. */
export async function refilled(goal) {
  const changed = goal ? mine.coins() : [];
  if (!changed.length) return goal;
  const rows = await engine.ofTypes(new Set(goal.slots.flatMap((slot) => slot.types ?? [])));
  const near = new Set([...rows.map((row) => row.id), ...goal.slots.map((slot) => slot.coin?.id), ...goal.spare, ...goal.unclear.map((one) => one.coin)]);
  return changed.some((id) => near.has(id)) ? fillIn(goal, rows, new Set(changed)) : goal;
}

/** All of them, as `engine.list` has them. */
export const allRefilled = async () => Promise.all((await engine.list('goal')).map(refilled));

async function fillIn(goal, all, changed) {
  const rows = all.filter((row) => !row.theirs && !NOT_HERE.includes(row.state)).sort((a, b) => (a.id < b.id ? -1 : 1)); // as the desk reads them
  const byId = new Map(rows.map((row) => [row.id, row]));
  const told = await closer(goal, all, rows, changed);
  const costs = new Map(rows.map(({ id }) => [id, told.has(id) ? costOf(told.get(id)) : goal.own?.costs[id] ?? null]));
  const pieces = rows.map(({ id, type, year, mint, grade }) => ({ id, type, year, mint, grade, variety: told.get(id)?.variety ?? '', cost: costs.get(id) }));
  const found = fill(goal.slots, pieces, { types: engine.reference.types, rungs: makeRungs(engine.reference.grades) });
  const slots = goal.slots.map(({ coin, upgrade, better, ...slot }) => {
    const id = found.filled.get(slot.key);
    return Object.assign(slot, id && { coin: shown(byId.get(id)) }, found.upgrades.has(slot.key) && { upgrade: found.upgrades.get(slot.key) },
      found.better.has(slot.key) && { better: found.better.get(slot.key) });
  });
  const used = [...found.filled.values()].sort();
  const known = used.map((id) => costs.get(id)).filter((cost) => cost !== null);
  return {
    ...goal, slots, here: true, filled: used.length, open: slots.length - used.length, spare: found.spare.slice(0, MOST), spares: found.spare.length,
    unclear: found.unclear.slice(0, MOST),
    ...(goal.own && { own: { cost: known.reduce((sum, cost) => sum + cost, 0), unknown: used.length - known.length, costs: Object.fromEntries(used.map((id) => [id, costs.get(id)])) } }),
  };
}

// The cards of coins that are looked at closer: among equals of a type that an entry touched the cost decides, in a type of which a
// slot asks for a division the variety. Of all others the row says enough, and what a coin in its slot cost the set's card.
function closer(goal, all, rows, changed) {
  const types = new Set([...all.filter((row) => changed.has(row.id)).map((row) => row.type), ...goal.slots.flatMap((slot) => (slot.subtype ? slot.types : []))]);
  return engine.coins(rows.filter((row) => types.has(row.type)).map((row) => row.id));
}

/** Cents of a coin, of one piece of a lot; null where nobody knows it, or where it is not for this phone. */
function costOf({ own, left = 1 }) {
  const cost = own?.cost_left ?? own?.cost ?? null;
  return cost === null ? null : Math.ceil(cost / left);
}

const shown = (row) => ({
  id: row.id, grade: row.grade, dateText: row.year === null ? 'no date' : issueOf(row),
  ...(row.photo && { photo: row.photo }), ...(row.state === 'in stock' ? {} : { state: row.state }),
});
