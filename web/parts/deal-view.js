// A deal in the making, drawn: its two sides, what changes hands, and the terms.
import { html, nothing } from './html.js';
import { icon } from './icons.js';
import { amount, area, choice, date, segments } from './field.js';
import { show } from './money.js';
import { costButton } from './coin-money.js';
import { costFields } from './cost-lines.js';
import { costsHidden } from './discretion.js';
import { dealFigures } from './deal-figures.js';
import { foreignFields } from './deal-foreign.js';
import { comingLine, goingLine } from './deal-lines.js';
import { receiptField } from './deal-receipt.js';
import { SPLITS } from './deal-words.js';
import { partyField } from './party.js';
import { paidFields } from './payments.js';
import { termFields, toPay } from './sale-terms.js';
import { showField } from './show-field.js';
import { count } from './words.js';

const COSTS = {
  ticket: { label: 'Cost of selling', add: 'A cost of selling', first: 'fee' },
  purchase: { label: 'Added cost', add: 'Fee, tax, shipping', first: 'fee' },
  trade: { label: 'Cost of the trade', add: 'A cost of the trade', first: 'shipping' },
};

/** Lines that go below their floor: by the price after discount, or the value in a trade. */
export function belowFloor({ kind, out }) {
  const price = (row) => (kind === 'trade' ? row.price : row.net);
  return out.filter((row) => row.part?.floor && price(row) !== null && price(row) < row.part.floor);
}

/** What changes hands, in one line: it stays in sight over the main action. */
export function changesHands(ui, form, { kind, gross, due, boot }) {
  if (kind === 'ticket') return toPay(ui, form, gross);
  const said = kind === 'purchase' ? 'All in' : boot > 0 ? 'They pay you, to be even' : boot < 0 ? 'You pay them, to be even' : 'The sides are even';
  return html`<p class="sum" role="status"><span>${said}</span>${kind === 'trade' && !boot ? nothing : html`<b class="money">${show(due, ui.engine.state.currency)}</b>`}</p>`;
}

/**
 * The body of the form. `read` as readDeal has it; `both`: both sides are offered; `agreed`: to go below the floor;
 * `acts`: {find(side, camera), drop(id), edit(id), newId(), both(), fill(id, want)}; `wants`: those of the list.
 */
export function dealView(ui, { form, deal, read, shows, wants, estimates, both, agreed, acts }) {
  const { currency, role } = ui.engine.state;
  const money = (cents) => html`<b class="money">${show(cents, currency)}</b>`;
  const { kind, out, come, several, forAll, gross, due } = read;
  const values = (rows) => (kind === 'trade' ? rows.reduce((sum, one) => sum + (one.price ?? 0), 0) : rows.length > 1 ? gross : null);
  const side = (title, rows) => html`<header class="side"><h2>${title}</h2>${values(rows) === null ? nothing : html`<span role="status">${money(values(rows))}</span>`}</header>`;
  const alone = (rows) => rows.length === 1 && kind !== 'trade';
  const one = kind && kind !== 'trade' && !both;
  return html`${out.length || !come.length || both ? goes() : nothing}
    ${come.length || !out.length || both ? comes() : nothing}
    ${kind ? html`${floor()}
      ${one || role === 'owner' ? html`<div class="row wrap apart">${one ? html`<button type="button" class="button plain left" @click=${acts.both}>${icon('sync')}${out.length ? 'Something comes in' : 'Something goes out'}</button>` : nothing}
        ${role === 'owner' ? costButton(ui) : nothing}</div>` : nothing}
      ${role === 'owner' && !costsHidden() ? dealFigures(ui, read, estimates) : nothing}
      ${terms()}` : html`<p class="soft">A coin that goes out for money is a sale, one that comes in is a purchase, and both are a trade.</p>`}`;

  function goes() {
    const label = kind === 'trade' ? 'Value' : 'Price';
    return html`<section aria-label="Goes out">${side('Goes out', out)}
      <ul class="deal-lines">${out.map((row) => goingLine(ui, form, row, { alone: alone(out), label, forAll, drop: acts.drop }))}</ul>
      <div class="row wrap"><button type="button" class="button grow" @click=${() => acts.find('out', true)}>${icon('scan')}${out.length ? 'Scan another' : 'Scan a label'}</button>
        <button type="button" class="button grow" @click=${() => acts.find('out', false)}>${icon('search')}${out.length ? 'Find another' : 'Find a coin'}</button></div>
      ${several && kind === 'ticket' ? pricing() : nothing}</section>`;
  }

  function comes() {
    const label = kind === 'trade' ? 'Value' : !forAll ? (read.abroad ? null : 'Price') : deal.values.split === 'weights' ? 'Share' : null;
    const wanted = { come, wants, choose: acts.fill };
    return html`<section aria-label="Comes in">${side('Comes in', come)}
      <ul class="deal-lines">${come.map((row) => comingLine(ui, form, row, { alone: alone(come), label, edit: acts.edit, drop: acts.drop, wanted }))}</ul>
      <div class="row wrap"><button type="button" class="button grow" @click=${() => acts.find('in', true)}>${icon('scan')}Scan a label</button>
        <button type="button" class="button grow" @click=${acts.newId}>${icon('add')}New ID</button></div>
      ${kind === 'purchase' ? html`${several && !read.abroad ? pricing() : nothing}${foreignFields(ui, form, read.abroad)}${forAll ? sharing() : nothing}` : nothing}</section>`;
  }

  function pricing() {
    return html`${segments('pricing', deal.values.pricing, [['each', 'Each its price'], ['all', 'One price']], (value) => form.set('pricing', value || 'each'), 'Pricing')}
      ${forAll ? amount(ui, form, 'all', 'Price for all of them') : nothing}`;
  }

  function sharing() {
    const wrong = form.wrong.split;
    return html`<div class=${wrong ? 'field broken' : ''}>${choice(form, 'split', 'Shared over the coins', SPLITS.filter(([key]) => key !== 'estimate' || role === 'owner'))}
      ${wrong ? html`<p class="wrong">${wrong}</p>` : nothing}</div>`;
  }

  function floor() {
    const low = belowFloor(read);
    if (!low.length || (costsHidden() && !agreed)) return nothing;
    const which = costsHidden() ? '.' : html` of ${money(low[0].part.floor)}${low.length > 1 ? html`, and ${count(low.length - 1, 'other coin')} below its own` : nothing}.`;
    return html`<div class="callout warn" role="alert">${icon('warn')}<p>Below the floor${which} ${agreed ? `Press again to ${kind === 'trade' ? 'trade' : 'sell'} below it.` : nothing}</p></div>`;
  }

  function terms() {
    const buying = kind === 'purchase';
    const costs = costFields(ui, form, deal, COSTS[kind]);
    return html`${buying ? costs : nothing}
      ${kind === 'trade' && !due ? nothing : paidFields(ui, form, deal, due)}
      ${kind === 'ticket' ? termFields(ui, form) : nothing}
      ${partyField(form, kind)}
      <div class="pair">${date(form, 'date', 'Date')}${showField(form, shows)}</div>
      ${buying ? nothing : costs}
      ${kind === 'ticket' ? nothing : receiptField(form, deal)}
      ${area(form, 'note', 'Note', { rows: 2 })}
      <p class="soft small">${kind === 'trade' ? 'A trade may be taxed as a sale; ask the state or a licensed preparer. ' : ''}Large cash payments may have to be reported; your local rules decide.</p>`;
  }
}
