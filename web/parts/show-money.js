// Money of a show that moves without a coin: an expense, cash put in or taken out; opening cash and the budget.
import { html, nothing } from './html.js';
import { icon } from './icons.js';
import { amount, cents, makeForm, segments, text, typed } from './field.js';
import { today } from './dates.js';
import { show as money } from './money.js';
import { undoLast } from './undo.js';
import { PAYMENT } from './words.js';

const NO_MONEY = 'That is not an amount of money.';
const ways = Object.entries(PAYMENT).slice(0, 4);

/** [name, sign, {what, about}]: one press each, then the amount. */
export const MOVES = [
  ['Table', 'show', { what: 'expense', about: 'Table' }],
  ['Travel', 'out', { what: 'expense', about: 'Travel' }],
  ['Food', 'sell', { what: 'expense', about: 'Food' }],
  ['Other', 'note', { what: 'expense', about: '' }],
  ['Cash in', 'add', { what: 'owner_in' }],
  ['Cash out', 'leave', { what: 'owner_out' }],
];

export function moneySheet(ui, show, [name, sign, { what, about }]) {
  const { engine } = ui;
  const form = makeForm(ui, { cents: '', how: 'cash', about: about ?? '' });
  const own = what !== 'expense';
  async function record(event) {
    event.preventDefault();
    const read = cents(ui, form, 'cents');
    if (!read) { form.fail({ cents: Number.isNaN(read) ? NO_MONEY : 'Give the amount.' }); return; }
    await form.run(async () => {
      const said = form.values.about.trim();
      await engine.record('money', { what, cents: read, how: own ? 'cash' : form.values.how, ...(said ? { about: said } : {}), date: today(), show: show.id });
      ui.closeSheet();
      ui.say(`${name}: ${money(read, engine.state.currency)}.`, { act: { text: 'Void', run: () => undoLast(ui) } });
    });
  }
  ui.sheet(name, () => html`<form class="gap" @submit=${record} novalidate>
    ${amount(ui, form, 'cents', 'Amount')}
    ${what === 'expense' && !about ? text(form, 'about', 'What for') : nothing}
    ${own ? nothing : html`<div class="field"><span class="label">Paid by</span>${segments('how', form.values.how, ways, (value) => form.set('how', value || 'cash'), 'Paid by')}</div>`}
    <button class="button main wide" type="submit" aria-disabled=${form.busy ? 'true' : nothing}>${icon(sign)}Record</button></form>`);
  requestAnimationFrame(() => requestAnimationFrame(() => document.getElementById('f-cents')?.focus()));
}

/** Opening cash and the budget. `now`: {float, budget} as the phone shows them. */
export function openingSheet(ui, show, now) {
  const { engine } = ui;
  const form = makeForm(ui, { float: typed(ui, now.float), budget: typed(ui, now.budget) });
  async function record(event) {
    event.preventDefault();
    const read = { float: cents(ui, form, 'float'), budget: cents(ui, form, 'budget') };
    const wrong = Object.fromEntries(Object.entries(read).filter(([, value]) => Number.isNaN(value)).map(([name]) => [name, NO_MONEY]));
    if (Object.keys(wrong).length) { form.fail(wrong); return; }
    const base = { float: now.float, budget: now.budget };
    const changed = Object.keys(read).filter((name) => read[name] !== base[name]);
    const only = (from) => Object.fromEntries(changed.map((name) => [name, from[name]]));
    await form.run(async () => {
      if (changed.length) await engine.record('show.edit', { show: show.id, base: only(base), set: only(read) });
      ui.closeSheet();
      ui.say('Kept.');
    });
  }
  ui.sheet('Opening cash and budget', () => html`<form class="gap" @submit=${record} novalidate>
    ${amount(ui, form, 'float', 'Opening cash', { help: 'In the box before the doors open.' })}
    ${amount(ui, form, 'budget', 'Budget for coins', { help: 'What may be spent on coins there; empty: none set.' })}
    <button class="button main wide" type="submit" aria-disabled=${form.busy ? 'true' : nothing}>${icon('fits')}Keep</button></form>`);
}
