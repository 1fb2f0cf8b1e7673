// Shares of the members after what was answered. Sums of logarithms, so that many answers lose nothing.
import { CANNOT_TELL, DIFFERS, readDate } from './likelihood.js';
import { issueShares } from './issues.js';
import { sizeRow } from './measures.js';

const LEAST = 1e-30; // an answer that a model holds impossible still leaves a way back

/** Shares from logarithms that are known but for a constant. */
export function normalised(logs) {
  let top = -Infinity;
  for (const log of logs) if (log > top) top = log;
  const shares = Float64Array.from(logs, (log) => Math.exp(log - top));
  const sum = shares.reduce((a, b) => a + b, 0);
  return shares.map((share) => share / sum);
}

/** Shares after one answer: column `answer` of a table as entropy.js reads it. */
export function after(shares, table, columns, answer) {
  return normalised(Float64Array.from(shares, (share, member) => Math.log(share) + Math.log(Math.max(LEAST, table[member * columns + answer]))));
}

/**
 * Shares of every type in order, and of "none of these" last. `state`: see index.js.
 * "None of these" is a coin much like one of the catalogue that differs from it in a part of what can be looked at: any of
 * the types may be the one that it resembles.
 */
export function posterior(naming, state) {
  const { answers = {}, prior = 'uniform' } = state;
  const start = naming.priors[prior] ?? naming.priors.uniform;
  const logs = Float64Array.from(start, Math.log);
  const alike = logs.slice(0, naming.count); // of the coins that are none of these, by the type that each resembles
  const add = (likely, broad) => {
    for (let m = 0; m < alike.length; m++) {
      const share = likely(m);
      logs[m] += Math.log(Math.max(LEAST, share));
      alike[m] += Math.log((1 - DIFFERS) * share + DIFFERS * broad);
    }
  };
  for (const { key, values, table } of naming.choices) {
    const answer = values.indexOf(answers[key]);
    if (answer >= 0) add((m) => table[m * values.length + answer], 1 / values.length);
  }
  if (given(answers.size)) {
    const row = sizeRow(naming, answers.size);
    add((m) => row[m], row[naming.count]);
  }
  const block = issueAnswers(answers);
  if (Object.keys(block).length) {
    const { likely } = issueShares(naming, block, state);
    add((m) => likely[m], likely[naming.count]);
  }
  logs[naming.count] += logSum(alike) - logSum(Float64Array.from(start.subarray(0, naming.count), Math.log));
  return normalised(logs);
}

function logSum(logs) {
  const top = logs.reduce((a, b) => Math.max(a, b));
  return top + Math.log(logs.reduce((sum, log) => sum + Math.exp(log - top), 0));
}

export const given = (answer) => answer !== undefined && answer !== null && answer !== CANNOT_TELL;

/** The answers that hang on date and mint of a piece: {date: digits, mint, weight, gravity}, those given. */
export function issueAnswers(answers) {
  const block = {};
  if (given(answers.date)) {
    const { digits } = readDate(answers.date);
    if (digits) block.date = digits;
  }
  for (const name of ['mint', 'weight', 'gravity']) if (given(answers[name])) block[name] = answers[name];
  return block;
}
