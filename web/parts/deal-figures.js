// What a deal means for the owner: cost, gain and margin of what goes out, and the desk's estimates of both sides.
import { html, nothing } from './html.js';
import { show } from './money.js';
import { count } from './words.js';
import { estimate, readWorth } from './coin-worth.js';
import { at, together } from '../deal/bargain.js';

/** Cents by coin ID: the middle of each row's estimate for all its pieces; a coin without evidence is left out. */
export async function readEstimates(rows) {
  const found = await Promise.all(rows.map(async ({ id, about, pieces }) => [id, about?.type && about.grade ? estimate(about, await readWorth(about)) : null, pieces]));
  return new Map(found.filter(([, each]) => each).map(([id, each, pieces]) => [id, each * pieces]));
}

const sum = (list) => list.reduce((all, one) => all + one, 0);

/** Panels of figures; `read` as readDeal has it. Only for the owner, and only while costs are shown. */
export function dealFigures(ui, { kind, out, come, costs, agreed, gross, boot }, estimates) {
  const { currency } = ui.engine.state;
  const money = (cents) => html`<span class="money">${show(cents, currency)}</span>`;
  const line = (what, value) => html`<div><dt>${what}</dt><dd>${value}</dd></div>`;
  const worth = (rows) => {
    const known = rows.map(({ id }) => estimates.get(id)).filter(Boolean);
    return known.length ? html`${money(sum(known))}${known.length < rows.length ? html` <span class="soft small">for ${known.length} of ${count(rows.length, 'coin')}</span>` : nothing}`
      : html`<span class="soft">no evidence</span>`;
  };
  const cost = out.every(({ part }) => part && part.cost !== null) ? sum(out.map(({ part }) => part.cost)) : null;
  const spent = sum(costs.map(({ cents }) => cents));
  const fetched = kind === 'ticket' ? agreed : gross;
  const rows = out.map(({ part, net, price }) => ({ net: kind === 'ticket' ? net : price ?? 0, cost: part?.cost ?? null, loss: part?.loss }));
  const { profit, margin } = !rows.length || rows.some(({ net }) => net === null || net < 0) ? at(fetched, cost, undefined, spent) : together(rows, spent);
  const neither = profit === 0 && rows.some(({ loss }) => loss !== undefined);
  const gain = profit === null ? nothing : html`<b class="figures ${profit < 0 ? 'bad' : 'good'}">${show(profit, currency, { sign: true })}</b>${margin === null ? nothing : html` <span class="soft small">margin <span class="figures">${margin.replace('-', '−')}%</span></span>`}`;
  return html`<dl class="ledger figures-of-deal">
    ${out.length ? html`${line('Cost of what goes out', cost === null ? html`<span class="soft">not known</span>` : money(cost))}
      ${profit === null ? nothing : neither ? line('Gain over cost', html`<span class="soft">neither gain nor loss</span>`) : line(profit < 0 ? 'Loss over cost' : 'Gain over cost', gain)}
      ${line('Estimate of what goes out', worth(out))}` : nothing}
    ${come.length ? line('Estimate of what comes in', worth(come)) : nothing}
    ${kind === 'trade' ? even() : nothing}
  </dl>`;

  // A trade by estimates, where all of both sides are known: what comes in and the boot, less what goes out.
  function even() {
    if (![...out, ...come].every(({ id }) => estimates.get(id))) return nothing;
    const better = sum(come.map(({ id }) => estimates.get(id))) + boot - sum(out.map(({ id }) => estimates.get(id)));
    return line('By estimates, you are', html`<b class="figures ${better < 0 ? 'bad' : 'good'}">${show(better, currency, { sign: true })}</b>`);
  }
}
