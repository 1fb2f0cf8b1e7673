"""The page of one deal: what it says, what each coin bears of it, how it was paid, its receipt."""

from flask import abort, render_template

from ...labels import ids
from ...records import reading
from ...records.verdicts import CONTESTED, REFUSED
from .. import here
from . import deal_words, desk, receipts, stands, words
from .deals import KINDS, coins_of

ONE = {"purchase": "Purchase", "sale": "Sale", "ticket": "Sale", "return": "Return", "trade": "Trade", "cost": "Later cost",
       "acquired": "Inherited, given or found", "memo": "Memo or consignment", "away": "Sent away", "back": "Back", "lost": "Lost or stolen",
       "withdrawn": "Held differently", "money": "Expense or income"}  # fmt: skip
assert set(ONE) == {*KINDS, "sale"}


@desk.get("/deals/<uuid:fact>")
def deal(fact):
    line = reading.fact(str(fact))
    if not line or line["kind"] not in ONE:
        abort(404, "The book has no such deal.")
    kind, body = line["kind"], line["body"]
    live = not line["voided"] and line["verdict"] != REFUSED
    said, details = words.sentence(line)
    seen = stands.of(kind, line["fact"], body) if live else None
    if seen and seen["due"] is not None:
        details = deal_words.beside(body)
    coins = [(key, here.book().card("coin", key)) for key in coins_of(body)]
    named = {row["id"] for table in seen["tables"] for row in table["rows"]} if seen else set()
    return render_template(
        "desk/deal.html", line=line, heading=ONE[kind], said=said, live=live, seen=seen, receipt=receipts.of(body),
        details=details, waits=line["verdict"] == CONTESTED,
        others=[(key, ids.show(key), words.coin_line(card) if card else "no longer in the book") for key, card in coins if key not in named],
    )  # fmt: skip
