"""The coin's card says where a coin is and whose it is."""

import pytest
from screens.conftest import CLASSIC, DRAPED

pytestmark = pytest.mark.browser


def test_the_card_says_with_whom_a_coin_is_and_until_when(anna, table):
    with table.book.connected():
        table.book.act_all([("memo", {"way": "out", "kind": "memo", "coins": [{"coin": DRAPED, "net": 10_000}], "with": "Orla Penhale",
                                      "date": "2026-11-01", "due": "2026-12-15"})])  # fmt: skip
        table.book.act_all([("cost", {"coins": [{"coin": CLASSIC}], "costs": [{"what": "grading", "cents": 3_500}], "date": "2026-11-02"})])
    anna.page.evaluate("import('/web/engine/engine.js').then(({engine}) => engine.sync())")
    anna.go(f"/c/{DRAPED}").shows("On memo").shows("Orla Penhale").shows("Dec 15, 2026")
    anna.go(f"/c/{CLASSIC}").shows("Grading paid later").shows("Nov 2, 2026")
