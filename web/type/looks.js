// The diagnostics of a type: each with a drawing of what it shows, and of what a near type shows instead.
import { html, nothing } from '../parts/html.js';
import { icon } from '../parts/icons.js';
import { showYears } from '../parts/dates.js';
import { drawing, isDrawn } from './drawing.js';

export function looks(type, reference) {
  const [genuine, known] = [type.looks.filter((look) => look.asks === 'genuine'), type.looks.filter((look) => look.asks !== 'genuine')];
  return html`${known.length ? html`<section class="panel"><header><h2>How it is known</h2></header>${list(known, reference)}</section>` : nothing}
    ${genuine.length ? html`<section class="panel"><header><h2>Is it genuine?</h2></header>${list(genuine, reference)}</section>` : nothing}`;
}

const list = (some, reference) => html`<ol class="known">${some.map((look) => one(look, reference))}</ol>`;

function one(look, reference) {
  const drawn = look.values.filter((value) => isDrawn(look.feature, value)).slice(0, 2);
  return html`<li class=${drawn.length ? 'drawn' : ''}>
    ${drawn.length ? html`<div class="shown">${drawn.map((value) => drawing(look.feature, value))}</div>` : nothing}
    <div class="stack">
      <h3>${reference.features[look.feature]?.name ?? look.key}${look.years ? html` <span class="soft figures">${showYears(look.years)}</span>` : nothing}</h3>
      <p>${look.fits}</p>
      ${Object.keys(look.instead).length ? html`<ul class="instead small">${Object.entries(look.instead).map(([key, words]) => html`<li><a href=${`/types/${key}`}>${reference.types[key]?.name ?? key}</a>: ${words}</li>`)}</ul>` : nothing}
      ${look.caution ? html`<p class="small caution">${look.caution}</p>` : nothing}
      ${look.kills ? html`<p class="small state warn">${icon('warn')}Wrong here ends the deal</p>` : nothing}
    </div></li>`;
}
