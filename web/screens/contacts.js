// The dealers and buyers of the book.
import { html, nothing, repeat } from '../parts/html.js';
import { head } from '../parts/head.js';
import { icon } from '../parts/icons.js';
import { holder } from '../parts/holder.js';
import { readSeen } from '../parts/seen.js';
import { count } from '../parts/words.js';

export function open(ui) {
  let book = null;
  let text = '';

  async function load() {
    book = await readSeen(ui.engine);
    ui.update();
  }
  load();
  return { title: 'Contacts', changed: load, view };

  function view() {
    const bar = head(ui, { title: 'Contacts', back: '/more' });
    if (!book) return bar;
    const many = new Map();
    for (const one of book.sightings) if (one.contact) many.set(one.contact, (many.get(one.contact) ?? 0) + 1);
    const words = text.toLowerCase().split(/\s+/).filter(Boolean);
    const list = [...book.contacts.values()].sort((a, b) => a.name.localeCompare(b.name))
      .filter((one) => words.every((word) => `${one.name} table ${one.table} ${one.phone}`.toLowerCase().includes(word)));
    return html`${bar}<div class="body gap">
      ${book.contacts.size > 7 ? html`<div class="search">${icon('search')}<input type="search" aria-label="Name, table or number" placeholder="Name, table or number" .value=${text} autocomplete="off" @input=${(event) => { text = event.target.value; ui.update(); }}></div>` : nothing}
      ${!book.contacts.size ? html`<div class="empty">${holder({ open: true, size: 'medium' })}<h2>No contacts yet</h2><p>A dealer or a buyer: a name, a table, a number. Deals with that name and what was seen there stand beside it.</p></div>`
        : list.length ? html`<ul class="menu">${repeat(list, (one) => one.id, (one) => html`<li><a href=${`/contacts/${one.id}`}><span><b>${one.name || 'Without a name'}</b>
          <small>${[one.table && `Table ${one.table}`, one.phone, many.get(one.id) && `${count(many.get(one.id), 'coin')} seen`, one.waiting?.length && 'waits to be sent'].filter(Boolean).join(', ') || 'Nothing more noted'}</small></span>${icon('on')}</a></li>`)}</ul>`
        : html`<p class="soft">No contact fits.</p>`}
    </div><div class="actions"><div class="line"><a class="button main grow" href="/contacts/new">${icon('add')}New contact</a></div></div>`;
  }
}
