// A long form that was begun outlives a look elsewhere, a reload and a killed tab.
const KEY = 'exergue.draft.';

export function readDraft(name) {
  try { return JSON.parse(localStorage.getItem(KEY + name)); } catch { return null; }
}

export function keepDraft(name, draft) {
  try { localStorage.setItem(KEY + name, JSON.stringify(draft)); } catch { /* a full phone: the form itself is still there */ }
}

export function dropDraft(name) {
  localStorage.removeItem(KEY + name);
}
