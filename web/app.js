// The phone app: one frame, one place at a time, and the list it belongs to beside it where there is room.
import { engine } from './engine/engine.js';
import { idle } from './engine/idle.js';
import { html, nothing, render } from './parts/html.js';
import { bar } from './parts/bar.js';
import { head } from './parts/head.js';
import { say } from './parts/said.js';
import { openSheet, closeSheet, sheet } from './parts/sheet.js';
import { find, start as follow } from './parts/router.js';
import { askPairing, pairingCode, pairingWanted } from './parts/pairing.js';

const root = document.getElementById('app');
const wide = matchMedia('(min-width: 62rem)');
const lists = {
  stock: { load: () => import('./screens/stock.js'), screen: null },
  wants: { load: () => import('./screens/wants.js'), screen: null },
};
let route = null;
let here = null; // the screen of the route, where it is not its list
let before = null; // what stands there instead of the book: pairing, first sync
let arrivals = 0;

const ui = {
  engine, say, closeSheet,
  go: (path, how) => router.go(path, how),
  back: (otherwise = '/') => router.back(otherwise),
  sheet: (title, view) => openSheet(title, view, update),
  settle: () => choose().then(update),
  pairAgain: () => { askPairing(); ui.settle(); },
  update,
};

let asked = false;
export function update() {
  if (asked) return;
  asked = true;
  requestAnimationFrame(draw);
}

let drawn = false;
function draw() {
  asked = false;
  if (!drawn) root.replaceChildren();
  drawn = true;
  render(page(), root);
  document.title = [here?.title ?? lists[route?.list]?.screen?.title, 'Exergue'].filter(Boolean).join(' – ');
}

function page() {
  if (before) return html`<div class="app alone"><main class="panes"><section class="pane">${before.view()}</section></main></div>${sheet()}`;
  const list = lists[route?.list]?.screen;
  const two = wide.matches && list;
  const only = list && !here;
  return html`<div class=${`app${two ? ' two' : ''}${here?.form ? ' form' : ''}${here?.full ? ' full' : ''}`}>
    <main class="panes">
      ${list ? html`<section class="pane list" ?hidden=${!two && !only} aria-label=${list.title}>${list.view()}</section>` : nothing}
      ${here ? html`<section class="pane place" aria-label=${here.title ?? nothing}>${seen(here)}</section>`
        : two ? html`<section class="pane place">${list.beside()}</section>` : nothing}
    </main>
    ${bar(engine.state, route)}
  </div>${sheet()}`;
}

function seen(screen) {
  try { return screen.view(); } catch (error) {
    console.error(error);
    return html`${head(ui, { title: 'This page failed' })}<div class="body gap"><p>This page could not be drawn. Your entries are safe.</p>
      <a class="button main" href="/">Back to the stock</a></div>`;
  }
}

async function arrive(next, { back }) {
  const turn = ++arrivals;
  const list = lists[next.list];
  let made = null;
  try {
    const [module] = await Promise.all([next.load?.(), list && (wide.matches || !next.load) ? listed(list) : null]);
    if (turn !== arrivals) return;
    if (module) made = module.open(ui, next.params, next);
    if (made?.read) await soon(made.read);
    if (turn !== arrivals) { made?.close?.(); return; }
  } catch (error) {
    if (turn !== arrivals) return;
    console.error(error);
    say('That page is not on this phone yet. Open it once with a network.', { tone: 'bad' });
    return;
  }
  const moved = route && route.at !== next.at;
  here?.close?.();
  closeSheet();
  [route, here] = [next, made];
  if (!here) list?.screen.changed?.();
  draw();
  if (moved) settle(back);
}

// What is read in a moment is waited for: an empty page in between would be laid out for nothing.
const soon = (read) => Promise.race([read, new Promise((done) => setTimeout(done, 100))]);

// A list is made when it is first seen: on a phone a scanned card does not wait for it.
async function listed(list) {
  if (!list.screen) list.screen = (await list.load()).open(ui);
}

// A new place starts at its top, and a screen reader at its title; a list keeps where it was.
function settle(back) {
  const pane = root.querySelector('.pane.place');
  if (pane) pane.scrollTop = 0;
  if (!back) (pane ?? root.querySelector('.pane.list'))?.querySelector('h1')?.focus?.({ preventScroll: true });
}

async function choose() {
  const { state } = engine;
  const stand = !state.paired || pairingWanted() ? 'pair' : state.cursor ? null : 'first-sync';
  if (before?.name === stand) return;
  if (stand) {
    const module = await (stand === 'pair' ? import('./screens/pair.js') : import('./screens/first-sync.js'));
    before?.close?.();
    before = { ...module.open(ui), name: stand };
  } else if (before) {
    before.close?.();
    before = null;
    for (const list of Object.values(lists)) list.screen = null;
    router.show();
  }
}

const router = follow((next, how) => arrive(next, how));

engine.onchange(async () => {
  await choose();
  for (const list of Object.values(lists)) list.screen?.changed?.();
  here?.changed?.();
  update();
});
wide.addEventListener('change', async () => {
  if (wide.matches && route?.list) await listed(lists[route.list]);
  update();
});
addEventListener('hashchange', async () => { // a pairing link opened in a tab where the app runs already
  if (!pairingCode()) return;
  before?.close?.();
  before = null;
  await choose();
  update();
});

// The first screen is on its way while the book opens; `arrive` tells what goes wrong with it.
function onTheWay(first) {
  const list = first?.list && (wide.matches || !first.load);
  Promise.all([first?.load?.(), list && lists[first.list].load(), list && import('./engine/finder.js')]).catch(() => {});
}

// The card comes next, with a customer waiting: its screen is loaded, and drawn once where nobody sees it, so that what
// the browser prepares at a first drawing is prepared.
async function ahead() {
  const [module, id] = await Promise.all([import('./screens/coin.js'), engine.anyCoin()]);
  if (!id) return;
  const screen = module.open(ui, { id });
  await screen.ready;
  idle(() => render(screen.view(), document.createElement('div'), { creationScope: document.implementation.createHTMLDocument('') }));
}

try {
  onTheWay(find(location.pathname));
  await engine.start();
  await choose();
  if (!before) router.show();
  else import('./scan/camera.js').then(({ letGo }) => letGo());
  update();
  idle(() => ahead().catch(console.error));
  idle(() => import('./parts/calm.js').then(({ listen }) => listen(say, engine.update)).catch(console.error));
} catch (error) {
  console.error(error);
  const told = document.getElementById('opening');
  if (told) told.textContent = `The book on this phone could not be opened: ${error.message ?? error}. Close other tabs of it and load the page again.`;
}
