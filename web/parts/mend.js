// What a person can do about an entry that the desk did not take as it was.
import { html, nothing } from './html.js';
import { begin, formOf } from './mending.js';

// `known`: the coin that the entry is about is on this phone.
export function mend(ui, fact, verdict, known) {
  const { engine } = ui;
  const act = (run, done) => async () => {
    try {
      await run();
      ui.say(done);
    } catch (error) { ui.say(error.message ?? 'That did not work.', { tone: 'bad' }); }
  };
  const form = formOf(fact, known);
  if (verdict.verdict === 'contested') {
    return html`<div class="row wrap"><button class="button" @click=${act(() => engine.drop(fact.id), 'Put away. The desk decides between the two.')}>Seen</button></div>`;
  }
  return html`<div class="row wrap">
    <button class="button" @click=${act(() => engine.retry(fact.id), 'It will be sent again.')}>Send again</button>
    ${form ? html`<button class="button" @click=${() => begin(ui, fact, form)}>Edit</button>` : nothing}
    <button class="button danger" @click=${() => ui.sheet('Drop this entry?', () => html`<div class="gap"><p>It was refused, so the book does not hold it. Dropped, it is gone from this phone too.</p>
      <div class="row"><button class="button grow" @click=${ui.closeSheet}>Keep it</button><button class="button danger grow" @click=${() => { ui.closeSheet(); act(() => engine.drop(fact.id), 'Dropped.')(); }}>Drop it</button></div></div>`)}>Drop</button>
  </div>`;
}
