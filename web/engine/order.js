// The order of the stock, as at the desk: by denomination, type, date, mint and ID. One number a coin, for numbers sort fast.
export const PLACES = 2 ** 20; // more coins than a phone holds: the last part of a key is where the coin stands
const YEARS = 2 ** 10;
const YEAR_0 = 1500; // no date comes first
const MINTS = 2 ** 5;

/** Keys for `columns`, of 52 bits: what it is (twice its rank, so that others fit between), year, mint, place. */
export class Order {
  constructor(columns, rank) {
    this.columns = columns;
    this.rank = rank;
    const { denom, type, title, size } = columns;
    const at = new Map(); // denomination, type and title in one number → the first coin of that kind
    this.kinds = new Uint32Array(size);
    const [types, titles] = [columns.words.type.words.length, columns.words.title.words.length];
    for (let i = 0; i < size; i++) {
      const kind = (denom[i] * types + type[i]) * titles + title[i];
      if (!at.has(kind)) at.set(kind, at.size);
      this.kinds[i] = at.get(kind);
    }
    const whats = [...at.keys()].map((kind) => {
      const [rest, third] = [Math.floor(kind / titles), kind % titles];
      return this.what({
        denom: columns.words.denom.words[Math.floor(rest / types)], type: columns.words.type.words[rest % types], title: columns.words.title.words[third],
      });
    });
    const sorted = [...whats.keys()].sort((a, b) => compare(whats[a], whats[b]));
    this.ranks = new Uint32Array(sorted.length);
    sorted.forEach((kind, rankOf) => { this.ranks[kind] = rankOf; });
    this.whats = sorted.map((kind) => whats[kind]);
  }

  what({ denom, type, title }) {
    return [this.rank.denom(denom), this.rank.type(type), title];
  }

  /** Keys of all coins, sorted. */
  keys() {
    const { year, size } = this.columns;
    const keys = new Float64Array(size);
    for (let i = 0; i < size; i++) keys[i] = key(2 * this.ranks[this.kinds[i]] + 1, year[i], this.columns.word('mint', i), i);
    return keys.sort();
  }

  /** All that orders a row that is not in the columns, for `compare` with others of that sort. */
  tuple(row) {
    return [...this.what(row), row.year || 0, row.mint, row.id];
  }

  /** The key of such a row: between those of its neighbours in the columns. */
  keyOf(row) {
    const what = this.what(row);
    let [low, high] = [0, this.whats.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (compare(this.whats[middle], what) < 0) low = middle + 1;
      else high = middle;
    }
    const there = low < this.whats.length && compare(this.whats[low], what) === 0;
    return key(2 * low + (there ? 1 : 0), row.year, row.mint, this.columns.standing(row.id) - 0.5);
  }
}

function key(rank, year, mint, place) {
  const when = year ? Math.min(Math.max(year - YEAR_0, 1), YEARS - 1) : 0;
  return ((rank * YEARS + when) * MINTS + (mint ? mint.charCodeAt(0) % MINTS : 0)) * PLACES + place;
}

export function compare(a, b) {
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return a[i] < b[i] ? -1 : 1;
  return 0;
}
