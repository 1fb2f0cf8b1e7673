// Choosing with a budget, exactly, where there is no network: the desk's rule (collecting/knapsack.py), ties as it breaks them.
// From each group at most one option, within the money, for the greatest value, and of those a cheapest. A dynamic programme
// over value; sums stay whole in floating point up to 2^53, which 9,000 options of the greatest amount of a book do not reach.

const common = (a, b) => (b ? common(b, a % b) : a);

/**
 * `groups` [[[cents, value]…]…], whole numbers, cents 0 or more, value more than 0. `pause()` is awaited between pieces of the
 * work, so that the caller may let others work. Resolves to the answer for every budget: see `Table`.
 */
export async function makeTable(groups, pause = () => {}) {
  const unit = groups.flat().reduce((all, [, value]) => common(all, value), 0) || 1;
  const scaled = groups.map((group) => group.map(([cents, value]) => [cents, value / unit]));
  const most = (group) => group.reduce((top, [, value]) => Math.max(top, value), 0);
  let least = new Float64Array(scaled.reduce((sum, group) => sum + most(group), 0) + 1).fill(Infinity); // cents for exactly that value
  least[0] = 0;
  let next = least.slice();
  let reached = 0;
  const taken = [];
  for (const group of scaled) {
    const top = reached + most(group);
    const choice = new (group.length > 127 ? Int16Array : Int8Array)(top + 1).fill(-1);
    for (let at = 0; at < group.length; at++) {
      try_(least, next, choice, reached, at, group[at]);
      await pause();
    }
    reached = top;
    least.set(next);
    taken.push(choice);
  }
  next = least.slice(); // from here on: the least cents for that value or more
  for (let value = next.length - 2; value >= 0; value--) if (next[value + 1] < next[value]) next[value] = next[value + 1];
  return new Table(scaled, taken, least, next, unit);
}

// One option on top of each value that the groups before reach.
function try_(least, next, choice, reached, at, [cents, value]) {
  for (let from = 0, to = value; from <= reached; from++, to++) {
    const sum = least[from] + cents;
    if (sum < next[to]) {
      next[to] = sum;
      choice[to] = at;
    }
  }
}

class Table {
  #groups;
  #taken;
  #least;
  #best;
  #unit;

  constructor(...parts) {
    [this.#groups, this.#taken, this.#least, this.#best, this.#unit] = parts;
  }

  // The greatest value, in units, whose least cents are within the budget.
  #reach(budget) {
    let [low, high] = [0, this.#best.length]; // the first that costs more lies in between
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.#best[middle] <= budget) low = middle + 1;
      else high = middle;
    }
    return low - 1;
  }

  /** The greatest value that a budget of so many cents buys. */
  value(budget) {
    return this.#reach(budget) * this.#unit;
  }

  /** The number of the option taken of each group, null where none is. */
  choose(budget) {
    let left = this.#reach(budget);
    const chosen = [];
    for (let g = this.#groups.length - 1; g >= 0; g--) {
      const at = this.#taken[g][left] ?? -1; // beyond what the groups up to here reach, nothing of this one
      chosen.push(at < 0 ? null : at);
      if (at >= 0) left -= this.#groups[g][at][1];
    }
    return chosen.reverse();
  }

  /** [[cents, value]…] of each budget at which more can be had than with a cent less, from [0, 0] up. */
  steps() {
    const found = new Map();
    this.#best.forEach((cents, value) => { if (this.#least[value] === cents) found.set(cents, value * this.#unit); });
    return [...found];
  }
}
