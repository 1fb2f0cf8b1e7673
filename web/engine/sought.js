// What a plan is made from on this phone: the want list or a set, with the desk's prices. Loaded with the screen that asks.
import { engine } from './engine.js';
import * as mine from './mine.js';
import * as packs from './packs.js';
import { allRefilled, refilled } from './sets-here.js';
import { ofTypes } from './worth.js';
import { makeSought, slotOf } from '../plan/options.js';
import { makeRungs } from '../plan/rungs.js';

const DEALS = ['purchase', 'trade']; // what may fill a want
const PRESSING = { high: 0, usual: 1, low: 2 };
const order = (a, b) => (a < b ? -1 : a > b ? 1 : 0);

// Wants as the desk has them in a plan: most pressing first. The order decides between plans that are equally good.
const inOrder = (wants) => [...wants].sort((a, b) => (PRESSING[a.priority] ?? 1) - (PRESSING[b.priority] ?? 1)
  || order(a.title, b.title) || order(a.years ?? '', b.years ?? '') || order(a.id, b.id));

const fresh = (wants) => wants.filter((want) => want.waiting?.length).length;

/**
 * What is sought: {lines [{key, title, slot, want|null, has}], fresh: wants that the desk has not seen so, bought: slots left
 * out, since this phone bought for them and the desk has not answered}. `goal` '' is the want list, else a set: its open slots,
 * with `upgrades` those that a better coin could fill, too; null where there is no such set.
 */
export const lines = (goal, upgrades = false) => (goal ? ofSet(goal, upgrades) : ofWants());

async function ofWants() {
  const [wants, goals] = await Promise.all([engine.list('want'), allRefilled()]);
  const found = inOrder(wants).map((want) => {
    const slot = goals.find((one) => one.id === want.goal)?.slots.find((one) => one.key === want.slot);
    return { key: want.id, title: want.years ? `${want.title}, ${want.years}` : want.title, slot: slot ?? slotOf(want), want, has: slot?.coin?.grade ?? '' };
  });
  return { lines: found, fresh: fresh(wants), bought: 0 };
}

async function ofSet(id, upgrades) {
  const [goal, wants, bought] = await Promise.all([engine.card('goal', id).then(refilled), engine.list('want'), boughtFor(id)]);
  if (!goal) return null;
  const wanted = new Map(inOrder(wants).filter((one) => one.goal === id).map((one) => [one.slot, one]));
  const open = goal.slots.filter((slot) => !slot.coin || (upgrades && slot.upgrade));
  const found = open.filter((slot) => !bought.has(slot.key))
    .map((slot) => ({ key: slot.key, title: slot.title, slot, want: wanted.get(slot.key) ?? null, has: slot.coin?.grade ?? '' }));
  return { lines: found, fresh: fresh([...wanted.values()]), bought: open.length - found.length };
}

/** The lines as the planner takes them: {sought, rungs, made: day of the desk's prices, null where this phone has none}. */
export async function priced(found, pause = () => {}) {
  const { types, grades } = engine.reference;
  const rungs = makeRungs(grades);
  const held = await ofTypes([...new Set(found.flatMap((line) => line.slot.types ?? []))]);
  const at = { prices: held?.types ?? new Map(), rungs, known: (type) => Boolean(types[type]) };
  const sought = [];
  for (const line of found) {
    sought.push(makeSought(line, at));
    await pause();
  }
  return { sought, rungs, made: held?.made ?? null };
}

// Slots of a set for whose want this phone made a deal that stands.
async function boughtFor(goal) {
  const added = mine.ofKind('want.add').map(({ body }) => ({ id: body.want, ...body.set }));
  const found = new Set();
  for (const want of [...added, ...(await packs.cards('want'))]) {
    if (want.goal !== goal || !mine.about('want', want.id).some((fact) => DEALS.includes(fact.kind))) continue;
    if (!(await engine.card('want', want.id))) found.add(want.slot);
  }
  return found;
}
