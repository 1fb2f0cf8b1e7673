// The fields of a sale for discount, sales tax or exemption, and a second payment; and what is wrong with them.
import { html, nothing } from './html.js';
import { amount, cents, choice, segments, text } from './field.js';
import { show } from './money.js';
import { PAYMENT } from './words.js';
import { rate } from '../deal/salestax.js';
import { ticketFields, totals } from '../deal/ticket.js';

export const TERMS = { discount: '', taxing: 'none', rate: '', certificate: '', reason: '', first: '', second: '', how: 'card' };
const TAXING = [['none', 'No tax'], ['rate', 'Tax'], ['exempt', 'Exempt']];

export const sum = (ui, form) => totals({ ...form.values, price: cents(ui, form, 'price') ?? 0, discount: cents(ui, form, 'discount') ?? 0 });

/** {ticket, wrong}: the fields of a ticket, null for a plain sale, and a sentence for each field that does not work. */
export function terms(ui, form, place) {
  const { values } = form;
  const wrong = {};
  const [discount, first, second] = ['discount', 'first', 'second'].map((name) => {
    const read = cents(ui, form, name);
    if (Number.isNaN(read)) wrong[name] = 'That is not an amount of money.';
    return read ?? 0;
  });
  const sums = sum(ui, form);
  if (sums.agreed < 0) wrong.discount = 'The discount is more than the price.';
  if (values.taxing === 'rate' && !rate(values.rate)) wrong.rate = 'That is not a tax rate; give per cent, such as 8.25.';
  if (values.taxing === 'exempt' && !values.certificate.trim()) wrong.certificate = 'A sale without tax needs the number of the buyer’s exemption certificate.';
  if (values.taxing === 'exempt' && !values.reason.trim()) wrong.reason = 'A sale without tax needs the reason on the certificate, such as resale.';
  const paid = second ? [{ how: values.payment || 'other', cents: first }, { how: values.how, cents: second }] : [];
  const off = first + second - sums.total;
  if ((first || second) && sums.total !== null && off) wrong.second ??= `The payments are ${show(Math.abs(off), ui.engine.state.currency)} ${off < 0 ? 'less' : 'more'} than ${show(sums.total, ui.engine.state.currency)}.`;
  return { wrong, ticket: Object.keys(wrong).length ? null : ticketFields({ ...values, discount, place, paid }, sums) };
}

export function termFields(ui, form) {
  const { currency } = ui.engine.state;
  const { values } = form;
  const sums = sum(ui, form);
  return html`${amount(ui, form, 'discount', 'Discount', { help: 'Taken off the price.' })}
    <div class="field"><span class="label">Sales tax</span>${segments('taxing', values.taxing, TAXING, (value) => form.set('taxing', value || 'none'), 'Sales tax')}</div>
    ${values.taxing === 'rate' ? text(form, 'rate', 'Tax rate in per cent', { mode: 'decimal', max: 10 }) : nothing}
    ${values.taxing === 'exempt' ? html`${text(form, 'certificate', 'Certificate number', { max: 80 })}${text(form, 'reason', 'Reason', { max: 200, hint: 'Resale' })}` : nothing}
    ${Number.isSafeInteger(sums.total) ? html`<p class="sum" role="status"><span>${sums.tax ? `To pay, with ${show(sums.tax, currency)} tax` : 'To pay'}</span><b class="money">${show(sums.total, currency)}</b></p>` : nothing}
    <details class="more" ?open=${Boolean(values.first || values.second)}><summary>Paid in two ways</summary>
      ${amount(ui, form, 'first', `Paid by ${(PAYMENT[values.payment] ?? 'other').toLowerCase()}`)}
      <div class="pair">${choice(form, 'how', 'And by', Object.entries(PAYMENT))}${amount(ui, form, 'second', 'Second payment')}</div></details>
    <p class="soft small">What is taxed, and at which rate, is for the state and the place to say; ask them or a licensed preparer.</p>`;
}
