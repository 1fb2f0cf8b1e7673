// Something the engine has to tell once: {code, text}. It stays until it is put away.
import { html } from './html.js';
import { icon } from './icons.js';

export function notice(ui, { code, text }) {
  return html`<div class="callout warn">${icon('warn')}<div class="stack"><p>${text}</p>
    <button type="button" class="button plain left" @click=${() => ui.engine.seen(code)}>Understood</button></div></div>`;
}
