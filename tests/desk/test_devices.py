"""Phones at the desk: pairing, revoking, what went wrong with them, entries from a file."""

import io
import json
import re

import pytest

from exergue.labels import ids
from exergue.records import devices
from exergue.records.tables import Device, Note


def test_a_code_pairs_one_phone_in_its_role(ada):
    page = ada.post("/desk/devices/code", {"label": "Table", "role": "helper"}).text
    code = re.search(r'class="code"[^>]*>([0-9A-Z]{4}) ([0-9A-Z]{4})<', page)
    device, _ = devices.pair(code[1] + code[2], "")
    assert (device.name, device.role) == ("Table", "helper")
    with pytest.raises(devices.PairError):
        devices.pair(code[1] + code[2], "again")


def test_the_code_is_drawn_for_the_phones_camera_in_the_fragment(ada, tmp_path):
    """A fragment never reaches a server's log; read back with zxing-cpp."""
    import zxingcpp
    from PIL import Image

    page = ada.post("/desk/devices/code", {"role": "owner"}).text
    drawing = re.search(r'class="qr" viewBox="0 0 (\d+) \d+".*?<path d="([^"]+)" fill="#000"', page, re.S)
    size, scale = int(drawing[1]), 6
    picture = Image.new("L", (size * scale, size * scale), 255)
    for x, y in re.findall(r"M(\d+) (\d+)h1", drawing[2]):
        picture.paste(0, (int(x) * scale, int(y) * scale, (int(x) + 1) * scale, (int(y) + 1) * scale))
    (found,) = zxingcpp.read_barcodes(picture)
    assert re.fullmatch(r"http://localhost/#pair=[0-9A-Z]{8}", found.text)


def test_a_role_must_be_one_of_the_two(ada):
    assert ada.post("/desk/devices/code", {"role": "thief"}).status_code == 400


def test_a_phone_is_renamed_and_revoked(ada, phone):
    where = f"/desk/devices/{phone.device.id}"
    ada.post(f"{where}/name", {"name": "Ada’s phone"})
    assert Device.get_by_id(phone.device.id).name == "Ada’s phone"
    ada.post(f"{where}/revoke")
    assert Device.get_by_id(phone.device.id).revoked_ms is not None
    assert "unpaired" in ada.get("/desk/devices").text


def test_the_desk_itself_cannot_be_revoked(ada):
    assert ada.post("/desk/devices/desk/revoke").status_code == 404


def test_a_notice_stands_until_it_was_seen(ada, phone):
    devices.notice(phone.device.id, "wiped", "“Phone” lost what it held.")
    assert "lost what it held" in ada.get("/desk/").text
    notice = devices.notices()[0].id
    ada.post(f"/desk/devices/notices/{notice}")
    assert "lost what it held" not in ada.get("/desk/devices").text


def test_a_clock_that_is_off_is_told(ada, phone):
    from exergue.records.clock import now_ms

    devices.contact(phone.device, 1, now_ms() + 3_700_000)
    assert "1 hour fast" in ada.get("/desk/devices").text


def load(ada, held: dict | bytes):
    data = held if isinstance(held, bytes) else json.dumps(held).encode()
    form = {"csrf_token": ada.token, "file": (io.BytesIO(data), "entries.json")}
    return ada.client.post("/desk/devices/entries", data=form, content_type="multipart/form-data")


def test_entries_from_a_file_are_taken_once(ada, book, buy, phone):
    coin = buy()
    fact = {"id": "01890000-0000-7000-8000-000000000009", "n": 1, "kind": "note", "when": 1_790_000_000_000,
            "body": {"coin": coin, "text": "from the file"}}  # fmt: skip
    held = {"book": book.id, "device": phone.device.id, "facts": [fact]}
    assert "1 entry was new" in load(ada, held).text
    assert "0 entries were new" in load(ada, held).text
    assert Note.select().where(Note.coin == coin).count() == 1


@pytest.mark.parametrize("held, said", [
    (b"", "Choose the file"),
    (b"not json", "not a file of entries"),
    ({"book": "another", "device": "x", "facts": []}, "another book"),
])  # fmt: skip
def test_a_file_that_is_not_the_phones_is_refused(ada, held, said):
    answer = load(ada, held)
    assert answer.status_code == 400
    assert said in answer.text


def test_ids_of_the_pairing_page_are_never_cached(ada):
    assert ada.post("/desk/devices/code", {"role": "owner"}).headers["Cache-Control"] == "no-store"


def test_a_silent_phone_is_noticed_on_the_first_page(ada, phone):
    from exergue.records.clock import now_ms

    Device.update(contact_ms=now_ms() - 8 * 86_400_000).where(Device.id == phone.device.id).execute()
    assert "last heard of" in ada.get("/desk/").text


def test_a_label_is_no_device(ada):
    assert ada.post(f"/desk/devices/{ids.new_id()}/revoke").status_code == 404


def test_all_phones_are_unpaired_at_once(ada, phone):
    assert "Unpair all" not in ada.get("/desk/devices").text  # one is unpaired by its own button
    devices.pair(devices.new_code("helper"), "Till")
    assert "Unpair all" in ada.get("/desk/devices").text
    ada.post("/desk/devices/revoke")
    assert all(device.revoked_ms for device in devices.listing())
    assert "2 devices are unpaired" in ada.get("/desk/devices").text
