// Recording a sale: price, payment, buyer. The floor is the owner's to go below, but not by accident.
import { html, nothing } from '../parts/html.js';
import { head } from '../parts/head.js';
import { icon } from '../parts/icons.js';
import { amount, area, cents, choice, date, makeForm, segments, submit, text, typed } from '../parts/field.js';
import { show } from '../parts/money.js';
import { today } from '../parts/dates.js';
import { currentShow, showField } from '../parts/show-field.js';
import { costButton } from '../parts/coin-money.js';
import { costsHidden, hideCosts } from '../parts/discretion.js';
import { inPlace, leaveOff, mended, whyRefused } from '../parts/mending.js';
import { sum, TERMS, termFields, terms } from '../parts/sale-terms.js';
import { slip } from '../parts/slip.js';
import { COSTS, PAYMENT } from '../parts/words.js';
import { undoLast } from '../parts/undo.js';

export function open(ui, { id }) {
  const { engine } = ui;
  const form = makeForm(ui, { price: '', payment: 'cash', to: '', date: today(), show: '', note: '', cost: '', what: 'fee', ...TERMS });
  let card;
  let shows = [];
  let agreed = false;
  let refused = null;

  async function load() {
    [card, shows, refused] = await Promise.all([engine.card('coin', id), engine.list('show'), mended(ui)]);
    const at = currentShow(shows);
    Object.assign(form.values, refused ? said(refused.fact.body) : {
      price: typed(ui, card?.ask), show: at?.id ?? '', ...(at?.tax_rate ? { taxing: 'rate', rate: at.tax_rate } : {}),
    });
    ui.update();
  }
  load();
  return { title: 'Record a sale', form: true, view, close };

  function close() {
    leaveOff();
    hideCosts();
  }

  // A sale as it was entered, for the fields.
  function said({ price, costs: [cost] = [], ...rest }) {
    return { ...rest, price: typed(ui, price), cost: typed(ui, cost?.cents), what: cost?.what ?? 'fee' };
  }

  function below(price) {
    const floor = card?.own?.floor;
    return floor && price !== null && price < floor ? floor : null;
  }

  async function record(event) {
    event.preventDefault();
    const price = cents(ui, form, 'price');
    const cost = cents(ui, form, 'cost');
    const wrong = {};
    if (price === null) wrong.price = 'A sale needs its price.';
    else if (Number.isNaN(price)) wrong.price = 'That is not an amount of money.';
    if (Number.isNaN(cost)) wrong.cost = 'That is not an amount of money.';
    if (!form.values.date) wrong.date = 'A sale needs its date.';
    const { ticket, wrong: more } = terms(ui, form, shows.find((one) => one.id === form.values.show)?.tax_place);
    Object.assign(wrong, more);
    if (Object.keys(wrong).length) { form.fail(wrong); return; }
    const { agreed: net, total } = sum(ui, form);
    if (below(net) && !agreed) { agreed = true; ui.update(); return; }
    await form.run(async () => {
      const { values } = form;
      const payment = values.payment || 'other';
      const body = ticket ? { sold: [{ coin: card.id }], price: net, payments: [{ how: payment, cents: total }], ...ticket, date: values.date }
        : { coin: card.id, price, date: values.date, payment };
      if (values.to.trim()) body.to = values.to.trim();
      if (values.note.trim()) body.note = values.note.trim();
      if (values.show) body.show = values.show;
      if (cost) body.costs = [{ what: values.what, cents: cost }];
      await inPlace(ui, refused, await engine.record(ticket ? 'ticket' : 'sale', body));
      ui.go(`/c/${card.id}`, { replace: true });
      ui.say(`Sold for ${show(net, engine.state.currency)}.`, { act: { text: 'Void', run: () => undoLast(ui) } });
    });
  }

  function view() {
    if (!card) return html`${head(ui, { title: 'Record a sale', back: `/c/${id}`, close: true })}`;
    const price = sum(ui, form).agreed;
    const floor = below(price);
    const gain = card.own?.cost !== null && card.own?.cost !== undefined && price ? price - (cents(ui, form, 'cost') || 0) - card.own.cost : null;
    return html`<form class="fill" @submit=${record} novalidate>${head(ui, { title: 'Record a sale', back: `/c/${id}`, close: true })}
      <div class="body gap">${whyRefused(refused)}
        ${slip(ui, card)}
        ${card.own ? costButton(ui) : nothing}
        ${amount(ui, form, 'price', 'Price', { help: card.ask === null || card.ask === undefined ? 'No asking price is set.' : `Asking ${show(card.ask, engine.state.currency)}.` })}
        ${floor && !costsHidden() ? html`<div class="callout warn" role="alert">${icon('warn')}<p>Below the floor of <b class="money">${show(floor, engine.state.currency)}</b>.
          ${agreed ? 'Press again to sell below it.' : nothing}</p></div>` : floor && agreed ? html`<div class="callout warn" role="alert">${icon('warn')}<p>Below the floor. Press again to sell below it.</p></div>` : nothing}
        ${gain !== null && !Number.isNaN(gain) && !costsHidden() ? html`<p class="gain small">${gain < 0 ? 'Loss' : 'Gain'} over cost: <b class="figures ${gain < 0 ? 'bad' : 'good'}">${show(gain, engine.state.currency, { sign: true })}</b></p>` : nothing}
        <div class="field"><span class="label">Payment</span>${segments('payment', form.values.payment, Object.entries(PAYMENT), (value) => form.set('payment', value || 'other'), 'Payment')}</div>
        ${termFields(ui, form)}
        ${text(form, 'to', 'Buyer', { help: 'May stay empty.', caps: 'words' })}
        <div class="pair">${date(form, 'date', 'Date')}${showField(form, shows)}</div>
        <div class="pair">${choice(form, 'what', 'Cost of selling', Object.entries(COSTS).filter(([key]) => key !== 'price'))}${amount(ui, form, 'cost', 'Amount')}</div>
        ${area(form, 'note', 'Note', { rows: 2 })}
        <p class="soft small">Large cash payments may have to be reported; your local rules decide.</p>
      </div>
      ${submit(form, floor && agreed ? 'Sell below the floor' : 'Record the sale', 'sell')}</form>`;
  }
}
