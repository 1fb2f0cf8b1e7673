// The questions whose answers are many or measured: tables of P(answer | member) over the dates, the mints, the bins.
// Those that hang on the piece follow from what was answered of date, mint, weight and gravity, and are made anew then.
import { digitError, gravityGiven, wear, weightGiven } from './likelihood.js';
import { BINS, binned, CIRCLE_U, sizeRow } from './measures.js';
import { RESOLUTION, gravityMark, issueShares, mintGiven, weightMark } from './issues.js';
import { issueAnswers } from './posterior.js';
import { noise } from './entropy.js';

/** Prepared once. */
export function sizeTable(naming) {
  const rows = BINS.size.map(({ middle }) => sizeRow(naming, { mm: middle, u: CIRCLE_U }));
  return made(binned(BINS.size, naming.count + 1, (m, x, bin) => rows[bin][m]), BINS.size.length);
}

const made = (table, columns) => ({ table, columns, noises: noise(table, columns) });

/** {date, mint, weight, gravity}: each a function that gives {table, columns, noises}, kept until an answer changes it. */
export function hanging(naming, state) {
  const block = issueAnswers(state.answers ?? {});
  const key = JSON.stringify([block, naming.grade(state.grade)]);
  if (naming.kept?.key !== key) naming.kept = { key, after: issueShares(naming, block, state) };
  const { kept } = naming;
  const once = (name, make) => () => (kept[name] ??= make(kept.after));
  return {
    date: once('date', ({ shares }) => dates(naming, shares)),
    mint: once('mint', ({ shares }) => mints(naming, shares)),
    weight: once('weight', ({ laws }) => byLaws(naming, laws, weightBins(naming, wear(naming.grade(state.grade))))),
    gravity: once('gravity', ({ laws }) => byLaws(naming, laws, gravityBins(naming))),
  };
}

// One digit misread at most: more is too seldom to matter for choosing.
function dates(naming, shares) {
  const { from, year, years, misread } = naming.struck;
  const columns = years.length;
  const table = new Float64Array((naming.count + 1) * columns);
  for (let t = 0; t < naming.count; t++) {
    for (let i = from[t]; i < from[t + 1];) {
      let share = 0;
      const of = year[i];
      for (; i < from[t + 1] && year[i] === of; i++) share += shares[i]; // its mints
      if (share > 0) for (const [column, part] of misread.get(of)) table[t * columns + column] += share * part;
    }
  }
  table.fill(1 / columns, naming.count * columns);
  return made(table, columns);
}

/** year → [[column, share]]: how a year is read, among the years of the catalogue. */
export function misreadings(years, error) {
  const column = new Map(years.map((year, i) => [year, i]));
  const wrong = digitError(error);
  return new Map(years.map((year) => {
    const found = [[column.get(year), (1 - wrong) ** 4]];
    for (let place = 1; place <= 1000; place *= 10) {
      const digit = Math.floor(year / place) % 10;
      for (let other = 0; other < 10; other++) {
        const at = column.get(year + (other - digit) * place);
        if (other !== digit && at !== undefined) found.push([at, (wrong / 9) * (1 - wrong) ** 3]);
      }
    }
    const sum = found.reduce((total, [, share]) => total + share, 0);
    return [year, found.map(([at, share]) => [at, share / sum])];
  }));
}

function mints(naming, shares) {
  const { type, mint, mints: marks } = naming.struck;
  const columns = marks.length;
  const table = new Float64Array((naming.count + 1) * columns);
  const wrong = mintGiven(columns, false, naming.error.mint);
  const more = mintGiven(columns, true, naming.error.mint) - wrong;
  table.fill(columns < 2 ? 0 : wrong); // the shares of a type add up to one
  for (let i = 0; i < shares.length; i++) table[type[i] * columns + mint[i]] += shares[i] * (columns < 2 ? 1 : more);
  table.fill(1 / columns, naming.count * columns);
  return made(table, columns);
}

// Rows of the laws mixed as they stand in each type; "none of these" may measure anything.
function byLaws(naming, share, { rows, at, columns }) {
  const table = new Float64Array((naming.count + 1) * columns);
  naming.struck.laws.forEach((law, i) => {
    if (!share[i]) return;
    for (let c = 0; c < columns; c++) table[law.type * columns + c] += share[i] * rows[at[i] * columns + c];
  });
  table.fill(1 / columns, naming.count * columns);
  return made(table, columns);
}

// A row for each different law, `at`: law → row; a law that says nothing has the mean row of the others.
function lawRows(naming, bins, mark, density) {
  const { laws } = naming.struck;
  const columns = bins.length;
  const distinct = new Map();
  for (const law of laws) if (mark(law) && !distinct.has(mark(law))) distinct.set(mark(law), { law, row: distinct.size });
  const of = [...distinct.values()].map((one) => one.law);
  const rows = binned(bins, of.length + 1, (i, x) => (i < of.length ? density(of[i], x) : 1));
  const at = laws.map((law) => distinct.get(mark(law))?.row ?? of.length);
  const mean = rows.subarray(of.length * columns);
  const known = at.filter((row) => row < of.length);
  if (known.length) {
    mean.fill(0);
    for (const row of known) for (let c = 0; c < columns; c++) mean[c] += rows[row * columns + c] / known.length;
  }
  return { rows, at, columns };
}

function weightBins(naming, loss) {
  naming.weightRows ??= new Map();
  if (!naming.weightRows.has(loss)) {
    naming.weightRows.set(loss, lawRows(naming, BINS.weight, weightMark, (law, x) => weightGiven(x, RESOLUTION.weight, law, loss, naming.error.weight)));
  }
  return naming.weightRows.get(loss);
}

function gravityBins(naming) {
  return (naming.gravityRows ??= lawRows(naming, BINS.gravity, gravityMark, (law, x) => gravityGiven(x, RESOLUTION.gravity, law.range, naming.error.gravity)));
}
