// Whether an entry is one that the desk can take: by the same table of kinds that the desk checks with.
import { parseId } from './ids.js';
import { fail } from './net.js';

const MOST_CENTS = 1e12;
const MOST_PIECES = 100_000;
const MOST_COINS = 500; // in one entry
const MOST_SLOTS = 250; // of a set
const MOST_ROWS = 20; // of costs, payments and the like
const MOST_IDS = 5000;
const MOST_CHARS = 190_000; // of a whole entry as JSON; the desk's bound is 200,000
const PARAGRAPH = 500; // characters from which a text may have several lines
const UUID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;

/** Throws {code: 'bad', message} with a sentence that names the field. */
export function check(reference, kind, body) {
  const rules = reference.kinds[kind];
  if (!rules) throw fail('bad', `This app does not know entries of kind ${kind}.`);
  table(reference, rules, body, '');
  if (JSON.stringify(body).length > MOST_CHARS) throw wrong('', 'is too long; make it several');
}

function table(reference, rules, body, where) {
  if (typeof body !== 'object' || body === null || Array.isArray(body)) throw wrong(where, 'is not a table of fields');
  for (const name of Object.keys(body)) if (!rules[name]) throw wrong(where + name, 'is not a field of this kind of entry');
  for (const [name, rule] of Object.entries(rules)) {
    const value = body[name];
    if (value !== null && value !== undefined) one(reference, rule.replace(/!$/, ''), value, where + name);
    else if (rule.endsWith('!')) throw wrong(where + name, 'is missing');
  }
}

function one(reference, rule, value, where) {
  const [name, detail] = rule.split(/:(.*)/s);
  if (reference.fields[name]) table(reference, reference.fields[name], value, `${where}.`);
  else if (name === 'rows' && reference.rows?.[detail]) {
    const rules = reference.rows[detail];
    list(value, where, rules.coin ? MOST_COINS : rules.key ? MOST_SLOTS : MOST_ROWS);
    for (const row of value) {
      table(reference, rules, row, `${where}.`);
      if (row.weight < 0) throw wrong(`${where}.weight`, 'is below 0');
    }
    if (rules.coin) several(value.map((row) => row.coin), where);
  } else if (name === 'coins' || name === 'ids') {
    list(value, where, name === 'ids' ? MOST_IDS : MOST_COINS);
    for (const id of value) one(reference, 'id', id, where);
    if (name === 'coins') several(value, where);
  } else {
    const said = TESTS[name]?.(value, detail);
    if (said) throw wrong(where, said);
  }
}

function list(value, where, most) {
  if (!Array.isArray(value) || value.length > most) throw wrong(where, `is not a list of at most ${most}`);
}

/** A list of coins names at least one, and none twice. */
function several(coins, where) {
  if (!coins.length) throw wrong(where, 'names no coin');
  if (new Set(coins).size < coins.length) throw wrong(where, 'names a coin twice');
}

const whole = (value) => Number.isInteger(value) && Math.abs(value) <= MOST_CENTS;
// rule → (value, detail) → what is wrong with it, or nothing
const TESTS = {
  text(value, most) {
    if (typeof value !== 'string') return 'is not text';
    if ([...value].length > Number(most)) return `is longer than ${most} characters`;
    const control = Number(most) >= PARAGRAPH ? /[\x00-\x08\x0b-\x1f]/ : /[\x00-\x1f]/; // a mint mark or a place is one line
    return control.test(value) ? 'holds a control character' : '';
  },
  int(value, bounds) {
    if (!whole(value)) return 'is not a whole number';
    const [least, most] = bounds?.split(':').map(Number) ?? [-Infinity, Infinity];
    return value < least || value > most ? `is not between ${least} and ${most}` : '';
  },
  pieces: (value) => (whole(value) && value >= 1 && value <= MOST_PIECES ? '' : `is not a number of pieces from 1 to ${MOST_PIECES}`),
  decimal: (value, most) => (typeof value === 'string' && /^\d{1,7}(\.\d{1,10})?$/.test(value) && Number(value) <= Number(most)
    ? '' : 'is not a number such as 8.25, as text'),
  cents: (value) => (whole(value) && value >= 0 ? '' : 'is not an amount of money'),
  date: (value) => (isDate(value) ? '' : 'is not a date such as 2026-03-14'),
  id: (value) => (parseId(value).id === value ? '' : 'is not a coin ID'),
  uuid: (value) => (UUID.test(value) ? '' : 'is not a UUID'),
  digest: (value) => (typeof value === 'string' && /^[0-9a-f]{64}$/.test(value) ? '' : 'is not a SHA-256'),
  some: (value, words) => (!Array.isArray(value) || new Set(value).size < value.length ? 'is not a list of different words'
    : value.map((word) => TESTS.one(word, words)).find(Boolean) ?? ''),
  flag: (value) => (typeof value === 'boolean' ? '' : 'is not true or false'),
  one: (value, words) => (words.split('|').includes(value) ? '' : `is not one of ${words.split('|').filter(Boolean).join(', ')}`),
  grade: (value) => (typeof value === 'string' ? '' : 'is not a grade'),
};

function isDate(value) {
  const day = /^\d{4}-\d\d-\d\d$/.test(value) ? new Date(`${value}T00:00:00Z`) : NaN;
  return !Number.isNaN(Number(day)) && day.toISOString().startsWith(value);
}

const wrong = (where, what) => fail('bad', `${where || 'The entry'} ${what}.`);
