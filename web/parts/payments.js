// By which ways a deal is paid, any number of them; and what is wrong with them. `deal.paid` holds their keys.
import { html, nothing } from './html.js';
import { icon } from './icons.js';
import { amount, cents, choice, segments, typed } from './field.js';
import { goOnAt } from './go-on.js';
import { show } from './money.js';
import { PAYMENT } from './words.js';

const ways = Object.entries(PAYMENT);

export function addPayment(deal, how = 'cash', cents = '') {
  const key = `p${deal.n += 1}`;
  deal.paid.push(key);
  Object.assign(deal.values, { [`how-${key}`]: how, [`paid-${key}`]: cents });
}

/** [{how, cents}] that add up to `total`; one way pays all. What is wrong is put into `wrong`, by field. */
export function readPaid(ui, form, deal, total, wrong) {
  const how = (key) => form.values[`how-${key}`] || 'other';
  if (deal.paid.length === 1) return [{ how: how(deal.paid[0]), cents: total }];
  const rows = deal.paid.map((key) => ({ key, how: how(key), cents: cents(ui, form, `paid-${key}`) ?? 0 }));
  for (const row of rows) if (Number.isNaN(row.cents)) wrong[`paid-${row.key}`] = 'That is not an amount of money.';
  const off = rows.reduce((sum, row) => sum + row.cents, 0) - total;
  const { currency } = ui.engine.state;
  if (off) wrong[`paid-${deal.paid.at(-1)}`] ??= `The payments are ${show(Math.abs(off), currency)} ${off < 0 ? 'less' : 'more'} than ${show(total, currency)}.`;
  return rows.filter((row) => row.cents).map(({ how: way, cents: paid }) => ({ how: way, cents: paid }));
}

const goTo = (key) => goOnAt(() => document.getElementById(`f-paid-${key}`));

export function paidFields(ui, form, deal, total) {
  const [first] = deal.paid;
  const change = (act) => () => { act(); form.set('n', deal.n); goTo(deal.paid.at(-1)); };
  const rest = (key) => {
    const others = deal.paid.filter((one) => one !== key).reduce((sum, one) => sum + (cents(ui, form, `paid-${one}`) || 0), 0);
    return total !== null && total > others ? total - others : 0;
  };
  const forget = () => { for (const key of deal.paid) delete form.wrong[`paid-${key}`]; };
  if (deal.paid.length === 1) {
    return html`<div class="field"><span class="label">Payment</span>${segments('payment', form.values[`how-${first}`], ways, (value) => form.set(`how-${first}`, value || 'other'), 'Payment')}</div>
      <button type="button" class="button plain left" @click=${() => { addPayment(deal, 'card'); form.set('n', deal.n); goTo(first); }}>${icon('add')}Paid in several ways</button>`;
  }
  return html`<div class="field" role="group" aria-label="Payments"><span class="label">Payments</span>
    ${deal.paid.map((key, at) => html`<div class="paying">
      ${choice(form, `how-${key}`, html`<span class="hide">Payment ${at + 1} by</span>By`, ways)}
      ${amount(ui, form, `paid-${key}`, html`Paid<span class="hide"> by payment ${at + 1}</span>`)}
      <div class="row wrap">${rest(key) && !cents(ui, form, `paid-${key}`) ? html`<button type="button" class="button" @click=${() => { forget(); form.set(`paid-${key}`, typed(ui, rest(key))); goTo(key); }}>The rest, ${show(rest(key), ui.engine.state.currency)}</button>` : nothing}
        <button type="button" class="button plain" aria-label=${`Take payment ${at + 1} out`} @click=${change(() => { forget(); deal.paid.splice(at, 1); })}>${icon('close')}Take out</button></div></div>`)}
    <button type="button" class="button plain left" @click=${change(() => addPayment(deal))}>${icon('add')}Another payment</button></div>`;
}
