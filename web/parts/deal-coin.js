// A coin that comes in by a deal, described with the same fields as in a purchase.
import { html } from './html.js';
import { head } from './head.js';
import { icon } from './icons.js';
import { makeForm, text } from './field.js';
import { coinFields, readCoin } from './coin-fields.js';
import { showId } from './words.js';

/**
 * A view over a form for `row` {id, drawn, values}; what is typed is in it at once. `keep()` closes it, `drop()` takes the coin out
 * of `where`.
 */
export function makeCoinView(ui, row, { places, changed, keep, drop, where = 'the deal' }) {
  const form = makeForm(ui, row.values, changed);

  function submit(event) {
    event.preventDefault();
    const { wrong } = readCoin(ui, form);
    const pieces = (form.values.pieces ?? '').trim();
    if (pieces && !/^[1-9]\d{0,5}$/.test(pieces)) wrong.pieces = 'Give a number of pieces, at least 1; leave it empty for a single coin.';
    if (Object.keys(wrong).length) form.fail(wrong);
    else keep();
  }

  return {
    close() {},
    view: () => html`<form class="fill" @submit=${submit} novalidate>${head({ ...ui, back: keep }, { title: 'A coin that comes in', back: '/deal', close: true })}
      <div class="body gap"><p class="slip-id"><span class="soft small">${row.drawn ? 'New ID: write it on the holder' : 'Label'}</span><b class="id">${showId(row.id)}</b></p>
        ${coinFields(ui, form, places)}
        ${text(form, 'pieces', 'Pieces', { mode: 'numeric', max: 6, hint: '1', help: 'More than one: a lot, one label for so many alike coins.' })}
        <button type="button" class="button plain left" @click=${drop}>${icon('close')}Take it out of ${where}</button></div>
      <div class="actions"><div class="line"><button class="button main grow" type="submit">${icon('fits')}Keep it in ${where}</button></div></div></form>`,
  };
}
