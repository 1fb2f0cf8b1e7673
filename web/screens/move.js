// Where the coin lies now: box, case, row.
import { html, nothing } from '../parts/html.js';
import { head } from '../parts/head.js';
import { icon } from '../parts/icons.js';
import { makeForm, submit, text } from '../parts/field.js';
import { inPlace, leaveOff, mended, whyRefused } from '../parts/mending.js';
import { options } from '../parts/options.js';
import { slip } from '../parts/slip.js';

export function open(ui, { id }) {
  const { engine } = ui;
  const form = makeForm(ui, { place: '' });
  let card;
  let places = [];
  let refused = null;

  async function load() {
    [card, places, refused] = await Promise.all([engine.card('coin', id), engine.places(), mended(ui)]);
    if (refused) form.values.place = refused.fact.body.set.place;
    ui.update();
  }
  load();
  return { title: 'Move', form: true, view, close: leaveOff };

  async function move(place, { clear = false } = {}) {
    if (!place && !clear) { form.fail({ place: 'Type the new place, or press one below.' }); return; }
    if (place === (card.place ?? '')) { ui.say(place ? `It is in ${place} already.` : 'It has no place noted.'); return; }
    await form.run(async () => {
      await inPlace(ui, refused, await engine.record('coin.edit', { coin: card.id, base: { place: card.place ?? '' }, set: { place } }));
      ui.go(`/c/${card.id}`, { replace: true });
      ui.say(place ? `Moved to ${place}.` : 'Its place is cleared.');
    });
  }

  function view() {
    if (!card) return html`${head(ui, { title: 'Move', back: `/c/${id}`, close: true })}`;
    const near = places.filter((one) => one !== card.place && one.toLowerCase().includes(form.values.place.toLowerCase()));
    return html`<form class="fill" @submit=${(event) => { event.preventDefault(); move(form.values.place.trim()); }} novalidate>
      ${head(ui, { title: 'Move', back: `/c/${id}`, close: true })}
      <div class="body gap">${whyRefused(refused)}${slip(ui, card)}
        <p>Now in <b>${card.place || 'no place noted'}</b>.</p>
        ${text(form, 'place', 'New place', { max: 60, hint: 'Box, case, row', help: 'Type a new one, or press one that the book knows.' })}
        ${near.length ? options(near.slice(0, 30).map((one) => [one, one]), null, (place) => move(place)) : nothing}
        ${card.place && !form.values.place ? html`<button type="button" class="button plain left" @click=${() => move('', { clear: true })}>${icon('close')}Clear its place</button>` : nothing}
      </div>${submit(form, form.values.place.trim() ? `Move to ${form.values.place.trim()}` : 'Move it', 'move')}</form>`;
  }
}
