// Further costs of a deal, any number of lines: of selling, or on top of a purchase's price. `deal.costs` holds their keys.
import { html } from './html.js';
import { icon } from './icons.js';
import { amount, cents, choice } from './field.js';
import { COSTS } from './words.js';

const KINDS = Object.entries(COSTS).filter(([key]) => key !== 'price');

export function addCost(deal, what = 'fee', cents = '') {
  const key = `c${deal.n += 1}`;
  deal.costs.push(key);
  Object.assign(deal.values, { [`what-${key}`]: what, [`cost-${key}`]: cents });
}

/** [{what, cents}] of the lines with an amount. */
export function readCosts(ui, form, deal, wrong) {
  const rows = deal.costs.map((key) => ({ key, what: form.values[`what-${key}`], cents: cents(ui, form, `cost-${key}`) ?? 0 }));
  for (const row of rows) if (Number.isNaN(row.cents)) wrong[`cost-${row.key}`] = 'That is not an amount of money.';
  return rows.filter((row) => row.cents).map(({ what, cents: paid }) => ({ what, cents: paid }));
}

export function costFields(ui, form, deal, { label, add, first }) {
  const more = () => { addCost(deal, first); form.set('n', deal.n); };
  return html`${deal.costs.map((key, at) => html`<div class="costing">${choice(form, `what-${key}`, label, KINDS)}${amount(ui, form, `cost-${key}`, 'Amount')}
      <button type="button" class="round" aria-label=${`Take out: ${label.toLowerCase()}, line ${at + 1}`} @click=${() => { deal.costs.splice(at, 1); form.set('n', deal.n); }}>${icon('close')}</button></div>`)}
    <button type="button" class="button plain left" @click=${more}>${icon('add')}${add}</button>`;
}
