// The next question: the greatest expected information per effort among what this coin can show and this person can do.
import { answerShares, entropy, information } from './entropy.js';
import { DIFFERS } from './likelihood.js';
import { hanging } from './offered.js';

export const SURE = 0.98; // a name this likely is said, and no more is asked
export const WORTH = 0.03; // bits an effort: less is not worth the look
const NOTHING = 1e-6; // bits: cannot change anything
const IDLE = 1e-6; // share of a member that no answer brings back soon

/** Every question that can still be asked, in the catalogue's order: [{asked, of (its table), gain, offered, worth}]. Bits. */
export function questions(naming, state, shares) {
  return [...worths(naming, state, shares, () => false)];
}

/** {question, why}: why there is none is 'sure' or 'nothing'. Ties go to the question that comes first in the catalogue. */
export function ask(naming, state, shares, { sure = SURE, worth = WORTH } = {}) {
  if (shares.reduce((a, b) => Math.max(a, b)) >= sure) return { question: null, why: 'sure' };
  const left = entropy(shares); // no answer can tell more
  let best = null;
  const beaten = (asked) => left / asked.effort < (best?.worth ?? worth);
  for (const one of worths(naming, state, shares, beaten)) if (!best || one.worth > best.worth + 1e-9) best = one;
  if (!best || best.worth < worth) return { question: null, why: 'nothing' };
  return { question: shown(best, shares), why: '' };
}

function* worths(naming, state, shares, beaten) {
  const only = [];
  for (let m = 0; m < naming.count; m++) if (shares[m] > IDLE) only.push(m);
  const none = { share: shares[naming.count], differs: DIFFERS };
  const tables = hanging(naming, state);
  for (const asked of naming.asked) {
    if (!open(asked, naming, state) || beaten(asked)) continue;
    const of = asked.kind === 'choice' ? asked : asked.kind === 'size' ? naming.size : tables[asked.kind]();
    const { gain, offered } = information(shares, of.table, of.columns, of.noises, only, none);
    if (gain > NOTHING) yield { asked, of, gain, offered, worth: gain / asked.effort };
  }
}

function open({ key, effort, seen }, naming, { answers = {}, grade, tools = {} }) {
  const number = naming.grade(grade);
  if (answers[key] !== undefined && answers[key] !== null) return false;
  if (number !== null && seen > number) return false;
  if (key === 'weight') return tools.scale !== false;
  if (key === 'gravity') return Boolean(tools.water);
  return effort < 2 || key === 'size' || tools.glass !== false;
}

/** What a screen needs of a question; the answers of a choice with how likely each is. */
export function shown({ asked, of, gain, offered }, shares) {
  const { key, kind, name, look, effort, seenAt } = asked;
  const question = { feature: key, kind, name, look, effort, seenAt, gain, offered };
  if (kind === 'choice') {
    const likely = answerShares(shares, of.table, of.columns);
    question.answers = asked.values.map((value, i) => ({ value, words: asked.words[value] ?? value, p: likely[i] }));
  }
  return question;
}
