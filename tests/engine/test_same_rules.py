"""Rules that phone and desk must share, the phone's side in Chromium against the desk's in Python, or a library."""

import random
import uuid
import zlib

import pytest

from exergue.coins import grades
from exergue.labels import ids
from exergue.records import kinds, reading
from exergue.records.verdicts import Refused

pytestmark = pytest.mark.browser


def in_page(page, module, expression, given=None):
    """The value of an expression over a module of the engine; `given` is at hand in it."""
    return page.evaluate(f"(given) => import('/web/engine/{module}.js').then(async (it) => ({expression}))", given)


@pytest.fixture
def page(anna):
    return anna.page


def test_ids_are_read_alike(page):
    draw = random.Random(3)
    good = [ids.new_id(draw.choice) for _ in range(200)]
    texts = good + [ids.show(one).lower() for one in good[:40]] + [f"HTTPS://ANY.EXAMPLE/C/{one}" for one in good[:40]]
    texts += [f"desk.example/c/{good[0]}?x=1", f" {good[1]} ", "/c/" + good[2], "c/" + good[3], good[4].replace("0", "O").replace("1", "l")]
    for one in good:  # one slip, or two neighbours swapped
        at = draw.randrange(9)
        texts.append(one[:at] + draw.choice(ids.ALPHABET) + one[at + 1 :])
        texts.append(one[:at] + one[at + 1] + one[at] + one[at + 2 :])
    texts += ["", "7K3M9", "7K3M9QX2BU", "https://any.example/shop/7K3M9QX2B4", "7K3M9–QX2B4", "ÄÖ", "7K3M9QX2B4X"]

    def read(text):
        try:
            return {"id": ids.parse(text)}
        except ids.BadLabel as problem:
            return {"error": str(problem)}

    assert in_page(page, "ids", "given.map(it.parseId)", texts) == [read(text) for text in texts]


def test_the_number_that_counts_of_a_grade_is_the_desks(page):
    written = [str(one) for one in grades.ladder()]
    bare = sorted({text.split("-")[0] for text in written} | {"PF"})
    texts = written + bare + [f"{one} Details (cleaned, worn-1)" for one in written + bare] + ["AU-58+", "MS-65+ RB", "AU Details (cleaned) net VF-20", "PF-63 CAM", ""]
    said = in_page(page, "reference", "given.map((text) => it.names.gradeNumber(text))", texts)
    assert len(texts) > 60 and said == [grades.parse(one).number if one else None for one in texts]


def test_ids_drawn_on_the_phone_are_ids(page):
    drawn = in_page(page, "ids", "Array.from({length: 500}, () => it.newId())")
    assert [ids.parse(one) for one in drawn] == drawn and len(set(drawn)) == 500


def test_the_digest_is_that_of_zlib(page):
    keys = [["coin", ids.new_id(random.Random(n).choice), n * 977] for n in range(300)] + [["want", str(uuid.UUID(int=5)), 2**40]]
    marks = in_page(page, "crc32", "given.map(([kind, id, seq]) => it.mark(kind, id, seq))", keys)
    assert marks == [zlib.crc32(f"{kind}/{key}/{seq}".encode()) for kind, key, seq in keys]
    total = in_page(page, "crc32", """(() => { const sum = {count: 0, sum: 0};
        for (const one of given) it.add(sum, ...one); for (const one of given.slice(50)) it.add(sum, ...one, -1); return sum })()""", keys)  # fmt: skip
    assert total == {"count": 50, "sum": sum(marks[:50]) % 2**48}


def test_entry_ids_are_uuids_of_version_7_in_the_order_of_their_time(page):
    """RFC 9562, section 5.7: 48 bits of milliseconds first, version 7, variant 10."""
    moments = [0, 1, 1_790_000_000_000, 2**48 - 1]
    for moment, text in zip(moments, in_page(page, "uuid7", "given.map((ms) => it.uuid7(ms))", moments), strict=True):
        made = uuid.UUID(text)
        assert str(made) == text and made.version == 7 and made.variant == uuid.RFC_4122 and made.int >> 80 == moment


NOTE = {"coin": "7K3M9QX2B4", "text": "x"}
SALE = {"coin": "7K3M9QX2B4", "price": 1, "date": "2026-03-14"}
BUY = {"bought": [{"coin": "7K3M9QX2B4", "set": {"year": 1806}}], "costs": [{"what": "price", "cents": 1}], "date": "2026-03-14"}
OTHER = "A1B2C3D4EK"


def rows(kind, body, name, *more):
    """Entries of a kind, each with one row that holds these fields beside its coin."""
    return [(kind, body | {"date": "2026-03-14", name: [{"coin": "7K3M9QX2B4"} | one]}) for one in more]


BODIES = [
    ("note", NOTE), ("note", NOTE | {"text": "x" * 2001}), ("note", NOTE | {"text": 5}), ("note", {"coin": "7K3M9QX2B4"}),
    ("note", NOTE | {"text": "two\nlines"}), ("note", NOTE | {"text": "a bell \a"}), ("sale", SALE | {"to": "two\nlines"}),
    ("note", NOTE | {"coin": "7K3M9QX2B5"}), ("note", NOTE | {"coin": "7k3m9qx2b4"}), ("note", NOTE | {"more": 1}),
    ("sale", SALE), ("sale", SALE | {"price": -1}), ("sale", SALE | {"price": 1.5}), ("sale", SALE | {"price": 10**12 + 1}),
    ("sale", SALE | {"date": "2026-02-30"}), ("sale", SALE | {"date": "14.3.2026"}), ("sale", SALE | {"payment": "gold"}),
    ("sale", SALE | {"payment": "cash", "to": None, "costs": [{"what": "fee", "cents": 3}]}), ("sale", SALE | {"show": "x"}),
    ("sale", SALE | {"costs": [{"what": "fee"}]}), ("sale", SALE | {"costs": 3}),
    ("purchase", BUY), ("purchase", BUY | {"bought": []}), ("purchase", BUY | {"bought": [{"coin": "7K3M9QX2B4"}]}),
    ("purchase", BUY | {"bought": [{"coin": "7K3M9QX2B4", "set": {"year": "1806"}}]}),
    ("purchase", BUY | {"bought": [{"coin": "7K3M9QX2B4", "set": {"colour": "red"}}]}),
    *(("coin.add", {"coin": "7K3M9QX2B4", "set": {"year": year}}) for year in (-1001, -1000, 0, 2100, 2101)),
    ("check", {"coin": "7K3M9QX2B4", "key": "facing", "answer": ""}), ("check", {"coin": "7K3M9QX2B4", "key": "facing", "answer": "maybe"}),
    ("coin.edit", {"coin": "7K3M9QX2B4", "base": {}, "set": {"publish": ["identity"], "ask": None}}),
    *(("ticket", {"sold": sold, "price": 5, "date": "2026-03-14"} | more) for sold, more in (
        ([{"coin": "7K3M9QX2B4"}], {}), ([], {}), ([{"coin": "7K3M9QX2B4"}] * 2, {}), ([{"coin": "7K3M9QX2B4", "pieces": 0}], {}),
        ([{"coin": "7K3M9QX2B4"}], {"tax": {"cents": 1, "rate": "8.25"}}), ([{"coin": "7K3M9QX2B4"}], {"tax": {"cents": 1, "rate": "8,25"}}),
        ([{"coin": "7K3M9QX2B4"}], {"payments": [{"how": "gold", "cents": 5}]}))),
    *rows("ticket", {"price": 5}, "sold", {}, {"weight": 3}, {"weight": -1}, {"weight": 1.5}, {"price": -1}, {"price": 7, "pieces": 100_001}, {"value": 3}),
    *rows("trade", {"boot": 0, "in": [{"coin": OTHER, "set": {}, "value": 5}]}, "out", {"value": 5}, {}, {"value": 5, "pieces": "2"}, {"value": 5, "set": {}}),
    *rows("trade", {"boot": 0, "out": [{"coin": OTHER, "value": 5}]}, "in", {"value": 5, "set": {}}, {"value": 5}, {"set": {}},
          {"value": 5, "set": {"year": "1806"}}, {"value": 5, "set": {}, "pieces": 0}),
    *rows("purchase", {"costs": []}, "bought", {"set": {}, "pieces": 3, "weight": 0}, {"set": {}, "weight": -3}, {"set": {}, "price": 3}),
    *rows("cost", {"costs": [{"what": "grading", "cents": 3}]}, "coins", {}, {"weight": 4}, {"weight": -4}, {"cents": 4}),
    *rows("memo", {"way": "in", "kind": "memo"}, "coins", {"net": 4}, {}, {"net": -4}, {"net": 4, "set": {"pieces": 0}}),
    *rows("acquired", {"how": "gift"}, "coins", {"set": {}}, {"set": {}, "value": None, "basis": 3, "since": "2020-01-01"},
          {"set": {}, "since": "2020-13-01"}, {"set": {}, "worth": 4}),
    *(("ticket", {"sold": [{"coin": OTHER}], "price": 5, "date": "2026-03-14"} | more) for more in (
        {"exempt": {"certificate": "TX"}}, {"exempt": {"reason": "Resale"}}, {"payments": [{"how": "cash", "cents": 1}] * 20},
        {"payments": [{"how": "cash", "cents": 1}] * 21}, {"payments": [{"how": "cash"}]}, {"discount": -1})),
    ("photo", {"coin": OTHER, "photo": "01990001-0000-7000-8000-00000000000f", "side": "edge", "digest": "a" * 64}),
    ("photo", {"coin": OTHER, "photo": "01990001-0000-7000-8000-00000000000f", "side": "edge", "digest": "A" * 64}),
    *(("coin.add", {"coin": OTHER, "set": {"publish": some}}) for some in (["price", "grade"], ["price", "price"], ["cost"], "price")),
    ("back", {"coins": ["7K3M9QX2B4"], "date": "2026-03-14"}), ("back", {"coins": [], "date": "2026-03-14"}),
    *(("set.add", {"goal": "01990001-0000-7000-8000-00000000000f", "set": {"name": "Dates", "slots": [
        {"key": str(n), "title": "Any"} for n in range(many)]}}) for many in (0, 21, 250, 251)),
    ("void", {"of": "01990001-0000-7000-8000-00000000000f"}), ("void", {"of": "01990001"}), ("void", {}),
]  # fmt: skip


def test_an_entry_that_the_desk_would_refuse_for_its_form_is_not_taken_by_the_phone(page):
    def desk(kind, body):
        try:
            kinds.check(kind, body)
        except Refused:
            return False
        return True

    phone = page.evaluate("""(bodies) => Promise.all([import('/web/engine/valid.js'), import('/web/engine/engine.js')]).then(([{check}, {engine}]) =>
        bodies.map(([kind, body]) => { try { check(engine.reference, kind, body); return true } catch (error) { return error.code !== 'bad' } }))""",
        BODIES)  # fmt: skip
    assert phone == [desk(kind, body) for kind, body in BODIES]
    assert True in phone and False in phone


def test_the_stock_stands_in_the_order_of_the_desk(anna, stocked):
    with stocked.book.connected():
        stocked.book.act_all([("coin.add", {"coin": ids.new_id(stocked.random.choice), "set": about}) for about in (
            {"denom": "large-cent", "type": "large-cent/draped-bust", "year": 1803}, {"denom": "half-cent", "title": "Token of a baker"},
            {"denom": "half-cent", "type": "half-cent/classic-head", "year": 1809}, {"title": "Something else"},
            {"denom": "half-cent", "type": "half-cent/draped-bust"}, {"denom": "half-cent", "type": "half-cent/liberty-cap-left", "year": 1793},
        )])  # fmt: skip
        desk = [row["id"] for row in reading.stock(order="what", per=200).rows]
    anna.sync()
    find = "engine.search('', {limit: 200})"
    assert [row["id"] for row in anna.run(find)["rows"]] == desk
    anna.page.reload()
    assert [row["id"] for row in anna.run(find)["rows"]] == desk
