// Opens the steps for this kind of phone, and asks the desk over HTTPS whether the trust has taken.
const android = /Android/.test(navigator.userAgent);
const touchMac = /Macintosh/.test(navigator.userAgent) && navigator.maxTouchPoints > 1; // an iPad says so
const apple = /iPhone|iPad/.test(navigator.userAgent) || touchMac;
document.getElementById('android').open = android;
document.getElementById('apple').open = apple;
document.getElementById('computer').open = !android && !apple;
const check = document.getElementById('check');
const told = document.getElementById('told');
check.hidden = false;
check.addEventListener('click', async () => {
  try {
    await fetch(check.dataset.asked, { mode: 'no-cors', cache: 'no-store' });
    told.textContent = 'It worked: this device trusts the desk. Open the app and pair it with a code from the desk.';
    told.className = 'good';
  } catch {
    told.textContent = 'Not yet: this device does not trust the desk, or cannot reach it. Go through the steps again.';
    told.className = 'warn';
  }
});
