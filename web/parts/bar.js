// The five places, under the thumb; Entries carries the number that waits.
import { html, nothing } from './html.js';
import { icon } from './icons.js';
import { count } from './words.js';

const PLACES = [
  ['/', 'stock', 'Stock', (at) => at === '/' || at.startsWith('/c/')],
  ['/wants', 'wants', 'Wants', (at) => /^\/(wants|sets|seen|plan)/.test(at)],
  ['/scan', 'scan', 'Scan', (at) => at === '/scan'],
  ['/entries', 'entries', 'Entries', (at) => at === '/entries'],
  ['/more', 'more', 'More', (at) => /^\/(more|show|count|types|contacts|name$)/.test(at)],
];

export function bar(state, route) {
  const at = route?.at ?? '/';
  return html`<nav class="bar" aria-label="Places">${PLACES.map(([path, name, text, here]) => html`
    <a href=${path} class=${name === 'scan' ? 'scan' : ''} aria-current=${here(at) ? 'page' : nothing}>
      ${name === 'scan' ? html`<span class="ring">${icon(name)}</span>` : icon(name)}
      <span>${text}</span>${name === 'entries' ? badge(state) : nothing}
    </a>`)}</nav>`;
}

function badge({ waiting, refused, contested }) {
  const trouble = refused + contested;
  const n = waiting + trouble;
  if (!n) return nothing;
  const told = trouble ? `${trouble} to look at, ${waiting} to send` : `${count(waiting, 'entry', 'entries')} to send`;
  return html`<span class="badge ${trouble ? 'trouble' : ''}"><span aria-hidden="true">${n > 99 ? '99+' : n}</span><span class="hide">${told}</span></span>`;
}
