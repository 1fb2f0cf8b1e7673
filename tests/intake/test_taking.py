"""Taking a file into a real book, and getting the book out again."""

import csv
import io
import json
import random
import uuid
import zipfile
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from exergue import asset_dir
from exergue.labels import ids
from exergue.records import export, intake, photos, reading
from exergue.records.book import Book
from exergue.records.tables import Fact
from exergue.records.verdicts import Refused

TODAY = date(2026, 6, 30)
FILES = ("shows.csv", "coins.csv", "coins_from_spreadsheet.csv", "wants.csv", "past_sales.csv")
COINS = "Denomination,Date,Grade,Cost,Purchase date\r\nhalf cent,1806,VF-20,100,2024-05-31\r\n"


def draft_of(book, data, **answers):
    return intake.read(data if isinstance(data, bytes) else data.encode(), intake.OfBook(book, TODAY), **answers)


def sample(name):
    return (asset_dir("sample_inventory") / name).read_bytes()


def exported(book):
    out = io.BytesIO()
    export.write_zip(book, out)
    whole = zipfile.ZipFile(out)
    return {name: whole.read(name) for name in whole.namelist()}


def facts():
    return Fact.select().count()


def test_reading_changes_nothing_and_confirming_takes_all_under_one_heading(book):
    before = facts()
    draft = draft_of(book, COINS)
    assert facts() == before
    verdicts = intake.confirm(book, draft, "C:\\Users\\me\\stock.csv")
    assert [v.verdict for v in verdicts] == ["applied", "applied"]
    head = Fact.select().where(Fact.kind == "import").get()
    assert head.body == {"file": "stock.csv", "digest": draft.digest, "rows": 1}
    assert reading.stock().rows[0]["own"]["cost"] == 10000


def test_a_fact_that_the_book_refuses_leaves_nothing(book):
    draft = draft_of(book, COINS + "half cent,1807,VF-20,100,2024-05-31\r\n")
    draft.rows[1].facts[0][1]["bought"][0]["set"]["year"] = 1812
    draft.rows[1].facts[0][1]["bought"][0]["set"]["type"] = "half-cent/draped-bust"
    before = facts()
    with pytest.raises(Refused, match="1812"):
        intake.confirm(book, draft, "stock.csv")
    assert facts() == before
    assert reading.stock().total == 0


def test_a_file_with_nothing_to_take_is_told(book):
    with pytest.raises(intake.FileRefused, match="nothing"):
        intake.confirm(book, draft_of(book, "Denomination,Date\r\nhalf cent,1812\r\n"), "x.csv")


def test_the_same_file_again_is_noticed(book):
    intake.confirm(book, draft_of(book, COINS), "stock.csv")
    assert "second time" in draft_of(book, COINS).remarks[0]


def test_an_edit_made_meanwhile_is_not_overwritten(book):
    intake.confirm(book, draft_of(book, "Denomination,Date,Location\r\nhalf cent,1806,Case 1\r\n"), "a.csv")
    coin = reading.stock().rows[0]["id"]
    draft = draft_of(book, f"ID,Location\r\n{coin},Box 2\r\n")
    book.act("coin.edit", {"coin": coin, "base": {"place": "Case 1"}, "set": {"place": "Safe"}})
    assert [v.verdict for v in intake.confirm(book, draft, "b.csv")] == ["applied", "contested"]
    assert book.card("coin", coin)["place"] == "Safe"


# --- the sample inventory -------------------------------------------------------------------------


@pytest.fixture
def stocked(book):
    for name in FILES:
        intake.confirm(book, draft_of(book, sample(name), undated="2024-01-01"), name)
    return book


def test_the_sample_is_a_whole_little_business(stocked):
    counts = reading.counts()
    assert 240 <= counts["coins"] <= 260
    assert (counts["wants"], counts["shows"], counts["evidence"], counts["looks"]) == (30, 4, 600, 0)
    assert counts["states"]["sold"] >= 15
    assert len(reading.denominations()) == 20 - 1  # all but the four dollars


@pytest.mark.parametrize("name", [name for name in FILES if name != "coins_from_spreadsheet.csv"])
def test_the_clean_sample_files_are_clean(book, name):
    if name == "coins.csv":
        intake.confirm(book, draft_of(book, sample("shows.csv")), "shows.csv")
    draft = draft_of(book, sample(name))
    assert draft.counts["new"] == len(draft.rows)
    assert [str(m) for row in draft.rows for m in row.messages if m.level != "info"] == []


def test_the_messy_sample_has_cells_that_cannot_be_read_and_says_why(book):
    draft = draft_of(book, sample("coins_from_spreadsheet.csv"))
    assert draft.counts["new"] >= 70 and 5 <= draft.counts["refused"] <= 12 and draft.counts["skipped"] == 2
    told = "\n".join(str(m) for row in draft.rows for m in row.messages if m.level == "error")
    for piece in ("67", "1815", "1812", "2-Jan", "12.5.0", "2/30/2023", "day it was bought", "4.10E+12"):
        assert piece in told
    assert draft.encoding == "cp1252"


def test_no_place_of_the_sample_holds_a_sold_coin(stocked):
    assert {card["place"] for card in reading.stock(state="sold", per=500).rows} == {""}


# --- out and in again -----------------------------------------------------------------------------


def test_the_books_own_export_changes_nothing_when_it_comes_back(stocked):
    files = exported(stocked)
    for name in ("shows.csv", "coins.csv", "wants.csv", "evidence.csv"):
        draft = draft_of(stocked, files[name])
        assert draft.kind == name.removesuffix(".csv")
        assert draft.counts["same"] == len(draft.rows)


def test_the_slots_of_an_exported_set_can_come_in_as_wants(book):
    """The set's columns are told to be unknown; the rest are those of a list of wants."""
    slots = [{"key": "one", "title": "Draped Bust", "types": ["half-cent/draped-bust"], "years": "1804-1806", "grade_from": "F-12", "grade_to": "EF-40"},
             {"key": "two", "title": "Either", "types": ["half-cent/draped-bust", "half-cent/classic-head"], "mints": [""], "issues": ["1809"]}]
    book.act("set.add", {"goal": str(uuid.uuid4()), "set": {"name": "=Two", "slots": slots}})
    file = exported(book)["sets.csv"]
    rows = list(csv.DictReader(io.StringIO(file.decode("utf-8-sig"))))
    assert [(row["Set"], row["Slot"], row["Mints"], row["Issues"]) for row in rows] == [("'=Two", "one", "", ""), ("'=Two", "two", "none", "1809")]
    assert rows[1]["Type"] == "half-cent/draped-bust; half-cent/classic-head"
    draft = draft_of(book, file)
    assert draft.kind == "wants" and [row.fate for row in draft.rows] == ["new", "new"]
    (kind, body), = draft.rows[0].facts
    wanted = {name: body["set"][name] for name in ("type", "years", "grade_from", "grade_to")}
    assert kind == "want.add" and wanted == {"type": "half-cent/draped-bust", "years": "1804-1806", "grade_from": "F-12", "grade_to": "EF-40"}


def test_lots_gifts_returns_and_trades_come_back_unchanged(book):
    lot, gift, back, out, come = (ids.new_id() for _ in range(5))
    day = {"date": "2026-03-14"}
    price = [{"what": "price", "cents": 1_003}]
    book.act("purchase", {"bought": [{"coin": lot, "set": {"title": "roll"}, "pieces": 10}], "costs": price} | day)
    book.act("purchase", {"bought": [{"coin": one, "set": {"title": "one"}} for one in (back, out)], "costs": price} | day)
    book.act("acquired", {"how": "gift", "coins": [{"coin": gift, "set": {"title": "a gift", "held": "personal"}, "basis": 500}]} | day)
    sold = book.act("ticket", {"sold": [{"coin": back}, {"coin": lot, "pieces": 3}], "price": 900} | day)
    book.act("return", {"of": sold.fact, "coins": [back], "refund": 100} | day)
    book.act("trade", {"out": [{"coin": out, "value": 5}], "in": [{"coin": come, "set": {"title": "came"}, "value": 5}], "boot": 0} | day)
    file = exported(book)["coins.csv"]
    draft = draft_of(book, file)
    assert draft.counts["same"] == len(draft.rows) == 5 and not any(row.warned for row in draft.rows)
    rows = {row["ID"]: row for row in csv.DictReader(io.StringIO(file.decode("utf-8-sig")))}
    assert rows[ids.show(lot)]["Pieces"] == "10" and rows[ids.show(gift)]["Held as"] == "personal"
    assert rows[ids.show(back)]["Sold price"] == "" and rows[ids.show(out)]["State"] == "traded"


def test_an_empty_book_filled_from_an_export_exports_the_same(stocked, tmp_path):
    files = exported(stocked)
    other = Book.create(tmp_path / "other")
    with other.connected():
        for name in ("shows.csv", "coins.csv", "wants.csv", "evidence.csv"):
            intake.confirm(other, draft_of(other, files[name]), name)
        again = exported(other)
    for name in ("shows.csv", "coins.csv", "wants.csv"):
        assert again[name] == files[name]
    without_ids = [[row[1:] for row in csv.reader(io.StringIO(part["evidence.csv"].decode("utf-8-sig")))]
                   for part in (files, again)]  # fmt: skip
    assert sorted(without_ids[0]) == sorted(without_ids[1])


def test_the_journal_and_the_photos_are_in_the_zip(book):
    from PIL import Image

    intake.confirm(book, draft_of(book, COINS), "stock.csv")
    coin = reading.stock().rows[0]["id"]
    picture = io.BytesIO()
    Image.new("RGB", (40, 30), "brown").save(picture, "PNG")
    photo, late = "01890a5d-ac96-7b0c-8f4e-1a2b3c4d5e6f", "01890a5d-ac96-7b0c-8f4e-1a2b3c4d5e70"
    for each in (photo, late):
        book.act("photo", {"coin": coin, "photo": each, "side": "obverse", "digest": "0" * 64})
    photos.store(book.photos, photo, picture.getvalue())
    files = exported(book)
    assert [name for name in files if name.startswith("photos/")] == [f"photos/{coin}-obverse-{photo}.jpg"]
    lines = [json.loads(line) for line in files["journal.jsonl"].splitlines()]
    assert [line["seq"] for line in lines] == sorted(line["seq"] for line in lines)
    assert len(lines) == facts()


TEXT = st.text(st.characters(codec="utf-8", exclude_categories=("Cs", "Cc")), max_size=20) | st.sampled_from(
    ["=1+2", "'=x", "''", "+", "-5", "@SUM(A1)", 'a "b", c', "a;b", "\uff1d1", "'tis", " spaced ", "1/2", "N/A", "-"]
)
MONEY = st.none() | st.integers(0, 10**9)
COIN = st.fixed_dictionaries(
    {},
    optional={
        "denom": st.sampled_from(["half-cent", "dollar", "five-cents", "gold-dollar"]),
        "title": TEXT, "year": st.integers(1793, 1857), "mint": st.sampled_from(["", "P", "S", "CC"]),
        "variety": TEXT, "grade": st.sampled_from(["VF", "VF-20", "MS-64+ RB", "AU-50 Details (cleaned)"]),
        "certified_by": TEXT, "certificate": TEXT, "place": TEXT, "ask": MONEY, "floor": MONEY,
        "publish": st.sets(st.sampled_from(["identity", "grade", "price", "photos"])).map(sorted),
    },
)  # fmt: skip
LINES = st.lists(st.fixed_dictionaries({"what": st.sampled_from(["price", "fee", "tax", "shipping", "other"]),
                                        "cents": st.integers(0, 10**8)}), max_size=4)  # fmt: skip


DEALS = st.tuples(COIN, st.none() | LINES, TEXT, TEXT, st.none() | LINES)


def deal(coin, about, costs, words, note, sale):
    """The facts of one coin: added or bought, noted, sold."""
    if costs is None:
        yield "coin.add", {"coin": coin, "set": about}
    else:
        yield "purchase", {"bought": [{"coin": coin, "set": about}], "costs": costs, "date": "2024-05-31",
                           "from": words, "note": words}  # fmt: skip
    if note.strip():
        yield "note", {"coin": coin, "text": note}
    if sale is not None:
        yield "sale", {"coin": coin, "price": 500, "costs": sale, "date": "2025-05-31", "to": words}


@settings(max_examples=12, deadline=None, derandomize=True)
@given(st.lists(DEALS, min_size=3, max_size=12))
def test_whatever_coins_hold_comes_back_from_their_export_as_the_same(tmp_path_factory, deals):
    book, draw = Book.create(tmp_path_factory.mktemp("book")), random.Random(5)
    with book.connected():
        book.act_all([fact for each in deals for fact in deal(ids.new_id(draw.choice), *each)])
        draft = draft_of(book, exported(book)["coins.csv"])
    changed = [str(m) for row in draft.rows if row.fate != "same" for m in row.messages]
    assert (changed, draft.counts["same"]) == ([], len(deals))
