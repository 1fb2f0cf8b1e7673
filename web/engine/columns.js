// Many coins in little memory: a column a field, and each different word of a column kept once.
import { fieldsOf, plain } from './lines.js';

/** Numbers for the different words of a column. */
export class Words {
  constructor() {
    this.words = [];
    this.texts = []; // what is searched of each
    this.codes = new Map();
  }

  code(word, more = '') {
    let code = this.codes.get(word);
    if (code === undefined) {
      code = this.words.push(JSON.parse(JSON.stringify(word))) - 1; // a copy: a slice would keep its whole pack's text
      this.texts.push(plain(more ? `${word} ${more}` : word));
      this.codes.set(word, code);
    }
    return code;
  }

  /** For each code, 1 where its text holds `part`. */
  holding(part) {
    return Uint8Array.from(this.texts, (text) => (text.includes(part) ? 1 : 0));
  }
}

export const CODED = ['state', 'place', 'denom', 'type', 'title', 'dateText', 'grade', 'mint', 'theirs'];
const STEP = 11; // an ID and a line end

export class Columns {
  constructor() {
    this.size = 0;
    this.idText = '';
    this.free = [];
    this.photos = [];
    this.words = Object.fromEntries(CODED.map((name) => [name, new Words()]));
    this.room(1024);
  }

  room(most) {
    for (const name of CODED) this[name] = larger(this[name], Uint32Array, most);
    this.year = larger(this.year, Uint16Array, most);
    this.ask = larger(this.ask, Float64Array, most); // cents; NaN for no price
    this.most = most;
  }

  /** Add the lines of some packs, which must come in the order of their IDs. */
  add(texts) {
    const first = this.size;
    const [ids, free, photos] = [[], [], []];
    for (const text of texts) {
      if (!text) continue;
      for (const line of text.split('\n')) {
        const one = fieldsOf(line);
        const i = this.size++;
        if (i === this.most) this.room(2 * i);
        ids.push(one.id);
        for (const name of CODED) this[name][i] = this.words[name].code(one[name], name === 'grade' ? one.gradeName : '');
        this.year[i] = Number(one.year) || 0;
        this.ask[i] = one.ask === '' ? NaN : Number(one.ask);
        photos.push(one.photo);
        free.push(one.free);
      }
    }
    if (ids.length) this.idText += `${ids.join('\n')}\n`;
    spread(this.free, first, plain(free.join('\n')));
    spread(this.photos, first, photos.join('\n'));
  }

  id(i) {
    return this.idText.slice(i * STEP, (i + 1) * STEP - 1);
  }

  /** Where coin `id` stands, or would stand. */
  standing(id) {
    let [low, high] = [0, this.size];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.id(middle) < id) low = middle + 1;
      else high = middle;
    }
    return low;
  }

  /** Where coin `id` stands, or -1. */
  find(id) {
    const place = this.standing(id);
    return place < this.size && this.id(place) === id ? place : -1;
  }

  /** 1 for each coin whose ID holds `part` (in capitals), or null where none does. */
  idsHolding(part) {
    let found = null;
    for (let at = this.idText.indexOf(part); at >= 0; at = this.idText.indexOf(part, at + 1)) {
      found ??= new Uint8Array(this.size);
      found[Math.floor(at / STEP)] = 1;
    }
    return found;
  }

  word(name, i) {
    return this.words[name].words[this[name][i]];
  }

  /** The list row of coin `i`. */
  row(i) {
    const row = { id: this.id(i), year: this.year[i] || null, ask: Number.isNaN(this.ask[i]) ? null : this.ask[i], photo: this.photos[i] ?? null };
    for (const name of CODED) row[name] = this.word(name, i);
    return row;
  }
}

// Joined and parted again, so that a short note does not keep a whole pack's text in memory.
function spread(into, first, joined) {
  if (joined) joined.split('\n').forEach((text, i) => { if (text) into[first + i] = text; });
}

function larger(held, Type, most) {
  const made = new Type(most);
  if (held) made.set(held);
  return made;
}
