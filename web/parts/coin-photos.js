// Obverse and reverse in two round windows; other photos beside them.
import { html, nothing } from './html.js';
import { holder } from './holder.js';
import { photoUrl } from './photo-url.js';
import { SIDES } from './words.js';

export function coinPhotos(ui, card) {
  const photos = card.photos ?? [];
  const last = (side) => photos.findLast((one) => one.side === side);
  const window = (side) => {
    const photo = last(side);
    return html`<figure>${photo
      ? html`<button class="bare" @click=${() => enlarge(ui, photo)} aria-label=${`${SIDES[side]}, larger`}>${holder({ size: 'large', photo: photoUrl(photo, 'thumb') })}</button>`
      : html`<a class="bare" href=${`/c/${card.id}/photo`} aria-label=${`Photograph the ${side}`}>${holder({ size: 'large', open: true })}</a>`}
      <figcaption class="soft small">${SIDES[side]}${photo ? nothing : ': no photo yet'}</figcaption></figure>`;
  };
  const others = photos.filter((one) => one !== last('obverse') && one !== last('reverse'));
  return html`<section class="panel" aria-labelledby="photos-title"><header><h2 id="photos-title">Photos</h2></header>
    <div class="windows">${window('obverse')}${window('reverse')}</div>
    ${others.length ? html`<ul class="thumbs">${others.map((one) => html`<li><button class="bare" @click=${() => enlarge(ui, one)} aria-label=${`${SIDES[one.side]}, larger`}>
      <img src=${photoUrl(one, 'thumb')} alt="" loading="lazy"><small>${SIDES[one.side]}</small></button></li>`)}</ul>` : nothing}
  </section>`;
}

function enlarge(ui, photo) {
  ui.sheet(SIDES[photo.side], () => html`<img class="whole" src=${photoUrl(photo, 'full')} alt=${SIDES[photo.side]} @error=${(event) => {
    event.target.replaceWith('This photo is not on the phone, and the desk is out of reach.');
  }}>`);
}
