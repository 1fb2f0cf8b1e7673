"""The phone's small modules, imported in Chromium from a served desk, against standards and independent libraries."""

import random
import re
import string
import unicodedata
import uuid
import zlib
from itertools import chain

import pytest
from stdnum.iso7064 import mod_37_2
from support.modules import served_modules

from exergue.labels import ids
from exergue.records.uuid7 import uuid7

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def module(tmp_path_factory, browser):
    """`module(name, expression, given)`: an expression's value, with the engine's module as `it`."""
    for served in served_modules(tmp_path_factory, browser):
        yield lambda name, *said: served(f"engine/{name}", *said)


def test_uuid_version_7_example(module):
    """RFC 9562, appendix A.6: 2022-02-22T14:22:22-05:00, rand_a CC3, rand_b 18C4DC0C0C07398F."""
    example = "017F22E2-79B0-7CC3-98C4-DC0C0C07398F".lower()
    moment, rand_a, rand_b = 1_645_557_742_000, 0xCC3, 0x18C4DC0C0C07398F
    assert uuid7(moment, lambda bits: rand_a << 62 | rand_b) == example
    tail = list(uuid.UUID(example).bytes[6:])
    unset = [tail[0] & 0x0F, tail[1], tail[2] & 0x3F, *tail[3:]]  # the phone sets version and variant itself
    for given in (tail, unset, [tail[0] | 0xF0, tail[1], tail[2] | 0xC0, *tail[3:]]):
        assert module("uuid7", "it.uuid7(given[0], Uint8Array.from(given[1]))", [moment, given]) == example


def test_check_characters_agree_with_python_stdnum(module):
    """ISO/IEC 7064 MOD 37-2; the first is the example of the ISBT 128 standard, from memory: check character H."""
    draw = random.Random(7064)
    bodies = ["G123498654321"] + ["".join(draw.choices(string.digits + string.ascii_uppercase, k=draw.randrange(1, 20))) for _ in range(500)]
    checks = module("ids", "given.map(it.checkCharacter)", bodies)
    assert checks[0] == "H" and checks == [mod_37_2.calc_check_digit(body) for body in bodies]


def test_every_slip_and_neighbour_swap_is_refused_as_python_stdnum_refuses_it(module):
    draw = random.Random(37)
    good = [ids.new_id(draw.choice) for _ in range(20)]
    slips = [one[:at] + other + one[at + 1 :] for one in good for at in range(10) for other in ids.ALPHABET]
    swaps = [one[:at] + one[at + 1] + one[at] + one[at + 2 :] for one in good for at in range(9)]
    texts = good + slips + swaps
    assert [read is not None for read in module("ids", "given.map((one) => it.parseId(one).id ?? null)", texts)] == [
        mod_37_2.is_valid(text) for text in texts
    ]


def test_crc_32_agrees_with_zlib(module):
    """The check value of CRC-32 in catalogues of such codes, from memory: `123456789` gives CBF43926."""
    draw = random.Random(32)
    texts = ["123456789", ""] + ["".join(chr(draw.randrange(128)) for _ in range(draw.randrange(200))) for _ in range(300)]
    sums = module("crc32", "given.map(it.crc32)", texts)
    assert sums[0] == 0xCBF43926 and sums == [zlib.crc32(text.encode()) for text in texts]


FIELDS = ("id", "seq", "state", "place", "denom", "type", "year", "mint", "title", "dateText", "grade", "gradeName", "ask", "photo", "free")
KINDS = [("half-cent", "half-cent/b", "Half cent, Bust"), ("half-cent", "half-cent/a", "Half cent, Cap"), ("cent", "cent/a", "Cent, Chain"),
         ("cent", "", "Écu à la couronne"), ("", "", "Token of a baker")]  # fmt: skip
RANKS = {"half-cent": 1, "cent": 2, "half-cent/a": 1793, "half-cent/b": 1800, "cent/a": 1793}
NOTES = ("", " even brown", " rim nick, from an old collection", " Überprägung über einem 6-Pfennig-Stück")
GRADES = (("VF-20", "Very Fine 20"), ("MS-64 RB", "Mint State 64, red-brown"), ("", ""))


def coin(draw: random.Random) -> dict:
    denom, kind, title = draw.choice(KINDS)
    year, mint = draw.choice((None, 1793, 1794, 1806, 1893)), draw.choice(("", "S", "O"))
    grade, name = draw.choice(GRADES)
    said = {"id": ids.new_id(draw.choice), "seq": 1, "state": draw.choice(("in stock", "sold")), "place": draw.choice(("Box 1", "Box 12", "")),
            "denom": denom, "type": kind, "year": year, "mint": mint if year else "", "title": title, "grade": grade, "gradeName": name,
            "ask": draw.choice((None, 12_000)), "photo": "", "free": draw.choice(NOTES)}  # fmt: skip
    said["dateText"] = "no date" if year is None else f"{year}-{said['mint']}" if said["mint"] else str(year)
    return said


def line(said: dict) -> str:
    return "\t".join("" if said[name] is None else str(said[name]) for name in FIELDS)


def plain(text: str) -> str:
    low = re.sub(r"(?<=[a-z0-9])[-\u2010-\u2015](?=[a-z0-9])", "", text.lower())
    return "".join(one for one in unicodedata.normalize("NFKD", low) if not "\u0300" <= one <= "\u036f")


def by_hand(coins: list[dict], query: str, filters: dict) -> list[str]:
    """Look at every coin for every word; sort them all."""

    def fits(said):
        text = plain(" ".join(said[name] for name in ("title", "dateText", "grade", "gradeName", "place", "free")))
        return all(word in text or (len(word) >= 4 and word.isalnum() and word.upper() in said["id"]) for word in plain(query).split())

    def order(said):
        return (*(RANKS.get(said[name], 9999) for name in ("denom", "type")), said["title"], said["year"] or 0, said["mint"], said["id"])

    found = [said for said in coins if all(said[name] == value for name, value in filters.items()) and fits(said)]
    return [said["id"] for said in sorted(found, key=order)]


def test_the_search_finds_what_looking_at_every_coin_finds(module):
    draw = random.Random(1793)
    coins = sorted((coin(draw) for _ in range(1500)), key=lambda said: said["id"])
    newer = {said["id"]: coin(draw) | {"id": said["id"]} for said in draw.sample(coins, 40)} | {(one := coin(draw))["id"]: one for _ in range(30)}
    gone = [said["id"] for said in draw.sample([one for one in coins if one["id"] not in newer], 25)]
    now = [newer.get(said["id"], said) for said in coins if said["id"] not in gone]
    now += [said for said in newer.values() if said["id"] not in {one["id"] for one in coins}]
    parts = [one["id"][at : at + 5].lower() for one in draw.sample(now, 8) for at in (0, 3)]
    words = ["half", "cent", "1806", "1893s", "1893-S", "vf20", "VF-20", "ms64", "brown", "ecu", "Écu", "über", "uberpragung", "box 1", "box 12",
             "no date", "mint state", "zzz", "6pfennig", "e", "half cent 18", "bust vf", *parts]  # fmt: skip
    asked = [[word, filters] for word in ["", *words] for filters in ({}, {"state": "sold"}, {"place": "Box 1", "denom": "cent"})]
    packs = ["\n".join(map(line, coins[at : at + 100])) for at in range(0, len(coins), 100)]
    changes = [[key, line(said)] for key, said in newer.items()] + [[key, None] for key in gone]
    found = module("finder", """(() => {
        const rank = (key) => given.ranks[key] ?? 9999;
        const finder = new it.Finder({denom: rank, type: rank});
        for (const texts of given.packs) finder.add([texts]);
        finder.sort();
        for (const [id, line] of given.changes) finder.change(id, line);
        return given.asked.map(([text, filters]) => { const {rows, total} = finder.find(text, {limit: 9999, ...filters}); return [total, rows.map((row) => row.id)] });
    })()""", {"ranks": RANKS, "packs": packs, "changes": changes, "asked": asked})  # fmt: skip
    expected = [by_hand(now, text, filters) for text, filters in asked]
    assert found == [[len(one), one] for one in expected]
    assert 10 < len({len(one) for one in expected}) and set(chain(*expected)) == {said["id"] for said in now}
