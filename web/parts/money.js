// Amounts are whole minor units (cents). Reading what a thumb types, and showing it; no rule of the book lives here.
const shown = new Map();

function shape(currency) {
  if (!shown.has(currency)) {
    const format = new Intl.NumberFormat('en-US', { style: 'currency', currency });
    const digits = format.resolvedOptions().maximumFractionDigits;
    const whole = new Intl.NumberFormat('en-US', { style: 'currency', currency, minimumFractionDigits: 0, maximumFractionDigits: 0 });
    shown.set(currency, { format, whole, digits, unit: 10 ** digits });
  }
  return shown.get(currency);
}

/** Decimals of a currency's minor unit. */
export const digitsOf = (currency) => shape(currency).digits;

// "$1,234.50"; `short` leaves out zero cents: "$1,234".
export function show(cents, currency = 'USD', { short = false, sign = false } = {}) {
  const { format, whole, unit } = shape(currency);
  const text = (short && cents % unit === 0 ? whole : format).format(cents / unit).replace('-', '−');
  return sign && cents > 0 ? `+${text}` : text;
}

// Minor units, null for blank, NaN for what is no amount. "1,234.50", "$40", "12,5" are understood.
export function parse(text, currency = 'USD') {
  const plain = text.replace(/[\s$£€¥'’]/g, '');
  if (!plain) return text.trim() ? NaN : null;
  const { digits, unit } = shape(currency);
  const decimal = plain.match(/[.,](\d*)$/);
  const tail = decimal && !(plain[decimal.index] === ',' && decimal[1].length === 3) ? decimal : null;
  const whole = (tail ? plain.slice(0, tail.index) : plain).replace(/[.,](?=\d{3}(\D|$))/g, '');
  const cents = tail?.[1] ?? '';
  if (!/^\d*$/.test(whole) || cents.length > digits || whole.length > 10 || !(whole + cents)) return NaN;
  return Number(whole || 0) * unit + Number(cents.padEnd(digits, '0') || 0);
}

// What an amount looks like in a field: "1234.50", "40".
export function plain(cents, currency = 'USD') {
  if (cents === null || cents === undefined) return '';
  const { digits, unit } = shape(currency);
  return cents % unit === 0 ? String(cents / unit) : (cents / unit).toFixed(digits);
}
