// Weight by law, metal, size, edge: the facts that a scale and a caliper can be held against.
import { html, nothing } from '../parts/html.js';
import { showYears } from '../parts/dates.js';
import { count } from '../parts/words.js';

const AXIS = { coin: 'Coin turn: reverse upside down', medal: 'Medal turn: both sides upright', either: 'Either turn' };
const short = (number) => String(Math.round(number * 100) / 100);

export function particulars(type, reference) {
  const [least, most] = type.mm;
  return html`<dl class="particulars">
    ${type.weights.map((one) => html`<div><dt>Weight${type.weights.length > 1 ? html` <span class="figures">${showYears(one.years)}</span>` : nothing}</dt>
      <dd class="figures">${one.grams.toFixed(2)} g <small class="soft">${short(one.grains)} gr${one.tolerance ? `, ± ${short(one.tolerance)} gr` : ''}; ${reference.laws[one.law]?.name ?? ''}${one.note ? `. ${one.note}` : ''}</small></dd></div>`)}
    <div><dt>Metal</dt><dd>${type.metal}${fineness(type)}</dd></div>
    <div><dt>Diameter</dt><dd class="figures">${least === most ? least : `${least} to ${most}`} mm</dd></div>
    <div><dt>Edge</dt><dd>${type.edge}</dd></div>
    <div><dt>Turn</dt><dd>${AXIS[type.axis] ?? type.axis}</dd></div>
    ${type.designer ? html`<div><dt>Design</dt><dd>${type.designer}</dd></div>` : nothing}
    ${type.survivors ? html`<div><dt>Left today</dt><dd class="figures">some ${count(type.survivors, 'piece')} <small class="soft">${type.rare[0]} on Sheldon’s scale, ${type.rare[1]} on the universal one; an estimate, to an order of magnitude; common practice, no source</small></dd></div>` : nothing}
  </dl>`;
}

function fineness({ fine }) {
  return fine ? html` <small class="soft figures">${fine}</small>` : nothing;
}
