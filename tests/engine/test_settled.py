"""What becomes of entries that the desk did not take as they were, and of what it lost again."""

import json

import pytest
from support import browser as browsers
from support.waiting import until

from exergue.records import backup, photos
from exergue.records.tables import Goal
from tests.engine.conftest import Phone

pytestmark = pytest.mark.browser

PHOTO = """(async () => { const canvas = new OffscreenCanvas(60, 40); canvas.getContext('2d').fillRect(0, 0, 30, 40);
    return engine.record('photo', {coin: '%s', side: 'obverse'}, {photo: await canvas.convertToBlob({type: 'image/jpeg'})}) })()"""


def in_state(phone, state):
    return [one["fact"] for one in phone.run("engine.entries()") if one["state"] == state]


def put_back(stocked, saved, broken):
    """The desk is put back from a backup."""
    stocked.desk.stop()
    stocked.book.folder.rename(broken)
    backup.restore(saved, stocked.book.folder)
    stocked.book = type(stocked.book).open(stocked.book.folder)
    stocked.desk.start()


def test_a_refused_entry_is_offered_anew_as_another_entry(anna, stocked):
    late = anna.run("engine.newId()")
    anna.note(late, "before the coin was known")
    anna.sync()
    (refused,) = in_state(anna, "refused")
    with stocked.book.connected():
        stocked.book.act("coin.add", {"coin": late, "set": {"title": "Found in the box"}})
    again = anna.run(f"engine.retry('{refused['id']}')")
    assert again["id"] != refused["id"] and again["n"] > refused["n"] and again["body"] == refused["body"]
    anna.sync()
    assert anna.state()["refused"] == 0 and [one["text"] for one in stocked.card(late)["notes"]] == ["before the coin was known"]
    assert {one["id"] for one in in_state(anna, "retried")} == {refused["id"]}


def test_sending_again_twice_at_once_makes_one_entry(anna, stocked):
    anna.note(anna.run("engine.newId()"), "of no coin")
    anna.sync()
    (refused,) = in_state(anna, "refused")
    with browsers.offline(anna.context):
        twice = f"Promise.allSettled([engine.retry('{refused['id']}'), engine.retry('{refused['id']}')])"
        assert sorted(one["status"] for one in anna.run(twice)) == ["fulfilled", "rejected"]
        assert anna.try_(f"engine.retry('{refused['id']}')") == "bad"
        assert anna.state()["waiting"] == 1


def test_only_what_was_refused_or_contested_can_be_settled(anna, stocked):
    fact = anna.note(stocked.ids[0])
    anna.sync()
    assert anna.try_(f"engine.drop('{fact['id']}')") == "bad"
    assert [one["id"] for one in in_state(anna, "taken")] == [fact["id"]]


def test_a_coin_sold_on_two_phones_is_contested_until_it_was_seen(anna, ben, stocked):
    with browsers.offline(ben.context):
        ben.sell(stocked.ids[0], 15_000)
        anna.sell(stocked.ids[0], 20_000)
        anna.sync()
    ben.sync()
    assert ben.state()["contested"] == 1 and anna.state()["contested"] == 0
    (fact,) = in_state(ben, "contested")
    verdict = next(one["verdict"] for one in ben.run("engine.entries()") if one["fact"]["id"] == fact["id"])
    assert verdict["code"] == "sold_twice" and verdict["now"]["price"] == 20_000
    assert ben.card(stocked.ids[0])["own"]["sale"]["price"] == 20_000 and ben.card(stocked.ids[0])["looks"] == 1
    ben.run(f"engine.drop('{fact['id']}')")
    assert ben.state()["contested"] == 0 and [one["id"] for one in in_state(ben, "taken")] == [fact["id"]]


def test_what_was_refused_is_not_offered_again_to_a_desk_that_was_put_back(anna, stocked, tmp_path):
    """A person settled it by another entry: offered again, it would count twice."""
    with stocked.book.connected():
        backup.backup(stocked.book, tmp_path / "saved.zip")
    late = anna.run("engine.newId()")
    anna.note(late, "once")
    anna.sync()
    with stocked.book.connected():
        stocked.book.act("coin.add", {"coin": late, "set": {}})
    anna.run(f"engine.retry('{in_state(anna, 'refused')[0]['id']}')")
    anna.sync()
    put_back(stocked, tmp_path / "saved.zip", tmp_path / "broken")
    with stocked.book.connected():
        stocked.book.act("coin.add", {"coin": late, "set": {}})
    anna.sync()
    until(lambda: anna.state()["waiting"] == 0)
    assert [one["text"] for one in stocked.card(late)["notes"]] == ["once"]


def test_a_photo_that_the_desk_lost_is_sent_again(anna, stocked, tmp_path):
    with stocked.book.connected():
        backup.backup(stocked.book, tmp_path / "saved.zip")
    photo = anna.run(PHOTO % stocked.ids[0])["body"]["photo"]
    anna.sync()
    assert photos.path(stocked.book.photos, photo).exists()
    put_back(stocked, tmp_path / "saved.zip", tmp_path / "broken")
    assert not photos.path(stocked.book.photos, photo).exists()
    anna.sync()
    until(lambda: photos.path(stocked.book.photos, photo).exists(), what="the photo to be sent again")
    assert [one["photo"] for one in stocked.card(stocked.ids[0])["photos"]] == [photo]


def test_a_photo_shows_with_no_network_before_and_after_it_was_sent(anna, stocked):
    anna.kept_offline()
    seen = "fetch('/api/photo/%s?size=thumb').then(async (answer) => [answer.status, (await answer.blob()).type])"
    with browsers.offline(anna.context):
        photo = anna.run(PHOTO % stocked.ids[0])["body"]["photo"]
        assert anna.run(seen % photo) == [200, "image/jpeg"]
    anna.sync()
    with browsers.offline(anna.context):
        assert anna.run(seen % photo) == [200, "image/jpeg"]


def test_photos_of_the_stock_are_fetched_ahead(anna, ben, stocked):
    ben.kept_offline()
    photo = anna.run(PHOTO % stocked.ids[0])["body"]["photo"]
    anna.sync()
    ben.sync()
    ben.page.evaluate("""(photo) => import('/web/engine/thumbs.js').then(({fetchAhead}) => fetchAhead([photo]))""", photo)
    with browsers.offline(ben.context):
        assert ben.run(f"fetch('/api/photo/{photo}?size=thumb').then((answer) => answer.status)") == 200


def test_entries_that_the_desk_lacks_are_sent_from_where_it_stands(anna, stocked):
    """The desk's own file was put back by hand to a state before some entries, with no restore by the program."""
    from exergue.records.tables import Device

    anna.note(stocked.ids[0], "first")
    anna.sync()
    device = anna.state()["device"]["id"]
    anna.page.evaluate("""new Promise((done) => { const open = indexedDB.open('exergue'); open.onsuccess = () => {
        const tx = open.result.transaction('meta', 'readwrite'); const meta = tx.objectStore('meta'); const get = meta.get('phone');
        get.onsuccess = () => meta.put({...get.result, n: 7}, 'phone'); tx.oncomplete = () => { open.result.close(); done() } } })""")
    assert anna.note(stocked.ids[0], "after a gap")["n"] == 8
    anna.sync()
    until(lambda: anna.state()["waiting"] == 0)
    assert sorted(one["text"] for one in stocked.card(stocked.ids[0])["notes"]) == ["after a gap", "first"]
    with stocked.book.connected():
        assert Device.get_by_id(device).next_n in (3, 4)


def test_a_phone_paired_again_for_a_helper_keeps_nothing_of_the_owner(stocked, phone):
    anna = Phone(phone, stocked).pair()
    anna.run(f"engine.pair('{stocked.code('helper')}', 'Till')")
    until(lambda: (s := anna.state())["role"] == "helper" and s["cursor"] and not s["syncing"])
    assert "own" not in anna.card(stocked.ids[0])
    packs, newer = anna.run("import('/web/engine/db.js').then(({all}) => Promise.all([all('packs'), all('overlay')]))")
    stored = "".join(packs) + json.dumps(newer)
    assert stocked.ids[0] in stored and '"own"' not in stored


def test_unpairing_with_no_network_holds_and_the_desk_hears_of_it_later(anna, stocked):
    anna.kept_offline()
    with browsers.offline(anna.context):
        anna.run("engine.leave()")
        assert anna.state()["paired"] is False and anna.card(stocked.ids[0]) is None
        anna.page.reload()
        assert anna.state()["paired"] is False
    anna.page.reload()
    until(lambda: anna.run("fetch('/api/hello').then((answer) => answer.json())")["device"] is None, what="the desk to hear of it")
    assert anna.state()["paired"] is False


def test_another_tab_sees_what_one_tab_did(anna, stocked):
    other = Phone(anna.context, stocked).open().settled()
    assert other.run("engine.search('left at the bourse')")["total"] == 0
    anna.note(stocked.ids[0], "left at the bourse")
    until(lambda: other.run("engine.search('left at the bourse')")["total"] == 1, what="the other tab to know the entry")
    with stocked.book.connected():
        stocked.book.act("note", {"coin": stocked.ids[1], "text": "from the desk"})
    anna.sync()
    until(lambda: other.run("engine.search('from the desk')")["total"] == 1, what="the other tab to know the card")
    until(lambda: other.state()["waiting"] == 0)


def test_a_photo_entry_that_is_sent_again_takes_its_photo_along(anna, stocked):
    late = anna.run("engine.newId()")
    photo = anna.run(PHOTO % late)["body"]["photo"]
    anna.sync()
    (refused,) = in_state(anna, "refused")
    assert not photos.path(stocked.book.photos, photo).exists()
    with stocked.book.connected():
        stocked.book.act("coin.add", {"coin": late, "set": {}})
    anna.run(f"engine.retry('{refused['id']}')")
    anna.sync()
    until(lambda: photos.path(stocked.book.photos, photo).exists(), what="the photo")
    assert [one["photo"] for one in stocked.card(late)["photos"]] == [photo]


def test_half_of_a_character_does_not_block_what_follows(anna, stocked):
    anna.page.evaluate("""(coin) => import('/web/engine/engine.js').then(({engine}) =>
        engine.record('note', {coin, text: 'cut \\ud83e off'}))""", stocked.ids[0])  # fmt: skip
    anna.note(stocked.ids[0], "after it")
    anna.sync()
    assert [one["text"] for one in stocked.card(stocked.ids[0])["notes"]] == ["cut � off", "after it"]


def test_many_long_entries_go_up_in_several_requests(anna, stocked):
    sizes = []
    anna.page.on("request", lambda request: "/api/sync" in request.url and sizes.append(len(request.post_data or "")))
    with browsers.offline(anna.context):
        anna.run("""(async () => {
            const slots = Array.from({length: 200}, (_, n) => ({key: `slot ${n}`, title: 'Any half cent', types: ['half-cent/draped-bust'], note: 'x'.repeat(500)}));
            for (let n = 0; n < 45; n++) await engine.record('set.add', {goal: crypto.randomUUID(), set: {name: `Set ${n}`, slots}});
        })()""")
        sizes.clear()
    anna.sync()
    until(lambda: anna.state()["waiting"] == 0)
    with stocked.book.connected():
        assert Goal.select().count() == 45
    assert len([size for size in sizes if size > 10_000]) >= 3 and max(sizes) < 3_000_000
