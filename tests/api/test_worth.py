"""Estimates go to the owner's phones, and to nobody else."""

ABOUT = {"date": "2026-05-01", "price": 10_000, "denom": "half-cent", "type": "half-cent/draped-bust", "year": 1806,
         "grade": "VF-20", "fee_included": True}  # fmt: skip


def test_the_owner_gets_tables_once(owner_phone, book):
    book.act("sale.seen", {"set": ABOUT})
    first = owner_phone.get("worth")
    assert first.status_code == 200 and first.json["types"]["half-cent/draped-bust"]["sales"] == 1
    again = owner_phone.get("worth", headers={"X-Exergue": "1", "If-None-Match": first.headers["ETag"]})
    assert (again.status_code, again.data) == (304, b"")


def test_a_helper_gets_nothing(helper_phone, book):
    book.act("sale.seen", {"set": ABOUT})
    answer = helper_phone.get("worth")
    assert answer.status_code == 403 and answer.json["error"]["code"] == "owners_only"
    assert "10000" not in answer.text and "types" not in answer.text


def test_a_stranger_gets_nothing(stranger, book):
    assert stranger.get("worth").status_code == 401
