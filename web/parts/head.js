// The head of a screen: the way back, its title, and how it stands with the desk.
import { html, nothing } from './html.js';
import { icon } from './icons.js';
import { ago } from './dates.js';

export function head(ui, { title, back, extra = nothing, close = false }) {
  return html`<header class="head"><div class="line">
    ${back === undefined ? nothing : html`<button type="button" class="round" @click=${() => ui.back(back)} aria-label=${close ? 'Close' : 'Back'}>${icon(close ? 'close' : 'back')}</button>`}
    <h1 tabindex="-1">${title}</h1>${extra}${standing(ui.engine.state)}
  </div></header>`;
}

function standing(state) {
  const trouble = state.refused + state.contested;
  const [tone, sign, text] = state.full ? ['trouble', 'warn', 'Phone full']
    : state.unknown ? ['trouble', 'warn', 'Pair again']
    : trouble ? ['trouble', 'warn', `${trouble} to look at`]
    : state.waiting ? ['wait', 'entries', `${state.waiting} to send`]
    : state.syncing ? ['', 'sync', 'Syncing']
    : state.online === false ? ['', 'wait', 'Offline']
    : state.online ? ['', 'fits', 'In step'] : ['', 'wait', state.lastSync ? ago(state.lastSync) : ''];
  return html`<a class="sync ${tone}" href="/entries">${icon(sign, sign === 'sync' ? 'turn' : '')}<span>${text}</span></a>`;
}
