"""Rows of coins: what becomes of each, and what a bad cell is told."""

import pytest

from exergue.labels import ids
from exergue.records.intake import FileRefused
from exergue.records.intake.present import Held

HALF = {"Denomination": "1/2c", "Type": "Draped Bust", "Date": "1806", "Grade": "vf20"}
EMPTY = {"denom": "", "type": "", "title": "", "year": None, "mint": "", "variety": "", "grade": "", "certified_by": "",
         "certificate": "", "place": "", "ask": None, "floor": None, "publish": []}  # fmt: skip


@pytest.fixture(scope="module")
def coin_id():
    import random

    return ids.new_id(random.Random(7).choice)


def errors(row):
    return [str(message) for message in row.messages if message.level == "error"]


def fact(row, kind):
    return next(body for name, body in row.facts if name == kind)


# --- new coins ------------------------------------------------------------------------------------


def test_a_coin_without_cost_is_added_and_gets_an_id(row):
    found = row(HALF)
    assert (found.fate, found.title) == ("new", "1806 Half cent, Draped Bust VF-20")
    body = fact(found, "coin.add")
    assert ids.parse(body["coin"]) == body["coin"]
    assert body["set"] == {"denom": "half-cent", "type": "half-cent/draped-bust", "year": 1806, "grade": "VF-20"}


def test_a_coin_with_a_cost_is_one_purchase_with_its_cost_lines(row):
    found = row(HALF | {"Price paid": "$ 1,250.00", "Buyer's fee": "250", "S&H": "14.50", "Date bought": "2024-05-31",
                        "Dealer": "Thistlewick", "Paid by": "cheque"})  # fmt: skip
    (kind, body), = found.facts
    assert kind == "purchase"
    assert body["costs"] == [
        {"what": "price", "cents": 125000}, {"what": "fee", "cents": 25000}, {"what": "shipping", "cents": 1450},
    ]  # fmt: skip
    assert (body["date"], body["from"], body["payment"]) == ("2024-05-31", "Thistlewick", "check")
    assert body["bought"][0]["set"]["year"] == 1806


def test_a_coin_that_was_sold_also_gives_the_sale_after_its_purchase(row):
    found = row(HALF | {"Cost": "100", "Purchase date": "2024-05-31", "Sold price": "150", "Sold date": "2025-01-02",
                        "Sold to": "A visitor", "Sold fee": "4.50"})  # fmt: skip
    assert [kind for kind, _ in found.facts] == ["purchase", "sale"]
    sale = fact(found, "sale")
    assert sale["coin"] == fact(found, "purchase")["bought"][0]["coin"]
    assert (sale["price"], sale["costs"], sale["to"]) == (15000, [{"what": "fee", "cents": 450}], "A visitor")


def test_a_total_cost_alone_is_the_price_and_one_that_does_not_add_up_is_told(row):
    deal = HALF | {"Purchase date": "2024-05-31"}
    assert fact(row(deal | {"Total cost": "130"}), "purchase")["costs"] == [{"what": "price", "cents": 13000}]
    found = row(deal | {"Cost": "100", "Fee": "20", "Total cost": "130"})
    assert found.fate == "new" and found.warned
    assert "$120.00, not $130.00" in str(found.messages[0])


def test_a_cost_of_nothing_is_a_cost(row):
    found = row(HALF | {"Cost": "0", "Purchase date": "2024-05-31"})
    assert fact(found, "purchase")["costs"] == [{"what": "price", "cents": 0}]


def test_notes_become_a_note(row):
    found = row(HALF | {"Comments": "first line\nsecond"})
    assert fact(found, "note")["text"] == "first line\nsecond"


def test_the_date_names_the_type_where_only_one_fits(row):
    found = row({"Denomination": "half cent", "Date": "1806"})
    assert fact(found, "coin.add")["set"]["type"] == "half-cent/draped-bust"
    assert "by the date" in str(found.messages[0])


def test_a_date_of_two_types_asks_which(row):
    found = row({"Denomination": "large cent", "Date": "1796"})
    assert "type" not in fact(found, "coin.add")["set"]
    assert found.warned and "“Liberty Cap” and “Draped Bust”" in str(found.messages[0])


def test_a_type_that_the_catalogue_lacks_is_kept_as_the_title(row):
    found = row({"Denomination": "Dollar", "Type": "Laughing Head", "Date": "1881-S"})
    body = fact(found, "coin.add")["set"]
    assert body == {"denom": "dollar", "title": "Laughing Head", "year": 1881, "mint": "S"}
    assert found.warned and "Laughing Head" in str(found.messages[0])


def test_a_description_names_the_denomination(row):
    found = row({"Description": "Half cent, nice brown", "Year": "1806", "Condition": "F"})
    assert fact(found, "coin.add")["set"]["denom"] == "half-cent"


def test_a_denomination_nobody_knows_is_kept_as_the_title(row):
    found = row({"Denomination": "Transport token", "Date": "1928", "Grade": "F"})
    assert fact(found, "coin.add")["set"]["title"] == "Transport token"
    assert found.warned


def test_a_show_is_found_by_name_and_day(row, paper):
    old, new = ({"name": "Coin Days", "starts": f"{y}-03-19", "ends": f"{y}-03-20"} for y in (2024, 2025))
    paper.held_shows = {"old": old, "new": new}
    bought = HALF | {"Cost": "100", "Purchase date": "2024-03-20", "Show": "coin days"}
    assert fact(row(bought), "purchase")["show"] == "old"
    lost = row(bought | {"Show": "Elsewhere"})
    assert lost.warned and fact(lost, "purchase")["note"] == "Show: Elsewhere"


# --- bad cells ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("cells", "column", "why"),
    [
        ({"Grade": "VF67"}, "Grade", "67"),
        ({"Grade": "nice"}, "Grade", "nice"),
        ({"Date": "1812"}, "Date", "1812"),
        ({"Date": "1801", "Type": "Draped Bust"}, "Date", "1801"),
        ({"Date": "17xx"}, "Date", "four digits"),
        ({"Denomination": "2-Jan"}, "Denomination", "half cent or half dollar"),
        ({"Denomination": "1/2"}, "Denomination", "half cent or half dollar"),
        ({"Denomination": "$1", "Date": "1853", "Type": ""}, "Denomination", "Gold dollar"),
        ({"Cost": "12.5.0"}, "Cost", "not an amount"),
        ({"Cost": "(5.00)"}, "Cost", "below zero"),
        ({"Cost": "£5"}, "Cost", "kept in USD"),
        ({"Cost": "100", "Purchase date": "2/30/2023"}, "Purchase date", "calendar"),
        ({"Location": "x" * 61}, "Location", "60 fit"),
        ({"Publish": "identity cost"}, "Publish", "cost"),
        ({"Certificate": "4.10E+12"}, "Certificate", "spreadsheet"),
        ({"Mint": "S", "Date": "1893-O", "Denomination": "dime", "Type": ""}, "Mint", "does not fit"),
        ({"Sold date": "2025-01-02", "Sold price": ""}, "Sold date", "price"),
        ({"Sold price": "100"}, "Sold price", "day"),
        ({"Status": "Sold"}, "Status", "sold price"),
    ],
)  # fmt: skip
def test_a_bad_cell_is_named_with_row_and_column_and_nothing_of_the_row_is_taken(row, cells, column, why):
    found = row(HALF | cells)
    assert found.fate == "refused" and not found.facts
    assert len(errors(found)) == 1
    assert errors(found)[0].startswith(f"Row 2, {column}: ")
    assert why in errors(found)[0]


def test_every_bad_cell_of_a_row_is_told_at_once(row):
    found = row(HALF | {"Grade": "VF67", "Cost": "abc", "Asking": "-5"})
    assert [text.split(":")[0] for text in errors(found)] == ["Row 2, Asking", "Row 2, Grade", "Row 2, Cost"]


def test_more_cells_than_columns_are_refused(read):
    found = read("Denomination,Date,Asking\r\ndime,1807,1,250\r\n").rows[0]
    assert found.fate == "refused" and "comma" in str(found.messages[0])


def test_a_row_that_says_nothing_is_refused(row):
    found = row({"Grade": "", "Denomination": "", "Location": "Box 1"})
    assert "which coin" in errors(found)[0]


def test_a_good_row_beside_a_bad_one_is_taken(read):
    draft = read("Denomination,Date,Grade\r\nhalf cent,1806,VF67\r\nhalf cent,1806,VF35\r\n")
    assert [row.fate for row in draft.rows] == ["refused", "new"]
    assert draft.counts == {"new": 1, "change": 0, "same": 0, "refused": 1, "skipped": 0, "warned": 0}


# --- questions about the whole file ---------------------------------------------------------------


def test_days_that_can_be_read_two_ways_are_asked_once_for_the_file(read):
    text = "Denomination,Date,Cost,Purchase date\r\ndime,1807,5,03/04/2021\r\ndime,1807,5,05/06/2021\r\n"
    draft = read(text)
    assert [q.key for q in draft.questions] == ["day_first"] and draft.counts["refused"] == 2
    days = [fact(row, "purchase")["date"] for row in read(text, day_first=True).rows]
    assert days == ["2021-04-03", "2021-06-05"]
    clear = read(text + "dime,1807,5,4/15/2021\r\n")
    assert not clear.questions and fact(clear.rows[0], "purchase")["date"] == "2021-03-04"


def test_a_cost_without_a_day_asks_for_one(read):
    text = "Denomination,Date,Cost\r\ndime,1807,5\r\n"
    draft = read(text)
    assert [q.key for q in draft.questions] == ["undated"] and draft.counts["refused"] == 1
    assert fact(read(text, undated="2020-01-01").rows[0], "purchase")["date"] == "2020-01-01"
    with pytest.raises(FileRefused, match="undated"):
        read(text, undated="someday")


# --- coins of the book ----------------------------------------------------------------------------


@pytest.fixture
def held(paper, coin_id):
    fields = EMPTY | {"denom": "half-cent", "type": "half-cent/draped-bust", "year": 1806, "grade": "VF-20",
                      "place": "Case 1", "ask": 25000}  # fmt: skip
    paper.held[coin_id] = Held(fields, costs={"price": 10000}, notes=("Even brown.",),
                                purchase={"from": "Quenby", "date": "2024-05-31", "show": None, "payment": None, "note": ""})  # fmt: skip
    return coin_id


def test_only_what_differs_is_changed_over_what_was_seen(row, held):
    found = row({"ID": ids.show(held).lower(), "Location": "Box 2", "Asking": "250.00", "Grade": "VF 20"})
    assert (found.fate, found.facts) == (
        "change", [("coin.edit", {"coin": held, "base": {"place": "Case 1"}, "set": {"place": "Box 2"}})],
    )  # fmt: skip
    assert "“Case 1” becomes “Box 2”" in str(found.messages[0])


def test_a_row_that_says_what_the_book_says_is_the_same(row, held):
    cells = HALF | {"ID": held, "Location": "Case 1", "Cost": "100", "From": "Quenby", "Purchase date": "2024-05-31",
                    "Notes": "Even brown."}  # fmt: skip
    found = row(cells)
    assert (found.fate, found.facts, found.messages) == ("same", [], [])


def test_an_empty_cell_empties_the_field_and_says_so(row, held):
    found = row({"ID": held, "Location": "", "Grade": "VF-20"})
    assert fact(found, "coin.edit")["set"] == {"place": ""}
    assert "becomes nothing" in str(found.messages[0])


def test_a_recorded_purchase_is_not_changed_by_a_file(row, held):
    found = row({"ID": held, "Cost": "90", "Purchase date": "2024-06-01"})
    assert (found.fate, found.facts) == ("same", [])
    assert [m.level for m in found.messages] == ["warning", "warning"]


def test_a_sale_of_a_coin_of_the_book_is_taken(row, held):
    found = row({"ID": held, "Sold price": "180", "Sold date": "2025-01-02"})
    assert [kind for kind, _ in found.facts] == ["sale"]


def test_a_date_that_does_not_fit_the_type_in_the_book_is_refused(row, held):
    found = row({"ID": held, "Date": "1812"})
    assert found.fate == "refused" and "1812" in errors(found)[0]


def test_an_id_that_the_book_lacks_makes_a_coin_under_it(row, coin_id):
    assert fact(row(HALF | {"ID": coin_id}), "coin.add")["coin"] == coin_id


def test_an_id_with_a_slip_or_used_twice_is_refused(row, read, coin_id):
    wrong = coin_id[:-1] + ("0" if coin_id[-1] != "0" else "1")
    assert "slip" in errors(row(HALF | {"ID": wrong}))[0]
    draft = read(f"ID,Denomination,Date\r\n{coin_id},dime,1807\r\n{coin_id},dime,1805\r\n")
    assert [r.fate for r in draft.rows] == ["new", "refused"]


def test_zeros_that_a_spreadsheet_dropped_are_proved_by_the_check_character(row):
    whole = next(i for i in (f"00{n:07d}" + c for n in range(4_000_000, 4_000_999) for c in "0123456789") if _valid(i))
    found = row(HALF | {"ID": whole.lstrip("0")})
    assert fact(found, "coin.add")["coin"] == whole and found.warned


def _valid(text):
    try:
        return ids.parse(text) == text
    except ids.BadLabel:
        return False


def test_a_certificate_that_the_book_has_is_told(row, paper, coin_id):
    paper.held_certificates = {("wexcombe", "0012"): coin_id}
    found = row(HALF | {"Certified by": "Wexcombe", "Cert #": "0012"})
    assert found.fate == "new" and ids.show(coin_id) in str(found.messages[0])


# --- columns --------------------------------------------------------------------------------------


def test_the_plainest_column_wins_and_the_rest_finds_another_place(read):
    draft = read("Denom,Year,Date,Asking,Price\r\ndime,1807,2024-05-31,120,80\r\n")
    assert {c.name: c.field for c in draft.columns} == {
        "Denom": "denom", "Year": "year", "Date": "purchase_date", "Asking": "ask", "Price": "cost_price",
    }  # fmt: skip


def test_columns_that_are_not_read_are_told(read):
    assert read("Denom,Year,Shoe size\r\ndime,1807,9\r\n").remarks == ["Not read: Shoe size."]


def test_the_same_file_again_is_told(read, paper):
    text = "Denom,Year\r\ndime,1807\r\n"
    paper.files[read(text).digest] = "stock.csv"
    assert "stock.csv" in read(text).remarks[0]


# --- one column for everything --------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "fields"),
    [
        ("1806 half cent, Draped Bust", {"denom": "half-cent", "type": "half-cent/draped-bust", "year": 1806}),
        ("1806 Draped Bust half cent", {"denom": "half-cent", "type": "half-cent/draped-bust", "year": 1806}),
        ("1881-S Liberty Head dollar", {"denom": "dollar", "type": "dollar/morgan", "year": 1881, "mint": "S"}),
        ("Half cent, nice brown", {"denom": "half-cent", "title": "Half cent, nice brown"}),
        ("1812 half cents are never seen", None),
        ("1902 British penny, Edward VII", {"denom": "gb-penny", "type": "gb-penny/edward-vii", "year": 1902}),
        ("Canada 1921 5 cents", {"denom": "ca-five-cents", "title": "Canada 1921 5 cents"}),
        ("Canada ten cents", {"title": "Canada ten cents"}),
    ],
)
def test_a_description_gives_date_denomination_and_type(row, text, fields):
    found = row({"Description": text, "Condition": "", "Asking": ""})
    if fields is None:
        assert found.fate == "refused" and "1812" in errors(found)[0]
    else:
        assert fact(found, "coin.add")["set"] == fields


@pytest.mark.parametrize(
    ("text", "fields"),
    [("U.S. half cent", {"denom": "half-cent", "type": "half-cent/draped-bust", "year": 1806}),
     ("Half cent (brown)", {"denom": "half-cent", "title": "Half cent (brown)", "year": 1806})],
)  # fmt: skip
def test_a_denomination_with_more_words_is_read_and_told(row, text, fields):
    found = row({"Denomination": text, "Date": "1806"})
    assert fact(found, "coin.add")["set"] == fields
    assert found.warned and "read as Half cent" in str(found.messages[0])
