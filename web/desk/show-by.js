// Parts of a form that matter only for one choice: data-shown-by="field=value".
export function showBy() {
  for (const part of document.querySelectorAll('[data-shown-by]')) {
    const [name, value] = part.dataset.shownBy.split('=');
    const form = part.closest('form');
    const show = () => { part.hidden = new FormData(form).get(name) !== value; };
    form.addEventListener('change', show);
    show();
  }
}
