// One candidate: how likely, what fits, what contradicts, what to look at to be sure, and what to do with the name.
import { html, nothing } from '../parts/html.js';
import { icon } from '../parts/icons.js';
import { showYears } from '../parts/dates.js';
import { costsHidden } from '../parts/discretion.js';
import { show } from '../parts/money.js';
import { gradeSpan } from '../parts/wanted.js';

export const percent = (p) => (p >= 0.995 ? 'over 99 %' : p < 0.005 ? 'under 1 %' : `${Math.round(p * 100)} %`);

// told: of explain(); owned: what the stock has of it, drawn; wants: cards; act: {open(want)}: buy it, for a want or for none; {seen(want)}: it is on somebody's table
export function candidate(told, type, { owned, wants, rivalName, currency, act }) {
  return html`<div class="gap candidate">
    <p><b class="figures">${percent(told.p)}</b> <span class="soft">${showYears(type.years)}</span></p>
    ${told.warnings.map((one) => html`<div class="callout warn" role="alert">${icon('warn')}<p>${one.text}${one.caution ? html` <span class="small">${one.caution}</span>` : nothing}</p></div>`)}
    ${lines('Fits', 'fits', 'good', told.fits)}${lines('Contradicts', 'differs', 'bad', told.contradicts)}
    ${told.sure.length ? html`<div class="stack"><h3>To be sure it is not ${rivalName}</h3><ol class="sure">${told.sure.slice(0, 5).map((one) => html`<li class=${one.hidden ? 'soft' : ''}>
      <b>${one.name}.</b> ${one.fits}${one.rival ? html` <span class="soft">The other: ${one.rival}</span>` : nothing}${one.hidden ? ' Wear hides it on this coin.' : ''}</li>`)}</ol></div>` : nothing}
    <div class="stack"><h3>What you have</h3>${owned}</div>
    ${wants.length ? html`<div class="stack"><h3>Wants that it serves</h3><ul class="menu inner serves">${wants.map((want) => html`<li><a href=${`/wants/${want.id}`}><span><b class="figures">${want.years || 'Any date'}</b><small>${gradeSpan(want)}${want.own?.ceiling == null || costsHidden() ? nothing : html`, up to <span class="figures">${show(want.own.ceiling, currency, { short: true })}</span>`}</small></span></a>
      <span class="row wrap"><button class="button" @click=${() => act.open(want.id)}>Buy it for this</button><button class="button" @click=${() => act.seen(want.id)}>Note the price</button></span></li>`)}</ul></div>` : nothing}
    <p class="caution small">A likeness to the catalogue is no proof that a coin is genuine. For anything that matters, an expert decides.</p>
    <div class="row wrap"><a class="button" href=${`/types/${told.type}`}>Its page</a>${act.forSighting ? nothing : html`<button class="button grow" @click=${() => act.seen()}>${icon('eye')}Seen at a table</button>`}
      <button class="button main grow" @click=${() => act.open()}>${act.forSighting ? html`${icon('eye')}Note it under this name` : html`${icon('buy')}Record it as a purchase`}</button></div></div>`;
}

function lines(title, sign, tone, list) {
  if (!list.length) return nothing;
  return html`<div class="stack"><h3 class=${tone}>${title}</h3><ul class="reasons">${list.map((one) => html`<li>${icon(sign)}<span><b>${one.name}:</b> ${one.said}${sign === 'differs' ? html` <span class="soft">(this type: ${one.shows})</span>` : nothing}</span></li>`)}</ul></div>`;
}
