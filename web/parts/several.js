// The coins that one entry is about: the first is given, others are chosen from the stock.
import { html, nothing } from './html.js';
import { icon } from './icons.js';
import { coinTitle, slip } from './slip.js';
import { showId } from './words.js';

const MOST = 20; // offered at a time: a few more letters find the rest

/** `about.joins`: the word on the button; `about.fits(card)`: '' or why this coin cannot be in such an entry. */
export function joinCoins(ui, cards, about) {
  const leave = (card) => () => { cards.splice(cards.indexOf(card), 1); ui.update(); };
  return html`<div class="stack">${cards.map((card, at) => (at === 0 ? slip(ui, card) : html`<div class="row joined"><div class="grow">${slip(ui, card)}</div>
      <button type="button" class="round" aria-label=${`Leave out ${showId(card.id)}`} @click=${leave(card)}>${icon('close')}</button></div>`))}
    <button type="button" class="button plain left" aria-haspopup="dialog" @click=${() => choose(ui, cards, about)}>${icon('add')}${about.joins}</button></div>`;
}

function choose(ui, cards, about) {
  const { engine } = ui;
  let text = '';
  let found = null;
  let turn = 0;
  const search = async () => {
    const mine = ++turn;
    const { rows } = await engine.search(text, { state: cards[0].state, limit: MOST });
    const others = await Promise.all(rows.filter((row) => !cards.some((card) => card.id === row.id)).map((row) => engine.card('coin', row.id)));
    if (mine !== turn) return;
    found = others.filter((card) => card && !about.fits(card));
    ui.update();
  };
  const take = (card) => {
    cards.push(card);
    ui.closeSheet();
  };
  search();
  ui.sheet(about.joins, () => html`<div class="gap">
    <div class="search">${icon('search')}<input type="search" aria-label="Search for a coin" placeholder="Type, date, grade, ID" .value=${text} autocomplete="off" autocapitalize="none"
      spellcheck="false" @input=${(event) => { text = event.target.value; search(); }}></div>
    ${found === null ? nothing : found.length ? html`<ul class="options" role="list">${found.map((card) => html`<li><button type="button" @click=${() => take(card)}>
        <span>${coinTitle(card)}<small>${[showId(card.id), card.place].filter(Boolean).join(', ')}</small></span></button></li>`)}</ul>`
      : html`<p class="soft" role="status">No other coin that is ${cards[0].state} fits.</p>`}</div>`);
}
