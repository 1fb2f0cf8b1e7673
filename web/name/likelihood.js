// How likely an answer is if the coin is of a type. Shares and densities, never logarithms.
import { lessened, spread } from './normal.js';

export const CANNOT_TELL = '?';
export const DIFFERS = 0.25; // the part of what can be looked at in which "none of these" is like no type; an estimate, no source
export const NONE_YEARS = [1700, 2029]; // dates of a coin that the catalogue does not have
export const BROAD = { size: [8, 45], weight: [0.2, 60], gravity: [2, 22] }; // mm, grams, g/cm³: what any coin may measure

/**
 * Shares of each value of a choice, for a type that shows `stated`: they share 1 − error evenly, the others the rest.
 * A type that shows every value says nothing: all are alike.
 */
export function choiceRow(values, stated, error, row = new Float64Array(values.length)) {
  const shown = values.filter((value) => stated.includes(value)).length;
  const others = values.length - shown;
  for (let i = 0; i < values.length; i++) {
    row[i] = !shown || !others ? 1 / values.length : stated.includes(values[i]) ? (1 - error) / shown : error / others;
  }
  return row;
}

/** "18?7", "1807", "18" → ["1","8",null,"7"] …; or {problem} with a sentence. Hyphens and x stand for a digit not read. */
export function readDate(text) {
  const plain = String(text).trim().toLowerCase().replace(/[-–_.x*]/g, '?');
  if (!/^[\d?]{1,4}$/.test(plain)) return { problem: 'Write the four digits of the date, with ? for each that cannot be read.' };
  const digits = [...plain.padEnd(4, '?')].map((one) => (one === '?' ? null : one));
  if (digits.every((one) => one === null)) return { problem: 'Not one digit of the date is read: answer “cannot tell” instead.' };
  return { digits };
}

/** The share of misread digits, where `error` is that of whole dates. */
export const digitError = (error) => 1 - (1 - error) ** 0.25;

/** P(digits read | year). */
export function digitsGiven(digits, year, error) {
  const real = String(year).padStart(4, '0');
  const wrong = digitError(error);
  let share = 1;
  for (let i = 0; i < 4; i++) if (digits[i] !== null) share *= digits[i] === real[i] ? 1 - wrong : wrong / 9;
  return share;
}

/** P(digits read | no type of the catalogue): every year alike. */
export function digitsOfNone(digits, error) {
  const [first, last] = NONE_YEARS;
  let sum = 0;
  for (let year = first; year <= last; year++) sum += digitsGiven(digits, year, error);
  return sum / (last - first + 1);
}

/** Mixed with a share `error` of readings that may be anything. */
const mixed = (density, error, [low, high]) => (1 - error) * density + error / (high - low);

/** Density of a diameter read as `mm` with standard error `u`, for usual diameters low to high. */
export const sizeGiven = (mm, u, [low, high], error) => mixed(spread(mm, low, high, u), error, BROAD.size);

/** Density of a specific gravity read with standard uncertainty `u`, for an alloy's usual range. */
export const gravityGiven = (density, u, [low, high], error) => mixed(spread(density, low, high, u), error, BROAD.gravity);

/** Density of a weight in grams; `law`: {grams, sd (of new pieces), ...}; `loss`: mean share lost by wear. */
export const weightGiven = (grams, u, law, loss, error) =>
  mixed(lessened(grams, law.grams, law.grams * loss, Math.hypot(law.sd, u)), error, BROAD.weight);

export const ofNone = ([low, high]) => 1 / (high - low);

/**
 * Standard spread of new pieces about a lawful weight, grams. A tolerance is taken as the half-width of an even spread
 * (JCGM 100:2008, 4.3.7). Where the law names none: 3 % before 1800, 1.5 % before 1837, 0.7 % later (common practice, no source).
 */
export function flanSpread(grams, offGrains, firstYear) {
  if (offGrains) return offGrains * 0.06479891 / Math.sqrt(3);
  return grams * (firstYear < 1800 ? 0.03 : firstYear < 1837 ? 0.015 : 0.007);
}

// Mean share of the weight that wear has taken, by the least grade number. Common practice, no source.
const WEAR = [[60, 0.002], [50, 0.005], [40, 0.01], [20, 0.017], [12, 0.025], [8, 0.035], [4, 0.05], [3, 0.07], [0, 0.09]];
const WEAR_UNKNOWN = 0.025;

/** `grade`: number of the ladder, or null where none was given. */
export const wear = (grade) => (grade === null ? WEAR_UNKNOWN : WEAR.find(([least]) => grade >= least)[1]);
