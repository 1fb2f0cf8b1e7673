// What a plan is made from on this phone: the want list or a set, with the desk's prices. Loaded with the screen that asks.
import { engine } from './engine.js';
import * as mine from './mine.js';
import * as packs from './packs.js';
import { ofTypes } from './worth.js';
import { makeSought, slotOf } from '../plan/options.js';
import { makeRungs } from '../plan/rungs.js';

const PRESSING = { high: 0, usual: 1, low: 2 };
const order = (a, b) => (a < b ? -1 : a > b ? 1 : 0);

/** Wants as the desk has them in a plan: most pressing first. The order decides between plans that are equally good. */
export const inOrder = (wants) => [...wants].sort((a, b) => (PRESSING[a.priority] ?? 1) - (PRESSING[b.priority] ?? 1)
  || order(a.title, b.title) || order(a.years ?? '', b.years ?? '') || order(a.id, b.id));

/** The want list: {sought [as planner.js], made (day of the prices, null: none here), fresh (wants that the desk has not seen so)}. */
export async function ofWants() {
  const [wants, goals] = await Promise.all([engine.list('want'), engine.list('goal')]);
  const lines = inOrder(wants).map((want) => {
    const slot = goals.find((one) => one.id === want.goal)?.slots.find((one) => one.key === want.slot);
    const title = want.years ? `${want.title}, ${want.years}` : want.title;
    return { key: want.id, title, slot: slot ?? slotOf(want), want, has: slot?.coin?.grade ?? '' };
  });
  return { ...(await priced(lines)), fresh: wants.filter((want) => want.waiting?.length).length };
}

/** The same of a set's open slots, with `upgrades` those that a better coin could fill, too; `bought`: slots left out, since this
 *  phone bought for them and the desk has not answered. Null where there is no such set. */
export async function ofSet(id, upgrades) {
  const [goal, wants, bought] = await Promise.all([engine.card('goal', id), engine.list('want'), boughtFor(id)]);
  if (!goal) return null;
  const wanted = new Map(inOrder(wants).filter((one) => one.goal === id).map((one) => [one.slot, one]));
  const open = goal.slots.filter((slot) => !slot.coin || (upgrades && slot.upgrade));
  const lines = open.filter((slot) => !bought.has(slot.key))
    .map((slot) => ({ key: slot.key, title: slot.title, slot, want: wanted.get(slot.key) ?? null, has: slot.coin?.grade ?? '' }));
  const fresh = [...wanted.values()].filter((want) => want.waiting?.length).length;
  return { ...(await priced(lines)), fresh, bought: open.length - lines.length };
}

async function priced(lines) {
  const { types, grades } = engine.reference;
  const rungs = makeRungs(grades);
  const held = await ofTypes([...new Set(lines.flatMap((line) => line.slot.types ?? []))]);
  const at = { prices: held?.types ?? new Map(), rungs, known: (type) => Boolean(types[type]) };
  return { sought: lines.map((line) => makeSought(line, at)), rungs, made: held?.made ?? null };
}

// Slots of a set for whose want this phone made a purchase that stands.
async function boughtFor(goal) {
  const added = mine.ofKind('want.add').map(({ body }) => ({ id: body.want, ...body.set }));
  const found = new Set();
  for (const want of [...added, ...(await packs.cards('want'))]) {
    if (want.goal !== goal || !mine.about('want', want.id).some((fact) => fact.kind === 'purchase')) continue;
    if (!(await engine.card('want', want.id))) found.add(want.slot);
  }
  return found;
}
