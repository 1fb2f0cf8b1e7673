// One row more at the end of a list of a form, without sending it.
export function addRow() {
  document.addEventListener('click', (event) => {
    const button = event.target.closest('button[name=do][value^="more:"]');
    const list = button && button.form.querySelector(`[data-rows="${button.value.slice(5)}"]`);
    if (!list || !list.lastElementChild) return;
    event.preventDefault();
    const row = another(list.lastElementChild, list.children.length);
    list.append(row);
    row.querySelector('input, select').focus();
  });
}

// The same row, empty, under the next number.
function another(last, number) {
  const row = last.cloneNode(true);
  for (const own of row.querySelectorAll('[data-of-coin]')) own.remove();
  for (const error of row.querySelectorAll('.error')) error.remove();
  for (const wrong of row.querySelectorAll('.wrong')) wrong.classList.remove('wrong');
  const legend = row.querySelector(':scope > legend');
  if (legend) legend.textContent = legend.textContent.replace(/\d+$/, number + 1);
  for (const part of row.querySelectorAll('[id], [name], [for]')) {
    for (const name of ['id', 'name', 'for']) {
      const text = part.getAttribute(name);
      if (text) part.setAttribute(name, text.replace(/^([a-z_]+)-\d+-/, `$1-${number}-`));
    }
    part.removeAttribute('aria-describedby');
    part.removeAttribute('aria-invalid');
    if (part.tagName === 'INPUT') { part.value = ''; part.removeAttribute('value'); }
    if (part.tagName === 'SELECT') part.selectedIndex = 0;
  }
  return row;
}
