// A coin's ID: nine Crockford base32 characters and an ISO/IEC 7064 MOD 37-2 check character.
// The same rules as labels/ids.py; they stand here too because a typed ID is checked with no network.
const ALPHABET = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';
const VALUES = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ*';
const LENGTH = 10;
const ADDRESS = /^(?:(?:[a-z][a-z0-9+.-]*:\/\/)?[^/?#\s]+\/|\/)?c\/([^/?#]+)\/?(?:[?#].*)?$/i;
const LOOKALIKES = { O: '0', I: '1', L: '1' };

/** MOD 37-2 check character of `body`. */
export function checkCharacter(body) {
  let remainder = 0;
  for (const character of body) remainder = (2 * (remainder + VALUES.indexOf(character))) % 37;
  return VALUES[(38 - remainder) % 37];
}

/** A fresh ID; one whose check character falls outside the alphabet is drawn again. */
export function newId(random = (bytes) => crypto.getRandomValues(bytes)) {
  for (;;) {
    const body = [...random(new Uint8Array(LENGTH - 1))].map((byte) => ALPHABET[byte % 32]).join('');
    const check = checkCharacter(body);
    if (ALPHABET.includes(check)) return body + check;
  }
}

/** {id} of typed or scanned text (a bare ID, or any host's /c/<id>), or {error} with a sentence. */
export function parseId(text) {
  let raw = String(text ?? '').trim();
  const address = ADDRESS.exec(raw);
  if (address) [, raw] = address;
  else if (raw.includes('/')) return { error: 'That code is not a coin label.' };
  const plain = raw.replace(/[\s\-\u2010-\u2015]/g, '').toUpperCase().replace(/[OIL]/g, (c) => LOOKALIKES[c]);
  if (plain.length !== LENGTH) return { error: `A coin ID has ${LENGTH} characters; this has ${plain.length}.` };
  const odd = [...plain].find((character) => !ALPHABET.includes(character));
  if (odd) return { error: `A coin ID has no “${odd}”.` };
  if (checkCharacter(plain.slice(0, -1)) !== plain.at(-1)) {
    return { error: 'That ID has a slip: its check character does not fit. Read it again.' };
  }
  return { id: plain };
}
