// Asking the desk. Every failure becomes an Error with a code: 'offline' when nobody of ours answered.
const PATIENCE_MS = 30_000; // without a sign of life; each piece that comes starts it anew
const SLOWEST = 10; // bytes in a millisecond: what is sent is given the time that a poor network takes

/** The parsed answer of the phone's API. Rejects with {code, message, status, …what the desk added}. */
export async function call(method, path, body) {
  const sent = body === undefined ? undefined : JSON.stringify(body);
  const wait = patience(PATIENCE_MS, sent);
  try {
    const response = await answer(method, path, sent, { 'Content-Type': 'application/json' }, wait);
    return JSON.parse(await whole(response.body, wait));
  } catch (error) {
    throw typeof error.code === 'string' ? error : fail('offline', 'The connection broke off.', { cause: error });
  } finally {
    wait.end();
  }
}

/** A response whose status is fine; its body is the caller's to read. `ms`: how long to wait for it, 0 for ever. */
export async function ask(method, path, body, headers = {}, ms = PATIENCE_MS) {
  const wait = patience(ms, body);
  try {
    return await answer(method, path, body, headers, wait);
  } finally {
    wait.end();
  }
}

async function answer(method, path, body, headers, wait) {
  let response;
  try {
    response = await fetch(path, {
      method, body, headers: { ...headers, 'X-Exergue': '1' }, credentials: 'same-origin', cache: 'no-store',
      redirect: 'error', signal: wait.signal,
    });
  } catch (error) {
    throw fail('offline', 'The desk is out of reach.', { cause: error });
  }
  if (response.ok && isJson(response)) return response;
  const told = isJson(response) ? await response.json().catch(() => null) : null;
  // A page in place of an answer is somebody else's network (a hotel's sign-in page), not the desk.
  if (!told?.error) throw fail('offline', 'Something else than the desk answered.', { status: response.status });
  throw Object.assign(fail(told.error.code, told.error.message, { status: response.status }), told.error);
}

/** Gives a request up after `ms` of silence. */
function patience(ms, body) {
  const control = new AbortController();
  let timer = 0;
  const start = (span) => { if (ms) timer = setTimeout(() => control.abort(), span); };
  start(ms + (body?.length ?? body?.byteLength ?? 0) / SLOWEST);
  return { signal: control.signal, end: () => clearTimeout(timer), anew() { clearTimeout(timer); start(ms); } };
}

async function whole(body, wait) {
  const reader = body.getReader();
  const decoder = new TextDecoder();
  let text = '';
  for (;;) {
    wait.anew();
    const { value, done } = await reader.read();
    if (done) return text + decoder.decode();
    text += decoder.decode(value, { stream: true });
  }
}

const isJson = (response) => /json/.test(response.headers.get('Content-Type') ?? '');

export function fail(code, message, more = {}) {
  return Object.assign(new Error(message), { code, ...more });
}
