// Where it came from and where it went. Dates and words; amounts stand under Money.
import { html, nothing } from './html.js';
import { costsHidden } from './discretion.js';
import { show } from './money.js';
import { icon } from './icons.js';
import { salesOf } from './coin-sales.js';
import { showDate } from './dates.js';
import { photoUrl } from './photo-url.js';
import { count, COSTS, PAYMENT } from './words.js';

export function coinHistory(ui, card, shows) {
  const { own } = card;
  if (!own) return nothing;
  const { purchase, sale } = own;
  const open = new Set(salesOf(card).map((each) => each.fact));
  return html`<section class="panel" aria-labelledby="history-title"><header><h2 id="history-title">Purchase history</h2></header>
    ${!purchase && !sale && !later(own).length && !card.theirs ? html`<p class="soft">No purchase is recorded. <a href=${`/c/${card.id}/buy`}>Record what it cost</a></p>` : nothing}
    <ol class="history">
      ${later(own).map(([what, one], at, all) => deal(what, one, one.with, FROM.includes(one.kind) ? 'from' : 'with', one.cents, all.findLastIndex(([, other]) => other.fact === one.fact) === at))}
      ${sale ? deal('Sold', sale, sale.to, 'to', sale.price) : nothing}
      ${purchase ? deal(ROADS[purchase.how] ?? 'Bought', purchase, purchase.from, 'from', own.cost) : nothing}
    </ol></section>`;

  // What may be entered about an entry of the history, on a line of its own.
  function doings(one, last) {
    const back = open.has(one.fact) && one.kind !== 'return';
    const paper = last && one.fact && PAPERED.includes(one.kind ?? 'purchase');
    return back || paper ? html`<div class="row wrap">${back ? html`<a class="button plain left" href=${`/c/${card.id}/return/${one.fact}`}>${icon('undo')}Record its return</a>` : nothing}
      ${paper ? papers(one.fact) : nothing}</div>` : nothing;
  }

  // The photos of an entry's receipts, and the way to add one.
  function papers(fact) {
    const photos = own.receipts?.[fact] ?? [];
    return html`<a class="button plain left" href=${`/c/${card.id}/receipt/${fact}`}>${photos.length ? photos.map((photo) => html`<img class="receipt-small" src=${photoUrl({ photo }, 'thumb')} alt="Receipt" loading="lazy">`) : icon('camera')}
      ${photos.length ? 'Another receipt' : 'Add the receipt'}</a>`;
  }

  // `last`: the last line of its entry, which may have several.
  function deal(what, one, who, way, cents, last = true) {
    const at = shows.find((each) => each.id === one.show)?.name;
    return html`<li><b>${what}</b> <span class="figures">${showDate(one.date)}</span>${who ? html` ${way} <b>${who}</b>` : nothing}${at ? html`, at ${at}` : nothing}
      ${costsHidden() || cents === null || cents === undefined ? nothing : html`<span class="money">${show(cents, ui.engine.state.currency)}</span>`}
      ${one.payment ? html`<span class="soft small">Paid: ${(PAYMENT[one.payment] ?? one.payment).toLowerCase()}</span>` : nothing}
      ${one.note ? html`<p class="soft small">${one.note}</p>` : nothing}
      ${doings(one, last)}</li>`;
  }
}

const PAPERED = ['purchase', 'sale', 'ticket', 'trade', 'return', 'memo', 'cost']; // that may have a receipt
const FROM = ['return', 'purchase'];

const ROADS = { gift: 'Given', inherited: 'Inherited', found: 'Found', opening: 'In the book from', trade: 'Came by trade' };
const MOVES = { return: 'Returned by the buyer', withdrawn: 'Held otherwise', trade: 'Traded', memo: 'On memo', consignment: 'On consignment', away: 'Sent away', back: 'Came back', lost: 'Lost', ticket: 'Sold' };

// Pieces added, later costs and moves, the newest first; the sale that stands has its own line.
function later({ costs = [], moves = [], sale }) {
  const lines = costs.filter((line) => line.fact);
  const paid = lines.filter((line) => !line.pieces).map((line) => [`${COSTS[line.what] ?? line.what} paid later`, line]);
  const came = new Map(lines.filter((line) => line.pieces).map((line) => [line.fact, line]));
  const added = [...came.values()].map((line) => [`${count(line.pieces, 'piece')} added`, {
    ...line, kind: 'purchase', with: line.from, cents: lines.reduce((sum, one) => (one.fact === line.fact ? sum + one.cents : sum), 0) }]);
  const moved = moves.filter((move) => move.fact !== sale?.fact).map((move) => [MOVES[move.how === 'consignment' ? move.how : move.kind] ?? 'Sold', move]);
  return [...moved.reverse(), ...paid.reverse(), ...added.reverse()].sort(([, a], [, b]) => (b.date ?? '').localeCompare(a.date ?? ''));
}
