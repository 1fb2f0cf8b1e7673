// The fields of a sale for discount and sales tax or exemption; and what is wrong with them.
import { html, nothing } from './html.js';
import { amount, cents, segments, text } from './field.js';
import { show } from './money.js';
import { rate } from '../deal/salestax.js';
import { totals } from '../deal/ticket.js';

export const TERMS = { discount: '', taxing: 'none', rate: '', certificate: '', reason: '' };
const TAXING = [['none', 'No tax'], ['rate', 'Tax'], ['exempt', 'Exempt']];

export const sum = (ui, form, price) => totals({ ...form.values, price: price || 0, discount: cents(ui, form, 'discount') || 0 });

/** Put a sentence into `wrong` for each field that does not work. */
export function checkTerms(ui, form, price, wrong) {
  const { values } = form;
  if (Number.isNaN(cents(ui, form, 'discount'))) wrong.discount = 'That is not an amount of money.';
  else if (sum(ui, form, price).agreed < 0) wrong.discount = 'The discount is more than the price.';
  if (values.taxing === 'rate' && !rate(values.rate)) wrong.rate = 'That is not a tax rate; give per cent, such as 8.25.';
  if (values.taxing === 'exempt' && !values.certificate.trim()) wrong.certificate = 'A sale without tax needs the number of the buyer’s exemption certificate.';
  if (values.taxing === 'exempt' && !values.reason.trim()) wrong.reason = 'A sale without tax needs the reason on the certificate, such as resale.';
}

export function toPay(ui, form, price) {
  const { currency } = ui.engine.state;
  const sums = sum(ui, form, price);
  return Number.isSafeInteger(sums.total) ? html`<p class="sum" role="status"><span>${sums.tax ? `To pay, with ${show(sums.tax, currency)} tax` : 'To pay'}</span><b class="money">${show(sums.total, currency)}</b></p>` : nothing;
}

export function termFields(ui, form) {
  const { values } = form;
  return html`${amount(ui, form, 'discount', 'Discount', { help: 'Taken off the price.' })}
    <div class="field"><span class="label">Sales tax</span>${segments('taxing', values.taxing, TAXING, (value) => form.set('taxing', value || 'none'), 'Sales tax')}</div>
    ${values.taxing === 'rate' ? text(form, 'rate', 'Tax rate in per cent', { mode: 'decimal', max: 10 }) : nothing}
    ${values.taxing === 'exempt' ? html`${text(form, 'certificate', 'Certificate number', { max: 80 })}${text(form, 'reason', 'Reason', { max: 200, hint: 'Resale' })}` : nothing}
    <p class="soft small">What is taxed, and at which rate, is for the state and the place to say; ask them or a licensed preparer.</p>`;
}
