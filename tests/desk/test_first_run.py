"""The first run: only the link printed in the terminal makes an owner, and only once."""

import pytest
from desk.cast import PASSWORD, Browser, token_in

from exergue.records import owner
from exergue.site import create_app

KEY = "/desk/set-up?key=test-key"


def fill(browser, **changed):
    token = token_in(browser.get("/desk/set-up").text)
    form = {"csrf_token": token, "name": "Ada", "password": PASSWORD, "again": PASSWORD}
    return browser.client.post("/desk/set-up", data=form | changed)


def test_without_the_key_nobody_gets_in(charlie):
    assert charlie.get("/desk/").location == "/desk/set-up"
    answer = charlie.get("/desk/set-up")
    assert answer.status_code == 403
    assert "printed in the terminal" in answer.text
    assert charlie.get("/desk/set-up?key=guess").status_code == 403
    assert charlie.get("/desk/set-up?key=").status_code == 403


def test_the_key_leaves_the_address_and_makes_the_owner(charlie):
    assert charlie.get(KEY).location == "/desk/set-up"
    assert fill(charlie).location == "/desk/"
    assert charlie.get("/desk/").status_code == 200
    assert owner.get().name == "Ada"
    assert PASSWORD not in owner.get().password


def test_the_key_is_good_once(app, charlie):
    charlie.get(KEY)
    late = Browser(app.test_client())
    late.get(KEY)
    token = token_in(late.get("/desk/set-up").text)
    fill(charlie)
    answer = late.client.post("/desk/set-up", data={"csrf_token": token, "name": "Eve", "password": PASSWORD, "again": PASSWORD})
    assert answer.location == "/desk/sign-in"
    assert Browser(app.test_client()).get(KEY).location == "/desk/sign-in"
    assert owner.get().name == "Ada"


@pytest.mark.parametrize("changed, said", [
    ({"password": "short", "again": "short"}, "at least 8 characters"),
    ({"again": "another phrase"}, "The two passwords differ."),
    ({"name": ""}, "Give the name to sign in with."),
])  # fmt: skip
def test_a_form_that_cannot_be_taken_says_why(charlie, changed, said):
    charlie.get(KEY)
    assert said in fill(charlie, **changed).text
    assert not owner.exists()


def test_a_desk_without_a_key_lets_nobody_set_it_up(book, app):
    bare = Browser(create_app(book.folder).test_client())
    with book.connected():
        assert bare.get("/desk/set-up").status_code == 403
        assert bare.get("/desk/set-up?key=").status_code == 403
