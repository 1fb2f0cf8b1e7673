// What can be done with a coin in its present state, in the order of how often it is wanted: the list under More.
import { lent, missing } from '../engine/standing.js';
import { HELD } from './words.js';

const OUT = ['on memo', 'on consignment', 'at grading', 'away'];

// For each entry: '' where it is possible now, else a sentence why it is not. The desk judges the same by its own rules.
export const CAN = {
  sell: (card) => (HELD.includes(card.state) ? '' : `This coin is ${card.state}; only what is there can be sold.`),
  cost: (card) => (card.theirs ? 'This coin is somebody else’s; only a coin of your own has a cost.' : ''),
  away: (card) => (card.state === 'in stock' || lent(card) ? '' : `This coin is ${card.state}; it must be here before it can go elsewhere.`),
  memo: (card) => (card.theirs ? 'This coin is somebody else’s; it can only go back to its owner.'
    : card.state === 'in stock' ? '' : `This coin is ${card.state}; it must be here before it can go out.`),
  back: (card) => (OUT.includes(card.state) || card.state === 'missing' || missing(card) > 0 ? '' : `This coin is ${card.state}; it has nowhere to come back from.`),
  lost: (card) => (HELD.includes(card.state) ? '' : `This coin is ${card.state} already.`),
  held: (card) => (card.theirs ? 'This coin is somebody else’s; only a coin of your own can be held otherwise.'
    : HELD.includes(card.state) ? '' : `This coin is ${card.state}; only what is still there can be held otherwise.`),
};

/** The word for coming back that fits the state: [on the button, as a title]. */
export function backWords(card) {
  if (lent(card)) return ['To owner', 'Back to its owner'];
  return card.state === 'missing' || (card.state === 'in stock' && missing(card) > 0) ? ['Found', 'Found again'] : ['Back', 'It is back'];
}

/**
 * [[path, words, sign, more?]…] after the coin's own address, what is usual first. `sales`: those of it that can be given
 * back ([{fact, to, …}], the newest first).
 */
export function doings(card, sales) {
  const owner = Boolean(card.own);
  const can = (name) => CAN[name](card) === '';
  const list = [];
  const add = (when, ...line) => { if (when) list.push(line); };
  add(sales.length, `return/${sales[0]?.fact}`, 'Returned by the buyer', 'undo', sales[0]?.to ? `From ${sales[0].to}` : undefined);
  add(can('back'), 'back', backWords(card)[1], card.state === 'missing' ? 'fits' : 'undo', lent(card) ? 'Unsold, out of your case' : undefined);
  add(owner && card.theirs && card.state === 'returned', 'memo-in', 'In on memo or consignment again', 'show');
  add(owner && !card.own.purchase && HELD.includes(card.state), 'buy', card.theirs ? 'Buy it from its owner' : 'Record what it cost', 'buy');
  add(owner && can('cost'), 'cost', 'Add a later cost', 'add', 'Grading, shipping, insurance');
  add(can('away'), 'away', 'Send it away', 'out', 'Grading, conservation, display');
  add(owner && can('memo'), 'memo', 'Out on memo or consignment', 'show');
  add(owner && can('held'), 'held', 'Hold it otherwise', 'move', 'Personal, investment or stock');
  add(can('lost'), 'lost', 'Missing, lost or stolen', 'unsure');
  return list;
}
