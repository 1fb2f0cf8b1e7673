// The coins of a deal, side by side: what each is, its pieces, its price, and the way to take it out again.
import { html, nothing } from './html.js';
import { icon } from './icons.js';
import { amount, text } from './field.js';
import { holder, mark } from './holder.js';
import { partField } from './lot-part.js';
import { show } from './money.js';
import { count, showId } from './words.js';
import { wantBeside } from './deal-want.js';
import { newCoin } from '../engine/new-coin.js';

const hidden = (words) => html`<span class="hide"> ${words}</span>`;
const name = (card) => `${card.title} ${card.dateText}`;

function slipOf(ui, card, id, more = nothing) {
  return html`<div class="slip">${holder({ denom: card?.denom, top: mark(card?.denom, ui.engine.reference), year: card?.year ?? '', open: !card })}
    <p><b class="serif">${card?.title ?? 'Not on this phone'}</b><br>${card ? html`<span class="figures">${card.dateText}</span>${card.grade ? html` <span class="figures">${card.grade}</span>` : nothing} ` : nothing}<span class="soft small id">${showId(id)}</span>${more}</p></div>`;
}

const problem = (form, id) => (form.wrong[`coin-${id}`] ? html`<div class="field broken"><p class="wrong" role="alert">${form.wrong[`coin-${id}`]}</p></div>` : nothing);
const out = (words, press) => html`<button type="button" class="round" aria-label=${`Take out ${words}`} @click=${press}>${icon('close')}</button>`;

/** A coin that goes out: `row` as read, `label` Price or Value. */
export function goingLine(ui, form, row, { alone, label, forAll, drop }) {
  const { id, card, part, net } = row;
  const { currency } = ui.engine.state;
  const ask = part?.ask;
  const help = !card ? '' : ask === null ? 'No asking price is set.' : `Asking ${show(ask, currency)}${part.of > 1 ? ` for ${count(part.pieces, 'piece')}` : ''}.`;
  return html`<li class="line">${slipOf(ui, card, id)}${alone ? nothing : out(card ? name(card) : showId(id), () => drop(id))}
    <div class="entered">${problem(form, id)}
      ${card?.pieces ? html`${text(form, `pieces-${id}`, alone ? 'Pieces' : html`Pieces${hidden(`of ${name(card)}`)}`, { mode: 'numeric', max: 6, hint: `All ${card.left}`, help: `${card.left} of ${card.pieces} left.` })}` : nothing}
      ${row.parts.length ? partField(ui, form, `of-${id}`, row.parts, alone ? 'From which purchase' : html`From which purchase${hidden(`of ${name(card)}`)}`) : nothing}
      ${forAll ? net === null || net === undefined ? nothing : html`<p class="small soft">Its part: <span class="money">${show(net, currency)}</span></p>`
        : amount(ui, form, `price-${id}`, alone ? label : html`${label}${hidden(`of ${card ? name(card) : showId(id)}`)}`, { help })}
    </div></li>`;
}

/** A coin that comes in. `label`: Price, Value or Share; null: the price for all is divided without one. `wanted` as wantBeside takes it, where a coin may fill a want. */
export function comingLine(ui, form, row, { alone, label, edit, drop, wanted }) {
  const { id, known, about, pieces } = row;
  const card = known ? about : about && Object.keys(about).length ? newCoin(id, about) : null;
  const words = card ? name(card) : showId(id);
  return html`<li class="line">${card ? slipOf(ui, card, id, pieces > 1 ? html` <span class="small">${count(pieces, 'piece')}</span>` : nothing)
      : html`<div class="slip">${holder({ open: true })}<p><b class="serif">Not described yet</b><br><span class="soft small id">${showId(id)}</span></p></div>`}
    ${out(words, () => drop(id))}
    <div class="entered">${problem(form, id)}
      ${label ? amount(ui, form, `price-${id}`, alone ? label : html`${label}${hidden(`of ${words}`)}`) : nothing}
      ${known ? nothing : html`<button type="button" class="button plain left" @click=${() => edit(id)}>${icon('note')}Describe it${hidden(words)}</button>`}
      ${wanted ? wantBeside(ui, row, wanted) : nothing}</div></li>`;
}
