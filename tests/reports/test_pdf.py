"""Reports as PDF, read back by an independent reader (pypdfium2)."""

import io
from dataclasses import replace

import pypdfium2
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image
from reports.samples import COLUMNS, rows, stock

from exergue.reports.face import REGULAR, face
from exergue.reports.model import BadReport, Column, Report, Section
from exergue.reports.pdf import LACKING, write_pdf


def opened(report, paper="letter", currency="USD"):
    return pypdfium2.PdfDocument(write_pdf(report, currency, paper))


def texts(document):
    return [page.get_textpage().get_text_bounded() for page in document]


def flat(document):
    return " ".join(" ".join(texts(document)).split())


def places(page, words):
    """(left, right) of each occurrence of `words` on a page, in points."""
    text = page.get_textpage()
    search, found = text.search(words, match_case=True), []
    while hit := search.get_next():
        boxes = [text.get_charbox(at) for at in range(hit[0], hit[0] + hit[1])]
        found.append((min(box[0] for box in boxes), max(box[2] for box in boxes)))
    return found


def test_every_row_is_there_to_be_searched():
    said = flat(opened(stock(300)))
    for row in rows(300):
        assert f"{row['coin']} {row['title']} {row['since']}" in said


def test_headings_come_again_and_pages_are_numbered():
    pages = texts(opened(stock(300)))
    assert len(pages) > 3
    for number, page in enumerate(pages[:-1], 1):
        assert f"{number} of {len(pages)}" in page
        assert "Since" in page and "Pieces" in page
    assert all("In stock (continued)" in page for page in pages[1:-1])
    assert sum("A caution." in page for page in pages) == 1
    assert "2026-11-28 · Amounts in USD." in pages[0]


@pytest.mark.parametrize(("paper", "size"), [("letter", (612, 792)), ("a4", (595.28, 841.89))])
def test_papers(paper, size):
    assert opened(stock(3), paper)[0].get_size() == pytest.approx(size, abs=0.01)


def test_many_columns_turn_the_page():
    columns = [*COLUMNS, *(Column(f"x{at}", f"A longer heading {at}") for at in range(5))]
    wide = [{**row, **{f"x{at}": "several words in a cell" for at in range(5)}} for row in rows(3)]
    across = opened(Report("Wide", "", columns, [Section("", wide)]))[0].get_size()
    assert across == (792, 612)


def test_another_paper_is_refused():
    with pytest.raises(BadReport, match="letter or a4"):
        write_pdf(stock(1), "USD", "legal")


@pytest.mark.parametrize("length", [40, 4_000])
def test_a_long_text_is_wrapped_and_never_cut(length):
    words = [f"word{at}" for at in range(length)]
    row = {**rows(1)[0], "title": " ".join(words)}
    document = opened(replace(stock(1), sections=[Section("", [row, *rows(2)])]))
    said = flat(document)
    assert all(f"{word} " in said for word in words)
    for page in document:
        left, _, right, _ = page.get_mediabox()
        text = page.get_textpage()
        boxes = [text.get_charbox(at) for at in range(text.count_chars())]
        assert all(left + 40 < box[0] and box[2] < right - 40 for box in boxes if box[2] > box[0])


WORDS = st.text(st.sampled_from("abc déß"), max_size=60)


@settings(max_examples=25)
@given(st.lists(st.lists(st.tuples(WORDS, st.integers(-(10**9), 10**9)), min_size=1, max_size=4), max_size=12), st.data())
def test_whatever_stands_in_a_table_all_of_it_is_printed_inside_the_margins(lines, data):
    wide = max(map(len, lines), default=1)
    columns = [column for at in range(wide) for column in (Column(f"w{at}", f"Words {at}"), Column(f"m{at}", "M", "money"))]
    cells = [{f"{kind}{at}": value for at, pair in enumerate(line) for kind, value in zip("wm", pair)} for line in lines]
    document = opened(Report("R", "", columns, [Section("S", cells, cells[:1])]), data.draw(st.sampled_from(["letter", "a4"])))
    said = "".join("".join(texts(document)).split())
    put = "".join(value for row in [*cells, *cells[:1]] for value in row.values() if isinstance(value, str))
    assert (said.count("é"), said.count("ß")) == (put.count("é"), put.count("ß"))
    for row in cells:
        for key, value in row.items():
            if key[0] == "m":
                assert f"{abs(value) // 100:,}.{abs(value) % 100:02}" in said
    for page in document:
        text, width = page.get_textpage(), page.get_width()
        boxes = [text.get_charbox(at) for at in range(text.count_chars())]
        assert all(44 <= box[0] and box[2] <= width - 44 for box in boxes if box[2] > box[0])


def test_a_word_wider_than_its_column_is_broken_whole():
    row = {"a": "z" * 900, "b": "y" * 700}
    said = flat(opened(Report("R", "", [Column("a", "A"), Column("b", "B")], [Section("", [row])])))
    assert (said.count("z"), said.count("y")) == (900, 700)


def test_figures_stand_under_one_another_on_their_decimals():
    lines = [{"title": "a", "weight": "13.36"}, {"title": "b", "weight": "6.2209"}, {"title": "c", "weight": "-107.5"}]
    page = opened(Report("R", "", COLUMNS[1:5:3], [Section("", lines)]))[0]
    marks = [places(page, words)[0][0] for words in (".36", ".2209", ".5")]
    assert max(marks) - min(marks) < 0.1


def test_money_ends_at_one_edge_and_minus_is_a_minus():
    lines = [{"title": "a", "cost": 123_456_78}, {"title": "b", "cost": -9_10}]
    page = opened(Report("R", "", [COLUMNS[1], COLUMNS[6]], [Section("", lines)]))[0]
    (one,), (other,) = places(page, "123,456.78"), places(page, "\u22129.10")
    assert one[1] == pytest.approx(other[1], abs=0.5)


def test_a_total_does_not_stand_alone_on_a_page():
    for count in range(30, 60):
        last = texts(opened(stock(count)))[-1]
        if "Total" in last:
            assert f"number {count - 1}" in last


def test_an_empty_section_says_none():
    assert "None." in flat(opened(Report("R", "", COLUMNS, [Section("Nothing", [])])))


def test_the_same_report_gives_the_same_bytes():
    assert write_pdf(stock(40), "USD") == write_pdf(stock(40), "USD")


def test_letters_that_the_face_lacks_are_told():
    report = replace(stock(1), sections=[Section("", [{"title": "δραχμή Łódź"}])])
    said = flat(opened(report))
    assert "?????? ?ódz" in said
    assert LACKING in said
    assert LACKING not in flat(opened(stock(1)))
    assert not face(REGULAR).lacks("What? “Größe” – ½ £")


def picture(size=(3000, 2000)):
    out = io.BytesIO()
    Image.new("RGB", size, "#B87333").save(out, "JPEG")
    return out.getvalue()


def test_photos_are_printed_small_from_bytes_and_from_a_file(tmp_path):
    (tmp_path / "coin.jpg").write_bytes(picture())
    columns = [Column("photo", "Picture", "photo"), COLUMNS[1]]
    lines = [{"photo": picture(), "title": "a"}, {"photo": tmp_path / "coin.jpg", "title": "b"}, {"photo": None, "title": "c"}]
    page = opened(Report("R", "", columns, [Section("", lines)]))[0]
    seen = [one for one in page.get_objects() if isinstance(one, pypdfium2.PdfImage)]
    assert len(seen) == 2
    left, low, right, high = seen[0].get_bounds()
    assert (right - left) / (high - low) == pytest.approx(1.5, rel=0.02)
    assert right - left <= 66.5
    ink = page.render(scale=1).to_pil().convert("RGB").getpixel((round(left + 20), round(page.get_height() - low - 20)))
    assert ink == pytest.approx((0xB8, 0x73, 0x33), abs=6)


def test_a_photo_that_cannot_be_read_is_told_and_the_rest_is_printed():
    columns = [Column("photo", "Picture", "photo"), COLUMNS[1]]
    said = flat(opened(Report("R", "", columns, [Section("", [{"photo": b"no picture", "title": "Half dime"}])])))
    assert "cannot be read" in said and "Half dime" in said
