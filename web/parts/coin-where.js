// Where a coin is when it is not simply here and ours: with whom, since when, until when, how many are left.
import { html, nothing } from './html.js';
import { showDate } from './dates.js';
import { capital } from './words.js';

const HELD_AS = { stock: 'In stock for sale', investment: 'Held as an investment', personal: 'Personal, not for sale' };

export function coinWhere({ where, theirs, pieces, left, own, state }) {
  const rows = [];
  if (theirs) rows.push(['Owner', html`${where?.with || 'Somebody else'} <span class="soft">(not our stock)</span>`]);
  else if (where?.with) rows.push(['With', where.with]);
  if (where?.date) rows.push([theirs ? 'Here since' : 'Since', showDate(where.date)]);
  if (where?.due) rows.push(['Until', showDate(where.due)]);
  if (where?.why && ['away', 'missing'].includes(state)) rows.push(['Why', capital(where.why)]);
  if (pieces) rows.push(['Lot', `${left} of ${pieces} left`]);
  if (own?.held) rows.push(['Held', HELD_AS[own.held] ?? own.held]);
  return rows.length ? rows.map(([name, value]) => html`<div><dt>${name}</dt><dd>${value}</dd></div>`) : nothing;
}
