// The ways to serve a want or a slot, with their prices: what records/planning.py makes at the desk, from the tables that the
// desk worked out. Rungs are those of rungs.js.
const FEW_YEARS = 3; // a slot of so many dates asks for certain dates
const MOST_ISSUES = 12; // dates of a type that are priced apart, those with most sales
const [EARLIEST, LATEST] = [1500, 2100];

/** The years of "1800, 1802-1808"; null for what is no list of years, or names a year twice. */
export function yearsOf(text) {
  const found = new Set();
  for (const part of text.split(',')) {
    const [, first, last = first] = /^(\d{3,4})(?:\s*[-–]\s*(\d{3,4}))?$/.exec(part.trim()) ?? [];
    if (!(EARLIEST <= Number(first) && Number(first) <= Number(last) && Number(last) <= LATEST)) return null;
    for (let year = Number(first); year <= Number(last); year++) {
      if (found.has(year)) return null;
      found.add(year);
    }
  }
  return found;
}

/** What a want accepts that is for no slot: {types, years}. Free text such as “1794 or later” asks for no date. */
export function slotOf(want) {
  const types = want.types?.length ? want.types : want.type ? [want.type] : [];
  return { types, years: types.length && want.years && yearsOf(want.years) ? want.years : '' };
}

/**
 * A want or a slot as the planner takes it (see planner.js). `want` may be null, `has` is the grade that is to be bettered.
 * `prices`: type → {issues, tables} of the types that have recorded sales, `known(type)`: whether the catalogue has it.
 */
export function makeSought({ key, title, slot, want, has = '' }, { prices, rungs, known }) {
  const asked = windowed(slot, want, rungs);
  const ceiling = want?.own?.ceiling ?? null;
  let options = priced(asked, prices, rungs, known);
  if (!options.length && ceiling !== null) {
    const lowest = asked.grade_from || asked.grade_to ? rungs.window(asked)[0] : undefined;
    options = [{ ...EMPTY, grade: lowest === undefined ? '' : rungs.written(asked, lowest), cents: ceiling, basis: 'ceiling' }];
  }
  return { key, title, slot: asked, priority: want?.priority ?? 'usual', has, ceiling, options };
}

const EMPTY = { basis: 'estimate', type: '', issue: '', sales: 0, last: '' };

// The want's window goes before the slot's, as far as the two make one.
function windowed(slot, want, { number }) {
  const from = want?.grade_from || slot.grade_from || '';
  const to = want?.grade_to || slot.grade_to || '';
  const crossed = from && to && number(from) > number(to);
  return crossed ? slot : { ...slot, grade_from: from, grade_to: to };
}

// Every grade of the window at every date that sales speak of, and at a usual date where any will do.
function priced(slot, prices, rungs, known) {
  const gradeOf = new Map(rungs.window(slot).map((rung) => [rung, rungs.written(slot, rung)]));
  const found = [];
  for (const type of slot.types ?? []) {
    const held = prices.get(type);
    if (!held?.issues || !known(type)) continue;
    for (const issue of issuesFor(slot, held.issues)) {
      const [year, mint = ''] = issue.split('-');
      for (const [grade, , cents, , sales, last] of held.tables[`${year}/${mint}/${slot.strike === 'proof' ? 'PF' : ''}`] ?? []) {
        if (gradeOf.has(grade)) found.push({ grade: gradeOf.get(grade), cents, basis: 'estimate', type, issue, sales, last });
      }
    }
  }
  return found;
}

// What prices are asked of, '' for a usual date. `sold`: the dates and mints that sales speak of, "1806" or "1909-S", most first.
function issuesFor(slot, sold) {
  if (slot.subtype) return []; // recorded sales do not say which division of a type was sold
  const struck = slot.years ? yearsOf(slot.years) : new Set();
  const certain = slot.issues?.length || slot.mints?.length || (struck.size > 0 && struck.size <= FEW_YEARS);
  const fits = (issue) => {
    const [year, mint = ''] = issue.split('-');
    return (!struck.size || struck.has(Number(year))) && (!slot.mints?.length || slot.mints.includes(mint)) && (!slot.issues?.length || slot.issues.includes(issue));
  };
  return [...(certain ? [] : ['']), ...sold.filter(fits).slice(0, MOST_ISSUES)];
}
