// A plan for a budget, where there is no network: what collecting/plan.py says, with its points, order and ties.
//   sought   {key, title, slot, priority, has, ceiling, options}: a want or an open slot; `has` the grade that is to be bettered
//   option   {grade, cents, basis estimate|ceiling, type, issue ('' for a usual date), sales, last}
//   pick     {sought, option, points}
//   plan     {budget, picks, cents, points, left (affordable at another budget), dear (all above the ceiling), unpriced}
import { makeTable } from './knapsack.js';

const [FILLED, GRADE] = [100, 50];
const WEIGHTS = { high: 4, usual: 2, low: 1 };
const sum = (list, of) => list.reduce((total, one) => total + of(one), 0);
const order = (a, b) => (a < b ? -1 : a > b ? 1 : 0);

/** What a coin of this grade adds to what is sought; 0 or less: nothing is gained by it. */
export function points({ slot, priority, has }, grade, rungs) {
  const gained = share(slot, grade, rungs) - (has ? share(slot, has, rungs) : -FILLED);
  return (WEIGHTS[priority] ?? WEIGHTS.usual) * gained;
}

// 0 to 50 points of a grade in its window, by steps of the ladder.
function share(slot, grade, { window, number }) {
  const steps = window(slot);
  if (steps.length < 2 || !grade) return 0;
  const at = number(grade);
  const below = steps.filter((step) => step < at).length;
  return Math.floor((GRADE * Math.min(below, steps.length - 1)) / (steps.length - 1));
}

const payable = ({ options, ceiling }) => options.filter((one) => ceiling === null || one.cents <= ceiling);

// [[option, points]…] of those that could stand in a plan: what gains something, and costs less than all that gains as much.
function useful(want, rungs) {
  const known = new Map(); // grade → points: many options are of one grade
  for (const { grade } of want.options) if (!known.has(grade)) known.set(grade, points(want, grade, rungs));
  const rated = payable(want).map((option) => [option, known.get(option.grade)]);
  rated.sort(([a, p], [b, q]) => a.cents - b.cents || q - p || order(a.type, b.type) || order(a.issue, b.issue) || order(a.grade, b.grade));
  const found = [];
  for (const one of rated) if (one[1] > (found.at(-1)?.[1] ?? 0)) found.push(one);
  return found;
}

/** Looks at all that is sought once; the planner then answers for any budget. `pause` as in knapsack.js. */
export async function makePlanner(wants, rungs, pause = () => {}) {
  const dear = wants.filter((want) => want.options.length && !payable(want).length);
  const unpriced = wants.filter((want) => !want.options.length);
  const offers = [];
  for (const want of wants) {
    const some = useful(want, rungs);
    if (some.length) offers.push([want, some]);
    await pause();
  }
  const table = await makeTable(offers.map(([, some]) => some.map(([option, gained]) => [option.cents, gained])), pause);
  const made = (budget, picks, left) => ({
    budget, picks, left, dear, unpriced, cents: sum(picks, (one) => one.option.cents), points: sum(picks, (one) => one.points),
  });

  /** The best plan for a budget in cents. */
  function plan(budget) {
    const chosen = table.choose(Math.max(budget, 0));
    const picks = [];
    const left = [];
    offers.forEach(([sought, some], n) => {
      if (chosen[n] === null) left.push(sought);
      else picks.push({ sought, option: some[chosen[n]][0], points: some[chosen[n]][1] });
    });
    return made(budget, picks, left);
  }

  let steps = null;
  return {
    plan,
    /** [[cents, points]…] wherever a little more money buys more, from [0, 0] up. */
    steps: () => (steps ??= table.steps()),
    /** A plan for each show in turn: together they buy the best plan for all the money; what one leaves is carried on. */
    async overShows(budgets) {
      let waiting = plan(sum(budgets, (one) => one)).picks;
      let purse = 0;
      const plans = [];
      for (const [show, budget] of budgets.entries()) {
        purse += budget;
        const last = show === budgets.length - 1;
        const taken = last ? null : (await makeTable(waiting.map((one) => [[one.option.cents, one.points]]), pause)).choose(purse);
        const now = last ? waiting : waiting.filter((_, n) => taken[n] !== null);
        waiting = waiting.filter((one) => !now.includes(one));
        plans.push(made(purse, now, []));
        purse -= plans.at(-1).cents;
      }
      return plans;
    },
  };
}

const same = (a, b) => Boolean(a) === Boolean(b) && (!a || Object.keys(a).every((name) => a[name] === b[name]));

/** What more money changes: [{sought, before, after}], options, null where it is not bought. */
export function changes(before, after) {
  const [had, has] = [before, after].map((plan) => new Map(plan.picks.map((one) => [one.sought.key, one])));
  return [...new Set([...had.keys(), ...has.keys()])].map((key) => [had.get(key), has.get(key)])
    .filter(([old, now]) => !same(old?.option, now?.option))
    .map(([old, now]) => ({ sought: (now ?? old).sought, before: old?.option ?? null, after: now?.option ?? null }));
}
