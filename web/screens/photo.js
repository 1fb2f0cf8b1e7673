// Photographing a coin: which side, take it, look at it, keep it.
import { html, nothing } from '../parts/html.js';
import { head } from '../parts/head.js';
import { icon } from '../parts/icons.js';
import { holder } from '../parts/holder.js';
import { makeForm, segments, submit } from '../parts/field.js';
import { shrink } from '../parts/shrink.js';
import { slip } from '../parts/slip.js';
import { SIDES } from '../parts/words.js';

export function open(ui, { id }) {
  const { engine } = ui;
  const form = makeForm(ui, {});
  let card;
  let side = 'obverse';
  let blob = null;
  let url = '';
  engine.card('coin', id).then((found) => {
    card = found;
    const has = (one) => card?.photos?.some((photo) => photo.side === one);
    side = has('obverse') && !has('reverse') ? 'reverse' : 'obverse';
    ui.update();
  });
  return { title: 'Photo', form: true, view, close: clear };

  function clear() {
    if (url) URL.revokeObjectURL(url);
    [blob, url] = [null, ''];
  }

  async function take(event) {
    const file = event.target.files[0];
    event.target.value = '';
    if (!file) return;
    await form.run(async () => {
      const small = await shrink(file);
      clear();
      blob = small;
      url = URL.createObjectURL(small);
    });
  }

  async function keep(event) {
    event.preventDefault();
    if (!blob) return;
    await form.run(async () => {
      await engine.record('photo', { coin: card.id, side }, { photo: blob });
      ui.go(`/c/${card.id}`, { replace: true });
      ui.say('The photo is kept, and is sent when the desk is in reach.');
    });
  }

  function view() {
    if (!card) return html`${head(ui, { title: 'Photo', back: `/c/${id}`, close: true })}`;
    return html`<form class="fill" @submit=${keep} novalidate>${head(ui, { title: 'Photo', back: `/c/${id}`, close: true })}
      <div class="body gap">${slip(ui, card)}
        ${segments('side', side, Object.entries(SIDES), (value) => { side = value || side; ui.update(); }, 'Side')}
        <div class="viewing">${side === 'obverse' || side === 'reverse' || !url ? holder({ size: 'large', open: !url, photo: url, alt: url ? `${SIDES[side]}, as taken` : '' }) : html`<img class="whole" src=${url} alt=${`${SIDES[side]}, as taken`}>`}</div>
        <div class="row"><label class="button grow file">${icon('camera')}${url ? 'Take it again' : 'Take a photo'}<input type="file" accept="image/*" capture="environment" @change=${take}></label>
          <label class="button file">${icon('picture')}From files<input type="file" accept="image/*" @change=${take}></label></div>
        <p class="soft small">Never clean a coin for its photo. Hold it by the edge, over something soft.</p>
      </div>${url ? submit(form, 'Keep the photo', 'fits', { busyWords: 'Working …' }) : nothing}</form>`;
  }
}
