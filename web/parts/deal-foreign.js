// A purchase paid in another currency: its fields, and what the price is in the book's money. The rest is in the book's own.
import { html, nothing } from './html.js';
import { icon } from './icons.js';
import { amount, cents, choice, text, typed } from './field.js';
import { digitsOf, show } from './money.js';
import { inBook, rate } from '../deal/foreign.js';

export const FOREIGN = { currency: '', abroad: '', rate: '' };

// A field asks its `ui` for the currency alone.
const inCurrency = (currency) => ({ engine: { state: { currency } } });

/** {foreign, price}: what an entry says, and the price in cents of the book, each null where it is not known; null: the book's currency. */
export function readForeign(ui, form, wrong) {
  const { currency } = form.values;
  if (!currency) return null;
  const paid = cents(inCurrency(currency), form, 'abroad');
  const at = rate(form.values.rate);
  if (Number.isNaN(paid)) wrong.abroad = 'That is not an amount of money.';
  else if (paid === null) wrong.abroad = 'Give the price in the currency in which it was paid.';
  if (!at) wrong.rate = 'Give what one unit of that currency is worth here, such as 1.0832.';
  if (!paid && paid !== 0 || !at) return { foreign: null, price: null };
  return { foreign: { currency, cents: paid, rate: at }, price: inBook(paid, at, digitsOf(ui.engine.state.currency), digitsOf(currency)) };
}

/** The fields, or the way to them; `read` as readForeign has it. */
export function foreignFields(ui, form, read) {
  const { engine } = ui;
  const { currency } = form.values;
  const others = engine.reference.currencies.filter((code) => code !== engine.state.currency);
  if (!currency) return html`<button type="button" class="button plain left" @click=${() => form.set('currency', others[0])}>${icon('add')}Paid in another currency</button>`;
  return html`<fieldset class="group"><legend>Paid in another currency</legend>
    ${choice(form, 'currency', 'Currency', [['', `${engine.state.currency}, the book’s`], ...others.map((code) => [code, code])])}
    <div class="pair">${amount(inCurrency(currency), form, 'abroad', 'Price in it')}${text(form, 'rate', 'Rate', { mode: 'decimal', max: 18, hint: '1.0832' })}</div>
    <p class="sum"><span>Price in the book’s money</span><b class="money" role="status">${read.price === null ? nothing : show(read.price, engine.state.currency)}</b></p>
    <p class="small soft">The rate is what one unit of that currency is worth in ${engine.state.currency}.</p></fieldset>`;
}

/** The fields of an entry that says so. */
export const foreignSaid = (foreign) => (foreign ? { currency: foreign.currency, abroad: typed(inCurrency(foreign.currency), foreign.cents), rate: foreign.rate } : FOREIGN);
