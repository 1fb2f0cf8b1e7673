// Where it came from and where it went. Dates and words; amounts stand under Money.
import { html, nothing } from './html.js';
import { moneyHidden } from './coin-money.js';
import { show } from './money.js';
import { showDate } from './dates.js';
import { PAYMENT } from './words.js';

export function coinHistory(ui, card, shows) {
  const { own } = card;
  if (!own) return nothing;
  const { purchase, sale } = own;
  return html`<section class="panel" aria-labelledby="history-title"><header><h2 id="history-title">Purchase history</h2></header>
    ${!purchase && !sale ? html`<p class="soft">No purchase is recorded. <a href=${`/c/${card.id}/buy`}>Record what it cost</a></p>` : nothing}
    <ol class="history">
      ${sale ? deal('Sold', sale, sale.to, 'to', sale.price) : nothing}
      ${purchase ? deal('Bought', purchase, purchase.from, 'from', own.cost) : nothing}
    </ol></section>`;

  function deal(what, one, who, way, cents) {
    const at = shows.find((each) => each.id === one.show)?.name;
    return html`<li><b>${what}</b> <span class="figures">${showDate(one.date)}</span>${who ? html` ${way} <b>${who}</b>` : nothing}${at ? html`, at ${at}` : nothing}
      ${moneyHidden() || cents === null || cents === undefined ? nothing : html`<span class="money">${show(cents, ui.engine.state.currency)}</span>`}
      ${one.payment ? html`<span class="soft small">Paid: ${PAYMENT[one.payment].toLowerCase()}</span>` : nothing}
      ${one.note ? html`<p class="soft small">${one.note}</p>` : nothing}</li>`;
  }
}
