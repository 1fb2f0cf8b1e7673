// A want beside a coin: what it asks for, and where a coin in the hand departs from it.
import { html, nothing } from './html.js';
import { icon } from './icons.js';
import { readGrade } from './grade-picker.js';
import { costButton } from './coin-money.js';
import { costsHidden } from './discretion.js';
import { show } from './money.js';

export const PRIORITY = { high: ['high', 'First', 'good'], usual: ['', '', ''], low: ['low', 'Some day', 'quiet'] };

export const gradeSpan = (want) => (want.grade_from && want.grade_to && want.grade_from !== want.grade_to ? `${want.grade_from} to ${want.grade_to}`
  : want.grade_from ? (want.grade_to ? want.grade_from : `${want.grade_from} or better`) : want.grade_to ? `up to ${want.grade_to}` : 'any grade');

/** Whether a want accepts this type of the catalogue. */
export const serves = (want, type) => Boolean(type) && (want.type === type || Boolean(want.types?.includes(type)));

/** Those that a coin of this type, and of this year where it is a number, may fill. */
export const servedBy = (wants, { type, year }) => wants.filter((one) => serves(one, type) && (typeof year !== 'number' || inYears(one.years, year)));

/**
 * Sentences on what of {type, year, grade, cents} a want does not ask for; what is not known yet is not judged.
 * `year` and `cents` are numbers or null, `grades` the reference's.
 */
export function departures(want, { type, year, grade, cents }, grades, currency) {
  const found = [];
  const number = (text) => readGrade(text, grades).number;
  const [is, from, to] = [number(grade), number(want.grade_from), number(want.grade_to)];
  if (type && want.type && !serves(want, type)) found.push('It is of another type than the want names.');
  if (year !== null && !inYears(want.years, year)) found.push(`The want asks for ${want.years}.`);
  if (is !== null && from !== null && is < from) found.push(`The want asks for ${want.grade_from}${to === null ? ' or better' : ' at least'}.`);
  if (is !== null && to !== null && is > to) found.push(`The want asks for ${want.grade_to} at most.`);
  const ceiling = want.own?.ceiling;
  if (ceiling != null && cents > ceiling) found.push(costsHidden() ? 'All in, it is over the ceiling.' : `All in, it is ${show(cents - ceiling, currency)} over the ceiling.`);
  return found;
}

// Whether a year is in "1793" or "1800-1808, 1810"; yes, where the text says something else.
export function inYears(text, year) {
  const spans = (text ?? '').split(',').map((part) => part.trim().match(/^(\d{3,4})(?:\s*[-–]\s*(\d{3,4}))?$/));
  return !spans.every(Boolean) || spans.some(([, first, last = first]) => year >= Number(first) && year <= Number(last));
}

// The want that a purchase is to fill: what it asks for, what departs from it, and the way to leave it open. Its ceiling
// shows after the press that shows costs, where `ui` is given.
export function fills(want, departs, currency, leave, ui) {
  return html`<section class="callout ${departs.length ? 'warn' : 'good'} fills">${icon(departs.length ? 'warn' : 'wants')}<div class="stack">
    <p>Fills the want <b>${want.title}</b>, <span class="figures">${want.years || 'any date'}</span>, ${gradeSpan(want)}${want.own?.ceiling == null || costsHidden() ? nothing : html`, up to <b class="money">${show(want.own.ceiling, currency)}</b>`}.
      <span class="soft">It goes off the list then.</span></p>
    ${departs.length ? html`<ul class="plain" role="status">${departs.map((one) => html`<li>${one}</li>`)}</ul>` : nothing}
    ${ui && want.own?.ceiling != null ? costButton(ui, 'the ceiling') : nothing}
    <button type="button" class="button plain left" @click=${leave}>Leave the want open</button></div></section>`;
}

// A want of the type that is being bought, not yet said to be filled by it.
export const offered = (want, fill) => html`<button type="button" class="button wide" @click=${fill}>${icon('wants')}<span>Fill the want${want.years ? ` for ${want.years}` : ''}, ${gradeSpan(want)}</span></button>`;
