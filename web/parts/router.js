import * as scan from '../screens/scan.js'; // the first screen of a show floor

// One table of addresses. Each names the list it belongs to (shown beside it on a wide screen) and its screen.
const table = [
  ['/', 'stock', null],
  ['/c/:id', 'stock', () => import('../screens/coin.js')],
  ['/c/:id/checks', 'stock', () => import('../screens/checks.js')],
  ['/c/:id/sell', 'stock', () => import('../screens/deal.js')],
  ['/c/:id/trade', 'stock', () => import('../screens/deal.js')],
  ['/c/:id/buy', 'stock', () => import('../screens/purchase.js')],
  ['/c/:id/move', 'stock', () => import('../screens/move.js')],
  ['/c/:id/price', 'stock', () => import('../screens/price.js')],
  ['/c/:id/note', 'stock', () => import('../screens/note.js')],
  ['/c/:id/photo', 'stock', () => import('../screens/photo.js')],
  ['/c/:id/cost', 'stock', () => import('../screens/later-cost.js')],
  ['/c/:id/away', 'stock', () => import('../screens/away.js')],
  ['/c/:id/back', 'stock', () => import('../screens/back.js')],
  ['/c/:id/memo', 'stock', () => import('../screens/memo.js')],
  ['/c/:id/memo-in', 'stock', () => import('../screens/memo-in.js')],
  ['/c/:id/receipt/:of', 'stock', () => import('../screens/receipt-photo.js')],
  ['/c/:id/return/:of', 'stock', () => import('../screens/return.js')],
  ['/c/:id/lost', 'stock', () => import('../screens/lost.js')],
  ['/c/:id/held', 'stock', () => import('../screens/held.js')],
  ['/memo-in', null, () => import('../screens/memo-in.js')],
  ['/buy', null, () => import('../screens/purchase.js')],
  ['/deal', null, () => import('../screens/deal.js')],
  ['/receipt/:of/photo', null, () => import('../screens/receipt-photo.js')],
  ['/receipt/:fact', null, () => import('../screens/receipt.js')],
  ['/scan', null, () => scan],
  ['/wants', 'wants', null],
  ['/wants/new', 'wants', () => import('../screens/want-form.js')],
  ['/wants/:id', 'wants', () => import('../screens/want.js')],
  ['/wants/:id/edit', 'wants', () => import('../screens/want-form.js')],
  ['/sets', null, () => import('../screens/sets.js')],
  ['/sets/:id', null, () => import('../screens/set.js')],
  ['/plan', null, () => import('../screens/plan.js')],
  ['/plan/:goal', null, () => import('../screens/plan.js')],
  ['/seen', null, () => import('../screens/seen.js')],
  ['/seen/new', null, () => import('../screens/sighting-form.js')],
  ['/seen/:id', null, () => import('../screens/sighting.js')],
  ['/seen/:id/edit', null, () => import('../screens/sighting-form.js')],
  ['/contacts', null, () => import('../screens/contacts.js')],
  ['/contacts/new', null, () => import('../screens/contact-form.js')],
  ['/contacts/:id', null, () => import('../screens/contact.js')],
  ['/contacts/:id/edit', null, () => import('../screens/contact-form.js')],
  ['/name', null, () => import('../screens/name.js')],
  ['/types', null, () => import('../screens/types.js')],
  ['/types/:denom', null, () => import('../screens/series.js')],
  ['/types/:denom/:slug', null, () => import('../screens/type.js')],
  ['/entries', null, () => import('../screens/entries.js')],
  ['/show', null, () => import('../screens/show.js')],
  ['/show/pack', null, () => import('../screens/pack.js')],
  ['/show/count', null, () => import('../screens/count.js')],
  ['/show/differences', null, () => import('../screens/differences.js')],
  ['/show/drawer', null, () => import('../screens/drawer.js')],
  ['/show/close', null, () => import('../screens/close.js')],
  ['/count', null, () => import('../screens/count.js')],
  ['/count/differences', null, () => import('../screens/differences.js')],
  ['/more', null, () => import('../screens/more.js')],
  ['/more/shows', null, () => import('../screens/shows.js')],
  ['/more/ready', null, () => import('../screens/ready.js')],
  ['/more/about', null, () => import('../screens/about.js')],
  ['/more/leave', null, () => import('../screens/leave.js')],
];

const routes = table.map(([path, list, load]) => ({
  path, list, load, match: new RegExp(`^${path.replace(/:(\w+)/g, '(?<$1>[^/]+)')}$`),
}));

// {path, list, load, params} for an address; a label's /C/<ID> is the same as /c/<ID>.
export function find(pathname) {
  const plain = pathname.replace(/^\/C\//, '/c/').replace(/(.)\/$/, '$1');
  for (const route of routes) {
    const hit = plain.match(route.match);
    if (!hit) continue;
    const params = {};
    for (const [name, value] of Object.entries(hit.groups ?? {})) params[name] = decode(value);
    return { ...route, params, at: plain };
  }
  return null;
}

function decode(text) {
  try { return decodeURIComponent(text); } catch { return text; }
}

// Follows links inside the page, the back button, and go(). `arrive(route, {back})` shows a place.
export function start(arrive) {
  const show = (back = false) => {
    const route = find(location.pathname);
    if (!route) { go('/', { replace: true }); return; }
    arrive(route, { back });
  };
  function go(path, { replace = false } = {}) {
    if (path === location.pathname) replace = true;
    history[replace ? 'replaceState' : 'pushState']({ in: (history.state?.in ?? 0) + (replace ? 0 : 1) }, '', path);
    show();
  }
  addEventListener('popstate', () => show(true));
  addEventListener('click', (event) => {
    const link = event.target.closest?.('a[href^="/"]');
    if (!link || link.target || link.hasAttribute('download') || event.defaultPrevented) return;
    if (event.button || event.metaKey || event.ctrlKey || event.shiftKey || event.altKey) return;
    if (!find(new URL(link.href).pathname)) return;
    event.preventDefault();
    go(new URL(link.href).pathname, { replace: link.dataset.replace !== undefined });
  });
  return {
    go,
    show,
    back(otherwise) {
      if (history.state?.in > 0) history.back();
      else go(otherwise, { replace: true });
    },
  };
}
