// CRC-32 (ISO 3309, as in zlib) of ASCII text: a card's part of the digest.
const table = new Uint32Array(256);
for (let i = 0; i < 256; i++) {
  let c = i;
  for (let k = 0; k < 8; k++) c = c & 1 ? (c >>> 1) ^ 0xedb88320 : c >>> 1;
  table[i] = c;
}

export const SUM_MODULUS = 2 ** 48;

export function crc32(text) {
  let c = 0xffffffff;
  for (let i = 0; i < text.length; i++) c = table[(c ^ text.charCodeAt(i)) & 255] ^ (c >>> 8);
  return (c ^ 0xffffffff) >>> 0;
}

/** Which version of which card is held, as a number to add up. */
export const mark = (kind, id, seq) => crc32(`${kind}/${id}/${seq}`);

/** A running digest {count, sum} with a card's version added, or taken out with sign -1. */
export function add(digest, kind, id, seq, sign = 1) {
  digest.count += sign;
  digest.sum = (digest.sum + sign * mark(kind, id, seq) + SUM_MODULUS) % SUM_MODULUS;
}
