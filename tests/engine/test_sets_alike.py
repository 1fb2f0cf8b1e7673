"""What fills a set, the phone's in Chromium against the desk's in Python: the same coins, also among equals."""

import json
import random
from dataclasses import asdict

import pytest
from support.modules import served_modules

from exergue.coins import catalogue, grades
from exergue.collecting import filling, slots
from exergue.collecting.slots import Piece
from exergue.labels import ids

pytestmark = pytest.mark.browser
KNOWN = catalogue.load()
LADDER = [str(one) for one in grades.ladder()]
TYPES = [key for key, one in KNOWN.types.items() if one.subtypes][:8] + list(KNOWN.types)[:6]
YEARS = ["", "", "", "1806", "1803, 1806-1808", "1790-1900", "1900-2020"]


@pytest.fixture(scope="module")
def module(tmp_path_factory, browser):
    yield from served_modules(tmp_path_factory, browser)


def some_grade(draw):
    number = draw.choice([12, 20, 20, 35, 45, 50, 58, 60, 63, 65])
    prefix = next(one.split("-")[0] for one in LADDER if one.endswith(f"-{number}") and one[:2] != "PF")
    usual = f"{prefix}-{number}"
    return str(grades.parse(draw.choice([usual, usual, usual, "", prefix, f"{usual}+", f"{usual} Details (cleaned)", f"{prefix} Details (holed)",
                                         f"{usual} Details (net worth) net VG-8", "PF-63", "PF", "SP-65", "MS-64 RB"]) or "G-4")) if draw.random() > 0.08 else ""  # fmt: skip


def some_slot(draw, at, few):
    accepted = draw.sample(few, min(len(few), draw.choice([1, 1, 1, 2, 3])))
    of = KNOWN.types[accepted[0]]
    issue = draw.choice(of.issues)
    row = {"key": f"s{at}", "title": f"Slot {at}", "types": accepted}
    row |= draw.choice([{}, {}, {}, {"years": draw.choice(YEARS)}, {"mints": [issue.mint]}, {"issues": [f"{issue.year}-{issue.mint}".rstrip("-")]}])
    row |= draw.choice([{}, {}, {"grade_from": "VF-20"}, {"grade_from": "F-12", "grade_to": "AU-55"}, {"grade_to": "VF"}])
    row |= draw.choice([{}, {}, {}, {"strike": "proof"}, {"strike": "business", "problem_free": True}, {"problem_free": True}])
    if len(accepted) == 1 and of.subtypes and draw.random() < 0.6:
        row["subtype"] = draw.choice(["", "!"]) + draw.choice(of.subtypes).key
    return slots.read(row)


def some_piece(draw, at, few):
    key = draw.choice(few)
    of = KNOWN.types[key]
    issue = draw.choice(of.issues)
    year, mint = (issue.year, issue.mint) if draw.random() > 0.1 else (None, "")
    variety = draw.choice(["", "", *(one.name for one in of.subtypes), *(f"the {one.key}, R.3" for one in of.subtypes)])
    return Piece(f"c{at:03}", key, year, mint, some_grade(draw), variety, draw.choice([None, 0, 500, 500, 900, 12_000]))


def test_the_phone_fills_a_set_like_the_desk(module):
    draw = random.Random(51)
    cases = []
    for _ in range(250):
        few = draw.sample(TYPES, draw.randrange(1, 5))
        made = [some_slot(draw, at, few) for at in range(draw.randrange(1, 14))]
        cases.append((made, [some_piece(draw, at, few) for at in range(draw.randrange(0, 24))]))
    given = {"pack": KNOWN.pack(), "cases": [[[one.row() for one in made], [asdict(one) for one in held]] for made, held in cases]}
    said = module("plan/filling", """Promise.all(['plan/rungs', 'engine/unpack'].map((one) => import(`/web/${one}.js`))).then(([{makeRungs}, {unpacked}]) => {
        const {grades, types} = unpacked(given.pack);
        const rungs = makeRungs(grades);
        return given.cases.map(([slots, pieces]) => {
            const {filled, upgrades, better, spare, unclear} = it.fill(slots, pieces, {types, rungs});
            return {filled: Object.fromEntries(filled), upgrades: Object.fromEntries(upgrades), better: Object.fromEntries(better), spare, unclear};
        });
    })""", json.loads(json.dumps(given)))  # fmt: skip
    for (made, held), phone in zip(cases, said, strict=True):
        found = filling.fill(made, held, KNOWN.types)
        assert phone == json.loads(json.dumps({
            "filled": found.filled, "upgrades": found.upgrades, "better": found.better, "spare": found.spare,
            "unclear": [asdict(one) for one in found.unclear],
        }))  # fmt: skip
    assert sum(len(one["filled"]) for one in said) > 500 and sum(len(one["unclear"]) for one in said) > 100
    assert sum(len(one["better"]) for one in said) > 20 and sum(len(one["spare"]) for one in said) > 300


GOAL = "0f3b6f2e-6f3e-4d0a-9c1e-2f9a7f0d5c33"
HERE = """(engine) => import('/web/engine/sets-here.js').then(({refilled}) => engine.card('goal', '%s').then(refilled))""" % GOAL


def some_entry(draw, keys, coins):
    """An entry of a phone on the floor: it buys, sells, sends away, loses, corrects; (kind, body)."""
    coin = draw.choice(coins)
    what = draw.choice(["buy", "buy", "buy", "sell", "sell", "away", "lost", "edit", "edit"])
    if what == "buy":
        piece = some_piece(draw, 0, keys)
        about = {"denom": piece.type.partition("/")[0], "type": piece.type, "grade": piece.grade, "variety": piece.variety}
        about |= {"year": piece.year, "mint": piece.mint} if piece.year else {}
        return "purchase", {"bought": [{"coin": ids.new_id(draw.choice), "set": {name: value for name, value in about.items() if value}}],
                            "costs": [{"what": "price", "cents": draw.choice([0, 500, 900, 12_000])}], "date": "2026-03-16"}  # fmt: skip
    if what == "sell":
        return "sale", {"coin": coin, "price": 9_000, "date": "2026-03-16"}
    if what == "away":
        return "away", {"coins": [coin], "why": "grading", "with": "The graders", "date": "2026-03-16"}
    if what == "lost":
        return "lost", {"coin": coin, "how": "missing", "date": "2026-03-16"}
    return "coin.edit", {"coin": coin, "base": {}, "set": draw.choice([{"grade": "AU-58"}, {"grade": ""}, {"grade": "G-4"}])}


def test_a_set_on_the_phone_has_what_was_entered_there_as_the_desk_will(stocked, anna):
    draw = random.Random(52)
    few = TYPES[:6]
    made = [some_slot(draw, at, few) for at in range(26)]
    coins = [ids.new_id(draw.choice) for _ in range(50)]
    acts = [("set.add", {"goal": GOAL, "set": {"name": "Of every shape", "slots": [one.row() for one in made]}})]
    for coin in coins:
        piece = some_piece(draw, 0, few)
        about = {"denom": piece.type.partition("/")[0], "type": piece.type, "grade": piece.grade, "variety": piece.variety, "mint": piece.mint, "year": piece.year}
        acts.append(("purchase", {"bought": [{"coin": coin, "set": {name: value for name, value in about.items() if value}}],
                                  "costs": [] if piece.cost is None else [{"what": "price", "cents": piece.cost}], "date": "2026-03-14"}))  # fmt: skip
    with stocked.book.connected():
        assert {one.verdict for one in stocked.book.act_all(acts)} == {"applied"}
    anna.sync()
    before = anna.run(f"({HERE})(engine)")
    assert "here" not in before and 8 < before["filled"] < 26
    for _ in range(4):
        anna.context.set_offline(True)
        gone = set()
        for _ in range(6):
            kind, body = some_entry(draw, few, [coin for coin in coins if coin not in gone])
            anna.run(f"engine.record({json.dumps(kind)}, {json.dumps(body)})")
            gone |= {body.get("coin"), *body.get("coins", ())} - {None} if kind != "coin.edit" else set()
        coins = [coin for coin in coins if coin not in gone]
        phone = anna.run(f"({HERE})(engine)")
        anna.context.set_offline(False)
        anna.sync()
        assert anna.state()["waiting"] == 0 and anna.state()["refused"] == 0
        desk = anna.run(f"({HERE})(engine)")
        assert phone.pop("here") and "here" not in desk
        assert phone | {"at": 0} == desk | {"at": 0}
