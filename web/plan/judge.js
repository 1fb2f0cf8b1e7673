// Whether a coin serves a slot of a set: what collecting/slots.py says at the desk. A coin of which too little is said is never
// guessed into a slot. A piece is {id, type, year, mint, grade, variety, cost}.
import { yearsOf } from './options.js';

export const [YES, NO, UNCLEAR] = ['yes', 'no', 'unclear'];
const REST = '!'; // before a division's key: all of the type but that

/** “1909-S”; without a mint mark “1909”. */
export const issueOf = ({ year, mint }) => (mint ? `${year}-${mint}` : String(year));

/** (slot, piece) → [yes, no or unclear; what is not said, as the end of a sentence]. `types`: the reference's, `rungs` as makeRungs has them. */
export function makeJudge({ types, rungs }) {
  const struck = new Map(); // a slot's text → its years

  return function judge(slot, piece) {
    if (!slot.types?.includes(piece.type)) return [NO, ''];
    const said = [date(slot, piece), division(slot, piece), grade(slot, piece)];
    if (said.some(([verdict]) => verdict === NO)) return [NO, ''];
    const unclear = said.filter(([verdict]) => verdict === UNCLEAR).map(([, why]) => why);
    return unclear.length ? [UNCLEAR, unclear.join(' and ')] : [YES, ''];
  };

  function date(slot, piece) {
    if ((slot.years || slot.issues?.length) && piece.year === null) return [UNCLEAR, 'has no date entered'];
    if (slot.years && !struck.has(slot.years)) struck.set(slot.years, yearsOf(slot.years) ?? new Set());
    const fits = (!slot.years || struck.get(slot.years).has(piece.year)) && (!slot.issues?.length || slot.issues.includes(issueOf(piece)))
      && (!slot.mints?.length || slot.mints.includes(piece.mint));
    return [fits ? YES : NO];
  }

  function grade(slot, piece) {
    const struckAs = slot.strike ?? 'any';
    if (!slot.grade_from && !slot.grade_to && struckAs === 'any' && !slot.problem_free) return [YES];
    if (!piece.grade) return [UNCLEAR, 'has no grade entered'];
    const { number, prefix, trouble } = rungs.read(piece.grade);
    const within = rungs.number(slot.grade_from, 1) <= number && number <= rungs.number(slot.grade_to);
    const asStruck = struckAs === 'any' || (prefix !== 'SP' && (prefix === 'PF') === (struckAs === 'proof'));
    return [within && asStruck && !(slot.problem_free && trouble) ? YES : NO];
  }

  function division(slot, piece) {
    const of = types[piece.type];
    if (!slot.subtype || !of) return [YES];
    const wanted = slot.subtype.replace(REST, '');
    const among = of.questions.find((one) => one.splits?.includes(wanted))?.splits ?? [wanted];
    const found = divisionOf(of.subtypes.filter((one) => among.includes(one.key)), piece);
    if (found === null) return [UNCLEAR, 'does not say which variety it is'];
    return [(found === wanted) === slot.subtype.startsWith(REST) ? NO : YES];
  }
}

// Which of these the coin is: by its variety's words, else by its date where that decides. '' none of them; null cannot be told.
function divisionOf(held, { variety, year }) {
  const said = words(variety);
  const points = held.map((one) => Math.max(...[one.name, one.key].map(words).map((some) => (some.size && [...some].every((word) => said.has(word)) ? some.size : 0))));
  const best = Math.max(0, ...points);
  if (best) {
    const named = held.filter((_, at) => points[at] === best);
    return named.length === 1 ? named[0].key : null;
  }
  if (year === null) return null;
  const dated = held.filter((one) => one.years.includes(year));
  if (dated.length === 1 && (held.length > 1 || dated[0].whole)) return dated[0].key;
  return dated.length ? null : '';
}

const words = (text) => new Set(text.toLowerCase().replaceAll('.', '').match(/[a-z0-9]+/g) ?? []);
