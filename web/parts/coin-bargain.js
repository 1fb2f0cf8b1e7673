// How far the price can come down, and what an offer leaves. Loaded when the costs are shown.
import { html, live, nothing } from './html.js';
import { show } from './money.js';
import { today } from './dates.js';
import { showCosts } from './discretion.js';
import { count } from './words.js';
import { at, bargain, discount } from '../deal/bargain.js';
import { partOf } from '../deal/lot.js';

let offer = { id: null, price: null };

/** Of a coin, or of the pieces of a lot that are left. What it has to bring is its cost; of somebody's coin with us, what its owner is to have. */
export function coinBargain(ui, card) {
  const { own } = card;
  const { ask, floor, cost, pieces, of } = partOf(card);
  const { currency } = ui.engine.state;
  const money = (cents) => html`<span class="money">${show(cents, currency)}</span>`;
  const gain = (cents) => html`<b class="figures ${cents < 0 ? 'bad' : 'good'}">${show(cents, currency, { sign: true })}</b>`;
  const found = bargain({ cost, floor, ask, acquired: card.theirs ? null : own.purchase?.since ?? own.purchase?.date, today: today() });
  return html`${pieces < of ? html`<h3>The ${count(pieces, 'piece')} that ${pieces === 1 ? 'is' : 'are'} left</h3>` : nothing}<dl class="ledger bargain">
    ${pieces < of ? html`${line('Their part of the ask', ask, money)}${line('What they cost', cost, money)}` : nothing}
    ${line('Held', found.days, (days) => count(days, 'day'))}
    ${line('Gain at the ask', found.profit, gain)}
    ${line('Margin', found.margin, share)}
    ${line('Markup', found.markup, share)}
    ${line('Break-even price', found.breakEven, money)}
    ${line('Down to break even', found.toBreakEven, share)}
    ${line('Down to the floor', found.toFloor, share)}
  </dl>${ask && cost !== null ? offered() : nothing}`;

  function offered() {
    const price = offer.id === card.id ? offer.price : ask;
    const { least, most, step } = reach(ask, Math.min(cost, floor ?? cost, ask), Math.max(ask, cost));
    const left = at(price, cost);
    return html`<div class="field offer"><label for="f-offer">Offer <b class="money">${show(price, currency)}</b></label>
      <input id="f-offer" type="range" min=${least} max=${most} step=${step} .value=${live(String(price))} aria-valuetext=${show(price, currency)}
        @input=${(event) => { offer = { id: card.id, price: Number(event.target.value) }; showCosts(ui); }}>
      <p class="gain small" role="status">${share(discount(ask, price))} off the ask, ${left.profit < 0 ? 'loss' : 'gain'} ${gain(left.profit)}${left.margin === null ? nothing : html`, margin ${share(left.margin)}`}</p>
      ${floor && price < floor ? html`<p class="wrong">Below the floor of ${show(floor, currency)}.</p>` : nothing}</div>`;
  }
}

const share = (text) => html`<span class="figures">${text.replace('-', '−')}%</span>`;
const line = (what, value, say) => (value === null ? nothing : html`<div><dt>${what}</dt><dd>${say(value)}</dd></div>`);

// Steps that a thumb can hit, through the ask itself, from a fifth below the lowest figure that matters to the highest.
function reach(ask, lowest, highest) {
  const step = [10_000, 1_000, 100, 25, 5].find((one) => ask >= one * 80) ?? 1;
  const below = Math.min(Math.floor(ask / step), Math.ceil((ask - lowest * 0.8) / step));
  return { least: ask - below * step, most: ask + Math.ceil((highest - ask) / step) * step, step };
}
