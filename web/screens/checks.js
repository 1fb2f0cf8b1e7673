// The identification checklist of a coin: one look a card, three answers, a note.
import { html, nothing, repeat, svg } from '../parts/html.js';
import { head } from '../parts/head.js';
import { icon } from '../parts/icons.js';
import { segments } from '../parts/field.js';
import { ANSWERS, looksFor, lookName, tally } from '../parts/coin-checks.js';
import { slip } from '../parts/slip.js';

export function open(ui, { id }) {
  const { engine } = ui;
  let card;
  const noting = new Map(); // look → text being written

  async function load() {
    card = await engine.card('coin', id);
    ui.update();
  }
  load();
  return { title: 'Identification', changed: load, view };

  async function answer(look, value, note) {
    const before = card.checks?.[look.key];
    const body = { coin: card.id, key: look.key, answer: value, base: before?.answer ?? '' };
    const text = (note ?? before?.note ?? '').trim();
    if (text) body.note = text;
    try {
      await engine.record('check', body);
      noting.delete(look.key);
      await load();
    } catch (error) {
      ui.say(error.message ?? 'It could not be recorded.', { tone: 'bad' });
    }
  }

  function view() {
    const bar = head(ui, { title: 'Identification', back: `/c/${id}` });
    if (!card) return bar;
    const type = engine.reference.types[card.type];
    const looks = looksFor(card, type);
    const { of, done, differs } = tally(card, looks);
    return html`${bar}<div class="body gap">
      ${slip(ui, card)}
      <div class="stack"><p role="status"><b>${done} of ${of}</b> looked at${differs ? html`, <b class="bad">${differs} ${differs === 1 ? 'does' : 'do'} not fit</b>` : nothing}.</p>
        <svg class="ticks" viewBox=${`0 0 ${Math.max(1, of) * 10} 6`} preserveAspectRatio="none" aria-hidden="true">${looks.map((look, i) => tick(i, card.checks?.[look.key]?.answer))}</svg></div>
      <p class="caution small">A checklist informs; it does not prove a coin genuine. For anything that matters, an expert decides.</p>
      ${of ? nothing : html`<p>No checklist is written for this coin’s type.</p>`}
      <ol class="looks">${repeat(looks, (look) => look.key, (look, i) => one(look, i, type))}</ol>
    </div>`;
  }

  function one(look, i, type) {
    const given = card.checks?.[look.key];
    const name = lookName(look, engine.reference);
    const others = Object.entries(look.instead ?? {});
    const note = noting.get(look.key);
    return html`<li class="look ${given?.answer ?? ''}">
      <h2><span class="soft figures">${i + 1}</span> ${name}</h2>
      <p>${look.look}</p>
      <dl class="compare"><div class="this"><dt>${type.name}</dt><dd>${look.fits}</dd></div>
        ${others.map(([key, shows]) => html`<div><dt>${engine.reference.types[key]?.name ?? key}</dt><dd>${shows}</dd></div>`)}</dl>
      ${needs(look) ? html`<p class="soft small">${needs(look)}</p>` : nothing}
      ${look.caution ? html`<p class="small caution">${look.caution}</p>` : nothing}
      ${segments(`look-${look.key}`, given?.answer ?? '', Object.entries(ANSWERS).map(([value, a]) => [value, a.words, a.sign]), (value) => answer(look, value), name)}
      ${note !== undefined ? html`<div class="stack"><textarea rows="2" maxlength="500" aria-label=${`Note on ${name}`} .value=${note} @input=${(event) => noting.set(look.key, event.target.value)}></textarea>
          <div class="row"><button class="button" @click=${() => answer(look, given?.answer || 'unsure', noting.get(look.key))}>Keep the note</button>
          <button class="button plain" @click=${() => { noting.delete(look.key); ui.update(); }}>Cancel</button></div></div>`
        : html`<button class="button plain left" @click=${() => { noting.set(look.key, given?.note ?? ''); ui.update(); }}>${icon('note')}${given?.note ? given.note : 'Add a note'}</button>`}
    </li>`;
  }
}

// From what grade it shows, and what it takes to see it; nothing where any coin shows it at a glance.
function needs({ seenAt, effort }) {
  return [seenAt && seenAt !== 'P-1' ? `Seen from ${seenAt} up.` : '', effort === 2 ? 'Needs a glass.' : effort >= 3 ? 'Takes the coin out of its holder.' : ''].filter(Boolean).join(' ');
}

const tick = (i, answer) => svg`<rect class=${answer || 'none'} x=${i * 10 + 0.5} y="0" width="9" height="6"/>`;
