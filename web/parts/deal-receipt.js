// The photo of a deal's receipt. It is kept while the app is open, as long as its deal is in the making, and then with the entry.
import { html, nothing } from './html.js';
import { icon } from './icons.js';
import { makePhoto } from './form-photo.js';

const taken = new Map(); // key of a deal → its photo

export function receiptOf(deal) {
  return taken.get(deal.key) ?? taken.set(deal.key, makePhoto()).get(deal.key);
}

/** The deal is recorded, or dropped: its photo goes. */
export function forgetReceipt(deal) {
  taken.get(deal.key)?.close();
  taken.delete(deal.key);
}

/** The field. `values.receipt` is the photo of a refused entry that is put right; it goes along unless another is taken. */
export function receiptField(form, deal) {
  const photo = receiptOf(deal);
  const before = form.values.receipt && !photo.url;
  return html`<div class="row"><label class="button grow file">${icon('camera')}${photo.url || before ? 'Take it again' : 'Photo of the receipt'}<input type="file" accept="image/*" capture="environment" @change=${(event) => photo.take(form, event)}></label>
      ${photo.url ? html`<img class="tiny" src=${photo.url} alt="The receipt, as taken">` : nothing}</div>
    ${before ? html`<p class="small soft">The photo that was taken before goes along.</p>` : nothing}`;
}
