// Where the app runs: installed or in a tab, and what kind of phone this is.
export const browserTab = () => !matchMedia('(display-mode: standalone), (display-mode: fullscreen)').matches && !navigator.standalone;

export const onIos = () => /iPhone|iPad|iPod/.test(navigator.userAgent) || (navigator.platform === 'MacIntel' && navigator.maxTouchPoints > 1);

export function phoneName() {
  const agent = navigator.userAgent;
  if (/iPhone/.test(agent)) return 'iPhone';
  if (onIos()) return 'iPad';
  if (/Android/.test(agent)) return /Mobile/.test(agent) ? 'Android phone' : 'Android tablet';
  return /Mac/.test(agent) ? 'Mac' : /Windows/.test(agent) ? 'Windows computer' : 'Computer';
}

// The browser's own offer to install, kept until a person asks for it.
let offer = null;
addEventListener('beforeinstallprompt', (event) => {
  event.preventDefault();
  offer = event;
});

export const canInstall = () => Boolean(offer);
export async function install() {
  const asked = offer;
  offer = null;
  await asked?.prompt();
}
