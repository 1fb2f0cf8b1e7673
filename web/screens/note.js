// A note about a coin.
import { html } from '../parts/html.js';
import { head } from '../parts/head.js';
import { area, makeForm, submit } from '../parts/field.js';
import { inPlace, leaveOff, mended, whyRefused } from '../parts/mending.js';
import { slip } from '../parts/slip.js';

const drafts = new Map(); // a half-written note outlives a look at another screen

export function open(ui, { id }) {
  const { engine } = ui;
  const form = makeForm(ui, { text: drafts.get(id) ?? '' });
  let card;
  let refused = null;

  async function load() {
    [card, refused] = await Promise.all([engine.card('coin', id), mended(ui)]);
    if (refused) form.values.text = refused.fact.body.text;
    ui.update();
  }
  load();
  return { title: 'Note', form: true, view, close };

  function close() {
    leaveOff();
    if (refused) return;
    if (form.values.text.trim()) drafts.set(id, form.values.text);
    else drafts.delete(id);
  }

  async function record(event) {
    event.preventDefault();
    const text = form.values.text.trim();
    if (!text) { form.fail({ text: 'The note is empty.' }); return; }
    await form.run(async () => {
      await inPlace(ui, refused, await engine.record('note', { coin: card.id, text }));
      form.values.text = '';
      ui.go(`/c/${card.id}`, { replace: true });
      ui.say('Noted.');
    });
  }

  function view() {
    if (!card) return html`${head(ui, { title: 'Note', back: `/c/${id}`, close: true })}`;
    return html`<form class="fill" @submit=${record} novalidate>${head(ui, { title: 'Note', back: `/c/${id}`, close: true })}
      <div class="body gap">${whyRefused(refused)}${slip(ui, card)}${area(form, 'text', 'Note', { rows: 6, hint: 'What you saw, who has a better one, what to ask' })}</div>
      ${submit(form, 'Record the note', 'note')}</form>`;
  }
}
