// A label that leads to no coin on this phone: says which of three things it is, and what can be done.
import { html, nothing } from './html.js';
import { head } from './head.js';
import { icon } from './icons.js';
import { holder } from './holder.js';
import { ago } from './dates.js';
import { showId } from './words.js';

export function unknown(ui, { id, error, blank }) {
  const { state } = ui.engine;
  if (error) {
    return html`${head(ui, { title: 'Not a coin label', back: '/' })}<div class="body"><div class="empty">${holder({ open: true, size: 'medium' })}
      <h2>That is not an Exergue label</h2><p>${error}</p><a class="button main" href="/scan" data-replace>${icon('scan')}Scan again</a></div></div>`;
  }
  const title = blank ? 'A blank label of this book' : 'Not in this phone’s copy';
  return html`${head(ui, { title: showId(id), back: '/' })}<div class="body"><div class="empty">
    ${holder({ open: true, size: 'medium' })}<h2>${title}</h2>
    ${blank ? html`<p>No coin has it yet. Put it on the holder and record what you bought.</p>`
      : html`<p>The label reads well, but no coin under this ID is in the copy on this phone${state.lastSync ? html`, which is from ${ago(state.lastSync)}` : nothing}.
        It may be new at the desk, or from another book.</p>`}
    ${blank ? nothing : html`<button class="button wide ${state.online ? 'main' : ''}" @click=${() => look(ui)}>${icon('sync')}Ask the desk</button>`}
    <a class="button ${blank ? 'main' : ''} wide" href=${`/c/${id}/buy`} data-replace>${icon('buy')}${blank ? 'Record a purchase on it' : 'It is a new coin: record a purchase'}</a>
    <button class="button wide" @click=${() => compare(ui, `/c/${id}/buy`)}>${icon('stock')}Have I one as good?</button>
    ${state.role === 'owner' ? html`<a class="button wide" href=${`/c/${id}/memo-in`} data-replace>${icon('show')}Take it in on memo</a>` : nothing}
    <a class="button plain wide" href="/scan" data-replace>${icon('scan')}Scan another</a>
  </div></div>`;
}

const compare = (ui, buy) => import('./own-or-better.js').then((part) => part.ownOrBetter(ui, buy), () => ui.say('That part is not on this phone yet. Open it once with a network.', { tone: 'bad' }));

async function look(ui) {
  await ui.engine.sync().catch(() => {});
  ui.say(ui.engine.state.online ? 'Compared with the desk; the ID is still not in the book.' : 'The desk is out of reach just now.');
}
