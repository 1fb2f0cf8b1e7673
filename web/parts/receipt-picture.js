// A receipt as a picture: dark on white in any scheme, wide enough to be read on a phone's screen. Drawn here, nothing is fetched.
const WIDE = 1080;
const EDGE = 64;
const GAP = 40; // between words and their amount
const INK = '#1F1B14';
const SOFT = '#5B5345';
const SANS = '"Source Sans 3", system-ui, sans-serif';
const SERIF = '"Source Serif 4", Georgia, serif';
const FONTS = { title: `600 70px ${SERIF}`, plain: `400 46px ${SANS}`, bold: `600 52px ${SANS}`, small: `400 38px ${SANS}` };
const HIGH = { title: 92, plain: 62, bold: 70, small: 50 };

/** A PNG Blob of a receipt (deal/receipt.js). */
export async function picture(receipt, money) {
  await Promise.all(Object.values(FONTS).map((font) => document.fonts.load(font)));
  const canvas = document.createElement('canvas');
  canvas.width = WIDE;
  const paper = canvas.getContext('2d');
  const steps = laid(paper, receipt, money);
  canvas.height = steps.at(-1).y + EDGE;
  paper.fillStyle = '#fff';
  paper.fillRect(0, 0, WIDE, canvas.height);
  for (const { y, text, font, soft, right, rule } of steps) {
    paper.fillStyle = soft ? SOFT : INK;
    if (rule) paper.fillRect(EDGE, y, WIDE - 2 * EDGE, 2);
    if (!text) continue;
    paper.font = FONTS[font];
    paper.textAlign = right ? 'right' : 'left';
    paper.fillText(text, right ? WIDE - EDGE : EDGE, y);
  }
  const blob = await new Promise((done) => canvas.toBlob(done, 'image/png'));
  canvas.width = canvas.height = 0; // iOS frees a canvas late otherwise
  if (!blob) throw new Error('The picture could not be made; this phone may be out of memory.');
  return blob;
}

// Every line of text with its baseline: [{y, text, font, soft, right} | {y, rule}], the last one at the foot.
function laid(paper, { title, head, rows, last, foot }, money) {
  const steps = [];
  let y = EDGE;
  const rule = () => { y += 24; steps.push({ y, rule: true, soft: true }); y += 12; };
  const put = (words, font, { soft = false, cents } = {}) => {
    paper.font = FONTS[font];
    const amount = cents === undefined ? '' : money(cents);
    const room = WIDE - 2 * EDGE - (amount ? paper.measureText(amount).width + GAP : 0);
    broken(paper, words, room).forEach((text, at) => {
      y += HIGH[font];
      if (amount && !at) steps.push({ y, text: amount, font, right: true });
      steps.push({ y, text, font, soft });
    });
  };
  put(title, 'title');
  for (const one of head) put(one, 'plain', { soft: true });
  rule();
  for (const { words, more, cents } of rows) {
    if (more === undefined) y += 16;
    put(words, more === undefined && cents === undefined ? 'small' : 'plain', { cents, soft: more === undefined && cents === undefined });
    if (more) put(more, 'small', { soft: true });
  }
  rule();
  put(last.words, 'bold', { cents: last.cents });
  for (const one of foot) put(one, 'plain', { soft: true });
  steps.push({ y });
  return steps;
}

// Words in lines no wider than `room`; a word that is wider is cut.
function broken(paper, words, room) {
  const lines = [''];
  for (const word of words.split(/\s+/)) {
    const longer = lines.at(-1) ? `${lines.at(-1)} ${word}` : word;
    if (paper.measureText(longer).width <= room) { lines[lines.length - 1] = longer; continue; }
    if (lines.at(-1)) lines.push('');
    for (const letter of word) {
      if (paper.measureText(lines.at(-1) + letter).width > room) lines.push('');
      lines[lines.length - 1] += letter;
    }
  }
  return lines;
}
