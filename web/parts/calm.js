// A newer app takes over in all tabs at once, and each begins anew: not while something is being entered in one of them.
const LOOK_MS = 1000;
let looking = 0;

const busy = () => Boolean(document.querySelector('.app.form'));

/** Answer the newer app that waits, and tell the person where it has to wait for another tab. `update` asks it to take over. */
export function listen(say, update) {
  navigator.serviceWorker?.addEventListener('message', ({ data, ports }) => {
    if (data === 'wait') say('The newer app comes as soon as the form that is open in another tab is done.');
    if (data !== 'calm?') return;
    ports[0].postMessage(!busy());
    if (busy()) looking ||= setInterval(() => goOn(update), LOOK_MS);
  });
}

function goOn(update) {
  if (busy()) return;
  clearInterval(looking);
  looking = 0;
  update();
}
