// A dealer or a buyer, new or changed. Only the name is asked for.
import { html } from '../parts/html.js';
import { area, text } from '../parts/field.js';
import { listForm } from '../parts/list-form.js';

const NAMES = ['name', 'table', 'phone', 'note'];

export function open(ui, { id }) {
  return listForm(ui, id, {
    what: 'contact', list: '/contacts', sign: 'fits', title: ['New contact', 'Change a contact'], button: ['Keep the contact', 'Record the change'],
    path: (key) => `/contacts/${key}`,
    blank: () => Object.fromEntries(NAMES.map((name) => [name, ''])),
    said: (raw) => Object.fromEntries(NAMES.map((name) => [name, raw[name] ?? ''])),
    read(form, wrong) {
      if (!form.values.name.trim()) wrong.name = 'Give the contact a name.';
      return Object.fromEntries(NAMES.map((name) => [name, form.values[name].trim()]));
    },
    fields: (form) => html`${text(form, 'name', 'Name', { caps: 'words' })}
      <div class="pair narrow">${text(form, 'phone', 'Phone', { max: 40, mode: 'tel', kind: 'tel' })}${text(form, 'table', 'Table', { max: 40, caps: 'characters' })}</div>
      ${area(form, 'note', 'Note', { rows: 3 })}`,
    done: (set, add) => (add ? `${set.name} is among the contacts.` : 'The contact is changed.'),
  });
}
