// A small symbol of the kind that labels bear, drawn into pixels, for the reader's first decode.
const ROWS = '1fcd77f 105e041 174135d 175a35d 175665d 1040241 1fd557f 001aa00 0bd49da 04a88dc 0ecab31 1a9e8de 18e2bfe 178f558 1b63358 110db57 15cb3f7 0013318 1fc7557 1055f1d 1757ff6 175bb15 17446f3 105db4a 1fc684b'.split(' ');
const SIZE = ROWS.length;
const SCALE = 4;
const QUIET = 4;

export function warmSymbol() {
  const side = (SIZE + 2 * QUIET) * SCALE;
  const pixels = new ImageData(side, side);
  pixels.data.fill(255);
  for (let y = 0; y < side; y += 1) {
    const row = ROWS[Math.floor(y / SCALE) - QUIET];
    if (!row) continue;
    const bits = parseInt(row, 16);
    for (let x = QUIET * SCALE; x < side - QUIET * SCALE; x += 1) {
      const column = Math.floor(x / SCALE) - QUIET;
      if ((bits >>> (SIZE - 1 - column)) & 1) pixels.data.fill(0, (y * side + x) * 4, (y * side + x) * 4 + 3);
    }
  }
  return pixels;
}
