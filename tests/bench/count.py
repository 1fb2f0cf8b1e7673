"""How fast a phone counts: labels in a row before the camera of the count's own screen, at a 4× slower processor.

The browser's camera is its test picture, and what is read in it comes from a list: the reader's own time is not in this figure
(tests/bench/start.py measures it). Run: python tests/bench/count.py [coins]
"""

import json
import sys
import uuid

from phone import Phone, book_of, browsers, figure, stage
from support.desk import Desk
from support.waiting import until

from exergue.records import quick
from exergue.records.book import Book

PACKED = 400
SECONDS = 30
# A detector that reads another label in each frame, as a hand would never manage; and the long tasks of the page.
READER = """
globalThis.labels = [];
globalThis.BarcodeDetector = class {
  static async getSupportedFormats() { return ['qr_code']; }
  async detect(source) { return source.videoWidth && globalThis.labels.length ? [{ rawValue: globalThis.labels.shift() }] : []; }
};
globalThis.longest = 0; globalThis.over50 = 0;
new PerformanceObserver((list) => { for (const one of list.getEntries()) { globalThis.longest = Math.max(globalThis.longest, one.duration); globalThis.over50 += 1; } })
  .observe({ entryTypes: ['longtask'] });
"""


def packed(folder, show):
    """IDs of the coins that go to the show."""
    book = Book.open(folder)
    with book.connected():
        coins = [key for (key,) in quick.rows("select id from coin where state = 'in stock' order by id limit ?", PACKED)]
        book.act_all([("show.add", {"show": show, "set": {"name": "Bench"}}), ("pack", {"show": show, "coins": coins, "box": "Case 1"})])
    return coins


def main(count: int) -> None:
    with stage() as (playwright, folder):
        where = book_of(count, folder)
        show = str(uuid.uuid4())
        coins = packed(where, show)
        with Desk(where) as desk:
            phone = Phone(playwright, desk, folder / "phone", "--use-fake-ui-for-media-stream", "--use-fake-device-for-media-stream")
            phone.context.add_init_script(READER)
            phone.pair()
            browsers.worker_ready(phone.settled().page)
            phone.page.evaluate(f"localStorage.setItem('exergue.show', '{show}')")
            phone.goto("/show/count")
            phone.page.get_by_text(f"of {PACKED} seen").wait_for(timeout=60_000)
            phone.page.locator(".viewfinder.watching").wait_for(timeout=60_000)
            phone.idle()
            browsers.throttle(phone.page, 4)
            seen = lambda: int(phone.page.locator("#seen").inner_text())  # noqa: E731 - read in three places
            took = phone.page.evaluate("""async (labels) => {
                globalThis.longest = 0; globalThis.over50 = 0;
                const from = performance.now();
                globalThis.labels = [...labels];
                while (globalThis.labels.length && performance.now() - from < %d) await new Promise((done) => setTimeout(done, 50));
                return [performance.now() - from, labels.length - globalThis.labels.length, globalThis.longest, globalThis.over50];
            }""" % (SECONDS * 1000), [f"{desk.address}/C/{key}" for key in coins])  # fmt: skip
            ms, read, longest, over = took
            until(lambda: seen() == read, what="all that was read to be counted")
            until(lambda: json.loads(phone.page.evaluate("import('/web/floor/queue.js').then((queue) => JSON.stringify(queue.held().length))")) == 0,
                  what="the scans to be in entries")  # fmt: skip
            print(f"Count of {read} labels of a show, {count:,} coins in the book, 4× slower:")
            figure("labels a second", read * 1000 / ms, "", "the bar is 3")
            figure("longest task", longest, "ms", f"{over} over 50 ms")
            phone.close()


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 10_000)
