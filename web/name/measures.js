// Diameter: what is measured against a drawn circle or with a caliper, in bins for choosing and exactly for weighing.
import { BROAD, ofNone, sizeGiven } from './likelihood.js';

export const CIRCLE_U = 0.5; // mm, standard error against a drawn circle; common practice, no source
export const BINS = {
  size: bins(9, 44, 35, false), // 1 mm
  weight: bins(0.4, 36, 110, true),
  gravity: bins(6.4, 20.2, 92, false), // 0.15 g/cm³
};

function bins(low, high, count, even) {
  const edge = (i) => (even ? low * (high / low) ** (i / count) : low + ((high - low) * i) / count);
  return Array.from({ length: count }, (_, i) => ({ low: edge(i), high: edge(i + 1), middle: (edge(i) + edge(i + 1)) / 2, width: edge(i + 1) - edge(i) }));
}

/** Density of a measured diameter for every member. `answer`: {mm, u?}. */
export function sizeRow(naming, { mm, u = CIRCLE_U }) {
  const row = new Float64Array(naming.count + 1);
  const kept = new Map(); // many types are of one size
  naming.types.forEach((type, m) => {
    const mark = type.mm.join();
    if (!kept.has(mark)) kept.set(mark, sizeGiven(mm, u, type.mm, naming.error.size));
    row[m] = kept.get(mark);
  });
  row[naming.count] = ofNone(BROAD.size);
  return row;
}

/** Table of shares over the bins, each row made to add up to 1. `density(member, x, bin)`. */
export function binned(of, members, density) {
  const table = new Float64Array(members * of.length);
  for (let m = 0; m < members; m++) {
    let sum = 0;
    for (let b = 0; b < of.length; b++) sum += table[m * of.length + b] = density(m, of[b].middle, b) * of[b].width;
    for (let b = 0; b < of.length; b++) table[m * of.length + b] /= sum;
  }
  return table;
}
