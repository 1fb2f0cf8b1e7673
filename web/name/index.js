/*
 * Naming a coin in the hand. No screen, no storage, no clock: everything follows from the catalogue and what was answered.
 *
 *   import { prepare, weigh, ask, questions, explain, … } from '../name/index.js';
 *   const naming = prepare(engine.reference);       // once per reference; up to 0.2 s on a slow phone, so do it when idle
 *   const state = { answers: {}, grade: '', prior: 'uniform', tools: {} };
 *   const weighed = weigh(naming, state);            // anew after each answer
 *   const { question, why } = ask(naming, state, weighed.shares);
 *
 * state (plain, may be kept as JSON):
 *   answers: feature → answer. '?' is "cannot tell": no information, and not asked again. Leave out or delete: not answered.
 *     a choice   the key of a value of reference.features[feature].values: 'copper', 'left', …
 *     denom      a denomination's key; said by the user, never asked
 *     date       text of four places, ? for what cannot be read: '18?7' (readDate tells whether it can be read)
 *     mint       'S', 'O', … ; '' is "no mint mark seen"
 *     size       {mm, u?}      u: standard error; 0.5 against a drawn circle if left out, about 0.15 with a caliper
 *     weight     {g, u?}       u: 0.05 if left out
 *     gravity    {density, u?} of gravity() below
 *   grade: as the ladder writes it ('VG-8'), or ''. Hides questions that such a coin cannot show, and says how much wear took.
 *   prior: 'uniform', or 'survivors' (the more survive, the likelier).
 *   tools: {glass?: true, scale?: true, water?: false}: without a glass or scale their questions are not asked; the
 *     specific gravity only with water: true.
 *
 * weigh → {shares, ranking: [{type, title, p}] likeliest first, none: p of "none of these", top: ranking[0], sure: bool}
 *   shares: Float64Array over naming.keys, and "none of these" last. The p of ranking and none add up to 1.
 * ask → {question, why}. question: {feature, kind, name, look, effort, seenAt, gain (bits expected), offered (bits of its answer),
 *   answers?: [{value, words, p}] of a choice, in the vocabulary's order: show the likely ones first where they are many}.
 *   kind: 'choice' | 'date' | 'mint' | 'size' | 'weight' | 'gravity'. question null: why is 'sure' (the first of
 *   ranking, or none of these) or 'nothing' (no question left that is worth its effort).
 * questions → every question still open: [{feature, …, gain, worth (bits an effort)}], most worth first; for answering in any order.
 * explain(naming, state, shares, typeKey) → {type, title, p, fits, contradicts, silent: [{feature, name, said, shows}],
 *   warnings: [{feature, text, caution}] (weight, gravity outside the law: show them first), rival: key | null,
 *   sure: [{feature, name, look, fits, rival (words), seenAt, effort, kills, hidden (wear hides it)}]}.
 * nameOf(naming, feature) → the feature's name, as it is shown.
 * impossible(answers) → a sentence on a measure that no coin has, or ''.
 * gravity({dry, wet, celsius, resolution, …}) → {density, simple, u, expanded} or {problem}. compareAlloys(reading,
 *   alloys) → [{key, name, low, high, away, verdict: 'fits' | 'no'}], nearest first; alloys: reference.alloys, or those of the
 *   candidates: alloysOf(naming, shares). GRAVITY_CAUTION: to stand beside it, once.
 * tellApart(naming, state, key, other) → what parts two types, in the shape of `sure`.
 * The checklist of a type is reference.types[key].looks, in order: first what would end the deal.
 */
import { ask, questions as open, shown } from './ask.js';
import { explain, nameOf } from './explain.js';
import { posterior } from './posterior.js';
import { SURE } from './ask.js';

export { CANNOT_TELL, readDate } from './likelihood.js';
export { prepare } from './prepare.js';
export { gravity, compareAlloys, waterDensity, GRAVITY_CAUTION } from './gravity.js';
export { impossible } from './warnings.js';
export { tellApart } from './separate.js';
export { CIRCLE_U } from './measures.js';
export { ask, explain, nameOf };

export function weigh(naming, state) {
  const shares = posterior(naming, state);
  const ranking = naming.keys.map((type, i) => ({ type, title: naming.types[i].title, p: shares[i] })).sort((a, b) => b.p - a.p);
  const none = shares[naming.count];
  return { shares, ranking, none, top: ranking[0], sure: Math.max(none, ranking[0]?.p ?? 0) >= SURE };
}

/** The alloys of the types that are still likely: key → {name, parts, density}. */
export function alloysOf(naming, shares, least = 0.01) {
  const keys = naming.struck.laws.filter((law) => shares[law.type] >= least).map((law) => law.alloy);
  return Object.fromEntries([...new Set(keys)].map((key) => [key, naming.reference.alloys[key]]));
}

export function questions(naming, state, shares) {
  return open(naming, state, shares).map((one) => ({ ...shown(one, shares), worth: one.worth })).sort((a, b) => b.worth - a.worth);
}
