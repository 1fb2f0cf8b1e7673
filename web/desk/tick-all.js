// One box that ticks every row of a list.
export function tickAll() {
  for (const form of document.querySelectorAll('form[data-select]')) {
    const all = form.querySelector('[data-all]');
    const boxes = [...form.querySelectorAll('input[name=coin]')];
    if (!all || !boxes.length) continue;
    const master = all.querySelector('input');
    all.hidden = false;
    master.addEventListener('change', () => boxes.forEach((box) => { box.checked = master.checked; }));
    form.addEventListener('change', () => {
      const ticked = boxes.filter((box) => box.checked).length;
      master.checked = ticked === boxes.length;
      master.indeterminate = ticked > 0 && ticked < boxes.length;
    });
  }
}
