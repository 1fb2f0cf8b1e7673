"""A phone whose storage is full: it says so, keeps nothing half, and goes on when there is room."""

import pytest
from support import browser as browsers
from support import small_disk

from tests.engine.conftest import Phone

pytestmark = pytest.mark.browser

# Noise cannot be packed, so that its size on the disk is its size.
PHOTO = """(async () => {{ const noise = new Uint8Array(4_000_000);
    for (let i = 0; i < noise.length; i += 65_536) crypto.getRandomValues(noise.subarray(i, i + 65_536));
    return engine.record('photo', {{coin: '{coin}', side: 'obverse'}}, {{photo: new Blob([noise])}}) }})()"""
HELD = """new Promise((done) => {{ const open = indexedDB.open('exergue'); open.onsuccess = () => {{
    const count = open.result.transaction('photos').objectStore('photos').count();
    count.onsuccess = () => {{ open.result.close(); done(count.result) }} }} }})"""


@pytest.mark.skipif(not small_disk.possible(), reason="this machine lets no process mount a disk of its own")
def test_a_full_disk_is_told_and_leaves_no_half_of_an_entry(stocked, playwright, tmp_path):
    context = small_disk.phone(playwright, tmp_path / "phone")
    try:
        anna = Phone(context, stocked).pair()
        coin = stocked.ids[0]
        with browsers.offline(context):
            codes = []
            while not codes or (codes[-1] is None and len(codes) < 40):
                codes.append(anna.try_(PHOTO.format(coin=coin)))
            kept = len(codes) - 1
            assert codes == [None] * kept + ["full"] and anna.state()["full"] is True
            assert anna.state()["waiting"] == kept == len(anna.run("engine.entries()")) == anna.run(HELD.format())
            assert len(anna.card(coin)["photos"]) == kept
        anna.page.reload()
        assert len(anna.run("engine.entries()")) == kept  # some may be sent already
    finally:
        context.close()


def test_sent_photos_give_way_to_new_entries(anna, stocked):
    """What the desk has as well is given up first: once it is gone, there is nothing more to give."""
    anna.run("""(async () => { const canvas = new OffscreenCanvas(60, 40); canvas.getContext('2d').fillRect(0, 0, 30, 40);
        const blob = await canvas.convertToBlob({type: 'image/jpeg'});
        await engine.record('photo', {coin: '%s', side: 'obverse'}, {photo: blob}) })()""" % stocked.ids[0])
    anna.sync()
    photos = "import('/web/engine/photos.js').then((photos) => photos.makeRoom())"
    assert anna.run(HELD.format()) == 1
    assert anna.page.evaluate(photos) is True and anna.run(HELD.format()) == 0
    assert anna.page.evaluate(photos) is False
