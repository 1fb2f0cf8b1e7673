// A sheet from below: a native dialog, so that focus, Escape and the background are the browser's.
import { html, nothing, ref } from './html.js';
import { icon } from './icons.js';

let open = null;
let ours = false; // the dialog was closed from here; its event, which comes later, says nothing new

export function openSheet(title, view, update) {
  open = { title, view, update };
  update();
  requestAnimationFrame(() => show(document.querySelector('dialog.sheet'))); // one sheet after another: the dialog is the same
}

export function closeSheet() {
  if (!open) return;
  const { update } = open;
  open = null;
  const dialog = document.querySelector('dialog.sheet');
  if (dialog?.open) {
    ours = true;
    dialog.close();
  }
  update();
}

function closed() {
  if (ours) ours = false;
  else closeSheet();
}

export function sheet() {
  if (!open) return nothing;
  return html`<dialog class="sheet" aria-labelledby="sheet-title" ${ref(show)} @close=${closed} @click=${outside}>
    <header><h2 id="sheet-title">${open.title}</h2><button class="round" @click=${closeSheet} aria-label="Close">${icon('close')}</button></header>
    <div class="content">${open.view()}</div>
  </dialog>`;
}

function show(element) {
  if (element && !element.open) queueMicrotask(() => element.isConnected && !element.open && element.showModal());
}

function outside(event) {
  if (event.target === event.currentTarget && event.clientY) {
    const box = event.currentTarget.getBoundingClientRect();
    if (event.clientY < box.top || event.clientY > box.bottom || event.clientX < box.left || event.clientX > box.right) closeSheet();
  }
}
