// What does not change from question to question, made once of the catalogue: typed tables over all types.
import { makeRungs } from '../plan/rungs.js';
import { choiceRow } from './likelihood.js';
import { noise } from './entropy.js';
import { issueModel } from './issues.js';
import { hanging, misreadings, sizeTable } from './offered.js';

export const NONE_SHARE = 0.01; // "none of these" before the first answer; an estimate, no source
const LEAST_ERROR = 0.01; // nobody is surer than this, whatever the data say
const MEASURED = ['date', 'mint', 'size', 'weight', 'gravity'];
// Where the catalogue's vocabulary lacks one of these.
const ELSE = { error: 0.05, effort: 2, seenAt: 'P-1' };

/**
 * `reference`: unpacked (web/engine/unpack.js). `errors`: {scale, least}: 0 and 0 make every answer sure; for trials.
 * Takes some ms; keep it as long as the reference is the same.
 */
export function prepare(reference, { errors = { scale: 1, least: LEAST_ERROR } } = {}) {
  const keys = Object.keys(reference.types);
  const types = keys.map((key) => reference.types[key]);
  const sure = (error) => Math.max(errors.least, error * errors.scale);
  const error = Object.fromEntries(MEASURED.map((name) => [name, sure(reference.features[name]?.error ?? ELSE.error)]));
  const rungs = makeRungs(reference.grades ?? {});
  const grade = (text) => rungs.number(text, null); // the number of the ladder, or null
  const naming = { reference, keys, types, count: keys.length, index: new Map(keys.map((key, i) => [key, i])), error, grade };
  naming.struck = issueModel(reference, keys);
  naming.struck.misread = misreadings(naming.struck.years, error.date);
  naming.choices = [denominations(naming), ...choices(naming, sure)];
  naming.size = sizeTable(naming);
  naming.priors = { uniform: withNone(types.map(() => 1)), survivors: withNone(survivors(types)) };
  naming.asked = [...naming.choices.filter((one) => one.key !== 'denom'), ...MEASURED.map((key) => measured(naming, key))];
  const first = hanging(naming, {});
  for (const name of ['date', 'mint', 'weight']) first[name](); // the first question is not to wait for them
  return naming;
}

function withNone(weights) {
  const sum = weights.reduce((a, b) => a + b, 0);
  return Float64Array.from([...weights.map((one) => ((1 - NONE_SHARE) * one) / sum), NONE_SHARE]);
}

// The fifth root of how many survive: what is held up to be named is no blind draw from all that was struck. A cent of
// which 100,000 millions were made is some twenty times as likely as a half cent of which 35,000 are left, not three
// million times (common practice, no source). A type of which nothing is said is taken as the middle of the others.
function survivors(types) {
  const said = types.map((type) => type.survivors).filter(Boolean).sort((a, b) => a - b);
  const middle = said[said.length >> 1] ?? 1;
  return types.map((type) => (type.survivors || middle) ** 0.2);
}

/** Features with a list of values in which types differ: {key, name, look, words, values, effort, error, seen, table, columns, noises}. */
function choices(naming, sure) {
  const { types } = naming;
  const found = [];
  for (const [key, feature] of Object.entries(naming.reference.features)) {
    const values = Object.keys(feature.values ?? {});
    const shown = new Set(types.filter((type) => type.shows[key]?.length).map((type) => [...type.shows[key]].sort().join(' ')));
    if (values.length < 2 || shown.size < 2) continue;
    const table = choiceTable(types.map((type) => type.shows[key]), values, sure(feature.error));
    found.push({
      key, kind: 'choice', name: feature.name, look: feature.look, words: feature.values, values, effort: feature.effort,
      seen: naming.grade(feature.seenAt) ?? 0, seenAt: feature.seenAt, table, columns: values.length, noises: noise(table, values.length),
    });
  }
  return found;
}

// A type that says nothing of the feature has the mean row of those that do: the answer neither helps nor hurts it
// against them as a whole. The last row is "none of these".
function choiceTable(shown, values, error) {
  const columns = values.length;
  const table = new Float64Array((shown.length + 1) * columns);
  const mean = new Float64Array(columns);
  const stating = shown.filter((one) => one?.length).length;
  shown.forEach((stated, t) => {
    if (!stated?.length) return;
    const row = choiceRow(values, stated, error, table.subarray(t * columns, (t + 1) * columns));
    for (let c = 0; c < columns; c++) mean[c] += row[c] / stating;
  });
  shown.forEach((stated, t) => { if (!stated?.length) table.set(mean, t * columns); });
  table.fill(1 / columns, shown.length * columns);
  return table;
}

// Said, never asked: what the value as written tells is asked instead.
function denominations(naming) {
  const values = [...new Set(naming.types.map((type) => type.denom))];
  const table = choiceTable(naming.types.map((type) => [type.denom]), values, Math.max(0.01, naming.error.date));
  const words = Object.fromEntries(naming.reference.denominations.map((one) => [one.key, one.name]));
  return { key: 'denom', kind: 'choice', name: 'Denomination', look: 'Say which denomination it is.', words, values, effort: 1, seen: 0, seenAt: 'P-1', table, columns: values.length };
}

function measured(naming, key) {
  const feature = naming.reference.features[key] ?? { name: key, look: '', ...ELSE };
  const effort = key === 'size' ? 2 : feature.effort; // against a drawn circle, not with a caliper
  return { key, kind: key, name: feature.name, look: feature.look, effort, seen: naming.grade(feature.seenAt) ?? 0, seenAt: feature.seenAt };
}
