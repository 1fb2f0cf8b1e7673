// Asking the desk. Every failure becomes an Error with a code: 'offline' when nobody of ours answered.
const PATIENCE_MS = 30_000;

/** The parsed answer of the phone's API. Rejects with {code, message, status, …what the desk added}. */
export async function call(method, path, body) {
  const response = await ask(method, path, body === undefined ? undefined : JSON.stringify(body), { 'Content-Type': 'application/json' });
  try {
    return await response.json();
  } catch (error) {
    throw fail('offline', 'The connection broke off.', { cause: error });
  }
}

/** A response whose status is fine. `patience` in ms, the body included; 0 for none. */
export async function ask(method, path, body, headers = {}, patience = PATIENCE_MS) {
  let response;
  try {
    response = await fetch(path, {
      method, body, headers: { ...headers, 'X-Exergue': '1' }, credentials: 'same-origin', cache: 'no-store',
      redirect: 'error', signal: patience ? AbortSignal.timeout(patience) : undefined,
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

const isJson = (response) => /json/.test(response.headers.get('Content-Type') ?? '');

export function fail(code, message, more = {}) {
  return Object.assign(new Error(message), { code, ...more });
}
