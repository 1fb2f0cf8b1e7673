// What was seen on tables, dealer by dealer: at a dealer's name all that is there, with the price asked.
import { html, nothing, repeat } from '../parts/html.js';
import { head } from '../parts/head.js';
import { icon } from '../parts/icons.js';
import { holder } from '../parts/holder.js';
import { readSeen, seenRow } from '../parts/seen.js';
import { count } from '../parts/words.js';

const plain = (words) => words.toLowerCase();
const HERE = 'exergue.seen-here';

export function open(ui) {
  const { engine } = ui;
  let book = null;
  let text = '';
  let here = sessionStorage.getItem(HERE) !== 'no'; // this show alone

  async function load() {
    book = await readSeen(engine);
    ui.update();
  }
  load();
  return { title: 'Seen at tables', changed: load, view };

  // [[who, contact, sightings]]: dealers by the newest of what they have.
  function dealers() {
    const words = plain(text).split(/\s+/).filter(Boolean);
    const found = new Map();
    for (const one of book.sightings) {
      if (here && book.here && one.show !== book.here.id) continue;
      const said = plain(`${one.dealer} table ${one.table} ${one.title} ${one.dateText} ${one.grade}`);
      if (!words.every((word) => said.includes(word))) continue;
      const key = one.contact ?? `${plain(one.dealer)}/${one.dealer ? '' : one.table}`;
      if (!found.has(key)) found.set(key, [one.dealer || (one.table ? `Table ${one.table}` : 'Nobody said'), one.contact, []]);
      found.get(key)[2].push(one);
    }
    return [...found.values()];
  }

  function turn(on) {
    here = on;
    sessionStorage.setItem(HERE, on ? 'yes' : 'no');
    ui.update();
  }

  function view() {
    const bar = head(ui, { title: 'Seen at tables', back: '/wants', extra: html`<a class="round" href="/contacts" aria-label="Contacts">${icon('show')}</a>` });
    if (!book) return bar;
    const list = dealers();
    const all = book.sightings.length;
    return html`${bar}<div class="body rows-body">
      ${all ? html`<div class="gap finder-plain"><div class="search">${icon('search')}<input type="search" aria-label="Dealer, table or coin" placeholder="Dealer, table or coin" .value=${text} autocomplete="off" @input=${(event) => { text = event.target.value; ui.update(); }}></div>
        ${book.here ? html`<div class="chips" role="group" aria-label="Where"><button class="chip ${here ? 'on' : ''}" aria-pressed=${String(here)} @click=${() => turn(true)}>${here ? icon('fits') : nothing}${book.here.name}</button>
          <button class="chip ${here ? '' : 'on'}" aria-pressed=${String(!here)} @click=${() => turn(false)}>${here ? nothing : icon('fits')}Everywhere</button></div>` : nothing}</div>` : nothing}
      ${!all ? html`<div class="empty">${holder({ open: true, size: 'medium' })}<h2>Nothing seen yet</h2><p>A coin on somebody’s table, with the price asked: it stands at the dealer’s name and at the want that it would fill.</p></div>`
        : !list.length ? html`<p class="soft">Nothing that was seen fits.</p>`
        : repeat(list, ([who, contact]) => contact ?? who, ([who, contact, found]) => html`<section class="dealer"><h2>${contact ? html`<a href=${`/contacts/${contact}`}>${who}${icon('on')}</a>` : who}</h2>
          <p class="soft small">${count(found.length, 'coin')} seen</p><ul class="rows">${repeat(found, (one) => one.id, (one) => seenRow(ui, one, book, { whose: false, at: !(here && book.here) }))}</ul></section>`)}
    </div><div class="actions"><div class="line"><a class="button main grow" href="/seen/new">${icon('add')}Note a sighting</a></div></div>`;
  }
}
