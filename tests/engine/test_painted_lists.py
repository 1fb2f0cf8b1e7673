"""Wants, contacts and sightings of the show floor: what a phone shows of entries that wait is what the desk makes of them."""

import json

import pytest
from support import browser as browsers

pytestmark = pytest.mark.browser

WANT, OTHER, DEALER, SEEN, PLAIN = (f"0f3b6f2e-6f3e-4d0a-9c1e-2f9a7f0d5c{n}" for n in (22, 23, 44, 55, 56))
TYPED = {"denom": "half-cent", "type": "half-cent/braided-hair", "year": 1851, "grade": "EF-40"}
PHOTO = """(async () => { const canvas = new OffscreenCanvas(60, 40); canvas.getContext('2d').fillRect(0, 0, 30, 40);
    return engine.record('sighting.edit', {sighting: '%s', base: {photo: null}, set: {}}, {photo: await canvas.convertToBlob({type: 'image/jpeg'})}) })()"""


def act(phone, kind, /, **body):
    return phone.run(f"engine.record({json.dumps(kind)}, {json.dumps(body)})")


def lists(phone):
    return {kind: {one["id"]: one for one in phone.run(f"engine.list('{kind}')")} for kind in ("want", "contact", "sighting")}


def plain(cards):
    """Without what the desk alone adds to a card: where a want was seen, deals with a contact, a contact's name at a sighting."""
    return {kind: {key: {name: value for name, value in one.items() if name not in ("at", "waiting", "sightings", "dealer")}
                   | ({"own": {k: v for k, v in one["own"].items() if k != "deals"}} if one.get("own") else {}) for key, one in found.items()}
            for kind, found in cards.items()}  # fmt: skip


def each_alike(phone, stocked):
    painted = lists(phone)
    phone.context.set_offline(False)
    phone.sync()
    assert phone.state()["waiting"] == 0 and phone.state()["refused"] == 0
    now = lists(phone)
    with stocked.book.connected():
        assert now == {kind: {key: stocked.book.card(kind, key) for key in found} for kind, found in now.items()}
    for one in painted["contact"].values():
        one.setdefault("own", {})
    assert plain(painted) == plain(now)


def test_lists_are_painted_changed_and_undone(anna, stocked):
    anna.context.set_offline(True)
    act(anna, "want.add", want=WANT, set={"denom": "half-cent", "type": "half-cent/braided-hair", "ceiling": 15_000, "types": ["half-cent/braided-hair"]})
    act(anna, "want.add", want=OTHER, set={"denom": "half-cent", "title": "Token of a baker"})
    act(anna, "want.edit", want=WANT, base={"ceiling": 15_000, "priority": None}, set={"ceiling": 18_000, "priority": "high"})
    act(anna, "contact.add", contact=DEALER, set={"name": "Ines Calloway", "table": "14"})
    act(anna, "sighting.add", sighting=SEEN, set=TYPED | {"contact": DEALER, "want": WANT, "ask": 14_500, "offer": 12_000, "date": "2026-03-14"})
    act(anna, "sighting.add", sighting=PLAIN, set={"dealer": "R. Holt", "title": "A chain cent", "date": "2026-03-14"})
    act(anna, "sighting.edit", sighting=SEEN, base={"answer": "", "grade": "EF-40"}, set={"answer": "yes", "grade": "AU-50"})
    anna.run(PHOTO % SEEN)
    assert lists(anna)["sighting"][SEEN]["photo"]
    each_alike(anna, stocked)
    anna.context.set_offline(True)
    act(anna, "contact.edit", contact=DEALER, base={"table": "14"}, set={"table": "15"})
    for _ in range(3):  # the contact's table, the photo, the answer
        anna.run("engine.voidLast()")
    found = lists(anna)
    assert (found["contact"][DEALER]["table"], found["sighting"][SEEN]["photo"], found["sighting"][SEEN]["grade"]) == ("14", None, "EF-40")
    each_alike(anna, stocked)
    anna.context.set_offline(True)
    for _ in range(4):  # both sightings, the contact, the edit of the want
        anna.run("engine.voidLast()")
    found = lists(anna)
    assert not found["sighting"] and not found["contact"] and found["want"][WANT]["own"]["ceiling"] == 15_000
    each_alike(anna, stocked)


def test_a_photo_of_a_sighting_reaches_the_desk(anna, stocked):
    act(anna, "sighting.add", sighting=SEEN, set=TYPED | {"date": "2026-03-14"})
    anna.run(PHOTO % SEEN)
    anna.sync()
    photo = lists(anna)["sighting"][SEEN]["photo"]
    status = anna.page.evaluate("(photo) => fetch(`/api/photo/${photo}?size=thumb`, {cache: 'no-store'}).then((answer) => answer.status)", photo)
    with stocked.book.connected():
        from exergue.records.tables import PhotoFile

        assert status == 200 and PhotoFile.get_or_none(PhotoFile.photo == photo)


def test_the_stock_of_a_type_leaves_out_what_is_somebody_elses(anna, stocked):
    keys = stocked.ids
    read = "import('/web/parts/owned.js').then((part) => part.readOwned(engine, 'half-cent/draped-bust'))"
    assert {row["id"] for row in anna.run(read)} == set(keys)
    with browsers.offline(anna.context):
        theirs = anna.run("engine.newId()")
        act(anna, "memo", way="in", kind="memo", date="2026-03-14", coins=[{"coin": theirs, "net": 5_000, "set": TYPED | {"type": "half-cent/draped-bust", "year": 1806}}])
        anna.sell(keys[0])
        held = {row["id"] for row in anna.run(read)}
        assert held == set(keys[1:])
    anna.sync()
    assert {row["id"] for row in anna.run(read)} == held
