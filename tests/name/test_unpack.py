"""What the phone makes of the pack is what the desk knows."""

import pytest

from exergue.coins import catalogue

pytestmark = pytest.mark.browser
KNOWN = catalogue.load()


READ = ("title", "years", "proofOnly", "single", "near", "weights", "subtypes", "looks", "issues", "shows")


@pytest.fixture(scope="module")
def types(module, packed):
    """key → the type as screens read it."""
    return module("engine/unpack", """Object.fromEntries(Object.entries(it.unpacked(given.pack).types)
        .map(([key, type]) => [key, Object.fromEntries(given.read.map((name) => [name, type[name]]))]))""", {"pack": packed, "read": READ})  # fmt: skip


def test_the_checklist_is_the_desks_word_for_word(types):
    for key in KNOWN.types:
        expected = []
        for d in KNOWN.checklist(key):
            entry = {"key": d.key, "feature": d.feature, "look": d.look, "fits": d.fits, "values": list(d.values), "instead": d.instead,
                     "seenAt": d.seen_at, "asks": d.asks, "kills": d.kills, "effort": d.effort, "error": d.error}  # fmt: skip
            expected.append(entry | ({"years": list(d.years)} if d.years else {}) | ({"caution": d.caution} if d.caution else {}))
        assert types[key]["looks"] == expected


def test_what_would_end_the_deal_comes_first(types):
    for key, each in types.items():
        kills = [look["kills"] for look in each["looks"]]
        assert kills == sorted(kills, reverse=True), key


def test_every_issue_is_there_in_order(types):
    for key, t in KNOWN.types.items():
        assert [(i["year"], i["mint"], i.get("mintage"), i.get("proofOnly", False)) for i in types[key]["issues"]] == [
            (i.year, i.mint, i.mintage, i.proof_only) for i in t.issues
        ]


def test_years_names_and_weights_are_the_desks(types):
    for key, t in KNOWN.types.items():
        entry = types[key]
        assert entry["years"] == list(t.years) and entry["proofOnly"] == list(t.proof_only) and entry["single"] == t.single_year
        assert entry["title"] == KNOWN.title(key) and entry["near"] == KNOWN.near(key)
        assert [one["years"] for one in entry["weights"]] == [list(w.years) for w in t.weights]
        assert [one["grains"] for one in entry["weights"]] == pytest.approx([float(w.grains) for w in t.weights], abs=0.0006)
        assert [one["years"] for one in entry["subtypes"]] == [list(s.years) for s in t.subtypes]
