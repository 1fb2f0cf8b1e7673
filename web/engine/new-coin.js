// What follows from a coin's fields, for cards that the desk has not made yet: names, title, date.
import { names } from './reference.js';

const EMPTY = {
  denom: '', type: '', title: '', year: null, mint: '', variety: '', grade: '', certified_by: '', certificate: '', place: '', ask: null, publish: [],
};
const NAMING = ['denom', 'type', 'title'];
const UNNAMED = 'Coin not named yet';

/** The card of coin `id`, in stock, with the fields of a purchase or a new entry. */
export function newCoin(id, { floor: _, held: __, pieces, ...set }) {
  const about = { ...EMPTY, ...set, ...(pieces > 1 ? { pieces, left: pieces } : {}) };
  return {
    id, ...about, state: 'in stock', ...named(about), ...graded(about), dateText: dateText(about),
    notes: [], checks: {}, photos: [], looks: 0, at: null,
  };
}

/** Set the fields of an edit, or of one taken back, in a card; what follows from them follows. */
export function edited(card, { floor, held, ...set }) {
  Object.assign(card, set);
  if (floor !== undefined && card.own) card.own.floor = floor;
  if (held !== undefined && card.own) card.own.held = held;
  if (NAMING.some((name) => name in set)) Object.assign(card, named(card));
  return Object.assign(card, 'grade' in set ? graded(card) : {}, { dateText: dateText(card) });
}

/** {denomName, typeName, title} of a coin or a want. */
export function named({ denom, type, title }) {
  const [denomName, typeName] = [names.denomination(denom), names.type(type)];
  const said = typeName || title || '';
  const whole = denomName && said && !said.toLowerCase().startsWith(denomName.toLowerCase()) ? `${denomName}, ${said}` : said || denomName;
  return { denomName, typeName, title: whole || UNNAMED };
}

const WANT = { denom: '', type: '', title: '', years: '', grade_from: '', grade_to: '', priority: 'usual', note: '' };

// What an entry says, with what is usual where it says that a field is empty.
const said = (set, usual) => Object.fromEntries(Object.entries(set).map(([name, value]) => [name, value ?? usual[name] ?? null]));

/** Set the fields of a want in its card: a ceiling is the owner's alone, and of the rest its name follows. */
export function wanted(card, { ceiling, ...set }, owner) {
  const now = { ...WANT, ...card, title: rawTitle(card), ...said(set, WANT) };
  if (owner) now.own = { ceiling: null, ...card.own, ...(ceiling === undefined ? {} : { ceiling }) };
  return Object.assign(card, now, named(now));
}

const SEEN = { contact: null, dealer: '', table: '', show: null, date: '', denom: '', type: '', year: null, mint: '', grade: '', ask: null, photo: null, note: '' };

/** Set the fields of a sighting in its card; what was offered, and for which want, is the owner's alone. */
export function seen(card, set, owner) {
  const { want, offer, answer, ...open } = set;
  const now = { ...SEEN, ...card, title: rawTitle(card), ...said(open, SEEN) };
  const own = Object.fromEntries(Object.entries({ want, offer, answer }).filter(([, value]) => value !== undefined));
  if (owner) now.own = { want: null, offer: null, answer: '', ...card.own, ...own };
  return Object.assign(card, now, named(now), { dateText: dateText(now) });
}

/** What was said in words of a thing whose card has its whole title; '' where a type of the catalogue names it. */
export function rawTitle({ title = '', denomName = '', typeName = '' }) {
  if (typeName || title === denomName || title === UNNAMED) return '';
  return denomName && title.startsWith(`${denomName}, `) ? title.slice(denomName.length + 2) : title;
}

function graded({ grade }) {
  const [gradeName, gradeNumber] = names.grade(grade);
  return { gradeName, gradeNumber };
}

const dateText = ({ year, mint }) => (year == null ? 'no date' : mint ? `${year}-${mint}` : String(year));
