// The list of types shows those of the chosen denomination only.
export function narrowTypes() {
  const denomination = document.querySelector('select[data-denom]');
  const types = document.querySelector('select[data-types]');
  if (!denomination || !types) return;
  const groups = [...types.querySelectorAll('optgroup')];
  const narrow = () => {
    const name = denomination.selectedOptions[0].value ? denomination.selectedOptions[0].text : '';
    for (const group of groups) {
      const fits = !name || group.label === name || group.label === '';
      if (fits) types.append(group); else group.remove();
    }
  };
  denomination.addEventListener('change', narrow);
  narrow();
}
