// The photo of a deal's receipt, added to a deal that is recorded: taken now, sent when the desk is in reach.
import { html, nothing } from '../parts/html.js';
import { head } from '../parts/head.js';
import { icon } from '../parts/icons.js';
import { makeForm, submit } from '../parts/field.js';
import { makePhoto } from '../parts/form-photo.js';
import { photoUrl, readWaiting } from '../parts/photo-url.js';
import { slip } from '../parts/slip.js';
import { undoLast } from '../parts/undo.js';

/** `of`: the deal; `id`: the coin from whose card it is added, or absent. */
export function open(ui, { id, of }) {
  const { engine } = ui;
  const form = makeForm(ui, {});
  const photo = makePhoto();
  const back = id ? `/c/${id}` : `/receipt/${of}`;
  let card; // undefined: being read
  let there = []; // photos that the deal has
  load();
  return { title: 'Receipt', form: true, view, close: photo.close };

  async function load() {
    const [found, entries] = await Promise.all([id ? engine.card('coin', id) : null, engine.entries()]);
    const mine = entries.filter(({ fact, state }) => fact.kind === 'receipt' && fact.body.of === of && state === 'waiting').map(({ fact }) => fact.body.photo);
    there = [...new Set([...(found?.own?.receipts?.[of] ?? []), ...mine])].map((one) => ({ photo: one, local: mine.includes(one) }));
    await readWaiting(engine, there);
    card = found;
    ui.update();
  }

  async function keep(event) {
    event.preventDefault();
    if (!photo.blob) return;
    await form.run(async () => {
      await engine.record('receipt', { of, ...(id ? { coin: id } : {}) }, { photo: photo.blob });
      ui.go(back, { replace: true });
      ui.say('The receipt is kept, and is sent when the desk is in reach.', { act: { text: 'Void', run: () => undoLast(ui) } });
    });
  }

  function view() {
    const bar = head(ui, { title: there.length ? 'Another receipt' : 'Add the receipt', back, close: true });
    if (card === undefined) return bar;
    if (engine.state.role !== 'owner') return html`${bar}<div class="body gap"><p>Only the owner may enter this.</p></div>`;
    return html`<form class="fill" @submit=${keep} novalidate>${bar}<div class="body gap">${card ? slip(ui, card) : nothing}
      ${there.length ? html`<div class="row wrap">${there.map((one) => html`<img class="receipt-small" src=${photoUrl(one, 'thumb')} alt="A receipt that this deal has">`)}</div>` : nothing}
      ${photo.url ? html`<div class="viewing"><img class="whole" src=${photo.url} alt="The receipt, as taken"></div>` : html`<p class="soft">A photo of the paper that the other party gave you, or that you gave: flat, whole and in good light.</p>`}
      <div class="row"><label class="button grow file">${icon('camera')}${photo.url ? 'Take it again' : 'Take a photo'}<input type="file" accept="image/*" capture="environment" @change=${(event) => photo.take(form, event)}></label>
        <label class="button file">${icon('picture')}From files<input type="file" accept="image/*" @change=${(event) => photo.take(form, event)}></label></div>
      <p class="soft small">It is kept with the deal and never shown on a card that others may see.</p>
    </div>${photo.url ? submit(form, 'Keep the receipt', 'fits', { busyWords: 'Working …' }) : nothing}</form>`;
  }
}
