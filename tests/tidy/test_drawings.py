"""The small drawings of what to look at: one symbol a value, named as the catalogue names it, and nothing else inside."""

import io
import re
import xml.etree.ElementTree as ET
from itertools import combinations

import pytest
from PIL import Image, ImageChops
from support.tree import ROOT

from exergue.coins import catalogue

SPRITE = ROOT / "web/type/drawings.svg"
SVG = "{http://www.w3.org/2000/svg}"
# Core features that words tell better than a picture could.
WORDS = {
    "country": "it is read: its answers are the very words on the coin",
    "value": "it is read: its answers are the very words on the coin",
}
ELEMENTS = {"svg", "defs", "symbol", "g", "use", "path", "circle", "ellipse", "rect", "text"}
ATTRIBUTES = {
    "id", "viewBox", "href", "x", "y", "cx", "cy", "r", "rx", "ry", "width", "height", "d", "transform", "rotate", "pathLength",
    "fill", "stroke", "stroke-width", "stroke-dasharray", "stroke-linecap", "font-size", "font-weight", "text-anchor",
}  # fmt: skip


@pytest.fixture(scope="module")
def sprite():
    return ET.parse(SPRITE).getroot()


@pytest.fixture(scope="module")
def drawn(sprite):
    return [symbol.get("id") for symbol in sprite.iter(f"{SVG}symbol")]


@pytest.fixture(scope="module")
def values():
    """Each feature's values, as the package's own catalogue has them."""
    return {key: list(feature.values) for key, feature in catalogue.load().features.items()}


def test_the_app_knows_exactly_the_symbols_of_the_sprite(drawn):
    listed = re.findall(r"'([^']+)'", (ROOT / "web/type/drawn.js").read_text())
    assert sorted(listed) == sorted(drawn)
    assert len(set(drawn)) == len(drawn)


def test_every_symbol_is_a_value_of_a_feature(drawn, values):
    names = {f"{feature}-{value}" for feature, some in values.items() for value in some}
    assert [name for name in drawn if name not in names] == []


def test_no_two_values_share_the_name_of_a_symbol(values):
    names = [f"{feature}-{value}" for feature, some in values.items() for value in some]
    assert len(set(names)) == len(names)


def test_every_core_feature_is_drawn_unless_it_is_words(drawn, values):
    core = {key for key, feature in catalogue.load().features.items() if feature.core}
    assert set(WORDS) <= core
    assert [f"{key}-{value}" for key in core - set(WORDS) for value in values[key] if f"{key}-{value}" not in drawn] == []


def test_a_feature_is_drawn_whole_or_not_at_all(drawn, values):
    """One picture among answers without pictures would look like the answer."""
    halves = {}
    for key, some in values.items():
        missing = [value for value in some if f"{key}-{value}" not in drawn]
        if missing and len(missing) < len(some):
            halves[key] = missing
    assert halves == {}


def test_every_symbol_stands_on_the_same_grid(sprite):
    assert {symbol.get("viewBox") for symbol in sprite.iter(f"{SVG}symbol")} == {"0 0 48 48"}


def test_the_sprite_brings_no_colour(sprite):
    """Ink comes from where a symbol is used: it must be read in the light and in the dark scheme."""
    paints = {each.get(name) for each in sprite.iter() for name in ("fill", "stroke")}
    assert paints <= {None, "none", "currentColor"}


def test_the_sprite_holds_shapes_alone(sprite):
    assert {each.tag.removeprefix(SVG) for each in sprite.iter()} <= ELEMENTS
    assert {name for each in sprite.iter() for name in each.attrib} <= ATTRIBUTES
    assert "url(" not in SPRITE.read_text()


def test_the_sprite_uses_only_its_own_parts(sprite):
    parts = {each.get("id") for each in sprite.iter()} - {None}
    used = {each.get("href") for each in sprite.iter(f"{SVG}use")}
    assert {href for href in used if href[:1] != "#" or href[1:] not in parts} == set()
    own = {each.get("id") for each in sprite.find(f"{SVG}defs")}
    assert own - {href[1:] for href in used} == set()


@pytest.fixture(scope="module")
def pictures(browser, drawn):
    """Each symbol as the app shows it: used from another file, black on white, 48 × 48. Its ink box, and its pixels."""
    cells = "".join(f'<svg viewBox="0 0 48 48"><use href="/web/type/drawings.svg#{name}"></use></svg>' for name in drawn)
    style = "svg{width:48px;height:48px;float:left;fill:none;stroke:#000;stroke-width:1.6} body{margin:0;width:480px}"
    page = browser.new_page(viewport={"width": 480, "height": 48 * -(-len(drawn) // 10)})
    page.route("**/*", lambda route: route.fulfill(path=SPRITE) if route.request.url.endswith(".svg") else route.fulfill(
        content_type="text/html", body=f"<!doctype html><style>{style}</style>{cells}"))  # fmt: skip
    page.goto("http://drawings.test/")
    page.wait_for_function("[...document.querySelectorAll('use')].every((use) => use.getBBox().width)")
    boxes = page.evaluate("[...document.querySelectorAll('use')].map((use) => use.getBBox()).map((b) => [b.x, b.y, b.x + b.width, b.y + b.height])")
    sheet = Image.open(io.BytesIO(page.screenshot())).convert("L")
    page.close()
    cut = [sheet.crop((48 * (i % 10), 48 * (i // 10), 48 * (i % 10) + 48, 48 * (i // 10) + 48)) for i in range(len(drawn))]
    return {name: (box, cell) for name, box, cell in zip(drawn, boxes, cut, strict=True)}


def test_every_drawing_shows_and_stays_on_its_grid(pictures):
    small = [name for name, (box, _) in pictures.items() if box[2] - box[0] < 24 or box[3] - box[1] < 12]
    outside = [name for name, (box, _) in pictures.items() if min(box) < -0.5 or max(box) > 48.5]
    assert (small, outside) == ([], [])


def test_the_answers_to_one_question_look_different(pictures, values):
    for feature, some in values.items():
        seen = {value: pictures[f"{feature}-{value}"][1] for value in some if f"{feature}-{value}" in pictures}
        for one, other in combinations(seen, 2):
            differing = sum(ImageChops.difference(seen[one], seen[other]).histogram()[96:])
            assert differing >= 20, f"{feature}: {one} and {other} look alike"
