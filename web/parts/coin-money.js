// Asking price for all; cost, floor and gain for the owner, behind a press that is remembered.
import { html, nothing } from './html.js';
import { icon } from './icons.js';
import { show } from './money.js';
import { COST_LINES, COSTS } from './words.js';

const KEY = 'exergue.money-hidden';
let hidden = localStorage.getItem(KEY) === '1';

export function moneyHidden() {
  return hidden;
}

function toggle(ui) {
  hidden = !hidden;
  localStorage.setItem(KEY, hidden ? '1' : '0');
  ui.update();
}

export function coinMoney(ui, card) {
  const say = (cents) => (cents === null || cents === undefined ? html`<span class="soft">–</span>` : html`<span class="money">${show(cents, ui.engine.state.currency)}</span>`);
  const { own } = card;
  const veiled = (cents) => (hidden ? html`<span class="veil" aria-label="hidden">•••</span>` : say(cents));
  return html`<section class="panel money-panel" aria-labelledby="money-title">
    <header><h2 id="money-title">${own ? 'Money' : 'Price'}</h2>
      ${own ? html`<button class="button plain" aria-pressed=${String(hidden)} @click=${() => toggle(ui)}>${icon(hidden ? 'eye' : 'hidden')}${hidden ? 'Show cost' : 'Hide cost'}</button>` : nothing}
    </header>
    <dl class="figures3">
      <div><dt>Asking</dt><dd class="lead">${say(card.ask)}</dd></div>
      ${own ? html`<div><dt>Floor</dt><dd class="lead">${veiled(own.floor)}</dd></div>
        <div><dt>All-in cost</dt><dd class="lead">${veiled(own.cost)}</dd></div>` : nothing}
    </dl>
    ${own && !hidden ? lines(card, own, say, ui.engine.state.currency) : nothing}
  </section>`;
}

function lines(card, own, say, currency) {
  const gain = own.sale ? own.sale.gain : card.ask !== null && card.ask !== undefined && own.cost !== null && own.cost !== undefined ? card.ask - own.cost : null;
  return html`
    ${own.costs?.length > 1 ? html`<dl class="ledger">${own.costs.map((line) => html`<div><dt>${COST_LINES[line.what] ?? line.what}</dt><dd>${say(line.cents)}</dd></div>`)}
      <div class="total"><dt>All-in cost</dt><dd>${say(own.cost)}</dd></div></dl>` : nothing}
    ${own.sale ? html`<dl class="ledger"><div><dt>Sold for</dt><dd>${say(own.sale.price)}</dd></div>
      ${(own.sale.costs ?? []).map((line) => html`<div><dt>Less ${(COSTS[line.what] ?? line.what).toLowerCase()}</dt><dd>${say(line.cents)}</dd></div>`)}</dl>` : nothing}
    ${gain === null || gain === undefined ? nothing : html`<p class="gain small">${own.sale ? (gain < 0 ? 'Loss' : 'Gain') : 'If sold at the asking price'}:
      <b class="figures ${gain < 0 ? 'bad' : 'good'}">${show(gain, currency, { sign: true })}</b>${share(gain, own.cost)}</p>`}`;
}

const share = (gain, cost) => (cost > 0 ? ` (${gain < 0 ? '−' : '+'}${Math.abs(Math.round((gain / cost) * 100))}% of cost)` : '');
