// What the composer calls things, and its two sheets.
import { html } from './html.js';
import { options } from './options.js';
import { showDate } from './dates.js';
import { kindOf } from './deals-kept.js';
import { count } from './words.js';

export const TITLES = { none: 'Deal', ticket: 'Record a sale', purchase: 'Record a purchase', trade: 'Record a trade' };

// What keeps it, and its sign.
export const BUTTONS = { ticket: ['Record the sale', 'sell'], purchase: ['Record the purchase', 'buy'], trade: ['Record the trade', 'sync'] };

export const SPLITS = [['even', 'Evenly over the pieces'], ['weights', 'By shares that you type'], ['estimate', 'By the desk’s estimates'], ['face', 'By face value']];

// What is said when a deal is recorded, by kind of entry.
export const DONE = {
  sale: ({ agreed }, money) => `Sold for ${money(agreed)}.`,
  ticket: ({ agreed }, money) => `Sold for ${money(agreed)}.`,
  purchase: ({ due }, money) => `Bought for ${money(due)} all in.`,
  trade: ({ boot }, money) => (boot ? `Traded; ${boot > 0 ? 'they pay you' : 'you pay them'} ${money(Math.abs(boot))}.` : 'Traded, even.'),
};

const NAMES = { ticket: 'Sale', purchase: 'Purchase', trade: 'Trade' };

/** A deal in the making in a few words. */
export function dealWords(deal) {
  const kind = kindOf(deal);
  return `${NAMES[kind] ?? 'Deal'} of ${count(deal.out.length + deal.come.length, 'coin')}${deal.values.party.trim() ? `, ${deal.values.party.trim()}` : ''}`;
}

export function asideSheet(ui, deals, choose) {
  ui.sheet('Deals begun', () => options(deals.map((deal) => [deal.key, dealWords(deal), 'wait', showDate(deal.values.date)]), null, (key) => choose(deals.find((one) => one.key === key))));
}

export function dropSheet(ui, drop) {
  ui.sheet('Start over?', () => html`<div class="gap"><p>What was entered for this deal is dropped. Nothing of it is in the book.</p>
    <div class="row"><button class="button grow" @click=${ui.closeSheet}>Keep it</button><button class="button danger grow" @click=${() => { ui.closeSheet(); drop(); }}>Start over</button></div></div>`);
}
