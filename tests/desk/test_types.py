"""The catalogue at the desk."""

import json
import re

from exergue.coins import catalogue
from exergue.records import knowledge

KNOWN = catalogue.load()


def test_every_denomination_every_series_and_every_type_has_its_page(ada):
    listed = ada.get("/desk/types").text
    for key in {t.denomination for t in KNOWN.types.values()}:
        assert f'href="/desk/types/{key}"' in listed
        series = ada.get(f"/desk/types/{key}")
        assert series.status_code == 200
        for t in KNOWN.of(key):
            assert f'href="/desk/types/{t.key}"' in series.text


def test_each_types_page_tells_what_the_catalogue_knows(ada):
    for key in KNOWN.types:
        page_of(ada, key)


def page_of(ada, key):
    answer = ada.get(f"/desk/types/{key}")
    assert answer.status_code == 200
    t = KNOWN.type(key)
    text = re.sub(r"\s+", " ", answer.get_data(as_text=True).replace("&#39;", "'").replace("&#34;", '"').replace("&amp;", "&"))
    assert t.obverse in text and all(look.fits in text for look in t.looks)
    assert all(f'<th scope="row">{year}</th>' in text for year in t.years)


def test_the_timeline_is_told_what_is_in_stock(ada, buy):
    buy(10_000, year=1806, grade="VF-30")
    page = ada.get("/desk/types/half-cent").text
    told = json.loads(re.search(r'<script type="application/json" id="timeline">(.*?)</script>', page)[1])
    assert told["held"] == {"half-cent/draped-bust": [1806]}
    assert next(t for t in told["types"] if t["key"] == "half-cent/classic-head")["proofOnly"]


def test_a_want_can_be_begun_from_a_type(ada):
    page = ada.get("/desk/wants/new?type=half-cent/classic-head").text
    assert re.search(r'<option selected value="half-cent/classic-head">', page) or 'value="half-cent/classic-head" selected' in page


def test_faults_of_the_owners_own_files_are_told_with_file_type_and_field(ada, tmp_path):
    folder = tmp_path / "catalogue"
    folder.mkdir()
    (folder / "tokens.toml").write_text('denomination = "half-cent"\n[[type]]\nkey = "mine"\n')
    knowledge.use(folder)
    try:
        assert "tokens.toml, half-cent/mine, name: is missing." in ada.get("/desk/types").text
    finally:
        knowledge.use(None)


def test_what_the_catalogue_does_not_know_is_not_found(ada):
    assert ada.get("/desk/types/no-such").status_code == 404
    assert ada.get("/desk/types/half-cent/no-such").status_code == 404
