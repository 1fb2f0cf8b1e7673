// What a coin is, as fields of a form: denomination, date, mint, type, grade, place, asking price.
import { html, nothing } from './html.js';
import { icon } from './icons.js';
import { amount, cents, picker, text } from './field.js';
import { pickGrade } from './grade-picker.js';
import { neverStruck, pickType, typesOf } from './type-picker.js';
import { options } from './options.js';
import { ownedBeside } from './owned.js';
import { askedBy } from '../naming/kept.js';

export const coinValues = () => ({ denom: '', type: '', title: '', year: '', mint: '', variety: '', grade: '', place: '', ask: '', floor: '' });

// {set, wrong}: the fields of the fact, and what is wrong with them by field.
export function readCoin(ui, form) {
  const { values } = form;
  const wrong = {};
  const set = {};
  for (const name of ['denom', 'type', 'title', 'mint', 'variety', 'grade', 'place']) if (values[name].trim()) set[name] = values[name].trim();
  if (set.mint) set.mint = set.mint.toUpperCase();
  const year = values.year.trim();
  if (year && !/^\d{3,4}$/.test(year)) wrong.year = 'A date is a year such as 1806; leave it empty where it cannot be read.';
  else if (year) set.year = Number(year);
  const never = set.type && set.year ? neverStruck(ui.engine.reference, set.type, set.year) : null;
  if (never) wrong.year = never;
  for (const name of ['ask', 'floor']) {
    const value = cents(ui, form, name);
    if (Number.isNaN(value)) wrong[name] = 'That is not an amount of money.';
    else if (value !== null) set[name] = value;
  }
  if (!set.type && !set.denom && !set.title) wrong.denom = 'Say at least the denomination, or name the coin.';
  return { set, wrong };
}

export function coinFields(ui, form, places) {
  const { reference } = ui.engine;
  const { values } = form;
  const denom = reference.denominations.find((one) => one.key === values.denom);
  const type = reference.types[values.type];
  const year = /^\d{4}$/.test(values.year) ? Number(values.year) : null;
  const never = type && year ? neverStruck(reference, values.type, year) : null;
  const mint = values.mint.trim().toUpperCase();
  const proof = type?.issues.some((one) => one.year === year && one.mint === mint && one.proofOnly) || type?.proofOnly.includes(year);
  const note = !never && proof ? `This date${type.proofOnly.includes(year) ? '' : ' and mint'} is known in proof only.` : '';
  return html`<fieldset class="group"><legend>The coin</legend>
    ${picker(form, 'denom', 'Denomination', denom?.name, () => ui.sheet('Denomination', () => options(reference.denominations.map((one) => [one.key, one.name]), values.denom, (key) => {
      ui.closeSheet();
      if (reference.types[values.type]?.denom !== key) values.type = '';
      form.set('denom', key);
    })))}
    <div class="pair narrow">${text(form, 'year', 'Date', { max: 4, mode: 'numeric', hint: 'As struck' })}${text(form, 'mint', 'Mint mark', { max: 4, caps: 'characters', hint: 'None' })}</div>
    ${never && !form.wrong.year ? html`<div class="callout warn" role="alert">${icon('warn')}<p>${never}</p></div>` : note ? html`<p class="small soft">${note}</p>` : nothing}
    ${picker(form, 'type', 'Type', type?.title, () => pickType(ui, { denom: values.denom, year, now: values.type }, (key) => {
      if (key) form.values.denom = reference.types[key].denom;
      form.set('type', key);
    }), { hint: only(reference, values, year) ?? 'Choose from the catalogue' })}
    ${type ? nothing : html`<a class="button plain left" href="/name" @click=${() => askedBy(location.pathname)}>${icon('glass')}Name it by what it shows</a>`}
    ${type ? nothing : text(form, 'title', 'In words', { hint: 'What it is, where the catalogue has no type' })}
    ${picker(form, 'grade', 'Grade', values.grade, () => pickGrade(ui, values.grade, (grade) => form.set('grade', grade)), { hint: 'Not graded' })}
    ${type ? ownedBeside(ui, form, { type: values.type, year, mint, grade: values.grade }) : nothing}
    ${text(form, 'variety', 'Variety', { hint: 'May stay empty' })}
    ${text(form, 'place', 'Place', { max: 60, hint: 'Box, case, row', list: places })}
    <div class="pair">${amount(ui, form, 'ask', 'Asking price')}${ui.engine.state.role === 'owner' ? amount(ui, form, 'floor', 'Floor') : nothing}</div>
  </fieldset>`;
}

// A denomination and year that only one type fits: say so, and let it be pressed.
function only(reference, values, year) {
  if (!year || !values.denom) return null;
  const fit = typesOf(reference, values.denom).filter((one) => one.years.includes(year));
  return fit.length === 1 ? `${fit[0].name}?` : null;
}
