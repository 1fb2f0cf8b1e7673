// A later cost of a coin, or of several it is divided over: grading, shipping, insurance.
import { html } from '../parts/html.js';
import { amount, cents, choice, segments, typed } from '../parts/field.js';
import { filled, moveForm } from '../parts/move-form.js';
import { CAN } from '../parts/coin-doings.js';
import { show } from '../parts/money.js';
import { nameField } from '../parts/party.js';
import { count, PAYMENT } from '../parts/words.js';

const WHAT = [['grading', 'Grading'], ['shipping', 'Shipping'], ['insurance', 'Insurance'], ['other', 'Other, such as conservation']];

export function open(ui, { id }) {
  return moveForm(ui, id, {
    kind: 'cost', owners: true, title: 'Later cost', button: 'Record the cost', sign: 'add', joins: 'For another coin too', fits: CAN.cost,
    values: { what: 'grading', cents: '', more: 'shipping', second: '', from: '', payment: '' },
    ids: (body) => body.coins.map((row) => row.coin),
    said: ({ costs: [one, two], payments: [paid] = [], from = '' }) => ({
      what: one.what, cents: typed(ui, one.cents), more: two?.what ?? 'shipping', second: typed(ui, two?.cents), from, payment: paid?.how ?? '',
    }),
    fields: (form, cards) => html`
      <div class="pair">${choice(form, 'what', 'What for', WHAT)}${amount(ui, form, 'cents', 'Amount')}</div>
      <div class="pair">${choice(form, 'more', 'And', WHAT)}${amount(ui, form, 'second', 'Amount of it')}</div>
      ${cards.length > 1 ? html`<p class="small soft">Divided evenly over the ${cards.length} coins, by the desk.</p>` : ''}
      <div class="field"><span class="label">Payment</span>${segments('payment', form.values.payment, Object.entries(PAYMENT), (value) => form.set('payment', value), 'Payment')}</div>
      ${nameField(form, 'from', 'Paid to')}`,
    read(form, cards, wrong) {
      const [first, second] = ['cents', 'second'].map((name) => {
        const read = cents(ui, form, name);
        if (Number.isNaN(read)) wrong[name] = 'That is not an amount of money.';
        return read;
      });
      if (first === null) wrong.cents = 'Give what was paid.';
      const costs = [{ what: form.values.what, cents: first }, ...(second ? [{ what: form.values.more, cents: second }] : [])];
      const { payment } = form.values;
      return { coins: cards.map((card) => ({ coin: card.id })), costs, ...filled(form.values, ['from']),
        ...(payment ? { payments: [{ how: payment, cents: first + (second ?? 0) }] } : {}) };
    },
    done: (form, cards) => `${show(cents(ui, form, 'cents') + (cents(ui, form, 'second') ?? 0), ui.engine.state.currency)} recorded for ${cards.length === 1 ? 'this coin' : count(cards.length, 'coin')}.`,
  });
}
