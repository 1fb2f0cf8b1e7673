// A series as a picture: a row for each type, a bar for each run of years, holes where none were struck, hatching where
// there are proofs only, dots where the owner has the date. Each row leads to its type.
import { html, nothing, svg } from '../parts/html.js';
import { icon } from '../parts/icons.js';
import { runs, showYears } from '../parts/dates.js';

const STEPS = [1, 2, 5, 10, 20, 25, 50, 100];
const LABELS = 6; // at most so many years are named
const TALL = 18; // px of a bar's row

// {from, to, ticks}: the years of the picture, `to` not included, and those that are named.
export function scale(types) {
  const from = Math.min(...types.map((one) => one.years[0]));
  const to = Math.max(...types.map((one) => one.years.at(-1))) + 1;
  const step = STEPS.find((one) => (to - from) / one <= LABELS) ?? 100;
  const ticks = [];
  for (let year = Math.ceil(from / step) * step; year < to; year += step) ticks.push(year);
  return { from, to, ticks };
}

const part = (n, { from, to }) => `${((n / (to - from)) * 100).toFixed(3)}%`;

function bars(type, at) {
  const proof = new Set(type.proofOnly);
  const rect = (cls) => ([first, last]) => svg`<rect class=${cls} x=${part(first - at.from, at)} width=${part(last + 1 - first, at)} y="3" height=${TALL - 6} rx="1.5"/>`;
  return [...runs(type.years.filter((year) => !proof.has(year))).map(rect('struck')), ...runs(type.proofOnly).map(rect('proof'))];
}

const dots = (years, at) => [...new Set(years)].filter(Boolean).map((year) => svg`<circle class="held" cx=${part(year + 0.5 - at.from, at)} cy=${TALL / 2} r="3.2"/>`);

// entries: [{key, name, years, proofOnly}] in order; held: type → years owned; link(key) → address.
export function timeline(entries, { held = {}, link, now = '' }) {
  const at = scale(entries);
  return html`<div class="timeline">
    <svg class="axis" aria-hidden="true" height="20">${at.ticks.map((year) => svg`<text x=${part(year - at.from, at)} y="13">${year}</text>`)}</svg>
    <ol>${entries.map((one) => html`<li><a href=${link(one.key)} aria-current=${one.key === now ? 'true' : nothing}>
      <span class="who"><b>${one.name}</b><small class="soft figures">${showYears(one.years)}</small></span>
      ${held[one.key]?.length ? html`<small class="have">${held[one.key].length === 1 ? 'one here' : `${held[one.key].length} here`}</small>` : nothing}${icon('on')}
      <svg class="track" aria-hidden="true" height=${TALL}>
        ${at.ticks.map((year) => svg`<line class="tick" x1=${part(year - at.from, at)} x2=${part(year - at.from, at)} y1="0" y2=${TALL}/>`)}
        ${bars(one, at)}${dots(held[one.key] ?? [], at)}</svg>
    </a></li>`)}</ol>
    <svg class="pattern" aria-hidden="true" width="0" height="0"><defs><pattern id="proof-hatch" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect class="ground" width="5" height="5"/><rect class="hatch" width="2" height="5"/></pattern></defs></svg>
    <p class="key small soft"><span class="struck">struck</span>${entries.some((one) => one.proofOnly?.length) ? html`<span class="proof">proofs only</span>` : nothing}${Object.keys(held).length ? html`<span class="held">in your stock</span>` : nothing}</p>
  </div>`;
}
