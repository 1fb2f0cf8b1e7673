"""What goes wrong around a phone: nothing is lost, and the phone says what it knows."""

import pytest
from support import browser as browsers
from support.waiting import until

from exergue.labels.ids import new_id
from exergue.records import backup, devices
from exergue.records.tables import Device
from tests.engine.conftest import Phone

pytestmark = pytest.mark.browser


def test_a_first_sync_that_breaks_off_goes_on_where_it_stopped(stocked, phone):
    asked = []

    def cut(route):
        asked.append(route.request.url)
        answer = route.fetch()
        lines = answer.text().splitlines(keepends=True)
        route.fulfill(status=200, content_type="application/x-ndjson+json", body="".join(lines[:9]) + lines[9][:40])

    anna = Phone(phone, stocked).open()
    anna.page.route("**/api/snapshot*", cut, times=1)
    anna.run(f"engine.pair('{stocked.code()}', 'Phone')")
    anna.page.on("request", lambda request: asked.append(request.url) if "/api/snapshot" in request.url else None)
    anna.settled()
    assert "after=" not in asked[0] and "after=" in asked[-1] and "upto=" in asked[-1]
    assert anna.run("engine.search('')")["total"] == len(stocked.ids)
    assert anna.state()["notice"] == []


@pytest.mark.parametrize("step", [1, 2, 3])
def test_a_full_phone_says_so_and_keeps_nothing_half(anna, stocked, step):
    """Storing an entry with its photo takes three steps; the storage is full at each of them in turn."""
    with browsers.offline(anna.context):
        anna.note(stocked.ids[0], "before")
        anna.page.evaluate("""(step) => { const put = IDBObjectStore.prototype.put; let left = step; globalThis.empty = () => {
            IDBObjectStore.prototype.put = put };
            IDBObjectStore.prototype.put = function (...given) {
                if (--left === 0) throw new DOMException('no room', 'QuotaExceededError');
                return put.apply(this, given) } }""", step)
        code = anna.try_(f"engine.record('photo', {{coin: '{stocked.ids[0]}', side: 'obverse'}}, {{photo: new Blob(['x'])}})")
        assert code == "full" and anna.state()["full"] is True
        assert len(anna.run("engine.entries()")) == 1 and anna.state()["waiting"] == 1
        anna.page.evaluate("empty()")
        anna.note(stocked.ids[0], "there is room again")
        assert [one["fact"]["n"] for one in anna.run("engine.entries()")] == [2, 1]
        assert anna.state()["full"] is False


def test_a_hotel_sign_in_page_is_not_taken_for_the_desk(anna, stocked):
    anna.page.route("**/api/sync", lambda route: route.fulfill(status=200, content_type="text/html", body="<h1>Welcome</h1>"))
    anna.note(stocked.ids[0])
    until(lambda: anna.state()["online"] is False)
    assert anna.state()["waiting"] == 1
    anna.page.unroute("**/api/sync")
    anna.sync()
    assert anna.state()["waiting"] == 0


def test_an_answer_that_is_lost_does_not_double_an_entry(anna, stocked):
    def lose(route):
        route.fetch()
        route.abort()

    anna.page.route("**/api/sync", lose, times=2)
    anna.note(stocked.ids[0], "once")
    until(lambda: anna.state()["waiting"] == 0)
    assert len(stocked.card(stocked.ids[0])["notes"]) == 1


def test_a_refused_entry_stays_in_sight_until_it_is_settled(anna, stocked):
    with browsers.offline(anna.context):
        anna.sell(anna.run("engine.newId()"))
        anna.note(stocked.ids[0], "goes through")
    anna.sync()
    assert anna.state()["refused"] == 1 and anna.state()["waiting"] == 0
    entry = next(one for one in anna.run("engine.entries()") if one["state"] == "refused")
    assert entry["verdict"]["code"] == "no_such_coin"
    anna.page.reload()
    until(lambda: anna.state()["refused"] == 1, what="the app to have opened again")
    anna.run(f"engine.drop('{entry['fact']['id']}')")
    assert anna.state()["refused"] == 0
    assert len(stocked.card(stocked.ids[0])["notes"]) == 1


def test_a_revoked_phone_wipes_itself_at_its_next_contact(anna, stocked):
    with stocked.book.connected():
        devices.revoke(anna.state()["device"]["id"])
    anna.try_("engine.sync()")
    until(lambda: anna.state()["paired"] is False)
    assert "unpaired" in anna.state()["notice"][0]["text"]
    assert anna.run("indexedDB.databases().then(list => list.length)") <= 1
    assert anna.card(stocked.ids[0]) is None


def test_a_wiped_phone_is_noticed_and_goes_on(anna, stocked):
    anna.note(stocked.ids[0])
    anna.sync()
    cdp = anna.context.new_cdp_session(anna.page)
    anna.page.goto("about:blank")
    cdp.send("Storage.clearDataForOrigin", {"origin": stocked.desk.address, "storageTypes": "indexeddb"})
    anna.open().settled()
    assert [one["code"] for one in anna.state()["notice"]] == ["wiped"]
    anna.note(stocked.ids[0], "after the wipe")
    anna.sync()
    assert len(stocked.card(stocked.ids[0])["notes"]) == 2
    with stocked.book.connected():
        assert [n.kind for n in devices.notices()] == ["wiped"]


def test_two_phones_with_one_identity_get_two(anna, stocked):
    """The second phone of the same identity used number 1 first."""
    with stocked.book.connected():
        stocked.book.accept(anna.state()["device"]["id"], [{
            "id": "01990001-0000-7000-8000-00000000000f", "n": 1, "kind": "note", "when": 1,
            "body": {"coin": stocked.ids[1], "text": "of the other"}}])  # fmt: skip
    before = anna.state()["device"]["id"]
    anna.note(stocked.ids[0], "of this one")
    anna.sync()
    until(lambda: anna.state()["waiting"] == 0)
    assert anna.state()["device"]["id"] != before
    assert len(stocked.card(stocked.ids[0])["notes"]) == len(stocked.card(stocked.ids[1])["notes"]) == 1


def test_a_desk_put_back_from_a_backup_is_healed_by_its_phone(anna, stocked, tmp_path):
    anna.note(stocked.ids[0], "before the backup")
    anna.sync()
    with stocked.book.connected():
        backup.backup(stocked.book, tmp_path / "saved.zip")
    anna.note(stocked.ids[0], "after the backup")
    bought = anna.buy()
    anna.sync()
    stocked.desk.stop()
    stocked.book.folder.rename(tmp_path / "broken")
    backup.restore(tmp_path / "saved.zip", stocked.book.folder)
    stocked.book = type(stocked.book).open(stocked.book.folder)
    assert stocked.card(bought) is None
    stocked.desk.start()
    anna.sync()
    until(lambda: anna.state()["waiting"] == 0)
    assert len(stocked.card(stocked.ids[0])["notes"]) == 2 and stocked.card(bought)["own"]["cost"] == 4_200
    assert anna.card(bought) == stocked.card(bought)
    assert [one["code"] for one in anna.state()["notice"]] == ["restored"]


def test_cards_that_went_wrong_are_noticed_and_fetched_anew(anna, stocked):
    anna.page.evaluate("""new Promise(done => { const open = indexedDB.open('exergue'); open.onsuccess = () => {
        const tx = open.result.transaction(['packs', 'index', 'meta'], 'readwrite');
        tx.objectStore('packs').clear(); tx.objectStore('index').clear();
        const meta = tx.objectStore('meta'); const get = meta.get('phone');
        get.onsuccess = () => meta.put({...get.result, digest: {count: 0, sum: 0}}, 'phone');
        tx.oncomplete = () => { open.result.close(); done(true) } } })""")
    assert anna.card(stocked.ids[0]) is None
    anna.sync()
    until(lambda: anna.card(stocked.ids[0]) is not None)
    assert [one["code"] for one in anna.state()["notice"]] == ["digest"]
    anna.sync()


def test_a_clock_that_is_off_is_told_and_not_punished(stocked, phone):
    phone.clock.install(time=1_600_000_000)
    anna = Phone(phone, stocked).pair()
    anna.note(stocked.ids[0])
    anna.sync()
    assert "clock" in [one["code"] for one in anna.state()["notice"]]
    assert len(stocked.card(stocked.ids[0])["notes"]) == 1
    with stocked.book.connected():
        assert abs(Device.get(Device.id == anna.state()["device"]["id"]).skew_ms) > 10**10


def test_many_changes_are_folded_into_the_packs(anna, stocked):
    with stocked.book.connected():
        stocked.book.act_all([("note", {"coin": key, "text": "checked"}) for key in stocked.ids] * 2)
        stocked.book.act("coin.add", {"coin": new_id(stocked.random.choice), "set": {"title": "Checked newcomer"}})
    anna.sync()
    anna.page.evaluate("""import('/web/engine/packs.js').then(async (packs) => {
        globalThis.packs = packs; while (!(await packs.foldSome())); })""")
    assert anna.page.evaluate("packs.overlaySize()") == 0
    assert len(anna.card(stocked.ids[7])["notes"]) == 2
    anna.page.reload()
    assert anna.run("engine.search('checked')")["total"] == len(stocked.ids) + 1
    anna.sync()
    assert anna.state()["notice"] == []


def test_a_coin_that_is_gone_at_the_desk_goes_from_the_phone(anna, stocked):
    with stocked.book.connected():
        stocked.book.act("void", {"of": stocked.card(stocked.ids[0])["own"]["purchase"]["fact"]})
    anna.sync()
    assert anna.card(stocked.ids[0]) is None
    assert anna.run("engine.search('')")["total"] == len(stocked.ids) - 1


def test_a_phone_paired_after_the_backup_is_paired_again_and_offers_what_it_has(stocked, phone, tmp_path):
    with stocked.book.connected():
        backup.backup(stocked.book, tmp_path / "saved.zip")
    anna = Phone(phone, stocked).pair()
    anna.note(stocked.ids[0], "taken, then lost by the desk")
    anna.sync()
    stocked.desk.stop()
    stocked.book.folder.rename(tmp_path / "broken")
    backup.restore(tmp_path / "saved.zip", stocked.book.folder)
    stocked.book = type(stocked.book).open(stocked.book.folder)
    stocked.desk.start()
    assert anna.try_("engine.sync()") == "not_paired"
    assert anna.state()["unknown"] is True and anna.card(stocked.ids[0])["id"] == stocked.ids[0]
    anna.note(stocked.ids[0], "made meanwhile")
    anna.run(f"engine.pair('{stocked.code()}', 'Phone')")
    until(lambda: (s := anna.state())["waiting"] == 0 and not s["syncing"] and not s["unknown"])
    texts = {note["text"] for note in stocked.card(stocked.ids[0])["notes"]}
    assert texts == {"taken, then lost by the desk", "made meanwhile"}
