// What the stock has of a type, beside a coin in the hand.
import { readGrade } from './grade-picker.js';
import { count } from './words.js';

/** One sentence: whether `rows` of the stock are of a lower, the same or a better grade than `grade` ('' where none was said). */
export function standing(rows, grade, grades) {
  if (!rows.length) return 'None of this type in your stock.';
  const asked = readGrade(grade, grades);
  const graded = rows.map((row) => ({ text: row.grade, ...readGrade(row.grade, grades) })).filter((one) => one.number !== null && one.strike === asked.strike);
  const best = graded.reduce((top, one) => (top && top.number >= one.number ? top : one), null);
  const has = `You have ${count(rows.length, 'coin')} of this type`;
  if (!best) return `${has}, ${asked.number === null ? 'none graded' : 'none to compare by grade'}.`;
  if (asked.number === null) return `${has}, ${best.text} at best.`;
  if (best.number < asked.number) return `${has}, in a lower grade: ${best.text} at best.`;
  return best.number === asked.number ? `${has}, one in the same grade.` : `${has}, in a better grade: ${best.text}.`;
}
