/* global KEEP */
// The app's own files, kept for use with no network. The desk puts KEEP = {version, files: [[url, hash]], desk: [first part of an address]}
// in front: a page at an address of `desk` is never answered with the app's.
// Pages come from here first, so that a desk that is slow, gone or behind a hotel's sign-in page stops nothing.
const SHELL = `exergue-app-${KEEP.version}`;
const PHOTOS = 'exergue-photos'; // small photos of the desk: outlive updates of the app
const MOST_PHOTOS = 1000;
const ANSWER_MS = 1000;
const HASHES = new Map(KEEP.files);
const ofApp = (url) => !KEEP.desk.includes(url.pathname.split('/')[1]);

self.addEventListener('install', (event) => {
  event.waitUntil(install());
  route(event).catch(() => {});
});
self.addEventListener('activate', (event) => event.waitUntil(activate()));
self.addEventListener('message', (event) => {
  if (event.data === 'take-over') event.waitUntil(takeOver(event.source));
});
self.addEventListener('fetch', (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== 'GET' || url.origin !== self.location.origin) return;
  if (request.mode === 'navigate') {
    if (ofApp(url)) event.respondWith(kept('/'));
  } else if (url.pathname.startsWith('/api/photo/')) event.respondWith(photo(request, url));
  else if (HASHES.has(url.pathname)) event.respondWith(kept(url.pathname));
});

// Where the browser can be told beforehand, it takes the app's files from the cache by itself: seventy modules are not
// each handed through this worker, which on a slow phone is a third of the start.
async function route(event) {
  await event.addRoutes?.(['/web/*', '/icons/*'].map((pathname) => ({ condition: { urlPattern: new URLPattern({ pathname, baseURL: self.location.origin }), requestMethod: 'GET' }, source: { cacheName: SHELL } })));
}

// Every tab begins anew with this app. One in which something is being entered is waited for: it asks again when done.
async function takeOver(asking) {
  const tabs = await self.clients.matchAll({ type: 'window', includeUncontrolled: true });
  const others = tabs.filter((tab) => tab.id !== asking.id && ofApp(new URL(tab.url)));
  const calm = await Promise.all(others.map(isCalm));
  if (calm.every(Boolean)) await self.skipWaiting();
  else asking.postMessage('wait');
}

// A tab that says nothing is asleep, or has an app from before this question.
function isCalm(tab) {
  return new Promise((done) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = ({ data }) => done(data);
    setTimeout(() => done(true), ANSWER_MS);
    tab.postMessage('calm?', [port2]);
  });
}

// All or nothing: one bad file fails the install, and the app of before goes on. What is here already, from the app of
// before or from a try that failed, is not fetched again.
async function install() {
  const names = await caches.keys();
  const held = await Promise.all([SHELL, ...names.filter((name) => name.startsWith('exergue-app-') && name !== SHELL)].map((name) => caches.open(name)));
  await Promise.all(KEEP.files.map(async ([url, hash]) => {
    for (const cache of held) {
      const found = await cache.match(url);
      if (found?.headers.get('X-Kept') === hash) return cache === held[0] || held[0].put(url, found);
    }
    return held[0].put(url, await fetched(url).catch(() => fetched(url)));
  }));
}

async function activate() {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith('exergue-app-') && name !== SHELL).map((name) => caches.delete(name)));
  await self.clients.claim();
}

// A file from the desk, made anew: a response that was redirected could not answer a navigation. It must be the file that
// the list names: half of a newer app, or somebody else's page, is worse than none.
async function fetched(url) {
  const response = await fetch(url, { cache: 'reload', credentials: 'same-origin' });
  const bytes = await response.arrayBuffer();
  const digest = [...new Uint8Array(await crypto.subtle.digest('SHA-256', bytes))].map((b) => b.toString(16).padStart(2, '0')).join('');
  if (!response.ok || !digest.startsWith(HASHES.get(url))) throw new Error(`${url} is not the file that was announced`);
  const headers = new Headers(response.headers);
  headers.delete('Content-Encoding'); // the bytes are unpacked
  headers.set('X-Kept', HASHES.get(url));
  return new Response(bytes, { headers });
}

// From the phone; a file that the browser lost is fetched and kept again, if the desk still has that very one.
async function kept(url) {
  const cache = await caches.open(SHELL);
  const held = await cache.match(url);
  if (held) return held;
  try {
    const fresh = await fetched(url);
    await cache.put(url, fresh.clone());
    return fresh;
  } catch {
    return fetch(url);
  }
}

// One taken on this phone, one seen before, or the desk's.
async function photo(request, url) {
  const own = await mine(url.pathname.split('/').pop()).catch(() => null);
  if (own) return own;
  const cache = await caches.open(PHOTOS);
  const held = await cache.match(request);
  if (held) return held;
  const response = await fetch(request);
  if (response.ok && response.headers.get('Content-Type') === 'image/jpeg' && url.searchParams.get('size') === 'thumb') {
    await cache.put(request, response.clone()).then(() => bound(cache), () => {});
  }
  return response;
}

async function bound(cache) {
  const keys = await cache.keys();
  await Promise.all(keys.slice(0, Math.max(0, keys.length - MOST_PHOTOS)).map((key) => cache.delete(key)));
}

function mine(id) {
  return new Promise((done, fail) => {
    const asked = indexedDB.open('exergue');
    asked.onupgradeneeded = () => asked.transaction.abort(); // there is no store yet: make none
    asked.onerror = () => fail(asked.error);
    asked.onsuccess = () => {
      const db = asked.result;
      db.onversionchange = () => db.close();
      const get = db.transaction('photos').objectStore('photos').get(id);
      get.onerror = () => fail(get.error);
      get.onsuccess = () => done(get.result ? new Response(get.result.bytes, { headers: { 'Content-Type': get.result.type } }) : null);
      get.transaction.oncomplete = () => db.close();
    };
  });
}
