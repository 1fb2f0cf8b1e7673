// Somebody's coin with us, on memo or on consignment: in the case, never in the value of our stock.
import { html } from '../parts/html.js';
import { head } from '../parts/head.js';
import { amount, area, cents, date, makeForm, submit, typed } from '../parts/field.js';
import { coinFields, coinValues, readCoin } from '../parts/coin-fields.js';
import { inPlace, leaveOff, mended, whyRefused } from '../parts/mending.js';
import { show } from '../parts/money.js';
import { readParties } from '../parts/party.js';
import { slip } from '../parts/slip.js';
import { today } from '../parts/dates.js';
import { showId } from '../parts/words.js';
import { undoLast } from '../parts/undo.js';
import { agreed, agreement } from './memo.js';

export function open(ui, { id: given }) {
  const { engine } = ui;
  const read = given ? engine.parseId(given) : { id: engine.newId() };
  const { id } = read;
  const form = makeForm(ui, { ...coinValues(), net: '', kind: 'consignment', with: '', due: '', date: today(), note: '' });
  let card; // of a coin that was with us before
  let places = [];
  let refused = null;

  async function load() {
    [card, places, refused] = await Promise.all([engine.card('coin', id), engine.places(), mended(ui), readParties(engine)]);
    if (refused) Object.assign(form.values, said(refused.fact.body));
    ui.update();
  }
  if (!read.error) load();
  return { title: 'In on memo', form: true, view, close: leaveOff };

  function said({ coins: [{ set = {}, net }], kind, due = '', note = '', date: day, ...body }) {
    return { ...set, year: String(set.year ?? ''), ask: typed(ui, set.ask), floor: typed(ui, set.floor), net: typed(ui, net), kind, due, note, date: day, with: body.with ?? '' };
  }

  async function record(event) {
    event.preventDefault();
    const { set, wrong } = card ? { set: null, wrong: {} } : readCoin(ui, form);
    const net = cents(ui, form, 'net');
    if (net === null) wrong.net = 'Give what its owner is to have when it is sold.';
    if (Number.isNaN(net)) wrong.net = 'That is not an amount of money.';
    const terms = agreed(form, wrong);
    if (!form.values.date) wrong.date = 'Give the day on which it came.';
    if (Object.keys(wrong).length) { form.fail(wrong); return; }
    await form.run(async () => {
      const note = form.values.note.trim();
      const body = { way: 'in', coins: [{ coin: id, ...(set ? { set } : {}), net }], ...terms, date: form.values.date, ...(note ? { note } : {}) };
      await inPlace(ui, refused, await engine.record('memo', body));
      ui.go(`/c/${id}`, { replace: true });
      ui.say(`In your case for ${form.values.with.trim()}, who is to have ${show(net, engine.state.currency)}.`, { act: { text: 'Void', run: () => undoLast(ui) } });
    });
  }

  function view() {
    const bar = head(ui, { title: 'In on memo', back: given ? `/c/${id ?? given}` : '/more', close: true });
    const why = read.error ?? (engine.state.role !== 'owner' ? 'Only the owner takes coins in on memo.'
      : card && !refused && !(card.theirs && card.state === 'returned') ? 'This label is on a coin of the book already.' : '');
    if (why) return html`${bar}<div class="body gap"><p>${why}</p></div>`;
    if (card === undefined) return bar;
    return html`<form class="fill" @submit=${record} novalidate>${bar}<div class="body gap">${whyRefused(refused)}
      ${card ? slip(ui, card) : html`<p class="slip-id"><span class="soft small">${given ? 'Label' : 'New ID: write it on the holder'}</span><b class="id">${showId(id)}</b></p>
        ${coinFields(ui, form, places)}`}
      <fieldset class="group"><legend>Whose it is</legend>
        ${agreement(form)}
        ${amount(ui, form, 'net', 'Net to its owner', { help: 'What its owner is to have when it is sold.' })}
        ${date(form, 'date', 'Date')}
        ${area(form, 'note', 'Note', { rows: 2 })}</fieldset>
    </div>${submit(form, 'Take it in', 'show')}</form>`;
  }
}
