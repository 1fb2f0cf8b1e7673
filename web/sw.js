/* global KEEP */
// The app's own files, kept for use with no network. The desk puts KEEP = {version, files: [[url, hash]]} in front.
// Pages come from here first, so that a desk that is slow, gone or behind a hotel's sign-in page stops nothing.
const SHELL = `exergue-app-${KEEP.version}`;
const PHOTOS = 'exergue-photos';
const MOST_PHOTOS = 600;
const KNOWN = new Set(KEEP.files.map(([url]) => url));

self.addEventListener('install', (event) => event.waitUntil(install()));
self.addEventListener('activate', (event) => event.waitUntil(activate()));
self.addEventListener('message', (event) => {
  if (event.data === 'take-over') self.skipWaiting();
});

// All or nothing: one bad file fails the install, and the app of before goes on.
async function install() {
  const cache = await caches.open(SHELL);
  const old = await caches.keys().then((names) => names.filter((name) => name.startsWith('exergue-app-') && name !== SHELL));
  await Promise.all(KEEP.files.map(async ([url, hash]) => {
    const held = await heldBefore(old, url, hash);
    const response = held ?? await fetch(url, { cache: 'reload', credentials: 'same-origin' });
    if (!response.ok || response.redirected) throw new Error(`${url} answered ${response.status}`);
    await cache.put(url, await marked(response, hash));
  }));
}

async function marked(response, hash) {
  const headers = new Headers(response.headers);
  headers.set('X-Kept', hash);
  return new Response(await response.blob(), { status: 200, headers });
}

// A file that did not change is not fetched again.
async function heldBefore(names, url, hash) {
  for (const name of names) {
    const held = await (await caches.open(name)).match(url);
    if (held?.headers.get('X-Kept') === hash) return held;
  }
  return null;
}

async function activate() {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith('exergue-app-') && name !== SHELL).map((name) => caches.delete(name)));
  await self.clients.claim();
}

self.addEventListener('fetch', (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== 'GET' || url.origin !== self.location.origin) return;
  if (request.mode === 'navigate') {
    if (!/^\/(desk|api|healthz)(\/|$)/.test(url.pathname)) event.respondWith(kept('/'));
  } else if (url.pathname.startsWith('/api/photo/')) {
    event.respondWith(photo(request));
  } else if (KNOWN.has(url.pathname)) {
    event.respondWith(kept(url.pathname));
  }
});

async function kept(url) {
  const held = await (await caches.open(SHELL)).match(url);
  return held ?? fetch(url);
}

async function photo(request) {
  const cache = await caches.open(PHOTOS);
  const held = await cache.match(request);
  if (held) return held;
  const response = await fetch(request);
  if (response.ok && response.headers.get('Content-Type') === 'image/jpeg') {
    await cache.put(request, response.clone()).catch(() => {});
    const keys = await cache.keys();
    await Promise.all(keys.slice(0, Math.max(0, keys.length - MOST_PHOTOS)).map((key) => cache.delete(key)));
  }
  return response;
}
