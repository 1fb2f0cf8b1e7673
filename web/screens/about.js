// What this tool is, and what it leaves to others.
import { html } from '../parts/html.js';
import { head } from '../parts/head.js';

export function open(ui) {
  return { title: 'About and cautions', view };

  function view() {
    return html`${head(ui, { title: 'About and cautions', back: '/more' })}<div class="body prose">
      <p class="lede">The exergue is the space under a coin’s design where the small facts are put: the date, a mint mark. Here they are put for every coin in a box.</p>
      <h2>Authenticity</h2><p>The checklist tells what to look at. It cannot prove a coin genuine, and a coin that fits every line can still be false. Where it matters, an expert decides.</p>
      <h2>Tax and cash</h2><p>Cost, gain and totals are arithmetic on what was entered, not tax advice. Reports of large cash payments, sales tax and income tax follow local rules; a licensed preparer decides.</p>
      <h2>Cleaning</h2><p>Never clean a coin. It takes value away for good.</p>
      <h2>At a show</h2><p>A screen can be read over a shoulder. Hide the cost before you turn the phone round, and keep the day’s cash out of sight.</p>
      <h2>Your data</h2><p>The book lies on this phone and at the desk, nowhere else. A stranger who scans a label sees only what the owner chose to publish.</p>
    </div>`;
  }
}
