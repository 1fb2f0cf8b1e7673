"""A phone with no network: it knows its coins, takes entries, and everyone agrees afterwards."""

import pytest
from support import browser as browsers

from tests.engine.conftest import Phone

pytestmark = pytest.mark.browser


def test_the_first_sync_brings_every_coin_and_finds_it(anna, stocked):
    assert anna.run("engine.search('')")["total"] == len(stocked.ids)
    found = anna.run("engine.search('draped 1806 vf20')")
    assert found["total"] == sum(1 for i in range(40) if 1803 + i % 6 == 1806)
    key = stocked.ids[5]
    assert anna.run(f"engine.search('{key[:5].lower()}-{key[5:]}')")["rows"][0]["id"] == key
    assert anna.card(key)["own"]["cost"] == 5_005
    assert anna.run("engine.places()") == ["Box 0", "Box 1", "Box 2"]


def test_with_no_network_the_app_opens_on_the_scanned_coin(anna, stocked):
    anna.kept_offline()
    key = stocked.ids[3]
    with browsers.offline(anna.context):
        anna.page.goto(f"{stocked.desk.address}/C/{key}")
        anna.page.wait_for_selector(f".place >> text={key[:5]}-{key[5:]}")
        assert anna.card(key)["id"] == key


def test_with_the_desk_gone_the_app_opens_all_the_same(anna, stocked):
    anna.kept_offline()
    stocked.desk.stop()
    anna.page.reload()
    anna.page.wait_for_selector(".list >> text=Draped Bust")
    assert anna.run("engine.search('')")["total"] == len(stocked.ids)


def test_what_was_bought_and_sold_offline_reaches_the_desk_and_a_second_phone(anna, ben, stocked):
    sold = stocked.ids[0]
    with browsers.offline(anna.context):
        bought = anna.buy()
        anna.sell(sold)
        assert anna.state()["waiting"] == 2
        assert anna.card(sold)["state"] == "sold" and anna.card(sold)["own"]["sale"]["gain"] == 20_000 - 5_000
        assert anna.card(bought)["own"]["cost"] == 4_200 and anna.card(bought)["title"] == "Half cent, Draped Bust"
        assert anna.run(f"engine.search('{bought.lower()}')")["rows"][0]["waiting"] is True
    anna.sync()
    assert anna.state()["waiting"] == 0
    assert stocked.card(bought)["own"]["cost"] == 4_200 and stocked.card(sold)["state"] == "sold"
    ben.sync()
    assert ben.card(bought)["year"] == 1806 and ben.card(sold)["own"]["sale"]["price"] == 20_000
    painted, real = anna.card(sold), stocked.card(sold)
    assert "waiting" not in painted and painted == real


def test_a_helper_phone_holds_no_cost(stocked, phone):
    till = Phone(phone, stocked).pair("helper")
    stored = till.page.evaluate("""new Promise(done => { const open = indexedDB.open('exergue'); open.onsuccess = () => {
        const all = open.result.transaction('packs').objectStore('packs').getAll(); all.onsuccess = () => done(all.result.join('')) } })""")
    assert stocked.ids[0] in stored and '"own"' not in stored and '"cost"' not in stored


def test_undoing_the_last_entry_before_it_is_sent(anna, stocked):
    with browsers.offline(anna.context):
        anna.sell(stocked.ids[0])
        anna.run("engine.voidLast()")
        assert anna.card(stocked.ids[0])["state"] == "in stock"
    anna.sync()
    assert stocked.card(stocked.ids[0])["state"] == "in stock"
    anna.sell(stocked.ids[1])
    anna.sync()
    anna.run("engine.voidLast()")
    anna.sync()
    assert stocked.card(stocked.ids[1])["state"] == "in stock"


def test_entries_outlive_a_tab_that_is_killed_in_the_middle_of_storing(anna, stocked):
    anna.kept_offline()
    with browsers.offline(anna.context):
        key = anna.buy()
        anna.page.evaluate("""import('/web/engine/engine.js').then(({engine}) => {
            for (let i = 0; i < 200; i++) engine.record('note', {coin: '%s', text: String(i)}) })""" % key)
        anna.page.close(run_before_unload=False)
        again = Phone(anna.context, stocked).open()
        entries = again.run("engine.entries(1000)")
        assert again.state()["waiting"] == len(entries) >= 1 and again.card(key)["own"]["cost"] == 4_200
        assert [one["fact"]["n"] for one in entries] == list(range(len(entries), 0, -1))  # none half written
    again.sync()
    assert stocked.card(key)["own"]["cost"] == 4_200 and len(stocked.card(key)["notes"]) == len(entries) - 1


def test_two_tabs_never_use_a_number_twice(anna, stocked):
    other = Phone(anna.context, stocked).open()
    with browsers.offline(anna.context):
        many = "Promise.all(Array.from({length: 15}, (_, i) => engine.record('note', {coin: '%s', text: '%s ' + i})))"
        for tab in (anna, other):
            tab.page.evaluate(f"globalThis.done = import('/web/engine/engine.js').then(({{engine}}) => {many % (stocked.ids[0], 'n')}).then(f => f.length)")
        assert [tab.page.evaluate("globalThis.done") for tab in (anna, other)] == [15, 15]
        facts = anna.run("engine.entries()")
        assert sorted(one["fact"]["n"] for one in facts) == list(range(1, 31))
    anna.sync()
    assert len(stocked.card(stocked.ids[0])["notes"]) == 30


def test_entries_saved_to_a_file_are_what_the_desk_loads(anna, stocked):
    from exergue.sync import entries_file

    with browsers.offline(anna.context):
        anna.note(stocked.ids[0], "from a file")
        text = anna.run("engine.file().then(blob => blob.text())")
        with stocked.book.connected():
            assert entries_file.load(stocked.book, text.encode())[1] == 1
    anna.sync()
    assert [n["text"] for n in stocked.card(stocked.ids[0])["notes"]] == ["from a file"]
    assert anna.state()["waiting"] == 0


def test_a_photo_taken_offline_is_sent_later(anna, stocked):
    key = stocked.ids[0]
    with browsers.offline(anna.context):
        anna.run(f"""(async () => {{ const canvas = new OffscreenCanvas(60, 40); canvas.getContext('2d').fillRect(0, 0, 30, 40);
            const blob = await canvas.convertToBlob({{type: 'image/jpeg'}});
            await engine.record('photo', {{coin: '{key}', side: 'obverse'}}, {{photo: blob}}) }})()""")
        photo = anna.card(key)["photos"][0]["photo"]
        assert anna.run(f"engine.photo('{photo}').then(blob => blob.size)") > 100
    anna.sync()
    assert anna.run(f"fetch('/api/photo/{photo}?size=thumb').then(answer => answer.headers.get('Content-Type'))") == "image/jpeg"
    assert anna.run(f"engine.photo('{photo}')") is None
