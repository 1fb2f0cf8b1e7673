"""A phone at the HTTP API, through Flask's own client."""

import json

import pytest

from exergue.records import devices

HEADERS = {"X-Exergue": "1"}


class Caller:
    def __init__(self, app, role="owner", name="Phone"):
        self.client, self.role, self.name, self.me = app.test_client(), role, name, None

    def post(self, path, body=None, headers=HEADERS, **more):
        return self.client.post(f"/api/{path}", json=body, headers=headers, **more)

    def get(self, path, **more):
        return self.client.get(f"/api/{path}", **more)

    def pair(self):
        answer = self.post("pair", {"code": devices.new_code(self.role), "name": self.name})
        assert answer.status_code == 200
        self.me = answer.get_json()
        return self

    def sync(self, *facts, cursor=0, **more):
        asked = {"book": self.me["book"], "epoch": self.me["epoch"], "cursor": cursor, "facts": list(facts)}
        return self.post("sync", asked | more)

    def fact(self, n, kind, **body):
        made = {"id": f"0199{n:04d}-0000-7000-8000-{self.me['device']['id'][-12:]}", "n": n, "kind": kind}
        return made | {"when": 1_790_000_000_000 + n, "body": body}


@pytest.fixture
def owner_phone(app):
    return Caller(app).pair()


@pytest.fixture
def helper_phone(app):
    return Caller(app, "helper", "Till").pair()


@pytest.fixture
def stranger(app):
    """Charlie, who must see nothing."""
    return Caller(app, name="Charlie")


def error_of(answer, status):
    """The one shape of every error; returns its code."""
    assert answer.status_code == status, answer.get_data(as_text=True)
    body = json.loads(answer.get_data())
    assert set(body) == {"error"} and {"code", "message"} <= set(body["error"])
    assert body["error"]["message"].endswith((".", "?"))
    return body["error"]["code"]
