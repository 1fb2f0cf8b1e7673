// UUID version 7 (RFC 9562): 48 bits of milliseconds, then random bits.
export function uuid7(ms = Date.now(), random = crypto.getRandomValues(new Uint8Array(10))) {
  const bytes = new Uint8Array(16);
  for (let i = 5, rest = Math.max(0, ms); i >= 0; i--) {
    bytes[i] = rest % 256;
    rest = Math.floor(rest / 256);
  }
  bytes.set(random, 6);
  bytes[6] = 0x70 | (bytes[6] & 0x0f);
  bytes[8] = 0x80 | (bytes[8] & 0x3f);
  const hex = [...bytes].map((b) => b.toString(16).padStart(2, '0')).join('');
  return [8, 12, 16, 20].reduce((text, at, i) => `${text.slice(0, at + i)}-${text.slice(at + i)}`, hex);
}
