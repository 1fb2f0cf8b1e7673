// Search as you type over columns in memory. Every word must be found; the rest is filters. No I/O.
import { Columns } from './columns.js';
import { fieldsOf, plain } from './lines.js';
import { compare, Order, PLACES } from './order.js';

const SEARCHED = ['title', 'dateText', 'grade', 'place'];
const FILTERS = ['state', 'place', 'denom', 'type'];
const ID_PART = 4; // characters of an ID from which on it is searched: fewer would find coins by chance

export class Finder {
  /** `rank` {denom(key), type(key)}: numbers that order them. Fill it with `add`, then `sort` it. */
  constructor(rank) {
    this.rank = rank;
    this.base = new Columns();
    this.changed = new Map(); // id → {row, text, key, tuple}, or null where it is gone: newer than the packs, or painted
    this.sort();
  }

  /** Lines of packs, in the order of their IDs. */
  add(texts) {
    this.base.add(texts);
  }

  sort() {
    this.order = new Order(this.base, this.rank);
    this.keys = this.order.keys();
    this.stands = Uint32Array.from(this.keys, (key) => key % PLACES); // where the coins of the keys stand
    this.hidden = new Uint8Array(this.base.size);
    this.left = null; // what the last query left: {words, filters, at}
  }

  /** A coin's newer line, or null where it is gone. */
  change(id, line) {
    const at = this.base.find(id);
    if (at >= 0) this.hidden[at] = 1;
    this.changed.set(id, line ? this.entry(line) : null);
  }

  entry(line) {
    const { seq, gradeName, free, ...row } = fieldsOf(line);
    Object.assign(row, { year: Number(row.year) || null, ask: row.ask === '' ? null : Number(row.ask), photo: row.photo || null });
    const text = plain([row.title, row.dateText, row.grade, gradeName, row.place, free].join(' '));
    return { row, text, key: this.order.keyOf(row), tuple: this.order.tuple(row) };
  }

  /** Take back a change that was only painted: the line of the pack counts again. */
  restore(id) {
    const at = this.base.find(id);
    if (at >= 0) this.hidden[at] = 0;
    this.left = null;
    this.changed.delete(id);
  }

  /** The places where coins are, in order. */
  places() {
    const { base } = this;
    const used = new Set();
    for (let i = 0; i < base.size; i++) if (!this.hidden[i]) used.add(base.place[i]);
    const names = new Set([...used].map((code) => base.words.place.words[code]));
    for (const one of this.changed.values()) if (one) names.add(one.row.place);
    names.delete('');
    return [...names].sort((a, b) => a.localeCompare(b, undefined, { numeric: true }));
  }

  /** The photos of coins in stock, in no order. */
  photos() {
    const { base } = this;
    const stocked = base.words.state.codes.get('in stock');
    const found = [...this.changed.values()].map((one) => one?.row.photo).filter(Boolean);
    base.photos.forEach((photo, i) => { if (base.state[i] === stocked) found.push(photo); });
    return found;
  }

  /** The rows of all coins of these types (a Set), sold ones too, in no order: one pass, whatever their number. */
  ofTypes(types) {
    const { base, hidden } = this;
    const codes = new Set([...types].map((type) => base.words.type.codes.get(type)));
    codes.delete(undefined);
    const rows = [];
    for (let i = 0; codes.size && i < base.size; i++) if (!hidden[i] && codes.has(base.type[i])) rows.push(base.row(i));
    for (const one of this.changed.values()) if (one && types.has(one.row.type)) rows.push(one.row);
    return rows;
  }

  /** {rows, total}: the first `limit` in the order of denomination, type, date and mint. */
  find(text = '', { limit = 50, ...filters } = {}) {
    const words = plain(text).split(/\s+/).filter(Boolean);
    const extra = this.extra(words, filters);
    const { keys, total } = this.matches(words, filters, limit);
    return { rows: this.merge(keys, extra, limit), total: total + extra.length };
  }

  /** How many coins of the packs fit, and the keys of the first of them. A growing query looks only at what the shorter one left. */
  matches(words, filters, limit) {
    const { base, hidden, stands } = this;
    const wanted = FILTERS.filter((name) => filters[name]).map((name) => [base[name], base.words[name].codes.get(filters[name])]);
    const keys = [];
    if (wanted.some(([, code]) => code === undefined)) return { keys, total: 0 };
    const before = this.left && grows(this.left, words, filters) ? this.left.at : null;
    const left = new Uint32Array(before ? before.length : stands.length);
    const tests = words.map((word) => this.test(word));
    let total = 0;
    next: for (let k = 0; k < left.length; k++) { // plain loops: of 100,000 coins the iterators would cost most
      const at = before ? before[k] : k;
      const i = stands[at];
      if (hidden[i]) continue;
      for (let n = 0; n < wanted.length; n++) if (wanted[n][0][i] !== wanted[n][1]) continue next;
      for (let n = 0; n < tests.length; n++) if (!tests[n](i)) continue next;
      if (total < limit) keys.push(this.keys[at]);
      left[total++] = at;
    }
    this.left = { words, filters, at: left.subarray(0, total) };
    return { keys, total };
  }

  /** A test of coin `i` for one word: a few table look-ups; free text is read only where they say no. */
  test(word) {
    const { base } = this;
    const [title, date, grade, place] = SEARCHED.map((name) => base.words[name].holding(word));
    const ids = isIdPart(word) ? base.idsHolding(idPart(word)) : null;
    const { free } = base;
    return (i) => title[base.title[i]] === 1 || date[base.dateText[i]] === 1 || grade[base.grade[i]] === 1 || place[base.place[i]] === 1
      || (ids !== null && ids[i] === 1) || (free[i] !== undefined && free[i].includes(word));
  }

  extra(words, filters) {
    const found = [];
    for (const one of this.changed.values()) {
      if (!one || FILTERS.some((name) => filters[name] && one.row[name] !== filters[name])) continue;
      if (words.every((word) => one.text.includes(word) || (isIdPart(word) && one.row.id.includes(idPart(word))))) found.push(one);
    }
    return found.sort((a, b) => compare(a.tuple, b.tuple));
  }

  merge(keys, extra, limit) {
    const rows = [];
    for (let i = 0, j = 0; rows.length < limit && (i < keys.length || j < extra.length);) {
      if (j >= extra.length || keys[i] < extra[j].key) rows.push(this.base.row(keys[i++] % PLACES));
      else rows.push(extra[j++].row);
    }
    return rows;
  }
}

// Whether each word of the query before goes on in the new one. From its fourth character a word is looked for in IDs,
// too, and may find again what the shorter one had not.
function grows(before, words, filters) {
  return FILTERS.every((name) => (before.filters[name] || '') === (filters[name] || '')) && before.words.length <= words.length
    && before.words.every((word, n) => words[n].startsWith(word) && isIdPart(words[n]) === isIdPart(word));
}

const isIdPart = (word) => word.length >= ID_PART && /^[0-9a-z]+$/.test(word);
const idPart = (word) => word.toUpperCase().replace(/O/g, '0').replace(/[IL]/g, '1');
