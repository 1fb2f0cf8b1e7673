// From which purchase the pieces of a lot are: asked where the book does not take the first in, and several brought them.
import { choice } from './field.js';
import { costsHidden } from './discretion.js';
import { show } from './money.js';
import { showDate } from './dates.js';
import { count } from './words.js';
import { partsOf } from '../deal/lot.js';

const ROADS = { trade: 'a trade', inherited: 'inherited', gift: 'a gift', found: 'found', opening: 'brought forward' };

/** Whether the book wants the purchase named. A helper's phone is not told, and the desk asks then. */
export async function asksPart(engine) {
  return (await engine.card('book', 'book'))?.own?.lots === 'specific';
}

/** The purchases to choose from; [] where nothing is to be asked. `specific`: as asksPart has it. */
export const askedOf = (card, specific) => (specific ? partsOf(card) : []);

/** The choice, by the field `name`. What a piece cost stands there while costs are shown. */
export function partField(ui, form, name, parts, label = 'From which purchase') {
  const { currency } = ui.engine.state;
  const each = ({ cents, left }) => (cents === null ? ', cost not known' : `, ${cents % left ? 'about ' : ''}${show(Math.round(cents / left), currency)} each`);
  const words = (one) => `${[showDate(one.date), ROADS[one.how], one.from].filter(Boolean).join(', ')}: ${one.left} left${costsHidden() ? '' : each(one)}`;
  const chosen = parts.find(({ fact }) => fact === form.values[name]);
  return choice(form, name, label, [['', 'Say which'], ...parts.map((one) => [one.fact, words(one)])], { help: chosen && !costsHidden() ? `${chosen.left} left${each(chosen)}.` : 'Not needed where all that is left goes.' });
}

/** {from, wrong}: the purchase chosen, '' for none; a sentence where one must be named, or has not so many pieces left. */
export function readPart(parts, chosen, many, left) {
  const one = parts.find(({ fact }) => fact === chosen);
  if (!one) return { from: '', wrong: parts.length && many < left ? 'Say from which purchase these pieces are.' : '' };
  return { from: one.fact, wrong: many > one.left ? `Of that purchase ${count(one.left, 'piece')} ${one.left === 1 ? 'is' : 'are'} left.` : '' };
}
