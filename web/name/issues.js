// What hangs on the very piece: its date and mint, its lawful weight in that year, the metal of that year. Such answers
// are weighed together, issue by issue, so that a heavy coin of a late date is not excused by the law of an early one.
import { BROAD, digitsGiven, digitsOfNone, flanSpread, gravityGiven, ofNone, wear, weightGiven } from './likelihood.js';

const PROOF_SHARE = 0.2; // a proof-only date comes to the table more seldom than another; common practice, no source
export const RESOLUTION = { weight: 0.05, gravity: 0.1 }; // standard errors where the answer names none: g, g/cm³

/**
 * Every issue of every type in one row, those of a type together: `from[t]` to `from[t + 1]`. Of an issue: type, year, mint
 * (column of `mints`), share (of its type, as struck), and its laws: `of[first[i]]` to `of[first[i + 1]]`, columns of `laws`.
 * laws: [{type, grams, sd, off, range, alloy}]: what a piece weighs and of which alloy; null where unknown.
 */
export function issueModel(reference, keys) {
  const laws = [];
  const rows = [];
  const of = [];
  const from = [0];
  keys.forEach((key, type) => {
    const { weights, alloy, years, issues } = reference.types[key];
    const first = laws.length;
    const inYear = new Map();
    for (const entry of weights.length ? weights : [{ grams: null, alloy, years }]) {
      for (const year of entry.years) inYear.set(year, [...(inYear.get(year) ?? []), laws.length]);
      laws.push({
        type, grams: entry.grams, sd: entry.grams && flanSpread(entry.grams, entry.off, entry.years[0]),
        off: entry.off ?? 0, range: reference.alloys[entry.alloy]?.density ?? null, alloy: entry.alloy,
      });
    }
    const all = Array.from({ length: laws.length - first }, (_, i) => first + i);
    const total = issues.reduce((sum, one) => sum + (one.proofOnly ? PROOF_SHARE : 1), 0);
    for (const one of issues) {
      rows.push({ type, year: one.year, mint: one.mint, share: (one.proofOnly ? PROOF_SHARE : 1) / total, at: of.length });
      of.push(...(inYear.get(one.year) ?? all));
    }
    from.push(rows.length);
  });
  const mints = [...new Set(['', ...rows.map((one) => one.mint)])].sort();
  const column = new Map(mints.map((mint, i) => [mint, i]));
  return {
    laws, mints, from, years: [...new Set(rows.map((one) => one.year))].sort((a, b) => a - b),
    type: Int16Array.from(rows, (one) => one.type), year: Int16Array.from(rows, (one) => one.year),
    mint: Uint8Array.from(rows, (one) => column.get(one.mint)), share: Float64Array.from(rows, (one) => one.share),
    first: Int32Array.from([...rows.map((one) => one.at), of.length]), of: Int32Array.from(of),
  };
}

export const mintGiven = (marks, same, error) => (marks < 2 ? 1 : same ? 1 - error : error / (marks - 1));

/** Densities of a weight and a gravity by law; a law that says nothing is as likely as the others are on average. */
function byLaw(naming, block, state) {
  const { laws } = naming.struck;
  const row = new Float64Array(laws.length).fill(1);
  const take = (density, mark) => {
    const kept = new Map(); // many laws say the same
    const found = laws.map((law) => mark(law) && (kept.get(mark(law)) ?? kept.set(mark(law), density(law)).get(mark(law))));
    const known = found.filter((one) => one !== null);
    const mean = known.reduce((a, b) => a + b, 0) / Math.max(1, known.length);
    found.forEach((one, i) => { row[i] *= one ?? mean; });
  };
  if (block.weight) {
    const { g, u = RESOLUTION.weight } = block.weight;
    const loss = wear(naming.grade(state.grade));
    take((law) => weightGiven(g, u, law, loss, naming.error.weight), weightMark);
  }
  if (block.gravity) {
    const { density, u = RESOLUTION.gravity } = block.gravity;
    take((law) => gravityGiven(density, u, law.range, naming.error.gravity), gravityMark);
  }
  return row;
}

/** What laws have in common that give the same densities; null where a law says nothing. */
export const weightMark = (law) => (law.grams ? `${law.grams} ${law.sd}` : null);
export const gravityMark = (law) => law.range && law.range.join();

/**
 * {likely: of every member, none of these last; shares: of every issue in its type after the answers; laws: weight of each
 * law in its type}. `block`: of posterior.issueAnswers; empty: as struck.
 */
export function issueShares(naming, block, state) {
  const { type, year, mint, share, first, of, mints, laws } = naming.struck;
  const lawful = block.weight || block.gravity ? byLaw(naming, block, state) : null;
  const likely = new Float64Array(naming.count + 1);
  const ofLaws = new Float64Array(laws.length);
  const shares = Float64Array.from(share);
  const dated = block.date && new Map(naming.struck.years.map((one) => [one, digitsGiven(block.date, one, naming.error.date)]));
  const read = block.mint === undefined ? -1 : mints.indexOf(block.mint);
  for (let i = 0; i < shares.length; i++) {
    if (dated) shares[i] *= dated.get(year[i]);
    if (block.mint !== undefined) shares[i] *= mintGiven(mints.length, read === mint[i], naming.error.mint);
    const count = first[i + 1] - first[i];
    let mean = lawful ? 0 : 1;
    for (let k = first[i]; k < first[i + 1]; k++) {
      const part = (lawful ? lawful[of[k]] : 1) / count;
      ofLaws[of[k]] += shares[i] * part;
      if (lawful) mean += part;
    }
    shares[i] *= mean;
    likely[type[i]] += shares[i];
  }
  for (let i = 0; i < laws.length; i++) ofLaws[i] /= likely[laws[i].type] || 1;
  for (let i = 0; i < shares.length; i++) shares[i] /= likely[type[i]] || 1;
  likely[naming.count] = noneOfThese(naming, block);
  return { likely, shares, laws: ofLaws };
}

function noneOfThese(naming, block) {
  let share = 1;
  if (block.date) share *= digitsOfNone(block.date, naming.error.date);
  if (block.mint !== undefined) share /= naming.struck.mints.length;
  if (block.weight) share *= ofNone(BROAD.weight);
  if (block.gravity) share *= ofNone(BROAD.gravity);
  return share;
}
