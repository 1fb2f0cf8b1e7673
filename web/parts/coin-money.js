// Asking price for all; cost, floor and gain for the owner, behind a press that does not last.
import { html, nothing } from './html.js';
import { icon } from './icons.js';
import { show } from './money.js';
import { showDate } from './dates.js';
import { costsHidden, hideCosts, showCosts } from './discretion.js';
import { COST_LINES, COSTS, HELD } from './words.js';

let bargaining = null; // the module, once somebody asked

async function reveal(ui) {
  showCosts(ui);
  bargaining ??= await import('./coin-bargain.js');
  ui.update();
}

export const costButton = (ui, what = 'what it cost') => html`<button type="button" class="button plain" aria-pressed=${String(!costsHidden())}
  @click=${() => (costsHidden() ? reveal(ui) : hideCosts())}>${icon(costsHidden() ? 'eye' : 'hidden')}${costsHidden() ? 'Show' : 'Hide'} ${what}</button>`;

export function coinMoney(ui, card) {
  const say = (cents) => (cents === null || cents === undefined ? html`<span class="soft">–</span>` : html`<span class="money">${show(cents, ui.engine.state.currency)}</span>`);
  const { own } = card;
  const hidden = costsHidden();
  const veiled = (cents) => (hidden ? html`<span class="veil" aria-label="hidden">•••</span>` : say(cents));
  const due = card.theirs ? own?.moves?.findLast((move) => move.kind === 'memo')?.cents ?? null : null;
  const cost = card.theirs ? due : own?.cost ?? null;
  const gone = Boolean(own?.sale) && !HELD.includes(card.state); // what it was to bring is past
  return html`<section class="panel money-panel" aria-labelledby="money-title">
    <header><h2 id="money-title">${own ? 'Money' : 'Price'}</h2>${own ? costButton(ui) : nothing}</header>
    <dl class="figures3">
      ${gone ? html`<div><dt>Sold for</dt><dd class="lead">${veiled(own.sale.price)}</dd></div>`
      : html`<div><dt>${card.pieces ? `Asking for all ${card.pieces}` : 'Asking'}</dt><dd class="lead">${say(card.ask)}</dd></div>`}
      ${own ? html`${gone ? nothing : html`<div><dt>Floor</dt><dd class="lead">${veiled(own.floor)}</dd></div>`}
        <div><dt>${card.theirs ? 'Due to its owner' : 'All-in cost'}</dt><dd class="lead">${veiled(cost)}</dd></div>` : nothing}
    </dl>
    ${own && !hidden ? html`${lines(own, say, ui.engine.state.currency, gone)}
      ${HELD.includes(card.state) ? bargaining?.coinBargain(ui, card) ?? nothing : nothing}` : nothing}
  </section>`;
}

function lines(own, say, currency, gone) {
  const gain = own.sale?.gain;
  const neither = gain === 0 && own.purchase?.how === 'gift' && net(own.sale) !== own.cost;
  return html`
    ${own.cost_left === undefined ? nothing : html`<dl class="ledger"><div><dt>Cost of what is left</dt><dd>${say(own.cost_left)}</dd></div></dl>`}
    ${own.costs?.length > 1 ? html`<details class="more"><summary>Cost lines</summary><dl class="ledger">${own.costs.map((line) => html`<div><dt>${COST_LINES[line.what] ?? line.what}${line.date ? html` <span class="soft small">${showDate(line.date)}${line.after ? ', after the sale' : ''}</span>` : nothing}</dt><dd>${say(line.cents)}</dd></div>`)}
      <div class="total"><dt>All-in cost</dt><dd>${say(own.cost)}</dd></div></dl></details>` : nothing}
    ${own.sale && !(gone && !own.sale.costs?.length) ? html`<dl class="ledger">${gone ? nothing : html`<div><dt>Sold for</dt><dd>${say(own.sale.price)}</dd></div>`}
      ${(own.sale.costs ?? []).map((line) => html`<div><dt>Less ${(COSTS[line.what] ?? line.what).toLowerCase()}</dt><dd>${say(line.cents)}</dd></div>`)}</dl>` : nothing}
    ${gain === null || gain === undefined ? nothing : neither ? html`<p class="gain small">Neither gain nor loss: between the two bases of the gift.</p>` : html`<p class="gain small">${gain < 0 ? 'Loss' : 'Gain'}:
      <b class="figures ${gain < 0 ? 'bad' : 'good'}">${show(gain, currency, { sign: true })}</b>${share(gain, own.cost)}</p>`}`;
}

const net = ({ price, costs = [] }) => price - costs.reduce((sum, line) => sum + line.cents, 0);
const share = (gain, cost) => (cost > 0 ? ` (${gain < 0 ? '−' : '+'}${Math.abs(Math.round((gain / cost) * 100))}% of cost)` : '');
