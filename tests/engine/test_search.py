"""Search as you type finds what a plain reading of the cards finds, however the query came about."""

import json
import random
import re
import unicodedata

import pytest
from support import browser as browsers

from exergue.labels.ids import new_id
from exergue.records.tables import Card

pytestmark = pytest.mark.browser
TYPES = [("half-cent", "draped-bust", 1806), ("half-cent", "classic-head", 1809), ("large-cent", "chain", 1793), ("large-cent", "matron-head", 1820)]
QUERIES = ["half cent 1806 vf20", "1893-s", "chain", "case 2", "rim nick", "ms-64 rb", "mint state", "café", "CAFE", "token", "zzz", "a1b2", "head 18",
           "very fine", "20", "case 1 draped", "  large   1820 "]  # fmt: skip


def plain(text):
    low = re.sub(r"(?<=[a-z0-9])[-‐-―](?=[a-z0-9])", "", text.lower())
    return "".join(c for c in unicodedata.normalize("NFKD", low) if not unicodedata.combining(c))


def read(cards, query, **filters):
    """The IDs that a person would find by reading each card."""
    found = set()
    for card in cards:
        said = [card["title"], card.get("titleText"), card["dateText"], card["grade"], card["gradeName"], card["place"], card["variety"],
                card["certified_by"], card["certificate"], *(note["text"] for note in card["notes"])]  # fmt: skip
        text = plain(" ".join(filter(None, said)))
        words = plain(query).split()
        if all(word in text or (len(word) >= 4 and word.isalnum() and slips(word) in card["id"]) for word in words):
            if all(card[name] == value for name, value in filters.items()):
                found.add(card["id"])
    return found


def slips(word):
    return word.upper().translate(str.maketrans("OIL", "011"))


@pytest.fixture
def cards(stocked):
    """The stock grows by a mixed lot, and by some remarks."""
    draw = random.Random(11)
    with stocked.book.connected():
        keys = [new_id(draw.choice) for _ in range(120)]
        for key in keys:
            denom, slug, year = draw.choice(TYPES)
            about = {"denom": denom, "type": f"{denom}/{slug}", "year": year} if draw.random() < 0.8 else {"title": "Token of a baker", "year": 1893, "mint": "S"}
            about |= {"grade": draw.choice(["VF-20", "MS-64 RB", "G-4", ""]), "place": f"Case {draw.randrange(1, 4)}"}
            stocked.book.act("coin.add", {"coin": key, "set": about})
            if draw.random() < 0.3:
                stocked.book.act("note", {"coin": key, "text": draw.choice(["Rim nick at 3 o’clock", "Bought near the café", "Even brown"])})
        return [json.loads(row.open) for row in Card.select().where(Card.kind == "coin")]


def find(phone, query, **filters):
    answer = phone.run(f"engine.search({json.dumps(query)}, {json.dumps({'limit': 1000} | filters)})")
    ids = [row["id"] for row in answer["rows"]]
    assert len(ids) == len(set(ids)) == answer["total"]
    return set(ids)


def test_whole_queries(anna, cards):
    anna.sync()
    for query in QUERIES:
        assert find(anna, query) == read(cards, query), query
    for filters in ({"place": "Case 2"}, {"denom": "large-cent"}, {"state": "sold"}, {"denom": "half-cent", "place": "Case 1", "state": "in stock"}):
        assert find(anna, "18", **filters) == read(cards, "18", **filters)
        assert find(anna, "", **filters) == read(cards, "", **filters)


def test_queries_typed_and_taken_back(anna, cards):
    anna.sync()
    anna.page.reload()
    key = cards[0]["id"]
    for query in [*QUERIES, key.lower(), f"{key[:5]}-{key[5:]}", f"half {key[2:8]}"]:
        for end in [*range(1, len(query) + 1), *range(len(query), 0, -2)]:
            assert find(anna, query[:end]) == read(cards, query[:end]), query[:end]


def test_what_waits_is_found_while_a_query_grows(anna, cards):
    anna.sync()
    with browsers.offline(anna.context):
        assert find(anna, "even") == read(cards, "even")
        anna.note(cards[3]["id"], "an even older note")
        assert find(anna, "even ol") == {cards[3]["id"]}
        bought = anna.buy()
        assert bought in find(anna, "half cent, draped bu") and find(anna, bought.lower()) == {bought}
        anna.sell(bought)
        assert bought not in find(anna, "half", state="in stock") and bought in find(anna, "half", state="sold")
        anna.run("engine.voidLast()")
        assert bought in find(anna, "half", state="in stock")


def test_the_first_rows_are_the_first_of_all(anna, cards):
    anna.sync()
    every = [row["id"] for row in anna.run("engine.search('', {limit: 1000})")["rows"]]
    few = anna.run("engine.search('', {limit: 7})")
    assert [row["id"] for row in few["rows"]] == every[:7] and few["total"] == len(every) == len(cards)

def test_a_search_that_was_begun_anew_while_it_loaded_finds_what_waits(anna, cards):
    """As when the first sync ends while the stock's screen is loading: two loads must not end in two searches."""
    anna.sync()
    with browsers.offline(anna.context):
        anna.run("""import('/web/engine/stock.js').then(async (stock) => {
          stock.reset();
          const begun = [engine.search('')];
          stock.reset();
          begun.push(engine.search(''));
          await Promise.all(begun);
        })""")
        bought = anna.buy()
        assert bought in find(anna, "half cent, draped bu")


def test_an_entry_that_was_read_with_others_meanwhile_is_painted_by_the_one_who_made_it(anna, stocked):
    """Else it would be kept, and not be found for a moment."""
    coin = stocked.ids[0]
    made = """Promise.all(['outbox', 'mine'].map((name) => import(`/web/engine/${name}.js`))).then(async ([outbox, mine]) => {
        const fact = await outbox.record('note', {coin: '%s', text: 'between two readings'}, undefined, () => {});
        await mine.load();
        return mine.add(fact);
    })""" % coin
    assert anna.run(made) == [coin]
