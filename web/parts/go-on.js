// Where one goes on after a press took away what had the focus. A person who is in another field already stays there.
const FIELDS = 'input, select, textarea';

/** Give the focus to what `find()` returns, once the screen is drawn anew. */
export function goOnAt(find) {
  requestAnimationFrame(() => { if (!document.activeElement?.matches(FIELDS)) find()?.focus(); });
}
