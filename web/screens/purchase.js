// Recording the purchase of one coin: on a label just scanned, on a new ID drawn here, or for a coin that has no cost yet.
import { html, nothing } from '../parts/html.js';
import { head } from '../parts/head.js';
import { icon } from '../parts/icons.js';
import { amount, area, cents, date, makeForm, segments, submit, typed } from '../parts/field.js';
import { show } from '../parts/money.js';
import { today } from '../parts/dates.js';
import { coinFields, coinValues, readCoin } from '../parts/coin-fields.js';
import { hideCosts } from '../parts/discretion.js';
import { dropDraft, keepDraft, readDraft } from '../parts/draft.js';
import { currentShow, showField } from '../parts/show-field.js';
import { makePhoto } from '../parts/form-photo.js';
import { inPlace, leaveOff, mended, whyRefused } from '../parts/mending.js';
import { slip } from '../parts/slip.js';
import { PAYMENT, showId } from '../parts/words.js';
import { undoLast } from '../parts/undo.js';
import { departures, fills, offered, servedBy } from '../parts/wanted.js';
import { nameField, readParties } from '../parts/party.js';
import { takeOver } from '../naming/kept.js';

const LINES = [['price', 'Price'], ['fee', 'Buyer’s fee'], ['tax', 'Tax'], ['shipping', 'Shipping']];

export function open(ui, { id: given }) {
  const { engine } = ui;
  const { values: named, goOn } = takeOver();
  const begun = goOn ? readDraft('purchase') : null;
  const read = given ? engine.parseId(given) : { id: begun?.drawn ? begun.id : engine.newId() };
  const id = read.id;
  const continued = begun !== null && begun.id === id;
  const fresh = () => ({ ...coinValues(), price: '', fee: '', tax: '', shipping: '', from: '', payment: 'cash', date: today(), show: '', note: '', want: '' });
  const form = makeForm(ui, { ...fresh(), ...(continued ? begun.values : {}), ...named }, () => keepDraft('purchase', { id, drawn: !given, values: form.values, instead: refused?.fact.id }));
  const photo = makePhoto();
  let card; // a coin that is there already, without a purchase
  let shows = [];
  let places = [];
  let wants = [];
  let want = null; // what it fills
  let refused = null; // the entry that this one puts right
  let more = continued && ['fee', 'tax', 'shipping'].some((name) => form.values[name]);

  async function load() {
    [card, shows, places, wants, refused] = await Promise.all([engine.card('coin', id), engine.list('show'), engine.places(), engine.list('want'), mended(ui), readParties(engine)]);
    if (refused && begun?.instead !== refused.fact.id) {
      Object.assign(form.values, said(refused.fact.body));
      more = LINES.some(([name]) => name !== 'price' && form.values[name]);
    } else if (!continued) form.values.show = currentShow(shows)?.id ?? '';
    want = wants.find((one) => one.id === form.values.want) ?? null;
    ui.update();
  }
  load();
  return { title: 'Record a purchase', form: true, view, close };

  function close() {
    leaveOff();
    hideCosts();
    photo.close();
  }

  // A purchase as it was entered, for the fields.
  function said({ bought: [{ set }], costs, ...rest }) {
    const line = (what) => typed(ui, costs.filter((one) => one.what === what).reduce((sum, one) => sum + one.cents, 0) || (what === 'price' ? 0 : null));
    return { ...fresh(), ...rest, ...set, year: String(set.year ?? ''), ask: typed(ui, set.ask), floor: typed(ui, set.floor),
      ...Object.fromEntries(LINES.map(([what]) => [what, line(what)])) };
  }

  function forWant() {
    const choose = (one) => { want = one; form.set('want', one?.id ?? ''); };
    const { type, grade } = form.values;
    const year = /^\d{3,4}$/.test(form.values.year) ? Number(form.values.year) : null;
    if (!want) return servedBy(wants, { type, year }).map((one) => offered(one, () => choose(one)));
    const departs = departures(want, { type, year, grade, cents: total() }, engine.reference.grades, engine.state.currency);
    return fills(want, departs, engine.state.currency, () => choose(null), ui);
  }

  function total() {
    return LINES.reduce((sum, [name]) => sum + (cents(ui, form, name) || 0), 0);
  }

  function check() {
    const wrong = card ? {} : readCoin(ui, form).wrong;
    for (const [name] of LINES) if (Number.isNaN(cents(ui, form, name))) wrong[name] = 'That is not an amount of money.';
    if (cents(ui, form, 'price') === null) wrong.price = 'A purchase needs its price; 0 for a gift.';
    if (!form.values.date) wrong.date = 'A purchase needs its date.';
    return wrong;
  }

  async function record(event) {
    event.preventDefault();
    const wrong = check();
    if (Object.keys(wrong).length) {
      if (wrong.fee || wrong.tax || wrong.shipping) more = true;
      form.fail(wrong);
      return;
    }
    await form.run(async () => {
      const { values } = form;
      const costs = LINES.map(([what]) => ({ what, cents: cents(ui, form, what) })).filter((line) => line.cents || line.what === 'price');
      const body = { bought: [{ coin: id, set: card ? {} : readCoin(ui, form).set }], costs, date: values.date, payment: values.payment || 'other' };
      if (values.from.trim()) body.from = values.from.trim();
      if (values.note.trim()) body.note = values.note.trim();
      if (values.show) body.show = values.show;
      if (want) body.want = want.id;
      const made = await engine.record('purchase', body);
      dropDraft('purchase');
      await inPlace(ui, refused, made);
      if (photo.blob) await engine.record('photo', { coin: id, side: 'obverse' }, { photo: photo.blob });
      ui.go(`/c/${id}`, { replace: true });
      ui.say(`Bought for ${show(total(), engine.state.currency)} all in.`, photo.blob ? {} : { act: { text: 'Void', run: () => undoLast(ui) } });
    });
  }

  function again() {
    dropDraft('purchase');
    Object.assign(form.values, fresh(), { show: currentShow(shows)?.id ?? '' });
    ui.update();
  }

  function view() {
    const title = 'Record a purchase';
    const bar = head(ui, { title, back: given ? `/c/${id ?? given}` : '/', close: true });
    if (read.error) return html`${bar}<div class="body"><p>${read.error}</p></div>`;
    if (card === undefined) return bar;
    if (card?.own?.purchase) return html`${bar}<div class="body gap">${slip(ui, card)}<p>A purchase is recorded for this coin already. A slip in it is mended at the desk.</p><a class="button" href=${`/c/${id}`}>To its card</a></div>`;
    if (card && !card.own) return html`${bar}<div class="body gap">${slip(ui, card)}<p>This label is on a coin of the book already.</p><a class="button" href=${`/c/${id}`}>To its card</a></div>`;
    return html`<form class="fill" @submit=${record} novalidate>${bar}
      <div class="body gap">${whyRefused(refused)}${forWant()}
        ${card ? slip(ui, card) : html`<p class="slip-id"><span class="soft small">${given ? 'Label' : 'New ID: write it on the holder'}</span><b class="id">${showId(id)}</b></p>
          ${given ? nothing : html`<a class="button plain left" href="/deal">${icon('sync')}Several coins, or a trade</a>`}
          ${continued && !refused ? html`<p class="small soft">Continued from what was begun here. <button type="button" class="button plain" @click=${again}>Start over</button></p>` : nothing}
          ${coinFields(ui, form, places)}`}
        <fieldset class="group"><legend>What it cost</legend>
          ${amount(ui, form, 'price', 'Price')}
          ${more ? html`<div class="pair">${amount(ui, form, 'fee', 'Buyer’s fee')}${amount(ui, form, 'tax', 'Tax')}</div>${amount(ui, form, 'shipping', 'Shipping')}`
            : html`<button type="button" class="button plain left" @click=${() => { more = true; ui.update(); }}>${icon('add')}Fee, tax, shipping</button>`}
          <p class="sum"><span>All in</span><b class="money" role="status">${show(total(), engine.state.currency)}</b></p>
        </fieldset>
        <fieldset class="group"><legend>From whom, and when</legend>
          ${nameField(form, 'from', 'From')}
          <div class="field"><span class="label">Payment</span>${segments('payment', form.values.payment, Object.entries(PAYMENT), (value) => form.set('payment', value || 'other'), 'Payment')}</div>
          <div class="pair">${date(form, 'date', 'Date')}${showField(form, shows)}</div>
          ${area(form, 'note', 'Note', { rows: 2 })}
        </fieldset>
        ${card ? nothing : html`<div class="row"><label class="button grow file">${icon('camera')}${photo.url ? 'Take it again' : 'Photo of the obverse'}<input type="file" accept="image/*" capture="environment" @change=${(event) => photo.take(form, event)}></label>
          ${photo.url ? html`<img class="tiny" src=${photo.url} alt="The photo, as taken">` : nothing}</div>`}
      </div>
      ${submit(form, `Record the purchase`, 'buy')}</form>`;
  }
}
