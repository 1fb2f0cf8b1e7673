// The reference as the desk packs it (server/exergue/coins/pack.py), made into what screens read. What a type has by
// default is put back; what few screens ask for is made when first asked for, since the app's start waits for this.

/** Changes `pack` and returns it. Once only: what is kept on the phone is the pack. */
export function unpacked(pack) {
  const { keys, ...columns } = pack.types;
  const types = keys.map(() => ({}));
  for (const [name, column] of Object.entries(columns)) {
    for (let i = 0; i < types.length; i++) if (column[i] !== null) types[i][name] = column[i];
  }
  pack.types = Object.fromEntries(types.map((type, i) => [keys[i], new CoinType(type, pack)]));
  return pack;
}

/** "1800,1802-1808" → [1800, 1802, …]. */
export function years(text = '') {
  const found = [];
  for (const run of text ? text.split(',') : []) {
    const [first, last = first] = run.split('-').map(Number);
    for (let year = first; year <= last; year++) found.push(year);
  }
  return found;
}

/** A type as screens read it; fields as in pack.py, years as numbers, keys of types in full. */
class CoinType {
  #packed;
  #pack;
  #made = {};

  constructor(packed, pack) {
    [this.#packed, this.#pack] = [packed, pack];
    const { name, title, denom, family = '', survivors = 0, rare = [], edge, axis, alloy, mm, obverse, reverse, designer = '', questions = [] } = packed;
    Object.assign(this, { name, title, denom, family, survivors, rare, edge, axis, alloy, mm, obverse, reverse, designer, questions });
    this.years = years(packed.years);
    this.single = this.years.length === 1;
    this.metal = pack.alloys[alloy]?.name ?? '';
  }

  #once(name, make) {
    return (this.#made[name] ??= make(this.#packed[name]));
  }

  #full(key) {
    return key.includes('/') ? key : `${this.denom}/${key}`;
  }

  get proofOnly() { return this.#once('proofOnly', years); }

  get proofDisputed() { return this.#once('proofDisputed', years); }

  get near() { return this.#once('near', (keys = []) => keys.map((key) => this.#full(key))); }

  get alongside() { return this.#once('alongside', (keys = []) => keys.map((key) => this.#full(key))); }

  get shows() { return this.#once('shows', (shows = {}) => Object.fromEntries(Object.entries(shows).map(([key, value]) => [key, list(value)]))); }

  get weights() { return this.#once('weights', (all = []) => all.map((one) => ({ note: '', off: 0, alloy: this.alloy, ...one, years: this.#yearsOf(one) }))); }

  get subtypes() { return this.#once('subtypes', (all = []) => all.map((one) => ({ note: '', ...one, years: this.#yearsOf(one) }))); }

  #yearsOf(one) {
    return one.years ? years(one.years) : this.years;
  }

  /** Every date and mint, those that the pack only names among them: {year, mint, mintage?, source?, note?, varieties?, proofOnly?}. */
  get issues() {
    return this.#once('issues', (told = []) => {
      const struck = Object.entries(this.#packed.struck ?? {});
      const bare = struck.flatMap(([mint, text]) => years(text).map((year) => ({ year, mint })));
      return [...told.map((one) => ({ mint: '', ...one })), ...bare]
        .map((one) => (this.proofOnly.includes(one.year) ? { ...one, proofOnly: true } : one))
        .sort((a, b) => a.year - b.year || (a.mint < b.mint ? -1 : a.mint > b.mint ? 1 : 0));
    });
  }

  /** The checklist: first what would end the deal. */
  get looks() {
    return this.#once('looks', (looks = []) => looks.map((one) => (typeof one === 'string' ? this.#filled(one) : this.#look(one))));
  }

  // A shared check, with what is said of the type in its marks.
  #filled(key) {
    const words = { metal: this.metal, ...this.#packed.words };
    const look = this.#look(this.#pack.checks[key], key);
    return { ...look, fits: look.fits.replace(/\{(\w+)\}/g, (mark, name) => words[name] ?? mark) };
  }

  #look(look, key = look.key ?? look.feature) {
    const feature = this.#pack.features[look.feature];
    const made = {
      look: feature?.look, effort: feature?.effort, error: feature?.error, asks: 'type', kills: false, ...look, key,
      values: look.values ? list(look.values) : [],
      instead: Object.fromEntries(Object.entries(look.instead ?? {}).map(([near, shows]) => [this.#full(near), shows])),
    };
    if (look.years) made.years = years(look.years);
    return made;
  }
}

const list = (value) => (Array.isArray(value) ? value : [value]);
