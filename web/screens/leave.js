// Unpairing: takes the book off this phone, and says first what would be lost.
import { html, nothing } from '../parts/html.js';
import { head } from '../parts/head.js';
import { icon } from '../parts/icons.js';
import { makeForm } from '../parts/field.js';
import { saveEntries } from '../parts/save-entries.js';
import { count } from '../parts/words.js';

export function open(ui) {
  const { engine } = ui;
  const form = makeForm(ui, { sure: false });
  return { title: 'Unpair this phone', view };

  function leave() {
    return form.run(async () => {
      await engine.leave();
      ui.go('/', { replace: true });
    });
  }

  function view() {
    const { waiting, bookName } = engine.state;
    return html`${head(ui, { title: 'Unpair this phone', back: '/more' })}<div class="body gap">
      <p>The copy of <b>${bookName}</b> is taken off this phone. The book at the desk stays as it is. To use this phone again, pair it with a new code.</p>
      ${waiting ? html`<div class="callout bad" role="alert">${icon('warn')}<div class="stack"><p><b>${count(waiting, 'entry', 'entries')} ${waiting === 1 ? 'was' : 'were'} not sent.</b> ${waiting === 1 ? 'It exists' : 'They exist'} on this phone only and would be lost.</p>
        <div class="row wrap"><button class="button" @click=${() => engine.sync().catch(() => {})}>${icon('sync')}Send now</button><button class="button" @click=${() => saveEntries(ui)}>${icon('save')}Save to a file</button></div>
        <label class="tick"><input type="checkbox" .checked=${form.values.sure} @change=${(event) => form.set('sure', event.target.checked)}><span>Unpair anyway and lose ${waiting === 1 ? 'it' : 'them'}</span></label></div></div>` : nothing}
      <button class="button danger wide" ?disabled=${waiting > 0 && !form.values.sure} @click=${leave}>${icon('leave')}${form.busy ? 'Unpairing …' : 'Unpair this phone'}</button>
    </div>`;
  }
}
