"""Where a coin is, read from its moves on the phone, against the desk's own reading of them, over random histories."""

import random

import pytest
from support.modules import served_modules

from exergue.records.fold import standing

pytestmark = pytest.mark.browser
AWAY = {"memo": "on memo", "consignment": "on consignment", "grading": "at grading", "display": "away"}
GOES = {"sale": "sold", "ticket": "sold", "trade": "traded"}


@pytest.fixture(scope="module")
def module(tmp_path_factory, browser):
    yield from served_modules(tmp_path_factory, browser)


def drawn(draw, pieces, theirs):
    """(moves as the desk keeps them, as a card tells them): many follow from those before, some cannot have happened."""
    kept, told = [], []
    if theirs:
        how = draw.choice(["memo", "consignment"])
        kept.append(("m", "theirs", AWAY[how], pieces, None))
        told.append({"fact": "m", "kind": "memo", "how": how, "way": "in", "pieces": pieces})
    for n in range(draw.randrange(1, 9)):
        fact, count = f"e{n}", draw.choice([1, pieces, draw.randint(1, pieces)])
        kind = draw.choice(["sale", "ticket", "trade", "return", "return", "memo", "away", "back", "back", "lost", "withdrawn"])
        if kind in GOES:
            move, more = ("out", GOES[kind], None), {}
        elif kind == "return":
            gone = [each for each in kept if each[1] == "out"]
            of = draw.choice(gone)[0] if gone else "nothing"
            count = next((each[3] for each in kept if each[0] == of), 1)
            move, more = ("return", None, of), {"of": of}
        elif kind in ("memo", "away"):
            how = draw.choice(["memo", "consignment"] if kind == "memo" else ["grading", "display"])
            move, more = ("off", AWAY[how], None), {"how": how}
        else:
            move, more = ({"back": "back", "lost": "lost", "withdrawn": "held"}[kind], None, None), {}
        line = (fact, move[0], move[1], count, move[2])
        if draw.random() < 0.8 and read(pieces, [*kept, line]) is None:
            continue
        kept.append(line)
        told.append({"fact": fact, "kind": kind, "pieces": count, **more})
    return kept, told


def read(pieces, kept):
    try:
        now = standing.read(pieces, kept)
    except standing.Clash:
        return None
    return [now.state, now.left, now.missing, now.base, now.theirs, sorted(now.out)]


def test_the_phone_reads_the_moves_of_a_coin_as_the_desk_does(module):
    draw = random.Random(1_804)
    histories = []
    for _ in range(4_000):
        pieces, theirs = draw.choice([1, 1, 5, 20]), draw.random() < 0.25
        histories.append((pieces, theirs, *drawn(draw, pieces, theirs)))
    found = module("engine/standing", """given.map(([pieces, theirs, moves]) => { const now = it.read(pieces, moves, theirs);
        return now && [now.state, now.left, now.missing, now.base, now.theirs, [...now.out.keys()].sort()] })""",
                   [[pieces, theirs, told] for pieces, theirs, _, told in histories])  # fmt: skip
    expected = [read(pieces, kept) for pieces, _, kept, _ in histories]
    assert found == expected
    assert 200 < expected.count(None) < 3_000 and len({str(each) for each in expected}) > 60  # neither side is trivial


CARD = {"id": "A", "state": "in stock", "own": {"cost": 100, "purchase": {"fact": "p"}, "sale": None}}


@pytest.mark.parametrize(("change", "offered"), [
    ({}, ["cost", "away", "memo", "held", "lost"]),
    ({"state": "at grading"}, ["back", "cost", "held", "lost"]),
    ({"state": "on memo"}, ["back", "cost", "held", "lost"]),
    ({"state": "missing"}, ["back", "cost"]),
    ({"state": "sold"}, ["return/s", "cost"]),
    ({"state": "traded"}, ["cost"]),
    ({"state": "on consignment", "theirs": True, "own": {"cost": None, "purchase": None, "sale": None}}, ["back", "buy", "away", "lost"]),
    ({"state": "returned", "theirs": True, "own": {"cost": None, "purchase": None, "sale": None}}, ["memo-in"]),
    ({"own": None}, ["away", "lost"]),
    ({"state": "at grading", "own": None}, ["back", "lost"]),
])  # fmt: skip
def test_only_what_is_possible_now_is_offered(module, change, offered):
    sales = [{"fact": "s", "to": "A. Marsh"}] if change.get("state") == "sold" else []
    assert module("parts/coin-doings", "it.doings(...given).map(([path]) => path)", [CARD | change, sales]) == offered


LOT = {"id": "L", "pieces": 10, "left": 4, "state": "in stock", "own": {"cost": 100, "purchase": {}, "sale": None, "moves": [
    {"fact": "a", "kind": "ticket", "pieces": 3, "cents": 900, "with": "A. Marsh", "date": "2026-03-01"},
    {"fact": "b", "kind": "ticket", "pieces": 2, "cents": 800, "with": "B. Holt", "date": "2026-03-02"},
    {"fact": "c", "kind": "return", "pieces": 3, "of": "a", "date": "2026-03-03"},
    {"fact": "d", "kind": "lost", "how": "lost", "pieces": 4, "date": "2026-03-04"}]}}  # fmt: skip


def test_of_a_lot_what_stands_can_be_given_back_and_what_is_missing_found(module):
    sales = module("parts/coin-sales", "it.salesOf(given)", LOT)
    assert [(one["fact"], one["pieces"], one["cents"]) for one in sales] == [("b", 2, 800)]
    assert module("engine/standing", "it.missing(given)", LOT) == 4
    assert [path for path, *_ in module("parts/coin-doings", "it.doings(...given)", [LOT, sales])][:2] == ["return/b", "back"]
