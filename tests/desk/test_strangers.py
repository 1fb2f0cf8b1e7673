"""Every page of the desk refuses a stranger, and tells them nothing."""

import uuid

import pytest
from desk.cast import PASSWORD, token_in

from exergue.records.tables import Fact

OPEN = {"desk.sign_in", "desk.set_up"}


def addresses(app, method: str, coin: str):
    """An address for each route of the desk that takes `method`."""
    known = {"coin_id": coin, "size": "full", "notice": 1, "way": "back"}
    with app.test_request_context():
        for rule in app.url_map.iter_rules():
            if rule.endpoint.startswith("desk.") and method in rule.methods and rule.endpoint not in OPEN:
                values = {name: known.get(name, uuid.uuid4()) for name in rule.arguments}
                yield rule.build(values)[1]


def test_every_page_sends_a_stranger_to_the_sign_in(app, ada, charlie, buy):
    coin = buy()
    found = list(addresses(app, "GET", coin))
    assert len(found) > 20
    for address in found:
        answer = charlie.get(address)
        assert (answer.status_code, answer.location.partition("?")[0]) == (302, "/desk/sign-in"), address
        assert "Draped" not in answer.text, address


def test_every_form_of_a_stranger_is_refused_and_changes_nothing(app, ada, charlie, buy):
    coin = buy()
    before = Fact.select().count()
    token = token_in(charlie.get("/desk/sign-in").text)
    for address in addresses(app, "POST", coin):
        assert charlie.client.post(address, data={"csrf_token": token}).status_code == 401, address
    assert Fact.select().count() == before


def test_every_form_without_its_token_is_refused(app, ada, buy):
    coin = buy()
    before = Fact.select().count()
    for address in addresses(app, "POST", coin):
        answer = ada.client.post(address, data={})
        assert answer.status_code == 400, address
        assert "another session" in answer.text
    assert Fact.select().count() == before


def test_a_strangers_device_cookie_does_not_open_the_desk(app, ada, charlie, phone):
    charlie.client.set_cookie("exergue-device", phone.token)
    assert charlie.get("/desk/stock").status_code == 302


@pytest.mark.parametrize("wish", ["https://evil.example/desk/", "//evil.example/desk/", "/\\evil.example", "/elsewhere"])
def test_signing_in_leads_nowhere_but_into_the_desk(app, ada, charlie, wish):
    token = token_in(charlie.get("/desk/sign-in").text)
    answer = charlie.client.post("/desk/sign-in", query_string={"next": wish},
                                 data={"csrf_token": token, "name": "Ada", "password": PASSWORD})  # fmt: skip
    assert answer.location == "/desk/"
