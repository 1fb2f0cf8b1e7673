// Search as you type over lines in memory. Words must all be found; the rest is filters. No I/O.
import { field, hayAt, rowOf } from './lines.js';

const DENOM = 2, STATE = 3, PLACE = 4, TITLE = 5, DATE = 6;

/** Numbers for the few different words of a column, so that a filter compares numbers. */
class Codes {
  constructor() {
    this.words = [];
    this.of = new Map();
  }

  code(word) {
    let code = this.of.get(word);
    if (code === undefined) {
      code = this.words.push(word) - 1;
      this.of.set(word, code);
    }
    return code;
  }
}

export class Finder {
  /** `texts`: packs of lines. `rank(denom)` orders denominations. */
  constructor(texts, rank = () => 0) {
    this.rank = rank;
    this.codes = { denom: new Codes(), state: new Codes(), place: new Codes() };
    this.changed = new Map(); // id → {line, key} or null: newer than the packs, or painted
    this.lines = [];
    for (const text of texts) if (text) for (const line of text.split('\n')) this.lines.push(line);
    this.sort();
    this.narrow = null; // the last query and the lines that it left
  }

  sort() {
    const keys = this.lines.map((line) => this.key(line));
    const order = Array.from(keys.keys()).sort((a, b) => (keys[a] < keys[b] ? -1 : keys[a] > keys[b] ? 1 : 0));
    this.lines = order.map((at) => this.lines[at]);
    const size = this.lines.length;
    this.columns = { denom: new Uint16Array(size), state: new Uint16Array(size), place: new Uint16Array(size) };
    this.hay = new Uint32Array(size);
    this.hidden = new Uint8Array(size);
    this.at = new Map();
    this.lines.forEach((line, i) => {
      this.columns.denom[i] = this.codes.denom.code(field(line, DENOM));
      this.columns.state[i] = this.codes.state.code(field(line, STATE));
      this.columns.place[i] = this.codes.place.code(field(line, PLACE));
      this.hay[i] = hayAt(line);
      this.at.set(field(line, 0), i);
    });
  }

  key(line) {
    return `${String(this.rank(field(line, DENOM))).padStart(3, '0')} ${field(line, TITLE)} ${field(line, DATE)} ${field(line, 0)}`;
  }

  /** A coin's newer line, or null where it is gone. */
  change(id, line) {
    const at = this.at.get(id);
    if (at !== undefined) this.hidden[at] = 1;
    this.changed.set(id, line ? { line, key: this.key(line) } : null);
    this.narrow = null;
  }

  /** Take back a change that was only painted: the line of the pack counts again. */
  restore(id) {
    const at = this.at.get(id);
    if (at !== undefined) this.hidden[at] = 0;
    this.changed.delete(id);
    this.narrow = null;
  }

  places() {
    const used = new Set();
    this.columns.place.forEach((code, i) => { if (!this.hidden[i]) used.add(this.codes.place.words[code]); });
    for (const one of this.changed.values()) if (one) used.add(field(one.line, PLACE));
    return [...used].filter(Boolean).sort((a, b) => a.localeCompare(b, undefined, { numeric: true }));
  }

  /** {rows, total}: the first `limit` in the order of denomination, type and date. */
  find(text = '', { state = '', place = '', denom = '', limit = 50 } = {}) {
    const words = text.toLowerCase().split(/\s+/).filter(Boolean);
    const filters = Object.entries({ state, place, denom }).filter(([, word]) => word);
    const base = this.base(words, filters);
    const extra = [];
    for (const one of this.changed.values()) {
      if (one && fits(one.line, words) && filters.every(([name, word]) => field(one.line, COLUMN[name]) === word)) extra.push(one);
    }
    extra.sort((a, b) => (a.key < b.key ? -1 : 1));
    return { rows: this.merge(base, extra, limit), total: base.length + extra.length };
  }

  /** Lines of the packs that fit; a longer query looks only at what the shorter one left. */
  base(words, filters) {
    const query = words.join(' ');
    const filterKey = JSON.stringify(filters);
    const before = this.narrow;
    const usable = before && before.filterKey === filterKey && query.startsWith(before.query);
    const from = usable ? before.found : null;
    const codes = filters.map(([name, word]) => [this.columns[name], this.codes[name].of.get(word)]);
    const found = [];
    const size = from ? from.length : this.lines.length;
    for (let k = 0; k < size; k++) {
      const i = from ? from[k] : k;
      if (this.hidden[i] || (!from && codes.some(([column, code]) => column[i] !== code))) continue;
      const line = this.lines[i];
      const hay = this.hay[i];
      if (words.every((word) => line.includes(word, hay))) found.push(i);
    }
    this.narrow = { query, filterKey, found };
    return found;
  }

  merge(base, extra, limit) {
    const lines = [];
    for (let i = 0, j = 0; lines.length < limit && (i < base.length || j < extra.length);) {
      const line = this.lines[base[i]];
      if (j >= extra.length || (line && this.key(line) <= extra[j].key)) {
        lines.push(line);
        i++;
      } else lines.push(extra[j++].line);
    }
    return lines.map(rowOf);
  }
}

const COLUMN = { denom: DENOM, state: STATE, place: PLACE };

function fits(line, words) {
  const hay = hayAt(line);
  return words.every((word) => line.includes(word, hay));
}
