// The shows of the book, and the one that purchases and sales are made at.
import { html, nothing } from '../parts/html.js';
import { head } from '../parts/head.js';
import { icon } from '../parts/icons.js';
import { showDate } from '../parts/dates.js';
import { byDate, chooseShow, chosenShow } from '../parts/show-field.js';

export function open(ui) {
  const { engine } = ui;
  let shows = null;
  engine.list('show').then((found) => { shows = byDate(found); ui.update(); });
  return { title: 'Shows', view };

  function choose(id) {
    chooseShow(id);
    ui.say(id ? `Purchases and sales now carry ${shows.find((one) => one.id === id).name}.` : 'Purchases and sales carry no show.');
    ui.update();
  }

  function view() {
    const bar = head(ui, { title: 'Shows', back: '/more' });
    if (!shows) return bar;
    const now = chosenShow(shows)?.id ?? '';
    return html`${bar}<div class="body gap">
      <p>Choose the show you are at. Purchases and sales made on this phone carry it, until it ends.</p>
      <fieldset class="choices"><legend class="hide">The show you are at</legend>
        ${option('', 'No show', 'At home, by post, at a shop', now)}
        ${shows.map((one) => option(one.id, one.name, when(one), now))}
      </fieldset>
      ${now ? html`<a class="button main" href="/show">${icon('show')}Cash, packing and count of this show</a>` : nothing}
      ${shows.length ? nothing : html`<p class="soft">The book has no shows yet. Add them at the desk.</p>`}
    </div>`;
  }

  function when(one) {
    return [one.starts && one.ends && one.starts !== one.ends ? `${showDate(one.starts)} to ${showDate(one.ends)}` : showDate(one.starts), one.place, one.table && `table ${one.table}`].filter(Boolean).join(', ');
  }

  function option(id, name, more, now) {
    return html`<label><input type="radio" name="show" value=${id} .checked=${id === now} @change=${() => choose(id)}><span><b>${name}</b><small>${more}</small></span></label>`;
  }
}
