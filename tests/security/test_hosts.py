"""The desk answers to its own names only, so that no other site's name can be pointed at it."""

import pytest

from exergue.serving import addresses
from exergue.site import create_app, hosts


@pytest.mark.parametrize("host", ["localhost", "127.0.0.1:2646", "localhost:9"])
def test_loopback_names_are_known(client, host):
    assert client.get("/healthz", headers={"Host": host}).status_code == 200


@pytest.mark.parametrize("host", ["evil.example", "localhost.evil.example", "coins.example.evil.example", "10.0.0.1", "a b"])
@pytest.mark.parametrize("address", ["/healthz", "/", "/desk/", "/api/hello", "/web/look/tokens.css", "/c/XXXX"])
def test_any_other_name_is_turned_away(client, host, address):
    answer = client.get(address, headers={"Host": host})
    assert answer.status_code == 400
    assert "does not answer to that name" in answer.get_data(as_text=True)


def test_a_stranger_host_is_turned_away_before_anything_is_done(client, book):
    from exergue.records.tables import Fact

    before = Fact.select().count()
    client.post("/api/pair", json={"code": "X", "name": "Y"}, headers={"Host": "evil.example", "X-Exergue": "1"})
    assert Fact.select().count() == before


def test_behind_a_proxy_it_answers_to_its_base_address(app, book):
    behind = create_app(book.folder, base_address="https://coins.example", proxy_hops=1).test_client()
    forwarded = {"X-Forwarded-Host": "coins.example", "X-Forwarded-Proto": "https"}
    assert behind.get("/healthz", headers={"Host": "127.0.0.1:2646", **forwarded}).status_code == 200
    forged = forwarded | {"X-Forwarded-Host": "evil.example"}
    assert behind.get("/healthz", headers={"Host": "127.0.0.1:2646", **forged}).status_code == 400


def test_without_proxies_nobody_is_believed(client):
    assert client.get("/healthz", headers={"Host": "evil.example", "X-Forwarded-Host": "localhost"}).status_code == 400


def test_on_a_network_it_answers_to_this_machines_own_names():
    own = addresses.look()
    known = hosts.known("https://coins.local:2646", lan=True)
    assert {"localhost", "127.0.0.1", "coins.local", own.name} <= set(known)
    assert {str(address) for address in own.addresses} <= set(known)
    assert own.name not in hosts.known(None, lan=False)
