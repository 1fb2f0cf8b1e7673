// A list to choose one of, for a sheet. Each option is [value, words, sign?, more?].
import { html, nothing } from './html.js';
import { icon } from './icons.js';

export function options(list, now, choose) {
  return html`<ul class="options" role="list">${list.map(([value, words, sign, more]) => html`<li>
    <button type="button" aria-pressed=${String(value === now)} @click=${() => choose(value)}>
      ${sign ? icon(sign) : nothing}<span>${words}${more ? html`<small>${more}</small>` : nothing}</span>${value === now ? icon('fits') : nothing}
    </button></li>`)}</ul>`;
}
