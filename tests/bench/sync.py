"""Speed of sync: the first copy beside its raw floor, and a later sync at two sizes, in one run. Prints figures.

    python tests/bench/sync.py [--counts 10000 100000] [--small 1000] [--runs 3]

Floor of the first copy: the same bytes from a ready-made gzip answer, parsed line by line and put into IndexedDB
in the same packs. Browser and desk share this machine's cores, as they do not on a phone.
"""

import argparse
import subprocess
import sys
import urllib.request
from contextlib import contextmanager
from pathlib import Path

from phone import Desk, Phone, book_of, browsers, figure, median, stage, until
from support.desk import free_port

from exergue.records import devices
from exergue.records.book import Book

FLOOR = """async () => {
  const began = performance.now();
  const open = indexedDB.open('floor-' + began, 1);
  open.onupgradeneeded = () => open.result.createObjectStore('packs');
  const db = await new Promise((done) => { open.onsuccess = () => done(open.result); });
  const text = await (await fetch('/snapshot', {cache: 'no-store'})).text();
  const fetched = performance.now();
  const packs = text.split('\\n').filter(Boolean).map((line) => [JSON.parse(line).pack, line]).filter(([pack]) => pack);
  const parsed = performance.now();
  const tx = db.transaction('packs', 'readwrite', {durability: 'relaxed'});
  for (const [pack, line] of packs) tx.objectStore('packs').put(line, pack);
  await new Promise((done, fail) => { tx.oncomplete = done; tx.onabort = () => fail(tx.error); });
  const put = performance.now();
  db.close();
  indexedDB.deleteDatabase(db.name);
  return [put - began, fetched - began, parsed - fetched, put - parsed];
}"""


def snapshot_bytes(desk: Desk) -> bytes:
    """The first sync's answer as the desk sends it: gzip."""
    book = Book.open(desk.folder)
    with book.connected():
        _, token = devices.pair(devices.new_code("owner"), "Floor")
    request = urllib.request.Request(desk.address + "/api/snapshot", headers={
        "Cookie": f"exergue-device={token}", "Accept-Encoding": "gzip"})  # fmt: skip
    with urllib.request.urlopen(request) as answer:
        return answer.read()


@contextmanager
def floor_server(body: Path):
    port = free_port()
    server = subprocess.Popen([sys.executable, str(Path(__file__).with_name("static_floor.py")), str(port), str(body.parent), str(body)])
    try:
        until(lambda: _answers(port), what="the floor's server")
        yield f"http://localhost:{port}"
    finally:
        server.terminate()
        server.wait()


def _answers(port: int) -> bool:
    try:
        return bool(urllib.request.urlopen(f"http://localhost:{port}/", timeout=2).read())
    except OSError:
        return False


def first_copy(playwright, folder: Path, count: int, runs: int) -> None:
    ours, floors = [], []
    with Desk(book_of(count, folder)) as desk:
        body = folder / f"snapshot-{count}.gz"
        body.write_bytes(snapshot_bytes(desk))
        print(f"\nFirst sync of {count:,} coins ({body.stat().st_size:,} bytes on the wire), median of {runs}:")
        with floor_server(body) as address:
            for run in range(runs):
                phone = Phone(playwright, desk, folder / f"first-{count}-{run}")
                page = phone.context.new_page()
                page.goto(address + "/")
                floors.append(page.evaluate(FLOOR))
                page.close()
                browsers.worker_ready(phone.goto().page)  # a person takes longer to type the code
                phone.idle()
                ours.append(phone.page.evaluate(FIRST_DONE, phone.code()))
                assert phone.run("engine.search('')")["total"] == count
                assert not phone.settled().run("engine.state.notice")
                phone.close()
    whole, fetched, parsed, put = (median(column) for column in zip(*floors, strict=True))
    figure("raw floor", whole, beside=f"best {min(row[0] for row in floors):,.0f} (fetch {fetched:,.0f}, parse {parsed:,.0f}, put {put:,.0f})")
    for name, times in zip(("pairing to all cards kept", "pairing to in step with the desk"), zip(*ours, strict=True), strict=True):
        figure(name, median(times), beside=f"{median(times) / whole:.2f} times the floor (bar 2), best {min(times):,.0f}")


# From the pairing's answer to the last pack kept, and to the first moment in step.
FIRST_DONE = """(code) => import('/web/engine/engine.js').then(({engine}) => new Promise((done) => {
  let paired = 0;
  let kept = 0;
  engine.onchange(({cursor, lastSync, syncing}) => {
    paired ||= performance.getEntriesByType('resource').findLast((one) => one.name.endsWith('/api/pair'))?.responseEnd ?? 0;
    if (cursor) kept ||= performance.now();
    if (cursor && lastSync && !syncing) done([kept - paired, performance.now() - paired]);
  });
  engine.pair(code, 'Bench');
}))"""


def later(playwright, folder: Path, counts: list[int], runs: int) -> None:
    changes = 100
    print(f"\nA later sync of {changes} changed coins, median of {runs}, both sizes by turns:")
    with Desk(book_of(counts[0], folder)) as small, Desk(book_of(counts[1], folder)) as large:
        phones = [Phone(playwright, desk, folder / f"later-{desk.port}") for desk in (small, large)]
        for phone in phones:
            phone.pair()
            phone.settled().run("engine.search('')")
        times: list[list[float]] = [[], []]
        for run in range(runs + 1):
            for phone, took in zip(phones, times, strict=True):
                book = Book.open(phone.desk.folder)
                with book.connected():
                    keys = sorted(row["id"] for row in phone.run(f"engine.search('', {{limit: {changes}}})")["rows"])
                    book.act_all([("note", {"coin": key, "text": f"Looked at again, {run}."}) for key in keys])
                phone.idle()
                ms = phone.timed("engine.sync()")
                phone.settled().idle()
                if run:  # the first warms up
                    took.append(ms)
        for phone in phones:
            phone.close()
    figure(f"at {counts[0]:,} coins", median(times[0]))
    figure(f"at {counts[1]:,} coins", median(times[1]), beside=f"{median(times[1]) / median(times[0]):.2f} times (bar 1.3)")


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--counts", type=int, nargs="+", default=[10_000, 100_000])
    parser.add_argument("--small", type=int, default=1_000)
    parser.add_argument("--runs", type=int, default=3)
    said = parser.parse_args()
    with stage() as (playwright, folder):
        for count in said.counts:
            first_copy(playwright, folder, count, said.runs)
        later(playwright, folder, [said.small, max(said.counts)], max(7, said.runs))


if __name__ == "__main__":
    main()
