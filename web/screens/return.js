// A buyer gives coins of a sale back: which of them, what is refunded, and how it was paid.
import { html, nothing } from '../parts/html.js';
import { amount, cents, segments, text, typed } from '../parts/field.js';
import { moveForm } from '../parts/move-form.js';
import { pricedAt, salesOf } from '../parts/coin-sales.js';
import { coinTitle } from '../parts/slip.js';
import { show } from '../parts/money.js';
import { showDate } from '../parts/dates.js';
import { count, PAYMENT, showId } from '../parts/words.js';

const COSTS = ['shipping', 'other'];

export function open(ui, { id, of }) {
  const { engine } = ui;
  const { currency } = engine.state;
  let lines = []; // {card, cents, to, date, pieces, of, sum}: what of the sale is not back yet
  let whole = null; // as this phone entered the sale, if it did
  let touched = false; // the refund was typed: it is not worked out any more

  async function begin(form) {
    const [found, entries] = await Promise.all([engine.soldBy(of), engine.entries()]);
    lines = found.flatMap((card) => salesOf(card, entries).filter((sale) => sale.fact === of).map((sale) => ({ card, ...sale })));
    lines.sort((a, b) => (b.card.id === id) - (a.card.id === id));
    whole = entries.find(({ fact }) => fact.id === of)?.fact.body ?? null;
    form.values.back = lines.map((line) => line.card.id);
    form.values.payment = whole?.payment ?? whole?.payments?.[0]?.how ?? '';
    propose(form);
  }

  const ticked = (form) => lines.filter((line) => form.values.back.includes(line.card.id));

  // The lot of which some pieces may come back: it is ticked alone.
  function lotOf(form) {
    const [one, ...others] = ticked(form);
    return !others.length && one?.pieces > 1 ? one : null;
  }

  // {many, wrong}: how many of its pieces, where not all of them.
  function someOf(form) {
    const lot = lotOf(form);
    const typedIn = form.values.pieces.trim();
    if (!lot || !typedIn) return { many: null };
    const many = /^\d{1,6}$/.test(typedIn) ? Number(typedIn) : 0;
    return many < 1 || many > lot.pieces ? { many: null, wrong: `Give a number of pieces from 1 to ${lot.pieces}.` } : { many };
  }

  const all = (form) => form.values.back.length === lines.length && lines.length >= (whole?.sold?.length ?? 1) && lines.every((line) => line.pieces === line.of) && someOf(form).many === null;

  // What those that come back were sold for; null: not known here.
  function soldFor(form) {
    const { many } = someOf(form);
    const each = ticked(form).map((line) => (many === null ? line.cents : pricedAt(line.sum, line.of, line.pieces, many)));
    return each.includes(null) ? (all(form) ? whole?.price ?? null : null) : each.reduce((sum, one) => sum + one, 0);
  }

  function propose(form) {
    if (touched) return;
    const refund = soldFor(form);
    Object.assign(form.values, { refund: typed(ui, refund), tax: all(form) ? typed(ui, whole?.tax?.cents) : '' });
  }

  function tick(form, coin) {
    const { back } = form.values;
    form.values.pieces = '';
    form.set('back', back.includes(coin) ? back.filter((one) => one !== coin) : [...back, coin]);
    propose(form);
  }

  return moveForm(ui, id, {
    kind: 'return', title: 'Return', button: 'Record the return', sign: 'undo', begin,
    values: { back: [], pieces: '', refund: '', tax: '', payment: '', shipping: '', other: '' },
    fits: () => (lines.some((line) => line.card.id === id) ? '' : 'Nothing of this sale is left to give back, as far as this phone knows.'),
    ids: () => [],
    said({ coins, pieces, refund, tax, payments: [paid] = [], costs = [] }) {
      touched = true;
      const cost = (what) => typed(ui, costs.find((line) => line.what === what)?.cents);
      return { back: coins, pieces: pieces ? String(pieces) : '', refund: typed(ui, refund), tax: typed(ui, tax), payment: paid?.how ?? '', shipping: cost('shipping'), other: cost('other') };
    },
    fields: (form) => html`
      ${lines[0] ? html`<p class="small soft">Sold on ${showDate(lines[0].date)}${lines[0].to ? ` to ${lines[0].to}` : ''}${lines[0].cents === null ? nothing : html`, for <span class="money">${show(lines[0].sum ?? lines[0].cents, currency)}</span>`}.</p>` : nothing}
      ${lines.length > 1 ? html`<div class="field ticked" role="group" aria-labelledby="n-back"><span class="label" id="n-back">Coins that come back</span>${lines.map((line) => html`<label>
        <input type="checkbox" .checked=${form.values.back.includes(line.card.id)} @change=${() => tick(form, line.card.id)}><span>${coinTitle(line.card)}
        <small>${[showId(line.card.id), line.card.pieces ? count(line.pieces, 'piece') : '', line.cents === null ? '' : show(line.cents, currency)].filter(Boolean).join(', ')}</small></span></label>`)}
        ${form.wrong.back ? html`<p class="wrong">${form.wrong.back}</p>` : nothing}</div>` : nothing}
      ${lotOf(form) ? html`<div @input=${() => { propose(form); ui.update(); }}>${text(form, 'pieces', 'Pieces that come back', { mode: 'numeric', max: 6, hint: `All ${lotOf(form).pieces}`, help: `${count(lotOf(form).pieces, 'piece')} of this sale ${lotOf(form).pieces === 1 ? 'is' : 'are'} not back yet.` })}</div>` : nothing}
      <div class="pair" @input=${() => { touched = true; }}>${amount(ui, form, 'refund', 'Refund')}${amount(ui, form, 'tax', 'Sales tax given back')}</div>
      <div class="field"><span class="label">Refunded by</span>${segments('payment', form.values.payment, Object.entries(PAYMENT), (value) => form.set('payment', value), 'Refunded by')}</div>
      <details class="more" ?open=${Boolean(form.values.shipping || form.values.other)}><summary>What it cost you</summary>
        <div class="pair">${amount(ui, form, 'shipping', 'Shipping')}${amount(ui, form, 'other', 'Other')}</div></details>`,
    read(form, cards, wrong) {
      const [refund, tax, ...spent] = ['refund', 'tax', ...COSTS].map((name) => {
        const read = cents(ui, form, name);
        if (Number.isNaN(read)) wrong[name] = 'That is not an amount of money.';
        return read;
      });
      if (refund === null) wrong.refund = 'Give the refund; 0 if nothing was given back.';
      if (!form.values.back.length) wrong.back = 'Tick the coins that come back.';
      const { many, wrong: bad } = someOf(form);
      if (bad) wrong.pieces = bad;
      const most = soldFor(form) ?? whole?.price ?? null;
      if (form.values.back.length && most !== null && refund > most) wrong.refund ??= `They were sold for ${show(most, currency)}; enter what goes beyond as a cost.`;
      const costs = COSTS.map((what, at) => ({ what, cents: spent[at] })).filter((line) => line.cents);
      const { payment } = form.values;
      return { of, coins: form.values.back, ...(many === null ? {} : { pieces: many }), refund, ...(tax ? { tax } : {}), ...(costs.length ? { costs } : {}),
        ...(payment && refund + (tax ?? 0) ? { payments: [{ how: payment, cents: refund + (tax ?? 0) }] } : {}) };
    },
    done: (form) => `${someOf(form).many ? `${count(someOf(form).many, 'piece')} ${someOf(form).many === 1 ? 'is' : 'are'}` : form.values.back.length === 1 ? 'It is' : `${count(form.values.back.length, 'coin')} are`} back in stock.`,
    caution: 'Whether sales tax is given back is for the state and the place to say.',
  });
}
