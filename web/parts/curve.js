// A small picture of an estimate: grades along, price up on a logarithmic scale; the coin's grade and cost marked.
import { html, nothing, svg } from './html.js';
import { show } from './money.js';

const WIDE = 320;
const HIGH = 150;
const LEFT = 58;
const FOOT = 20;

/** `rows` [[grade, low, mid, high, …]…] ascending, `grade` a number or null, `cost` cents or null (not drawn). */
export function curve(rows, { grade = null, cost = null, currency = 'USD' } = {}) {
  if (!rows?.length) return nothing;
  const prices = rows.flatMap(([, low, , high]) => [low, high]).concat(cost > 0 ? [cost] : []);
  const [least, most] = [Math.log(Math.min(...prices)) - 0.08, Math.log(Math.max(...prices)) + 0.08];
  const step = (WIDE - LEFT - 16) / Math.max(1, rows.length - 1);
  const x = (at) => (LEFT + 6 + at * step).toFixed(1);
  const y = (cents) => (6 + ((most - Math.log(cents)) / (most - least)) * (HIGH - FOOT - 6)).toFixed(1);
  const line = (side) => rows.map((row, at) => `${x(at)} ${y(row[side])}`);
  const here = rows.findIndex(([number]) => number === grade);
  const spread = Math.max(1, Math.ceil(28 / step));
  const ends = [Math.min(...prices), Math.max(...prices)];
  const said = `The estimate from grade ${rows[0][0]}, ${show(rows[0][2], currency)}, to grade ${rows.at(-1)[0]}, ${show(rows.at(-1)[2], currency)}.`
    + `${here < 0 ? '' : ` The coin’s grade, ${grade}, is marked.`}${cost > 0 ? ` Its cost, ${show(cost, currency)}, is marked.` : ''}`;
  return html`<svg class="curve" viewBox="0 0 ${WIDE} ${HIGH}" role="img" aria-label=${said}>
    ${ends.map((cents) => svg`<text x=${LEFT - 4} y=${Number(y(cents)) + 4} text-anchor="end">${show(Math.round(cents / 100) * 100 || cents, currency, { short: true })}</text>`)}
    <path class="interval" d=${`M${[...line(3), ...line(1).reverse()].join('L')}Z`}></path>
    <path class="mid" d=${`M${line(2).join('L')}`}></path>
    ${rows.map(([number], at) => (at % spread === 0 ? svg`<text x=${x(at)} y=${HIGH - 4} text-anchor="middle">${number}</text>` : nothing))}
    ${here < 0 ? nothing : svg`<path class="here" d=${`M${x(here)} 4V${HIGH - FOOT}`}></path><circle class="mid-dot" cx=${x(here)} cy=${y(rows[here][2])} r="4"></circle>`}
    ${cost > 0 ? svg`<path class="cost" d=${`M${LEFT} ${y(cost)}H${WIDE - 6}`}></path><text class="cost" x=${WIDE - 8} y=${Number(y(cost)) - 4} text-anchor="end">cost</text>` : nothing}
  </svg>`;
}
