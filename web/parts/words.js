// Small words that several screens say alike.
export const count = (n, one, many = `${one}s`) => `${n.toLocaleString('en-US')} ${n === 1 ? one : many}`;

export const showId = (id) => `${id.slice(0, 5)}-${id.slice(5)}`;

export const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);

// A coin's state: its sign and tone. The words are the state itself.
export const STATES = {
  'in stock': { sign: 'dot', tone: 'good' },
  'on memo': { sign: 'out', tone: 'warn' },
  'on consignment': { sign: 'show', tone: 'warn' },
  'at grading': { sign: 'wait', tone: 'warn' },
  away: { sign: 'out', tone: 'warn' },
  sold: { sign: 'fits', tone: 'quiet' },
  traded: { sign: 'sync', tone: 'quiet' },
  returned: { sign: 'undo', tone: 'quiet' },
  missing: { sign: 'unsure', tone: 'bad' },
  void: { sign: 'close', tone: 'quiet' },
};

export const HELD = ['in stock', 'on memo', 'on consignment', 'at grading', 'away'];

export const SIDES = { obverse: 'Obverse', reverse: 'Reverse', edge: 'Edge', holder: 'Holder', other: 'Other' };

export const PAYMENT = { cash: 'Cash', check: 'Check', card: 'Card', transfer: 'Transfer', other: 'Other' };

export const COSTS = {
  price: 'Price', fee: 'Buyer’s fee', tax: 'Tax', shipping: 'Shipping', insurance: 'Insurance', grading: 'Grading', other: 'Other',
};

// What a coin counts as having cost that was not bought.
export const COST_LINES = {
  ...COSTS, opening: 'Cost brought forward', inherited: 'Value when inherited', gift: 'Donor’s basis', found: 'Face value', trade: 'Value in trade',
};
