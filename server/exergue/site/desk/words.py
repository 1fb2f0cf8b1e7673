"""Entries of the journal in plain words: one sentence each, and the details below it."""

from ...coins import grades
from ...labels import ids
from ...records import knowledge, reading
from .. import here
from . import deal_words, floor_words, showing
from .deal_words import COSTS

FIELDS = {
    "denom": "denomination", "type": "type", "title": "description", "year": "year", "mint": "mint mark",
    "variety": "variety", "grade": "grade", "certified_by": "certified by", "certificate": "certificate number",
    "place": "place", "ask": "asking price", "floor": "floor", "publish": "what strangers may see",
    "years": "dates", "grade_from": "grade from", "grade_to": "grade to", "ceiling": "ceiling",
    "priority": "priority", "note": "note", "name": "name", "table": "table", "starts": "first day",
    "ends": "last day", "float": "cash float", "date": "day", "price": "price", "fee_included": "buyer’s fee included",
    "problem": "problem coin", "source": "source", "pieces": "number of pieces", "held": "how it is held",
    "tax_rate": "tax rate in per cent", "tax_place": "place of the tax", "budget": "budget", "phone": "telephone",
    "contact": "dealer", "dealer": "dealer’s name", "show": "show", "want": "want", "offer": "offer", "answer": "answer",
    "tax_rate": "tax rate in per cent", "tax_place": "place of the tax",
    "slots": "slots", "template": "template", "goal": "set", "slot": "slot", "types": "types",
}  # fmt: skip
SETTINGS = {
    "name": "name of the book", "currency": "currency", "label_address": "label address", "cost_code": "cost code",
    "found_line": "“if found” line", "label_shows": "what labels show", "lots": "order in which pieces of a lot are sold",
    "held": "usual way to hold coins", "spot": "spot prices of metals", "worth": "weighing of past sales",
}  # fmt: skip
ANSWERS = {"fits": "fits", "differs": "does not fit", "unsure": "cannot tell", "": "cleared"}
MONEY = {"ask", "floor", "ceiling", "float", "price", "budget", "offer"}


def value(field: str, said) -> str:
    """A field's value as people read it; “nothing” for an empty one."""
    if said is None or said == "" or said == []:
        return "nothing"
    if field in MONEY:
        return showing.money(said)
    if field == "denom":
        return knowledge.denomination_name(said)
    if field == "type":
        return knowledge.type_name(said) or said
    if field in ("starts", "ends", "date"):
        return showing.day(said)
    if isinstance(said, bool):
        return "yes" if said else "no"
    if field == "spot":
        return "; ".join(f"{metal} {showing.money(one['cents'])} an ounce on {showing.day(one['date'])}" for metal, one in said.items())
    if isinstance(said, dict):
        return ", ".join(f"{name} {value(field, one)}" for name, one in said.items())
    if field == "slots":
        return showing.count(len(said), "slot")
    if field == "types":
        return ", ".join(knowledge.type_name(key) or key for key in said)
    if isinstance(said, list):
        return ", ".join(map(str, said))
    return str(said)


def coin_line(fields: dict) -> str:
    """What a coin's fields say it is: “Half cent, Draped Bust, 1806, VF-20”."""
    name = knowledge.type_name(fields.get("type") or "") or fields.get("title") or ""
    what = knowledge.denomination_name(fields.get("denom") or "")
    if name and what and not name.lower().startswith(what.lower()):
        what = f"{what}, {name}"
    date = str(fields["year"]) + (f"-{fields['mint']}" if fields.get("mint") else "") if fields.get("year") else ""
    return ", ".join(filter(None, [what or name or "a coin not named yet", date, fields.get("grade")]))


def coin_named(coin: str | None) -> str:
    """What the coin with this ID is; "" where the book has none."""
    card = here.book().card("coin", coin) if coin else None
    return coin_line(card) if card else ""


def changes(body: dict) -> list[str]:
    """One line a field of an edit."""
    base = body.get("base") or {}
    return [
        f"{FIELDS.get(name, name).capitalize()}: {value(name, base.get(name)) if name in base else '…'} → {value(name, now)}"
        for name, now in body["set"].items()
    ]


def sentence(line: dict) -> tuple[str, list[str]]:
    """(what was done, details) of one entry; an entry that cannot be read is named by its kind."""
    try:
        return SAID[line["kind"]](line["body"])
    except (KeyError, TypeError, ValueError, AttributeError, grades.BadGrade):
        return f"An entry of the kind “{line['kind']}”", []


def _purchase(body: dict) -> tuple[str, list[str]]:
    total = sum(cost["cents"] for cost in body["costs"])
    many = len(body["bought"])
    what = "" if many == 1 else f" {many} coins"
    seller = f" from {body['from']}" if body.get("from") else ""
    said = f"Bought{what}{seller} on {showing.day(body['date'])} for {showing.money(total)}"
    details = deal_words.costs(body["costs"]) + deal_words.paid(body) + deal_words.about(body)
    if many == 1 and body["bought"][0]["set"]:
        details.insert(0, coin_line(body["bought"][0]["set"]))
    return said, details


def _sale(body: dict) -> tuple[str, list[str]]:
    buyer = f" to {body['to']}" if body.get("to") else ""
    return (f"Sold{buyer} on {showing.day(body['date'])} for {showing.money(body['price'])}",
            deal_words.costs(body.get("costs"), deal_words.OURS) + deal_words.about(body))  # fmt: skip


def _void(body: dict) -> tuple[str, list[str]]:
    undone = reading.fact(body["of"])
    said = sentence(undone)[0] if undone else "an entry"
    return f"Undid: {said}", [body["reason"]] if body.get("reason") else []


def _decide(body: dict) -> tuple[str, list[str]]:
    chosen = {"keep": "kept what stood", "take": "took the other version", "first": "the first sale stands",
              "second": "the second sale stands", "drop": "left the entry out", "new_id": "gave it another label"}
    more = [f"New label {ids.show(body['coin'])}"] if body.get("coin") else []
    return f"Decided: {chosen[body['choice']]}", more


SAID = {
    **deal_words.SAID,
    **floor_words.SAID,
    "coin.add": lambda b: (f"Entered: {coin_line(b['set'])}", []),
    "coin.edit": lambda b: ("Changed " + " and ".join(FIELDS.get(n, n) for n in b["set"]), changes(b)),
    "purchase": _purchase,
    "sale": _sale,
    "check": lambda b: (f"Checklist, {b['key'].replace('-', ' ')}: {ANSWERS[b['answer']]}", [b["note"]] if b.get("note") else []),
    "note": lambda b: ("Note", [b["text"]]),
    "photo": lambda b: (f"Photo of the {b['side']}", []),
    "receipt": lambda b: ("Photo of a receipt", []),
    "void": _void,
    "decide": _decide,
    "want.add": lambda b: (f"Wanted: {coin_line(b['set'])}", []),
    "want.edit": lambda b: ("Changed a want", changes(b)),
    "want.drop": lambda b: ("Took a want off the list", [b["reason"]] if b.get("reason") else []),
    "set.add": lambda b: (f"Made the set {b['set'].get('name') or 'without a name'}", [value("slots", b["set"].get("slots") or [])]),
    "set.edit": lambda b: ("Changed a set", changes(b)),
    "set.drop": lambda b: ("Took a set out of the book", [b["reason"]] if b.get("reason") else []),
    "show.add": lambda b: (f"Entered the show {b['set'].get('name') or 'without a name'}", []),
    "show.edit": lambda b: ("Changed a show", changes(b)),
    "contact.edit": lambda b: ("Changed a contact", changes(b)),
    "sighting.add": lambda b: (f"Seen: {coin_line(b['set'])}", [f"Asked: {value('ask', b['set']['ask'])}"] if b["set"].get("ask") else []),
    "sighting.edit": lambda b: ("Changed a sighting", changes(b)),
    "sale.seen": lambda b: (f"Recorded a past sale: {coin_line(b['set'])} for {value('price', b['set'].get('price'))}", []),
    "labels.blank": lambda b: (f"Printed {showing.count(len(b['ids']), 'blank label')}", []),
    "setting": lambda b: (f"Set the {SETTINGS[b['key']]}", [value(b["key"], b["value"])]),
    "import": lambda b: (f"Imported {b['file']}: {showing.count(b['rows'], 'row')}", []),
}
