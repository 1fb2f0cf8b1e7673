"""What is too large is refused before it is taken in."""

import pytest

from exergue.site import limits


def test_an_ordinary_form_is_small(ada, buy):
    coin = buy()
    answer = ada.post(f"/desk/coins/{coin}/notes", {"text": "x" * (limits.MB + 1)})
    assert answer.status_code == 413


@pytest.mark.parametrize("path, size", [("pair", limits.MB), ("sync", 16 * limits.MB)])
def test_the_api_says_so_in_its_own_way(client, path, size):
    answer = client.post(f"/api/{path}", data=b"x" * (size + 1), headers={"X-Exergue": "1", "Content-Type": "application/json"})
    assert answer.status_code in (401, 413)
    assert answer.get_json()["error"]["code"] in ("too_large", "not_paired")


def test_a_form_of_very_many_parts_is_refused(ada):
    many = {"coin": ["0"] * 3000}
    answer = ada.client.post("/desk/stock/selection", data={"csrf_token": ada.token, **many}, content_type="multipart/form-data")
    assert answer.status_code == 413


def test_every_limit_is_set(app):
    for name in ("MAX_CONTENT_LENGTH", "MAX_FORM_MEMORY_SIZE", "MAX_FORM_PARTS"):
        assert app.config[name]


def test_photos_are_decoded_one_at_a_time(app, monkeypatch):
    """A large one takes hundreds of megabytes while it is decoded: a small computer has room for one."""
    import hashlib
    import threading
    from concurrent.futures import ThreadPoolExecutor

    from exergue.records import photos
    from tests.api.conftest import HEADERS, Caller
    from tests.records.test_backup import picture

    store, inside, together = photos.store, threading.Semaphore(1), []

    def watched(*given):
        alone = inside.acquire(blocking=False)
        together.append(not alone)
        try:
            return store(*given)
        finally:
            if alone:
                inside.release()

    monkeypatch.setattr(photos, "store", watched)
    phone = Caller(app).pair()
    data = picture((1500, 1000), "PNG")
    headers = HEADERS | {"X-Digest": hashlib.sha256(data).hexdigest()}
    token = phone.client.get_cookie("exergue-device").value

    def send(n):
        photo = f"01890000-0000-7000-8000-{n:012d}"
        client = app.test_client()
        client.set_cookie("exergue-device", token)
        return client.put(f"/api/photo/{photo}", data=data, headers=headers).status_code

    with ThreadPoolExecutor(6) as threads:
        assert set(threads.map(send, range(1, 13))) == {201}
    assert len(together) == 12 and not any(together)
