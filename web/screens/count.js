// Counting: labels scanned fast, one after the other, of a show or of the whole stock; ticked by hand where one cannot be read.
import { goOnAt } from '../parts/go-on.js';
import { html, nothing, repeat } from '../parts/html.js';
import { head } from '../parts/head.js';
import { icon } from '../parts/icons.js';
import { showTime, today } from '../parts/dates.js';
import { options } from '../parts/options.js';
import { chosenShow } from '../parts/show-field.js';
import { coinTitle } from '../parts/slip.js';
import { READY, typedLabel, verdict } from '../parts/verdict.js';
import { count, showId } from '../parts/words.js';
import { makeScanner } from '../scan/scanner.js';
import * as floor from '../engine/at-show.js';
import { makeCounting } from '../floor/counting.js';
import { currentRound, nextRound } from '../floor/round.js';
import { adopt, flush } from '../floor/queue.js';
import { ready, setSound, soundOn } from '../floor/signal.js';

const RELOAD_MS = 3000; // scans of other phones are read in at most so often
const LISTED = 60;

export function open(ui, _, { path }) {
  const { engine } = ui;
  const stock = path === '/count';
  let show; // undefined: being read; null: the whole stock
  let round = '';
  let rounds = [];
  let counting = null;
  let told = READY;
  let place = '';
  let view = 'scan'; // scan, type, list
  let text = '';
  let synced = engine.state.lastSync;
  let timer = 0;
  let closed = false;
  const base = () => show?.id ?? engine.state.book;
  const key = () => `exergue.round.${base()}`;
  const failed = (error) => ui.say(`${error.message} The scans are kept and tried again.`, { tone: 'bad' });
  const scanner = makeScanner(ui, { found, words: 'Label after label' });
  const hidden = () => { if (document.visibilityState === 'hidden') flush(engine).catch(() => {}); };
  document.addEventListener('visibilitychange', hidden);
  addEventListener('click', ready);
  const opened = load();
  return {
    title: 'Count', view: draw, close, changed, found, ready: opened,
    get full() { return view !== 'list' && Boolean(counting); },
  };

  async function load() {
    await adopt(engine).catch(failed);
    show = stock ? null : chosenShow(await engine.list('show'));
    if (show || stock) {
      rounds = await floor.rounds(show?.id ?? null);
      await begin(currentRound(base(), today(), rounds, { begun: localStorage.getItem(key()), dayOf: (ms) => today(new Date(ms)) }));
    }
    ui.update();
  }

  async function begin(id) {
    round = id;
    localStorage.setItem(key(), id);
    const made = makeCounting(engine, show?.id ?? null, id, { failed, changed: (now) => { told = now; ui.update(); } });
    await made.load();
    if (!closed) [counting, told] = [made, READY];
  }

  function close() {
    closed = true;
    clearTimeout(timer);
    scanner.stop();
    document.removeEventListener('visibilitychange', hidden);
    removeEventListener('click', ready);
    flush(engine).catch(failed);
  }

  // Every entry of this screen's own makes the engine tell of a change: only what came from the desk is read in.
  function changed() {
    if (engine.state.lastSync === synced || timer || !counting) return;
    timer = setTimeout(async () => {
      [timer, synced] = [0, engine.state.lastSync];
      await counting.load();
      if (!closed) ui.update();
    }, RELOAD_MS);
  }

  // The camera goes on at once: a label opens nothing here.
  function found(read) {
    const { id, error } = engine.parseId(read);
    if (id) counting?.take(id, place);
    else told = { what: 'unknown', word: 'No label', more: error };
    ui.update();
    return false;
  }

  function choosePlace() {
    const choose = (value) => { place = value; ui.closeSheet(); };
    ui.sheet('Which box or place?', () => options([['', 'Anywhere', 'scan', 'The count asks for no box'],
      ...counting.boxes().map(([box, seen, all]) => [box, box, 'move', `${seen} of ${all} seen`])], place, choose));
  }

  function more() {
    const day = rounds.find((one) => one.id === round);
    ui.sheet('This round', () => html`<div class="gap">
      <p>${day ? `Begun ${showTime(day.when)}.` : 'Begun now.'} ${count(counting.labels, 'label')} scanned on all phones, as far as this one knows. Phones that count the same show on the same day count together.</p>
      <button type="button" class="button wide" aria-pressed=${String(soundOn())} @click=${() => { setSound(!soundOn()); ui.update(); }}>${icon(soundOn() ? 'fits' : 'close')}${soundOn() ? 'Sound is on' : 'Sound is off'}</button>
      <button type="button" class="button wide" @click=${async () => { await flush(engine).catch(failed); rounds = await floor.rounds(show?.id ?? null); await begin(nextRound(base(), today(), rounds)); ui.closeSheet(); ui.say('A new round: nothing is seen yet.'); }}>${icon('add')}Begin a new round</button>
      <a class="button main wide" href=${stock ? '/count/differences' : '/show/differences'}>${icon('unsure')}Differences</a></div>`);
  }

  function draw() {
    const bar = head(ui, { title: 'Count', back: stock ? '/more' : '/show' });
    if (show === undefined || (!counting && (show || stock))) return bar;
    if (!counting) return html`${bar}<div class="body gap"><p>Choose the show you are at first.</p><a class="button main" href="/more/shows">${icon('show')}Choose a show</a></div>`;
    if (show?.closed) return html`${bar}<div class="body gap"><p>This show is closed. Open it again before you count.</p><a class="button" href="/show/close">${icon('show')}To its close</a></div>`;
    return view === 'list' ? list(bar) : scan(bar);
  }

  function scan(bar) {
    const left = counting.expected - counting.seen;
    const turn = (to) => () => { [view, text] = [to, '']; if (to === 'type') goOnAt(() => document.getElementById('f-id')); ui.update(); };
    return html`${bar}<div class="scanner">
      <div class="tally"><span><b id="seen">${counting.seen}</b> of ${counting.expected} seen</span><small>${place ? `in ${place}` : 'anywhere'}</small></div>
      ${scanner.view(nothing)}
      ${verdict(told, scanner.blind)}
      ${view === 'type' ? typedLabel(engine, text, {
        words: 'Count it', leave: turn('scan'), set: (value) => { text = value; ui.update(); }, take: (id) => { counting.take(id, place, 'hand'); text = ''; ui.update(); },
      }) : html`<div class="tools even">
        <button type="button" class="button dark" @click=${turn('list')}>${icon('wants')}${left ? `${left} to see` : 'All seen'}</button>
        <button type="button" class="button dark" @click=${choosePlace}>${icon('move')}${place || 'Box'}</button>
        <button type="button" class="button dark" @click=${turn('type')}>${icon('keys')}Type</button>
        ${scanner.torchButton()}
        <button type="button" class="button dark" @click=${more}>${icon('more')}Round</button></div>`}
    </div>`;
  }

  function list(bar) {
    const low = text.trim().toLowerCase();
    const missing = counting.missing().filter(({ box, card, id }) => (!place || box === place) && (!low || `${coinTitle(card)} ${box} ${id}`.toLowerCase().includes(low)));
    return html`${bar}<div class="fill"><div class="body gap">
      <p><b>${counting.seen}</b> of ${counting.expected} seen${place ? `, in ${place}` : ''}. Tick what lies before you and cannot be read.</p>
      <div class="search">${icon('search')}<input type="search" aria-label="Search what is still to be seen" placeholder="Type, date, box, ID" .value=${text} autocomplete="off" @input=${(event) => { text = event.target.value; ui.update(); }}></div>
      <ul class="to-see">${repeat(missing.slice(0, LISTED), ({ id }) => id, ({ id, card, box }) => html`<li><span>${coinTitle(card)}<small>${[showId(id), box].filter(Boolean).join(', ')}</small></span>
        <button type="button" class="button" aria-label=${`Seen: ${showId(id)}`} @click=${() => { counting.take(id, place || box, 'hand'); ui.update(); }}>${icon('fits')}Seen</button></li>`)}</ul>
      ${missing.length > LISTED ? html`<p class="soft">And ${count(missing.length - LISTED, 'more coin')}: a few letters find them.</p>` : missing.length ? nothing : html`<p class="soft" role="status">Nothing is left to see here.</p>`}
    </div><div class="actions"><div class="line"><button type="button" class="button" @click=${choosePlace}>${icon('move')}${place || 'Box'}</button>
      <button type="button" class="button main grow" @click=${() => { view = 'scan'; text = ''; ui.update(); }}>${icon('scan')}Scan</button></div></div></div>`;
  }
}
