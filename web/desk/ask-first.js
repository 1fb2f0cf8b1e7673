// A question before what cannot be taken back at once.
export function askFirst() {
  document.addEventListener('click', (event) => {
    const button = event.target.closest('[data-sure]');
    if (button && !confirm(button.dataset.sure)) event.preventDefault();
  });
}
