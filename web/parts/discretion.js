// Costs, floors, gains, estimates of worth and ceilings may be seen by a customer: they show after a press, for a while, on the screen of the press.
const SECONDS = 20;

let shown = false;
let at = ''; // the address of the press
let timer = 0;
let draw = () => {};

export const costsHidden = () => !shown || at !== location.pathname;

// Also called while somebody works with the figures, so that they stay.
export function showCosts(ui) {
  draw = ui.update;
  [shown, at] = [true, location.pathname];
  clearTimeout(timer);
  timer = setTimeout(hideCosts, SECONDS * 1000);
  draw();
}

export function hideCosts() {
  clearTimeout(timer);
  if (!shown) return;
  shown = false;
  draw();
}

document.addEventListener('visibilitychange', () => { if (document.hidden) hideCosts(); });
addEventListener('pagehide', hideCosts);
