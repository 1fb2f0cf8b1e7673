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
  const { ask, floor, cost, pieces, of, loss } = partOf(card);
  const gift = loss !== undefined; // one basis for a gain, a lower one for a loss
  const { currency } = ui.engine.state;
  const money = (cents) => html`<span class="money">${show(cents, currency)}</span>`;
  const gain = (cents) => html`<b class="figures ${cents < 0 ? 'bad' : 'good'}">${show(cents, currency, { sign: true })}</b>`;
  const found = bargain({ cost, floor, ask, acquired: card.theirs ? null : own.purchase?.since ?? own.purchase?.date, today: today(), loss });
  const neither = (price) => gift && loss !== null && price >= loss && price <= cost;
  return html`${pieces < of ? html`<h3>The ${count(pieces, 'piece')} that ${pieces === 1 ? 'is' : 'are'} left</h3>` : nothing}<dl class="ledger bargain">
    ${pieces < of ? html`${line('Their part of the ask', ask, money)}${line('What they cost', cost, money)}` : nothing}
    ${line('Held', found.days, (days) => count(days, 'day'))}
    ${neither(ask) ? html`<div><dt>At the ask</dt><dd><b>neither gain nor loss</b></dd></div>` : line('Gain at the ask', found.profit, gain)}
    ${neither(ask) ? nothing : html`${line('Margin', found.margin, share)}${line('Markup', found.markup, share)}`}
    ${gift ? line('Basis for a gain', cost, money) : line('Break-even price', found.breakEven, money)}
    ${gift ? line('Basis for a loss', loss ?? null, money) : nothing}
    ${gift ? line('Down to where a loss begins', discount(ask, loss), share) : line('Down to break even', found.toBreakEven, share)}
    ${line('Down to the floor', found.toFloor, share)}
  </dl>${gift ? html`<p class="small soft">${loss === null ? 'A gift: below its basis, its value when it was given decides, and that is not known.'
      : html`A gift breaks even from ${money(loss)} to ${money(cost)}: between the two bases there is neither gain nor loss.`} Not tax advice; a licensed preparer decides.</p>` : nothing}
  ${ask && cost !== null ? offered() : nothing}`;

  function offered() {
    const price = offer.id === card.id ? offer.price : ask;
    const { least, most, step } = reach(ask, Math.min(cost, loss ?? cost, floor ?? cost, ask), Math.max(ask, cost));
    const left = at(price, cost, loss);
    const said = neither(price) ? 'neither gain nor loss' : left.profit === null ? 'a loss that is not known' : html`${left.profit < 0 ? 'loss' : 'gain'} ${gain(left.profit)}`;
    return html`<div class="field offer"><label for="f-offer">Offer <b class="money">${show(price, currency)}</b></label>
      <input id="f-offer" type="range" min=${least} max=${most} step=${step} .value=${live(String(price))} aria-valuetext=${show(price, currency)}
        @input=${(event) => { offer = { id: card.id, price: Number(event.target.value) }; showCosts(ui); }}>
      <p class="gain small" role="status">${share(discount(ask, price))} off the ask, ${said}${left.margin === null || neither(price) ? nothing : html`, margin ${share(left.margin)}`}</p>
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
