// Ready to leave? Each thing that the day depends on, and what is amiss by name.
import { html } from '../parts/html.js';
import { head } from '../parts/head.js';
import { icon } from '../parts/icons.js';
import { ago, showTime } from '../parts/dates.js';
import { cameraWorked } from '../scan/scanner.js';
import { browserTab, onIos } from '../parts/install.js';
import { count } from '../parts/words.js';

const HALF_DAY = 12 * 3_600_000;

export function open(ui) {
  const { engine } = ui;
  return { title: 'Ready to leave?', view };

  function lines() {
    const { state } = engine;
    const camera = cameraWorked();
    return [
      [state.shellReady, 'The app itself is kept on this phone', 'The app is not kept for use with no network yet: leave it open on the network for a minute.'],
      [state.lastSync && Date.now() - state.lastSync < HALF_DAY, `The book is as the desk had it ${state.lastSync ? ago(state.lastSync) : ''}`, state.lastSync ? `The book is from ${showTime(state.lastSync)}: sync before you go.` : 'The book was never in step with the desk: sync first.'],
      [!state.waiting, 'Nothing waits to be sent', `${count(state.waiting, 'entry waits', 'entries wait')} to be sent: sync before you go.`],
      [!(state.refused + state.contested), 'No entry needs a look', `${count(state.refused + state.contested, 'entry', 'entries')} to look at, under Entries.`],
      [state.persisted, 'The phone keeps the data for good', onIos() && browserTab() ? 'In a browser tab the system may drop the data: put the app on the home screen and pair inside it.' : 'The browser may drop the data when the phone runs short of room: put the app on the home screen.'],
      [!state.full, 'There is room for entries and photos', 'The phone is full: free some space.'],
      [Boolean(camera), `The camera read a label ${camera ? ago(camera) : ''}`, 'The camera was not tried here yet: scan one label.'],
    ];
  }

  function view() {
    const all = lines();
    const amiss = all.filter(([well]) => !well).length;
    return html`${head(ui, { title: 'Ready to leave?', back: '/more' })}<div class="body gap">
      <h2>${amiss ? `${count(amiss, 'thing')} to see to` : 'Ready: all of it works with no network'}</h2>
      <ul class="ready">${all.map(([well, good, bad]) => html`<li class=${well ? 'good' : 'warn'}>${icon(well ? 'fits' : 'warn')}<span><span class="hide">${well ? 'Good: ' : 'See to: '}</span>${well ? good : bad}</span></li>`)}</ul>
      <div class="row wrap"><button class="button main grow" @click=${() => engine.sync().catch(() => {})}>${icon('sync', engine.state.syncing ? 'turn' : '')}Sync now</button>
        <a class="button grow" href="/scan">${icon('scan')}Try the camera</a></div>
    </div>`;
  }
}
