// Which coin fills which slot of a set: what collecting/assign.py and filling.py make at the desk. A coin's worth to a set does not
// depend on its slot, so the best coins go in first, each if room can be made for it by moving those already placed.
import { UNCLEAR, YES, makeJudge } from './judge.js';

const order = (a, b) => (a < b ? -1 : a > b ? 1 : 0);

/**
 * {filled: slot → coin, upgrades: slot → [lowest, highest grade], better: slot → coin, spare: coins, unclear [{slot, coin, why}]}
 * of `slots` by `pieces` (judge.js); every key and coin by its ID.
 */
export function fill(slots, pieces, { types, rungs }) {
  const judge = makeJudge({ types, rungs });
  const byType = new Map();
  for (const piece of pieces) byType.set(piece.type, [...(byType.get(piece.type) ?? []), piece]);
  const held = new Map(pieces.map((piece) => [piece.id, piece]));
  const [accepted, unclear] = [new Map(), []];
  for (const slot of slots) {
    for (const piece of [...new Set(slot.types ?? [])].flatMap((key) => byType.get(key) ?? [])) {
      const [verdict, why] = judge(slot, piece);
      if (verdict === YES) accepted.set(piece.id, [...(accepted.get(piece.id) ?? []), slot.key]);
      else if (verdict === UNCLEAR) unclear.push({ slot: slot.key, coin: piece.id, why });
    }
  }
  const fits = new Map(pieces.map((piece) => [piece.id, rungs.fit(piece.grade)]));
  const filled = placed(accepted, (coin) => [fits.get(coin), held.get(coin).cost]);
  const used = [...filled.values()].sort((a, b) => fits.get(a) - fits.get(b) || order(a, b));
  const better = new Map();
  for (const coin of used) for (const slot of accepted.get(coin)) if (filled.has(slot) && fits.get(coin) > fits.get(filled.get(slot))) better.set(slot, coin);
  const upgrades = new Map();
  for (const slot of slots) {
    const up = filled.has(slot.key) && upgrade(slot, held.get(filled.get(slot.key)).grade, rungs);
    if (up) upgrades.set(slot.key, up);
  }
  const taken = new Set(used);
  return {
    filled, upgrades, better, spare: [...accepted.keys()].filter((coin) => !taken.has(coin)).sort(),
    unclear: unclear.filter((one) => !taken.has(one.coin) && (!filled.has(one.slot) || fits.get(one.coin) > fits.get(filled.get(one.slot)))),
  };
}

// slot → coin: most slots, then the greatest sum of fits, then the least sum of costs, an unknown one last. See assign.py.
function placed(accepted, worth) {
  const [found, shut] = [new Map(), new Set()];
  const ranked = [...accepted.keys()].map((coin) => [coin, ...worth(coin)])
    .sort(([a, fit, cost], [b, other, price]) => other - fit || (cost === null) - (price === null) || (cost ?? 0) - (price ?? 0) || order(a, b));
  for (const [coin] of ranked) place(coin, accepted, found, shut);
  return found;
}

// Put it in, moving others along the shortest path to an open slot; where there is none, what was looked at is shut for good.
function place(coin, accepted, found, shut) {
  const came = new Map(); // slot → [the coin that would go in, the slot it leaves]
  const waiting = [[coin, null]];
  for (const [moved, leaves] of waiting) {
    for (const slot of accepted.get(moved)) {
      if (came.has(slot) || shut.has(slot)) continue;
      came.set(slot, [moved, leaves]);
      if (found.has(slot)) {
        waiting.push([found.get(slot), slot]);
        continue;
      }
      for (let to = slot; to !== null;) {
        const [one, from] = came.get(to);
        found.set(to, one);
        to = from;
      }
      return;
    }
  }
  for (const slot of came.keys()) shut.add(slot);
}

// [lowest, highest] grade that would better a coin of this grade; one with a problem is bettered by the same grade without.
function upgrade(slot, grade, rungs) {
  if (!grade) return null;
  const { number, trouble } = rungs.read(grade);
  const above = rungs.window(slot).filter((rung) => number + (trouble ? 0 : 1) <= rung);
  return above.length ? [rungs.written(slot, above[0]), slot.grade_to || rungs.written(slot, above.at(-1))] : null;
}
