"""Labels at the desk, each read back from the PDF by an independent decoder."""

import io
import re

import pytest
from PIL import Image

from exergue.labels import ids, readback
from exergue.records.tables import Blank, Fact


def read(data: bytes, tmp_path, dpi: int = 300) -> list[str]:
    path = tmp_path / "labels.pdf"
    path.write_bytes(data)
    return [text for page in readback.read(path, dpi) for text in page]


def test_ticked_coins_get_labels_that_lead_to_them(ada, buy, tmp_path):
    coins = [buy(year=1804), buy(year=1806)]
    answer = ada.get("/desk/labels/coins.pdf", query_string={"coin": coins, "format": "letter-30", "dpi": 300})
    assert answer.mimetype == "application/pdf"
    assert "attachment" in answer.headers["Content-Disposition"]
    assert sorted(map(ids.parse, read(answer.data, tmp_path))) == sorted(coins)


def test_codes_hold_the_books_own_label_address(ada, book, buy, tmp_path):
    coin = buy()
    book.act("setting", {"key": "label_address", "value": "https://coins.example"})
    answer = ada.get("/desk/labels/coins.pdf", query_string={"coin": coin, "format": "letter-30", "dpi": 300})
    assert read(answer.data, tmp_path) == [f"HTTPS://COINS.EXAMPLE/C/{coin}"]


def test_all_of_a_place_can_be_printed(ada, buy, tmp_path):
    inside, _ = buy(place="Box A"), buy(place="Box B")
    answer = ada.get("/desk/labels/coins.pdf", query_string={"place": "Box A", "format": "letter-30", "dpi": 300})
    assert [ids.parse(text) for text in read(answer.data, tmp_path)] == [inside]


def test_the_start_place_leaves_what_is_used_of_the_sheet(ada, buy, tmp_path):
    coins = [buy(year=1804, variety=str(n)) for n in range(3)]
    asked = {"coin": coins, "format": "letter-30", "dpi": 300, "start": 29}
    page = ada.get("/desk/labels", query_string=asked).text
    assert "3 labels on 2 sheets" in page and "Next time start at place 2" in page
    answer = ada.get("/desk/labels/coins.pdf", query_string=asked)
    path = tmp_path / "sheet.pdf"
    path.write_bytes(answer.data)
    assert [len(found) for found in readback.read(path, 300)] == [2, 1]


@pytest.mark.parametrize("start", ["0", "31", "-5", "many"])
def test_a_start_that_the_sheet_has_not_falls_back_to_one_it_has(ada, buy, start):
    asked = {"coin": buy(), "format": "letter-30", "dpi": 203, "start": start}
    assert ada.get("/desk/labels/coins.pdf", query_string=asked).status_code == 200


def test_the_preview_shows_the_labels_themselves(ada, buy):
    import zxingcpp

    coin = buy()
    answer = ada.get("/desk/labels/preview.png", query_string={"coin": coin, "format": "letter-30", "start": 17})
    picture = Image.open(io.BytesIO(answer.data))
    assert (picture.format, answer.headers["Cache-Control"]) == ("PNG", "no-store")
    assert picture.width < 600 and picture.height < 300  # one label of 66.7 × 25.4 mm at 200 dots an inch
    assert [ids.parse(found.text) for found in zxingcpp.read_barcodes(picture)] == [coin]


def test_blank_labels_are_recorded_and_can_be_bought_on(ada, tmp_path):
    answer = ada.post("/desk/labels/blank", {"blank": "4", "format": "letter-30", "dpi": "300"})
    printed = sorted(ids.parse(text) for text in read(answer.data, tmp_path))
    assert printed == sorted(row.id for row in Blank.select())
    assert len(printed) == 4
    form = {"coin_id": printed[0], "denom": "half-cent", "came": "had", "grade": ""}
    assert ada.post("/desk/coins/new", form).location == f"/desk/coins/{printed[0]}"
    assert "3 blank labels are" in ada.get("/desk/labels").text


def test_looking_at_blank_labels_records_nothing(ada):
    before = Fact.select().count()
    assert ada.get("/desk/labels?blank=5&format=letter-30").status_code == 200
    assert ada.get("/desk/labels/preview.png?blank=5&format=letter-30").status_code == 200
    assert Fact.select().count() == before


def test_the_cost_code_is_on_the_label_only_when_switched_on(ada, book, buy):
    from exergue.site import labelling

    card = book.card("coin", buy(12_300))
    settings = book.settings() | {"cost_code": "BLACKHORSE"}
    assert labelling.label(card, "http://x.example", settings, ["code"]).code == "BLA"
    assert labelling.label(card, "http://x.example", settings, []).code == ""
    assert labelling.label(card, "http://x.example", settings | {"cost_code": ""}, ["code"]).code == ""


def test_the_calibration_page_prints(ada):
    answer = ada.get("/desk/labels/calibration.pdf?format=letter-30&dpi=203")
    assert answer.data.startswith(b"%PDF")


def test_a_format_of_the_owners_own_can_be_chosen(ada, book, buy):
    text = '[mine]\nname = "My strip"\nlabel = [57.0, 19.0]\n'
    (book.folder / "label-formats.toml").write_text(text)
    page = ada.get("/desk/labels").text
    assert "My strip" in page
    asked = {"coin": buy(), "format": "mine", "dpi": 203}
    answer = ada.get("/desk/labels/coins.pdf", query_string=asked)
    assert re.match(rb"%PDF", answer.data)


def test_a_faulty_format_of_the_owners_own_is_told_and_the_others_still_work(ada, book):
    (book.folder / "label-formats.toml").write_text("[mine\n")
    page = ada.get("/desk/labels")
    assert page.status_code == 200
    assert "label-formats.toml" in page.text and "Letter, 30 labels" in page.text
