"""What the catalogue knows, at the desk: what near types show, what ends a deal, dates in proof only, the owner's files."""

import html
import re

import pytest

from exergue.records import knowledge

KIND = "half-cent/draped-bust"


def page(ada, coin) -> str:
    return html.unescape(ada.get(f"/desk/coins/{coin}").text)


def lines(text: str) -> list[str]:
    return re.findall(r"<li>.*?</li>", re.search(r'<ul class="checks">(.*?)</ul>', text, re.S)[1], re.S)


def test_each_look_says_what_near_types_show_instead(ada, buy):
    shown = lines(page(ada, buy()))
    looks = knowledge.catalogue().checklist(KIND, 1806)
    assert len(shown) == len(looks) and any(look.instead for look in looks)
    for line, look in zip(shown, looks, strict=True):
        assert look.look in line and look.fits in line
        for other, instead in look.instead.items():
            assert f"<dt>{knowledge.type_name(other)}</dt><dd>{instead}</dd>" in line
        assert line.count("<dt>") == (1 + len(look.instead) if look.instead else 0)


def test_what_ends_the_deal_is_marked_and_nothing_else_is(ada, buy):
    shown = lines(page(ada, buy()))
    marked = ["ends the deal if it does not fit" in line for line in shown]
    assert marked == [look.kills for look in knowledge.catalogue().checklist(KIND, 1806)] and any(marked) and not all(marked)


def test_a_date_that_is_known_in_proof_only_says_so(ada, buy):
    catalogue = knowledge.catalogue()
    key, year = next((t.key, t.proof_only[0]) for t in catalogue.types.values() if t.proof_only)
    coin = buy(type=key, denom=catalogue.types[key].denomination, year=year, grade="")
    note = catalogue.date_note(key, year)
    assert "proof only" in note and note in page(ada, coin)
    assert "proof only" not in page(ada, buy())


def test_an_answer_to_a_look_of_another_type_is_still_shown(ada, buy, book):
    coin = buy(type="", title="Half cent, type not known")
    book.act("check", {"coin": coin, "key": "drapery", "answer": "fits"})
    (line,) = lines(page(ada, coin))
    assert "Drapery" in line and "<dl" not in line


@pytest.fixture
def own_file(app, book):
    """Writes a file of the owner's own catalogue, and starts the desk again."""

    def write(name: str, text: str) -> None:
        (book.folder / "catalogue" / name).write_text(text, encoding="utf-8")
        knowledge.use(book.folder / "catalogue")

    yield write
    knowledge.use(None)


def settings(ada) -> str:
    return html.unescape(ada.get("/desk/settings").text).partition('id="own-types"')[2].partition("</section>")[0]


def test_a_book_without_types_of_its_own_says_so(ada):
    assert "There are none yet." in settings(ada)


def test_a_faulty_file_of_the_owner_is_told_with_its_faults(ada, own_file):
    own_file("half-cent-more.toml", 'denomination = "half-cent"\n[[type]]\nkey = "mine"\n')
    own_file("broken.toml", "denomination = <nothing>")
    told = settings(ada)
    assert told.count("left out") >= 2 and "in use" not in told
    assert "cannot be read as TOML" in told and "mend it and start the desk again" in told
    problems = knowledge.catalogue().problems
    assert len(problems) >= 2 and "<script" not in told
    for problem in problems:
        assert re.sub(r"^[\w-]+\.toml[,:] ", "", problem) in told


def test_a_sound_file_of_the_owner_is_in_use(ada, own_file):
    own_file("words.toml", 'denomination = "half-cent"\n')
    assert "words.toml" in settings(ada) and "in use" in settings(ada) and "left out" not in settings(ada)
