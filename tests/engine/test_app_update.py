"""A newer app: fetched whole or not at all, taken only with consent, and every entry survives it."""

import os
import shutil

import pytest
from playwright.sync_api import Error
from support import browser as browsers
from support.desk import Desk
from support.tree import ROOT
from support.waiting import until

from tests.engine.conftest import Phone

pytestmark = pytest.mark.browser
TRIED = "caches.keys().then((names) => names.filter((name) => name.startsWith('exergue-app-')).length === 2)"
UPDATE = "navigator.serviceWorker.getRegistration().then((one) => one.update()).then(() => true, () => false)"


@pytest.fixture
def tree(tmp_path):
    """A copy of the app and the desk's program, free to change."""
    copy = tmp_path / "tree"
    shutil.copytree(ROOT / "server", copy / "server", ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copytree(ROOT / "web", copy / "web", ignore=shutil.ignore_patterns("node_modules"))
    shutil.copytree(ROOT / "manifest", copy / "manifest")
    return copy


@pytest.fixture
def anna(stocked, tree, phone, monkeypatch):
    """A paired phone whose desk serves the copied tree."""
    stocked.desk.stop()
    monkeypatch.setenv("PYTHONPATH", str(tree / "server"))
    stocked.desk = Desk(stocked.book.folder)
    with stocked.desk:
        yield Phone(phone, stocked).pair().kept_offline()


def newer(tree):
    """The developers changed one module of the app."""
    with (tree / "web" / "app.js").open("a") as file:
        file.write("\nglobalThis.newerApp = true;\n")


def is_newer(phone):
    try:
        return phone.page.evaluate("globalThis.newerApp === true")
    except Error:  # the page is being loaded anew
        return False


def test_an_update_waits_for_consent_and_keeps_every_entry(anna, stocked, tree):
    anna.page.route("**/api/sync", lambda route: route.abort())
    anna.note(stocked.ids[0], "made with the app of before")
    newer(tree)
    assert anna.page.evaluate(UPDATE)
    until(lambda: anna.state()["update"], what="the newer app to wait")
    anna.page.reload()
    until(lambda: anna.state()["update"], what="the waiting app to be told again")
    assert not is_newer(anna)
    anna.page.evaluate("import('/web/engine/engine.js').then(({engine}) => { engine.update() })")
    until(lambda: is_newer(anna), what="the newer app")
    until(lambda: anna.state()["waiting"] == 1, what="the entry to be read again")
    assert anna.state()["update"] is False
    anna.page.unroute("**/api/sync")
    anna.sync()
    assert [note["text"] for note in stocked.card(stocked.ids[0])["notes"]] == ["made with the app of before"]


def test_two_tabs_go_over_together(anna, stocked, tree):
    """The files of the app of before are gone then: no tab may go on with it."""
    other = Phone(anna.context, stocked).open()
    newer(tree)
    assert anna.page.evaluate(UPDATE)
    until(lambda: anna.state()["update"])
    anna.page.evaluate("import('/web/engine/engine.js').then(({engine}) => { engine.update() })")
    for tab in (anna, other):
        until(lambda tab=tab: is_newer(tab), what="the newer app in each tab")


def test_a_tab_in_which_something_is_entered_is_waited_for(anna, stocked, tree):
    """Begun anew in the middle of it, the tab would forget what was typed."""
    other = Phone(anna.context, stocked).open(f"/c/{stocked.ids[0]}/note")
    words = other.page.get_by_role("textbox", name="Note")
    words.fill("half writ")
    newer(tree)
    assert anna.page.evaluate(UPDATE)
    until(lambda: anna.state()["update"])
    anna.page.evaluate("import('/web/engine/engine.js').then(({engine}) => { engine.update() })")
    anna.page.get_by_text("as soon as the form that is open in another tab is done").wait_for()
    assert not is_newer(anna) and not is_newer(other)
    words.press_sequentially("ten")
    other.page.get_by_role("button", name="Record the note").click()
    for tab in (anna, other):
        until(lambda tab=tab: is_newer(tab), what="the newer app in each tab")
    until(lambda: anna.state()["waiting"] == 0)
    assert [note["text"] for note in stocked.card(stocked.ids[0])["notes"]] == ["half written"]


def test_a_file_that_is_not_the_announced_one_fails_the_whole_update(anna, stocked, tree):
    newer(tree)
    module = tree / "web" / "parts" / "fresh.js"
    module.write_text("export const fresh = 1;\n")
    stocked.desk.get("/sw.js")  # the desk has taken its hash, and looks again only when size or time change
    stat = module.stat()
    module.write_text("export const fresh = 2;\n")
    os.utime(module, ns=(stat.st_atime_ns, stat.st_mtime_ns))
    anna.page.evaluate(UPDATE)
    states = "navigator.serviceWorker.getRegistration().then((one) => [one.installing, one.waiting].map((worker) => worker?.state ?? null))"
    until(lambda: anna.page.evaluate(states) == [None, None], what="the update to be given up")
    assert anna.page.evaluate(TRIED) is True and anna.state()["update"] is False
    with browsers.offline(anna.context):
        anna.open()
    assert not is_newer(anna)
    os.utime(module)  # the desk looks at it again
    assert anna.page.evaluate(UPDATE)
    until(lambda: anna.state()["update"], what="the whole update")
