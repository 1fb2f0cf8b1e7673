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

// A form that only looks (filters, label order) is sent as soon as a choice is made.
for (const form of document.querySelectorAll('form[data-auto]')) {
  form.addEventListener('change', () => form.requestSubmit());
}
