"""A phone that is unpaired on the phone itself: it has either left, or is clearly still paired."""

import json

import pytest
from support import browser as browsers
from support.waiting import until

from exergue.records import devices
from exergue.records.tables import Device

pytestmark = pytest.mark.browser


def refusing(status, code="fault"):
    body = json.dumps({"error": {"code": code, "message": "It does not go."}})
    return lambda route: route.fulfill(status=status, content_type="application/json", body=body)


def known(stocked):
    """The devices that the desk still takes for paired."""
    with stocked.book.connected():
        return {one.id for one in devices.listing() if one.revoked_ms is None}


@pytest.mark.parametrize("status, code", [(500, "fault"), (503, "busy"), (429, "slow_down"), (403, "not_same_origin")])
def test_a_desk_that_cannot_unpair_leaves_the_phone_as_it_was(anna, stocked, status, code):
    device = anna.state()["device"]["id"]
    anna.page.route("**/api/sync", lambda route: route.abort())
    anna.note(stocked.ids[0], "not sent yet")
    anna.page.route("**/api/leave", refusing(status, code))
    told = anna.run("engine.leave().then(() => null, (error) => error.message)")
    assert "still paired" in told and "nothing was removed" in told
    anna.page.reload()
    until(lambda: anna.state()["paired"], what="the app to have opened again")
    state = anna.state()
    assert state["device"]["id"] == device and state["waiting"] == 1 and state["notice"] == []
    assert anna.card(stocked.ids[1])["id"] == stocked.ids[1] and known(stocked) == {device}
    anna.page.unroute("**/api/leave")
    anna.page.unroute("**/api/sync")
    anna.sync()
    assert [note["text"] for note in stocked.card(stocked.ids[0])["notes"]] == ["not sent yet"]
    anna.run("engine.leave()")
    assert anna.state()["paired"] is False and known(stocked) == set()


def test_a_phone_that_left_with_no_network_tells_the_desk_until_it_is_heard(anna, stocked):
    device = anna.state()["device"]["id"]
    with browsers.offline(anna.kept_offline().context):
        anna.run("engine.leave()")
        assert anna.state()["paired"] is False
        anna.page.route("**/api/leave", refusing(500))
    anna.page.reload()
    anna.try_("engine.sync()")
    assert anna.state()["paired"] is False, "a desk that could not unpair it must not take it back"
    assert known(stocked) == {device}
    anna.page.unroute("**/api/leave")
    anna.page.reload()
    until(lambda: known(stocked) == set(), what="the desk to be told")
    anna.page.reload()
    anna.try_("engine.sync()")
    assert anna.state()["paired"] is False


def test_a_phone_that_left_unheard_and_is_paired_anew_is_known_once(anna, stocked):
    with browsers.offline(anna.kept_offline().context):
        anna.run("engine.leave()")
        anna.page.route("**/api/leave", refusing(500))
    anna.try_("engine.sync()")
    anna.page.unroute("**/api/leave")
    anna.run(f"engine.pair('{stocked.code()}', 'Phone')")
    anna.settled()
    assert known(stocked) == {anna.state()["device"]["id"]}


def test_a_phone_that_the_desk_has_unpaired_already_leaves(anna, stocked):
    with stocked.book.connected():
        Device.update(token=None).where(Device.id == anna.state()["device"]["id"]).execute()
    anna.run("engine.leave()")
    assert anna.state()["paired"] is False and anna.card(stocked.ids[0]) is None
