"""A change is taken only from a page of this desk. Fetch Metadata: W3C, "Fetch Metadata Request Headers"."""

import pytest

from exergue.site import create_app

FROM_ELSEWHERE = [
    {"Sec-Fetch-Site": "cross-site"},
    {"Sec-Fetch-Site": "same-site"},
    {"Origin": "https://evil.example"},
    {"Origin": "http://localhost:8000"},
    {"Origin": "null"},
    {"Sec-Fetch-Site": "same-origin", "Origin": "https://evil.example"},
]
FROM_HERE = [{}, {"Sec-Fetch-Site": "same-origin"}, {"Sec-Fetch-Site": "none"}, {"Origin": "http://localhost"}]


@pytest.mark.parametrize("headers", FROM_ELSEWHERE)
def test_the_desk_refuses_a_form_from_elsewhere_even_with_a_right_token(ada, buy, headers):
    coin = buy()
    assert ada.post(f"/desk/coins/{coin}/notes", {"text": "hello"}, headers=headers).status_code == 403


@pytest.mark.parametrize("headers", FROM_HERE)
def test_the_desk_takes_its_own_forms(ada, buy, headers):
    coin = buy()
    assert ada.post(f"/desk/coins/{coin}/notes", {"text": "hello"}, headers=headers).status_code == 302


@pytest.mark.parametrize("headers", FROM_ELSEWHERE)
def test_the_api_refuses_a_call_from_elsewhere(client, headers):
    answer = client.post("/api/pair", json={"code": "X", "name": "Y"}, headers={"X-Exergue": "1", **headers})
    assert answer.status_code == 403
    assert answer.get_json()["error"]["code"] == "not_same_origin"


@pytest.mark.parametrize("method, path", [("POST", "pair"), ("POST", "sync"), ("POST", "leave"),
                                          ("PUT", "photo/01890000-0000-7000-8000-000000000001")])  # fmt: skip
def test_the_api_needs_the_header_that_a_plain_form_cannot_send(client, method, path):
    answer = client.open(f"/api/{path}", method=method, json={})
    assert answer.status_code == 403
    assert answer.get_json()["error"]["code"] == "not_same_origin"


def test_behind_a_proxy_the_base_address_is_our_own_origin(app, book):
    behind = create_app(book.folder, base_address="https://coins.example").test_client()
    headers = {"X-Exergue": "1", "Origin": "https://coins.example"}
    answer = behind.post("/api/pair", json={"code": "X", "name": "Y"}, headers=headers, base_url="http://localhost")
    assert answer.status_code == 400
    assert answer.get_json()["error"]["code"] == "code_wrong"
