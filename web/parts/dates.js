// Dates as people say them, and how long ago something was.
const DAY = 86_400_000;
// Made when first used: a format costs milliseconds that the app's start has not.
const form = (options) => {
  let made;
  return (at) => (made ??= new Intl.DateTimeFormat('en-US', options)).format(at);
};
const day = form({ day: 'numeric', month: 'short', year: 'numeric', timeZone: 'UTC' });
const clock = form({ hour: 'numeric', minute: '2-digit' });
const near = form({ day: 'numeric', month: 'short' });

export function today(now = new Date()) {
  const two = (n) => String(n).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

// "2026-03-14" → "Mar 14, 2026"; anything else comes back as it is.
export function showDate(iso) {
  return /^\d{4}-\d\d-\d\d$/.test(iso ?? '') ? day(new Date(`${iso}T00:00Z`)) : iso ?? '';
}

export function showTime(ms) {
  const at = new Date(ms);
  return today(at) === today() ? clock(at) : `${near(at)}, ${clock(at)}`;
}

// "just now", "4 min ago", "3 h ago", "2 days ago"
export function ago(ms, now = Date.now()) {
  const gone = Math.max(0, now - ms);
  if (gone < 60_000) return 'just now';
  if (gone < 3_600_000) return `${Math.floor(gone / 60_000)} min ago`;
  if (gone < DAY) return `${Math.floor(gone / 3_600_000)} h ago`;
  const days = Math.floor(gone / DAY);
  return days === 1 ? 'a day ago' : `${days} days ago`;
}

// [[first, last]…] of years that follow each other.
export function runs(years) {
  const found = [];
  for (const year of [...years].sort((a, b) => a - b)) {
    if (found.length && year === found.at(-1)[1] + 1) found.at(-1)[1] = year;
    else found.push([year, year]);
  }
  return found;
}

export const showYears = (years) => runs(years).map(([a, b]) => (a === b ? `${a}` : `${a}–${b}`)).join(', ');
