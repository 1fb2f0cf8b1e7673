"""Speed of a set's board of many slots on the phone, with no network and the processor slowed. Prints figures and bars.

    python tests/bench/board.py [--slots 150] [--slower 4]

A book of so many coins with photos, all but every third in its slot; the board is opened, then scrolled from end to end by
a screen a step. Printed: from the press to the drawn board (also where a waiting entry has it filled anew on the phone), the longest piece of work on the main thread while it opens and
while it scrolls, and how many frames the scrolling showed a second, beside those of a page at rest.
"""

import argparse
import io
import random
from pathlib import Path

from phone import Desk, Phone, browsers, figure, stage, until
from PIL import Image

from exergue.labels.ids import new_id
from exergue.records import photos
from exergue.records.book import Book
from exergue.records.uuid7 import uuid7

GOAL = "0f3b6f2e-6f3e-4d0a-9c1e-2f9a7f0d5c33"
TYPE = "half-cent/draped-bust"
YEARS = range(1802, 1809)

# Long pieces of work and frames from now on; `stop()` gives {longest, frames, ms}.
WATCH = """() => {
  const began = performance.now();
  let [longest, frames, on] = [0, 0, true];
  const watch = new PerformanceObserver((list) => { for (const one of list.getEntries()) longest = Math.max(longest, one.duration); });
  watch.observe({type: 'longtask'});
  const count = () => { frames += 1; if (on) requestAnimationFrame(count); };
  requestAnimationFrame(count);
  globalThis.stop = () => { on = false; watch.disconnect(); return {longest, frames, ms: performance.now() - began}; };
}"""
OPEN = """(goal) => new Promise((done) => {
  const began = performance.now();
  const watch = new MutationObserver(() => {
    if (!document.querySelector('.goal-board')) return;
    watch.disconnect();
    requestAnimationFrame(() => requestAnimationFrame(() => done(performance.now() - began)));
  });
  watch.observe(document, {subtree: true, childList: true});
  document.querySelector(`a[href="/sets/${goal}"]`).click();
})"""
BUY = """() => import('/web/engine/engine.js').then(({engine}) => engine.record('purchase', {date: '2026-03-15', costs: [{what: 'price', cents: 100}],
    bought: [{coin: engine.newId(), set: {denom: 'half-cent', type: 'half-cent/draped-bust', year: 1806, grade: 'VF-30'}}]}))"""
SCROLL = """() => new Promise((done) => {
  const pane = document.querySelector('.pane.place');
  let at = 0;
  const end = pane.scrollHeight - pane.clientHeight; // read once: reading it at each step would itself lay the page out
  const step = () => {
    pane.scrollTop = at += 24;
    if (at > end) done(end);
    else requestAnimationFrame(step);
  };
  requestAnimationFrame(step);
})"""


def book_with(slots: int, folder: Path) -> Path:
    draw = random.Random(11)
    book = Book.create(folder / "book", name="Bench")
    with book.connected():
        rows = [{"key": f"s{n}", "title": f"Place {n + 1} of the album", "types": [TYPE], "years": str(YEARS[n % len(YEARS)])} for n in range(slots)]
        acts = [("set.add", {"goal": GOAL, "set": {"name": "A large set", "slots": rows}})]
        for n in (n for n in range(slots) if n % 3):
            key, photo = new_id(draw.choice), uuid7(1_760_000_000_000 + n)
            about = {"denom": "half-cent", "type": TYPE, "year": YEARS[n % len(YEARS)], "grade": "VF-20"}
            acts.append(("purchase", {"bought": [{"coin": key, "set": about}], "costs": [{"what": "price", "cents": 5_000}], "date": "2026-03-14"}))
            data = io.BytesIO()
            Image.effect_noise((640, 640), 60 + n % 50).convert("RGB").save(data, "JPEG")
            kept = photos.store(book.photos, photo, data.getvalue())
            acts.append(("photo", {"coin": key, "photo": photo, "side": "obverse", "digest": kept.digest}))
        book.act_all(acts)
    return folder / "book"


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--slots", type=int, default=150)
    parser.add_argument("--slower", type=int, default=4)
    said = parser.parse_args()
    with stage() as (playwright, folder), Desk(book_with(said.slots, folder)) as desk:
        phone = Phone(playwright, desk, folder / "phone")
        phone.pair()
        browsers.worker_ready(phone.settled().page)
        photos_here = "caches.open('exergue-photos').then(async (cache) => (await cache.keys()).length)"
        phone.goto(f"/sets/{GOAL}").page.wait_for_selector(".goal-board")
        phone.page.evaluate(SCROLL)  # its small photos come once with a network, as when the phone is made ready
        until(lambda: phone.page.evaluate(photos_here) >= said.slots // 2, seconds=120, what="the small photos to be here")
        phone.context.set_offline(True)
        phone.goto("/sets").page.wait_for_selector(f"a[href='/sets/{GOAL}']")
        phone.idle()
        browsers.throttle(phone.page, said.slower)
        print(f"\n{said.slots} slots, no network, processor {said.slower} times slower:")
        phone.page.evaluate(WATCH)
        phone.idle().page.evaluate("new Promise((done) => setTimeout(done, 2000))")
        rest = phone.page.evaluate("stop()")
        figure("longest piece of work of two seconds' rest", rest["longest"], beside="(what the machine itself takes)")
        phone.page.evaluate(WATCH)
        figure("press to the drawn board", phone.page.evaluate(OPEN, GOAL))
        figure("longest piece of work while it opens", phone.page.evaluate("stop()")["longest"])
        phone.page.evaluate(WATCH)
        height = phone.page.evaluate(SCROLL)
        seen = phone.page.evaluate("stop()")
        figure("longest piece of work while it scrolls", seen["longest"], beside=f"(bar 50; none is 0), {height:,} px")
        rate, still = (1000 * one["frames"] / one["ms"] for one in (seen, rest))
        figure("frames a second", rate, "", f"(aim 60; a page at rest has {still:.1f} here)")
        phone.page.evaluate(BUY)
        phone.goto("/sets").page.wait_for_selector(f"a[href='/sets/{GOAL}']")
        phone.idle()
        figure("the same press, with a purchase of its type that waits", phone.page.evaluate(OPEN, GOAL))
        phone.close()


if __name__ == "__main__":
    main()
