"""Who is told of a sync must not be able to stop the next one."""

import pytest
from support.waiting import until

pytestmark = pytest.mark.browser
BREAK = """(how) => import('/web/engine/sync.js').then(({listeners}) => {
    const before = {...listeners};
    const broken = {throws() { throw new Error('broken') }, rejects: () => Promise.reject(new Error('broken')), hangs: () => new Promise(() => {})};
    globalThis.told = 0;
    for (const name of ['done', 'rows', 'taken']) {
        const broke = (...said) => { globalThis.told += 1; before[name](...said); return broken[how]() };
        Object.defineProperty(listeners, name, {get: () => broke, set() {}}); // the engine sets them at each call
    }
})"""


@pytest.mark.parametrize("how", ["throws", "rejects"])
def test_a_listener_that_fails_does_not_stop_syncing(anna, stocked, how):
    anna.page.evaluate(BREAK, how)
    anna.note(stocked.ids[0], "first")
    assert anna.try_("engine.sync()") is None
    anna.note(stocked.ids[0], "second")
    assert anna.try_("engine.sync()") is None
    assert [note["text"] for note in stocked.card(stocked.ids[0])["notes"]] == ["first", "second"]
    assert anna.page.evaluate("told") >= 4


def test_a_listener_that_hangs_does_not_stop_syncing(anna, stocked):
    anna.page.clock.install()
    anna.page.evaluate(BREAK, "hangs")
    for text in ("first", "second"):
        anna.page.evaluate(f"import('/web/engine/engine.js').then(({{engine}}) => {{ engine.record('note', {{coin: '{stocked.ids[0]}', text: '{text}'}}) }})")

        def arrived(text=text):
            anna.page.clock.run_for(5_000)
            return text in [note["text"] for note in stocked.card(stocked.ids[0])["notes"]]

        until(arrived, what=f"the {text} note at the desk")


def test_a_desk_out_of_reach_is_tried_again_although_a_listener_fails(anna, stocked):
    anna.page.evaluate(BREAK, "rejects")
    anna.page.route("**/api/sync", lambda route: route.abort(), times=3)
    anna.note(stocked.ids[0], "in the end")
    until(lambda: anna.run("engine.entries()")[0]["state"] == "taken", what="the note to be taken")
    assert [note["text"] for note in stocked.card(stocked.ids[0])["notes"]] == ["in the end"]
