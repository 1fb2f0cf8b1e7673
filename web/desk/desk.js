// Comforts of the desk. Every page works without them.
import { tickAll } from './tick-all.js';
import { narrowTypes } from './narrow-types.js';
import { askFirst } from './ask-first.js';
import { showBy } from './show-by.js';
import { addRow } from './add-row.js';

tickAll();
narrowTypes();
askFirst();
showBy();
addRow();

// The name over a coin's ID goes when another ID is typed.
document.addEventListener('input', ({ target }) => {
  if (target.name?.endsWith('-coin')) target.closest('[data-row]')?.querySelector('.named')?.remove();
});

// A form that only looks (filters, label order) is sent as soon as a choice is made.
for (const form of document.querySelectorAll('form[data-auto]')) {
  form.addEventListener('change', () => form.requestSubmit());
}
