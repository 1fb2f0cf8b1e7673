"""Wants, shows, evidence, settings and the export."""

import io
import zipfile

import pytest

from exergue.records import reading, refold
from exergue.records.tables import Evidence, Fact, Show, Want

WANT = {"denom": "half-cent", "type": "half-cent/draped-bust", "years": "1804", "grade_from": "vf", "ceiling": "250",
        "priority": "high"}  # fmt: skip
SHOW = {"name": "Harbour Coin Fair", "place": "Town Hall", "table": "12", "starts": "2026-05-02", "ends": "2026-05-03",
        "float": "300"}  # fmt: skip


def test_a_want_is_added_edited_and_dropped(ada):
    ada.post("/desk/wants/new", WANT)
    row = Want.get()
    assert (row.years, row.ceiling, row.priority) == ("1804", 25_000, "high")
    assert "$250.00" in ada.get("/desk/wants").text
    form = WANT | {"ceiling": "275", "grade_from": row.grade_from, "seen": seen_of(row)}
    ada.post(f"/desk/wants/{row.id}", form)
    assert Want.get().ceiling == 27_500
    ada.post(f"/desk/wants/{row.id}/drop")
    page = ada.get("/desk/wants").text
    assert "The want list is empty" in page and "1 taken off the list" in page
    assert ada.get(f"/desk/wants/{row.id}").location.endswith("/desk/wants/off")
    assert "Draped Bust" in ada.get("/desk/wants/off").text
    ada.post(f"/desk/wants/{row.id}/back")
    assert "$275.00" in ada.get("/desk/wants").text and "taken off the list" not in ada.get("/desk/wants").text


def test_a_want_that_a_purchase_filled_is_off_the_list_and_leads_to_the_coin(ada, book, buy):
    ada.post("/desk/wants/new", WANT)
    row = Want.get()
    coin = buy(want=row.id)
    page = ada.get("/desk/wants").text
    assert "The want list is empty" in page and "Filled by" in page and f"/desk/coins/{coin}" in page
    answer = ada.get(f"/desk/wants/{row.id}")
    assert answer.status_code == 302 and answer.location.endswith(f"/desk/coins/{coin}")
    with zipfile.ZipFile(io.BytesIO(ada.get("/desk/export.zip").data)) as whole:
        assert row.id not in whole.read("wants.csv").decode("utf-8-sig")


def seen_of(row) -> str:
    from exergue.records.tables import dumps
    from exergue.site.desk.wants import NAMES

    return dumps({name: getattr(row, name) for name in NAMES})


def test_a_want_must_say_what_is_wanted(ada):
    assert "Say what is wanted" in ada.post("/desk/wants/new", {"priority": "usual"}).text
    assert not Want.select().exists()


def test_a_show_is_entered_and_shows_what_was_dealt_there(ada, book, buy):
    ada.post("/desk/shows/new", SHOW)
    row = Show.get()
    assert row.float == 30_000
    book.act("sale", {"coin": buy(), "price": 45_600, "date": "2026-05-02", "show": row.id})
    page = ada.get(f"/desk/shows/{row.id}").text
    assert "$456.00" in page and "Sold here" in page
    assert "2–3 May 2026" in ada.get("/desk/shows").text


def test_a_show_cannot_end_before_it_begins(ada):
    answer = ada.post("/desk/shows/new", SHOW | {"ends": "2026-05-01"})
    assert "before the first" in answer.text
    assert not Show.select().exists()


def test_a_past_sale_is_recorded(ada):
    ada.post("/desk/evidence/new", {"date": "2026-01-05", "price": "88", "denom": "half-cent", "grade": "F 12", "problem": "y"})
    row = Evidence.get()
    assert (row.price, row.grade, row.problem) == (8_800, "F-12", True)
    assert "$88.00" in ada.get("/desk/evidence?denom=half-cent").text
    assert "$88.00" not in ada.get("/desk/evidence?denom=dollar").text


@pytest.mark.parametrize("changed, said", [
    ({"cost_code": "BLACKHORS"}, "ten letters"),
    ({"cost_code": "BLACKHORSS"}, "comes twice"),
    ({"label_address": "coins.example/x"}, "reads like"),
    ({"name": ""}, "Give the book a name."),
])  # fmt: skip
def test_a_setting_that_cannot_work_is_refused(ada, book, changed, said):
    before = Fact.select().count()
    assert said in ada.post("/desk/settings", {"name": "Test book", **changed}).text
    assert Fact.select().count() == before


def test_settings_are_kept_and_only_what_changed_is_recorded(ada, book):
    from exergue.records.tables import dumps

    seen = dumps({name: book.settings()[name] for name in ("name", "label_address", "found_line", "label_shows", "cost_code", "held")})
    form = {"name": "Test book", "found_line": "Please call 555 0100.", "label_shows": ["ask"], "cost_code": "black horse", "seen": seen}
    before = Fact.select().count()
    assert ada.post("/desk/settings", form).status_code == 302
    settings = book.settings()
    assert (settings["found_line"], settings["label_shows"], settings["cost_code"]) == ("Please call 555 0100.", ["ask"], "BLACKHORSE")
    assert Fact.select().count() == before + 3


def test_the_export_holds_everything(ada, buy):
    coin = buy()
    answer = ada.get("/desk/export.zip")
    with zipfile.ZipFile(io.BytesIO(answer.data)) as whole:
        assert "coins.csv" in whole.namelist()
        from exergue.labels import ids

        text = whole.read("coins.csv").decode("utf-8-sig")
        assert coin in text or ids.show(coin) in text


def test_the_journal_is_paged_and_can_be_of_one_device(ada, buy, phone):
    coin = buy()
    for n in range(101):
        phone("note", {"coin": coin, "text": f"number {n}"})
    page = ada.get("/desk/journal").text
    assert "number 100" in page and "number 0<" not in page
    before = reading.journal(100)[-1]["seq"]
    assert "number 0" in ada.get(f"/desk/journal?before={before}").text
    assert "Bought on" not in ada.get(f"/desk/journal?device={phone.device.id}&before={before}").text


def test_a_sale_recorded_wrongly_is_undone(ada):
    ada.post("/desk/evidence/new", {"date": "2026-01-05", "price": "88", "denom": "half-cent", "grade": "F 12"})
    (row,) = reading.evidence()
    page = ada.post(f"/desk/evidence/{row['fact']}/undo", {}, follow_redirects=True)
    assert "undone" in page.text and reading.evidence() == [] and refold.verify() == []


def test_past_sales_are_paged_latest_first(ada, book):
    book.act_all([("sale.seen", {"set": {"date": f"2025-01-{day:02}", "price": 1_000 + day, "title": "A coin"}}) for day in range(1, 32)] * 2)
    first, second, far = (ada.get(f"/desk/evidence?page={n}").text for n in (1, 2, 9))
    assert first.count("$10.31") == 4 and "Before</a>" not in first and "Next</a>" in first  # each price once more in its button
    assert "$10.31" not in second and second.count("$10.01") == 4 and "Next</a>" not in second
    assert "No sale here" in far


def test_forms_that_name_a_person_offer_the_contacts(ada, book, buy):
    for name in ("Orla <Penhale>", "Bram Oduya", "Bram Oduya"):
        ada.post("/desk/contacts/new", {"name": name})
    coin = buy()
    offered = '<option value="Bram Oduya"><option value="Orla &lt;Penhale&gt;"></datalist>'
    for path in ("deals/purchase", "deals/sale", "deals/trade", "deals/move/memo", "deals/move/memo-in", "deals/move/away", "deals/move/cost", "deals/acquired", "deals/money",
                 f"coins/{coin}/sale"):  # fmt: skip
        assert offered in ada.get(f"/desk/{path}").text, path
