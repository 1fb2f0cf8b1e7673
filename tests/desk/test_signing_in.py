"""Signing in and out at the desk."""

import pytest
from desk.cast import PASSWORD, Browser

from exergue.records import owner, throttle


@pytest.fixture
def clock(monkeypatch):
    """The rate limit's clock, which the test moves."""
    now = [1_800_000_000_000]
    monkeypatch.setattr(throttle, "now_ms", lambda: now[0])
    return now


def test_a_wrong_password_is_refused_without_saying_which_part_was_wrong(app, ada):
    other = Browser(app.test_client())
    wrong_name, wrong_password = other.sign_in("Eve"), other.sign_in("Ada", "not this one")
    assert wrong_name.status_code == wrong_password.status_code == 403
    for answer in (wrong_name, wrong_password):
        assert "do not belong together" in answer.text
    assert other.get("/desk/stock").status_code == 302


def test_too_many_tries_must_wait_even_with_the_right_password(app, clock):
    owner.create("Ada", PASSWORD)
    guesser = Browser(app.test_client())
    for _ in range(10):
        assert guesser.sign_in("Ada", "guess").status_code == 403
    refused = guesser.sign_in()
    assert refused.status_code == 429
    assert "Wait 1 minute" in refused.text
    clock[0] += 61_000
    assert guesser.sign_in().status_code == 302


def test_signing_out_ends_it(ada):
    assert ada.post("/desk/sign-out").location == "/desk/sign-in"
    assert ada.get("/desk/stock").status_code == 302


def test_a_page_that_was_asked_for_comes_after_signing_in(app, ada):
    other = Browser(app.test_client())
    way = other.get("/desk/stock?q=1806").location
    from desk.cast import token_in

    answer = other.client.post(way, data={"csrf_token": token_in(other.get(way).text), "name": "Ada", "password": PASSWORD})
    assert answer.location == "/desk/stock?q=1806"


def test_a_new_password_signs_other_browsers_out(app, ada):
    other = Browser(app.test_client())
    other.sign_in()
    changed = {"present": PASSWORD, "password": "quite another phrase", "again": "quite another phrase"}
    assert ada.post("/desk/settings/password", changed).status_code == 302
    assert ada.get("/desk/stock").status_code == 200
    assert other.get("/desk/stock").status_code == 302
    assert other.sign_in().status_code == 403


def test_the_present_password_is_needed_for_a_new_one(ada):
    changed = {"present": "no", "password": "quite another phrase", "again": "quite another phrase"}
    assert "not your present password" in ada.post("/desk/settings/password", changed).text
