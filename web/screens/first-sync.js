// The first copy of the book: how far it is, and that a break costs nothing.
import { html, nothing } from '../parts/html.js';
import { icon } from '../parts/icons.js';
import { holder } from '../parts/holder.js';
import { count } from '../parts/words.js';

export function open(ui) {
  const { engine } = ui;
  const started = performance.now();
  let first = null;
  if (!engine.state.syncing) engine.sync().catch(() => {});
  return { title: 'Copying the book', view };

  function left({ done, total }) {
    first ??= { done, at: performance.now() };
    const gone = performance.now() - first.at;
    const moved = done - first.done;
    if (gone < 1500 || !moved || !total) return '';
    const seconds = Math.ceil(((total - done) / moved) * (gone / 1000));
    return seconds < 60 ? `about ${Math.max(1, seconds)} s left` : `about ${Math.ceil(seconds / 60)} min left`;
  }

  function view() {
    const { progress, syncing, online, bookName } = engine.state;
    const known = progress?.total > 0;
    const halted = !syncing && performance.now() - started > 1000;
    return html`<div class="body welcome">
      <div class="crest">${holder({ size: 'large', open: true })}</div>
      <h1 tabindex="-1">Copying ${bookName || 'the book'}</h1>
      <p class="lede">Once copied, every card is on this phone, with or without a network.</p>
      <div class="stack">
        <progress class="copying" max=${known ? progress.total : 1} .value=${known ? progress.done : 0} aria-label="Copied so far"></progress>
        <p role="status" class="figures">${known ? html`${progress.done.toLocaleString('en-US')} of ${count(progress.total, 'card')} <span class="soft">${left(progress)}</span>` : 'Asking the desk …'}</p>
        ${halted || !online ? html`<div class="callout warn">${icon('warn')}<p>The desk is out of reach. What has been copied is kept; it goes on from there.</p></div>
          <button class="button main wide" @click=${() => engine.sync().catch(() => {})}>${icon('sync')}Go on</button>` : nothing}
      </div></div>`;
  }
}
