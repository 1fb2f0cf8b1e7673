"""What the catalogue answers: dates, names, order of looking."""

import gzip
import json

import pytest

from exergue.coins import catalogue
from exergue.coins import pack as packing

KNOWN = catalogue.load()


@pytest.mark.parametrize(
    "key, year, mint, says",
    [
        ("half-cent/draped-bust", 1806, "", None),
        ("half-cent/draped-bust", None, "", None),
        ("half-cent/classic-head", 1812, "", "No half cents are dated 1812: coinage stopped after 1811 and began again in 1825."),
        ("half-cent/draped-bust", 1809, "", "No Draped Bust half cents are dated 1809; half cents of 1809 are Classic Head."),
        ("half-cent/liberty-cap-left", 1790, "", "No half cents are dated 1790: the first were struck in July 1793."),
        ("half-cent/braided-hair", 1858, "", "No half cents are dated 1858: the Act of February 21, 1857 ended the half cent."),
        ("half-cent/braided-hair", 1851, "O", "Half cents bear no mint mark: all were struck at Philadelphia. Leave the mint empty."),
        ("large-cent/chain", 1794, "", "No Flowing Hair, Chain large cents are dated 1794; large cents of 1794 are Liberty Cap."),
        (
            "large-cent/matron-head", 1815, "",
            "No large cents are dated 1815: the War of 1812 had cut off the planchets that came from England."
            " Pieces that read 1815 are altered, often from 1845.",
        ),
        ("half-cent/braided-hair", 1843, "", None),
    ],
)
def test_says_why_such_a_coin_was_never_struck(key, year, mint, says):
    assert KNOWN.check_date(key, year, mint) == says


def test_a_proof_only_date_is_noted_and_not_refused():
    assert KNOWN.date_note("half-cent/braided-hair", 1843).startswith("Half cents dated 1843 are known in proof only.")
    assert "disputed" in KNOWN.date_note("half-cent/classic-head", 1831)
    assert KNOWN.date_note("half-cent/braided-hair", 1849) is None


@pytest.mark.parametrize(
    "denomination, text, year, keys",
    [
        ("half-cent", "Draped Bust", None, ["draped-bust"]),
        ("half-cent", "draped bust half cent", 1806, ["draped-bust"]),
        ("half-cent", "Braided Head", None, ["braided-hair"]),
        ("half-cent", "Liberty Cap", None, ["liberty-cap-left", "liberty-cap-right"]),
        ("half-cent", "Liberty Cap", 1795, ["liberty-cap-right"]),
        ("half-cent", "", 1806, ["draped-bust"]),
        ("half-cent", "", None, []),
        ("half-cent", "Seated Liberty", None, []),
        ("half-cent", "Draped Bust", 1812, ["draped-bust"]),
        ("large-cent", "", 1793, ["chain", "wreath", "liberty-cap"]),
        ("large-cent", "Flowing Hair", 1793, ["chain", "wreath"]),
        ("large-cent", "Coronet", None, ["matron-head", "braided-hair"]),
        ("large-cent", "Coronet Head", 1820, ["matron-head"]),
        ("large-cent", "Coronet", 1839, ["matron-head", "braided-hair"]),
        ("large-cent", "large-cent/wreath", None, ["wreath"]),
        ("zorkmid", "Draped Bust", None, []),
    ],
)
def test_finds_the_type_that_people_mean_and_never_guesses(denomination, text, year, keys):
    assert [t.key for t in KNOWN.find_type(denomination, text, year)] == [f"{denomination}/{key}" for key in keys]


def test_every_name_of_a_type_finds_it():
    for each in KNOWN.types.values():
        for said in (each.name, *each.said):
            assert each.key in [t.key for t in KNOWN.find_type(each.denomination, said)], said


def test_a_name_made_of_words_of_the_denomination_finds_its_type_and_else_the_types_of_the_year():
    assert [t.key for t in KNOWN.find_type("dollar", "Trade dollar")] == ["dollar/trade"]
    assert KNOWN.find_type("dollar", "Silver dollar") == []
    assert [t.key for t in KNOWN.find_type("dollar", "Silver dollar", 1890)] == ["dollar/morgan"]


def test_a_word_that_tells_the_type_is_heard_though_the_denomination_is_named_by_it_too():
    assert [t.key for t in KNOWN.find_type("gb-penny", "cartwheel penny")] == ["gb-penny/cartwheel"]
    assert [t.key for t in KNOWN.find_type("gb-penny", "Victoria bun head penny")] == ["gb-penny/bun-head"]


def test_the_checklist_begins_with_what_would_end_the_deal():
    looks = KNOWN.checklist("large-cent/draped-bust", 1799)
    assert looks[0].key == "date-1799"
    kills = [d.kills for d in looks]
    assert kills == sorted(kills, reverse=True) and any(kills) and not all(kills)


def test_the_checklist_of_a_date_leaves_out_the_looks_of_others():
    keys = [d.key for d in KNOWN.checklist("large-cent/draped-bust", 1802)]
    assert "date-1799" not in keys and "stems" in keys
    everything = [d.key for d in KNOWN.checklist("large-cent/draped-bust")]
    assert "date-1799" in everything and len(set(everything)) == len(everything)


def test_near_types_name_each_other():
    assert "half-cent/liberty-cap-right" in KNOWN.near("half-cent/liberty-cap-left")
    for key in KNOWN.types:
        assert all(key in KNOWN.near(other) for other in KNOWN.near(key))


def test_every_struck_year_of_every_type_is_let_through():
    for each in KNOWN.types.values():
        assert [year for year in each.years if KNOWN.check_date(each.key, year, "")] == []


def test_the_pack_is_plain_json():
    text = json.dumps(KNOWN.pack())
    assert json.loads(text)["types"]["keys"] == list(KNOWN.types)


def test_the_mark_of_a_catalogue_follows_its_files(tmp_path):
    own = catalogue.mark()
    assert own == catalogue.mark() == catalogue.mark(tmp_path) == catalogue.mark(tmp_path / "none") and len(own) == 16
    (tmp_path / "mine.toml").write_text("denomination = 1", encoding="utf-8")
    first = catalogue.mark(tmp_path)
    (tmp_path / "mine.toml").write_text("denomination = 2", encoding="utf-8")
    assert len({own, first, catalogue.mark(tmp_path)}) == 3


def test_the_pack_names_looks_in_checklist_order_and_shared_checks_once():
    pack = KNOWN.pack()
    for key, t in KNOWN.types.items():
        entry = packing.coin_type(t, KNOWN)
        named = [one if isinstance(one, str) else one.get("key", one["feature"]) for one in entry["looks"]]
        assert named == [d.key for d in KNOWN.checklist(key)]
        assert {one for one in entry["looks"] if isinstance(one, str)} <= pack["checks"].keys()


def test_the_pack_says_what_the_pieces_of_every_type_show():
    pack = KNOWN.pack()
    for key, t in KNOWN.types.items():
        entry = packing.coin_type(t, KNOWN)
        shows = {name: [one] if isinstance(one, str) else one for name, one in entry["shows"].items()}
        assert {name for name, f in pack["features"].items() if f.get("core")} <= shows.keys(), key
        for name, values in shows.items():
            assert set(values) <= set(pack["features"][name]["values"]), (key, name)


def test_a_phone_carries_it_in_150_kilobytes():
    text = json.dumps(KNOWN.pack(), separators=(",", ":"), ensure_ascii=False)
    assert len(gzip.compress(text.encode())) <= 150_000


def test_years_written_short_read_back():
    from exergue.coins import years

    for each in KNOWN.types.values():
        assert years.parse(years.runs(each.years)) == each.years


def test_a_weight_that_two_laws_write_apart_is_told_once():
    told = next(d.fits for d in KNOWN.checklist("five-cents/jefferson-monticello") if d.key == "weight")
    assert len(KNOWN.type("five-cents/jefferson-monticello").grains()) == 2  # 77.16 grains, then 5 g
    assert told.startswith("77.16 gr (5.00 g) by law.")
    both = next(d.fits for d in KNOWN.checklist("small-cent/lincoln-steel") if d.key == "weight")
    assert "41.5 gr (2.69 g) for 1943, 42.5 gr (2.75 g) for 1943" in both
