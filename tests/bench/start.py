"""Speed of the phone in the hand, with no network and the processor slowed four times. Prints figures and bars.

    python tests/bench/start.py [--counts 10000 100000] [--runs 5] [--slower 4]

For each size of book, from one phone profile on disk, all of it timed in the page itself:
- cold start: the browser is started anew, no network; from the navigation to the scan screen until that screen stands,
  the camera is asked for and the reader has decoded a symbol (ready to scan), and until frames of the camera are looked at;
- decode to card: from the text that the reader gives to the frame in which the coin's card stands, a label of the
  real PDF before the camera;
- search: from each key typed to the frame in which the list has followed;
- own or better: from the choice of a type to the frame in which the stock's answer stands;
- the longest piece of work that the opening of the stock puts on the main thread, and the JS heap after searching.
Workers are not slowed by the browser's throttle, and the camera is Chromium's own pretended one.
"""

import argparse
import random
import statistics
from pathlib import Path

from phone import Desk, Phone, book_of, browsers, figure, stage, until
from screens.film import coin_label, film, label_picture

QUERIES = ("half cent 18", "draped vf20", "dime 1853", "case 3", "even brown", "quarter seated 1876", "zzz", "7k3m9")

# Before the app's own scripts: note when the camera is asked for, first looked at, and when a label is read.
WATCH = """
  globalThis.seen = {};
  const once = (name) => { seen[name] ??= performance.now(); };
  const ask = navigator.mediaDevices.getUserMedia.bind(navigator.mediaDevices);
  navigator.mediaDevices.getUserMedia = (want) => {
    once('camera asked');
    import('/web/scan/reader.js').then(({reader}) => reader()).then(() => once('decoder warm'));  // the app's own, on its way
    return ask(want).finally(() => once('camera open'));
  };
  navigator.vibrate = () => { seen.read = performance.now(); return true; };  // the app's first act when it has read a label
  new MutationObserver(() => {
    if (document.querySelector('.viewfinder')) once('screen stands');
    if (document.querySelector('.viewfinder.watching')) once('watching');
  })
    .observe(document, {subtree: true, childList: true, attributes: true, attributeFilter: ['class']});
  new PerformanceObserver((list) => { for (const one of list.getEntries()) seen.longest = Math.max(seen.longest ?? 0, one.duration); })
    .observe({type: 'longtask', buffered: true});
"""

# For each type: resolves to ms from its choice to the frame in which the answer stands.
OWNED = """async (types) => {
  const [{engine}, {makeOwned}, {html, render, nothing}] = await Promise.all(['/web/engine/engine.js', '/web/parts/owned.js', '/web/parts/html.js'].map((name) => import(name)));
  const took = [];
  for (const type of types) {
    const place = document.body.appendChild(document.createElement('div'));
    const began = performance.now();
    await new Promise((done) => {
      const ui = {engine, update: () => { draw(); done(); }};
      const owned = makeOwned(ui);
      const draw = () => render(owned.view({type, year: 1806, mint: '', grade: 'VF-20'}), place);
      draw();
    });
    await new Promise((done) => requestAnimationFrame(done));
    took.push(performance.now() - began);
    place.remove();
  }
  return took;
}"""
TYPES = ("half-cent/draped-bust", "half-cent/classic-head", "dime/seated-liberty", "half-cent/braided-hair", "half-cent/draped-bust")

SEEN = "() => ({...seen, now: performance.now()})"

# Follow a link to the scanner; resolves to ms from the read label to the frame with its card.
DECODE_TO_CARD = """(id) => new Promise((done) => {
  delete seen.read;
  const shown = () => location.pathname === '/c/' + id && document.querySelector('.place .body.coin');
  const watch = new MutationObserver(() => {
    if (!seen.read || !shown()) return;
    watch.disconnect();
    requestAnimationFrame(() => done(performance.now() - seen.read));
  });
  watch.observe(document, {subtree: true, childList: true});
  document.querySelector('a[href="/scan"]').click();
})"""

# Type into the stock's search box, a key every 400 ms; resolves to [ms of the answer alone, ms to the drawn list].
KEYS = """async (queries) => {
  const {engine} = await import('/web/engine/engine.js');
  const box = document.querySelector('input[type=search]');
  const rows = document.querySelector('.rows-body');
  const rest = (ms) => new Promise((done) => setTimeout(done, ms));
  const took = [];
  for (const query of queries) {
    for (let end = 1; end <= query.length; end++) {
      const typed = query.slice(0, end);
      const drawn = new Promise((done) => {
        const watch = new MutationObserver(() => { watch.disconnect(); requestAnimationFrame(() => done(performance.now())); });
        watch.observe(rows, {subtree: true, childList: true, characterData: true, attributes: true});
        setTimeout(() => { watch.disconnect(); done(null); }, 350);
      });
      const began = performance.now();
      box.value = typed;
      box.dispatchEvent(new Event('input', {bubbles: true}));
      const at = await drawn;
      const asked = performance.now();
      await engine.search(typed, {state: 'in stock', limit: 40});
      took.push([performance.now() - asked, at === null ? null : at - began]);
      await rest(50);
    }
  }
  return took;
}"""


def measure(playwright, folder: Path, count: int, runs: int, slower: int) -> None:
    print(f"\n{count:,} coins, no network, processor {slower} times slower, {runs} runs:")
    with Desk(book_of(count, folder)) as desk:
        phone = Phone(playwright, desk, folder / f"start-{count}", *browsers.camera(folder / "label.mjpeg"))
        phone.pair()
        browsers.worker_ready(phone.settled().page)
        rows = phone.run("engine.search('', {state: 'in stock', limit: 2000})")["rows"]
        key = random.Random(7).choice(rows)["id"]
        film(folder / "label.mjpeg", label_picture(coin_label(key)))
        film(folder / "table.mjpeg", label_picture(coin_label(key)), empty=6, frames=0)
        phone.idle().close()
    starts = [cold_start(phone, folder, slower) for _ in range(runs)]
    ready = [max(one["screen stands"], one["camera asked"], one["decoder warm"]) for one in starts]
    figure("cold start to ready to scan", statistics.median(ready), beside=f"(bar 1,000), best {min(ready):,.0f}")
    for name in ("screen stands", "camera asked", "decoder warm", "camera open", "watching"):
        figure(f"  of it: {name}", statistics.median(one[name] for one in starts))
    cards = decodes(phone, folder, key, runs, slower)
    figure("decode to card, first / pack not read before", cards[0])
    figure("decode to card, median", statistics.median(cards), beside="(bar 100)")
    search(phone, folder, slower)


def opened(phone: Phone, film: Path, slower: int) -> Phone:
    """The browser anew, before that film, with no network."""
    phone.flags = browsers.camera(film)
    phone.open()
    phone.context.add_init_script(WATCH)
    phone.context.set_offline(True)
    browsers.throttle(phone.page, slower)
    return phone


def cold_start(phone: Phone, folder: Path, slower: int) -> dict:
    opened(phone, folder / "table.mjpeg", slower).goto("/scan")
    seen = until(lambda: (now := phone.page.evaluate(SEEN)).get("watching") and now, what="the scanner to watch")
    phone.close()
    return seen


def decodes(phone: Phone, folder: Path, key: str, runs: int, slower: int) -> list[float]:
    opened(phone, folder / "label.mjpeg", slower).goto("/more")
    phone.page.wait_for_selector("a[href='/scan']")
    took = []
    for _ in range(runs):
        took.append(phone.page.evaluate(DECODE_TO_CARD, key))
        phone.page.evaluate("document.querySelector('a[href=\"/more\"]').click()")
        phone.page.wait_for_selector(".body.coin", state="detached")
    phone.close()
    return took


def search(phone: Phone, folder: Path, slower: int) -> None:
    opened(phone, folder / "table.mjpeg", slower).goto("/")
    phone.page.wait_for_selector(".coin-row")
    seen = phone.page.evaluate(SEEN)
    figure("cold start to the stock's rows", seen["now"])
    figure("longest piece of work meanwhile", seen.get("longest", 0))
    pairs = phone.page.evaluate(KEYS, list(QUERIES))
    for name, times, bar in (
        ("search, the answer alone", [answer for answer, _ in pairs], ""),
        ("search, key to drawn list", [drawn for _, drawn in pairs if drawn is not None], "(bar 50)"),
    ):
        times.sort()
        figure(f"{name}, median of {len(times)} keys", statistics.median(times), beside=bar)
        figure(f"{name}, 95 in 100 within", times[int(len(times) * 0.95)])
    times = sorted(phone.page.evaluate(OWNED, TYPES))
    figure("own or better, type to drawn answer, median", statistics.median(times), beside=f"(bar 50), longest {times[-1]:,.1f}")
    cdp = phone.context.new_cdp_session(phone.page)
    cdp.send("HeapProfiler.collectGarbage")
    heap = cdp.send("Runtime.getHeapUsage")
    figure("JS heap and its buffers after searching", (heap["usedSize"] + heap["backingStorageSize"]) / 1e6, "MB", "(bar 150)")
    phone.close()


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--counts", type=int, nargs="+", default=[10_000, 100_000])
    parser.add_argument("--runs", type=int, default=5)
    parser.add_argument("--slower", type=int, default=4)
    said = parser.parse_args()
    with stage() as (playwright, folder):
        for count in said.counts:
            measure(playwright, folder, count, said.runs, said.slower)


if __name__ == "__main__":
    main()
