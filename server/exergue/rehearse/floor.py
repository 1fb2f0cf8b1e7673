"""The show floor of the rehearsed day: packing, a sighting, an expense, two phones that count, the drawer, the close at the desk."""

import time

from ..records.uuid7 import uuid7
from ..shows.drawer import denominations

FOOD = 1_250  # cents, cash


def _id() -> str:
    return uuid7(time.time_ns() // 1_000_000)


def pack(day) -> None:
    """Both phones pack, box by box, while the desk is in reach."""
    boxes: dict[str, list[str]] = {}
    for card in day.phone.of("coin"):
        if card["id"] in day.stock:
            boxes.setdefault(card["place"], []).append(card["id"])
    for number, (box, coins) in enumerate(sorted(boxes.items())):
        phone = (day.phone, day.second)[number % 2]
        phone.record("pack", {"show": day.show["id"], "coins": sorted(coins), "box": box})
    day.dealer = _id()
    day.phone.record("contact.add", {"contact": day.dealer, "set": {"name": "Dealer at table 12", "table": "12"}})
    verdicts = day.phone.sync() + day.second.sync()
    day.phone.sync()
    day.check(all(v["verdict"] == "applied" for v in verdicts), "every box was packed")
    packed = day.phone.card("show", day.show["id"]).get("packed")
    day.check(packed == len(day.stock), "the show's card counts every packed coin")
    day.boxes = boxes
    day.step(f"Packed {packed} coins in {len(boxes)} boxes, from two phones.")


def look_around(day) -> None:
    """Offline: a coin seen at a dealer's table for a want, and something to eat."""
    day.want = day.phone.of("want")[0]
    day.phone.record("sighting.add", {"sighting": _id(), "set": {
        "contact": day.dealer, "want": day.want["id"], "show": day.show["id"], "date": day.date, "denom": day.want["denom"],
        "type": day.want["type"], "grade": "F-12", "ask": 30_000, "offer": 25_000, "answer": "no"}})  # fmt: skip
    day.phone.record("money", {"what": "expense", "cents": FOOD, "how": "cash", "about": "food", "date": day.date, "show": day.show["id"]})
    day.step("Noted a coin seen at table 12, and an expense.")


def count(day) -> None:
    """Offline, each phone counts some of the boxes; one coin is counted by both. Then the drawer."""
    sold = {card["id"] for card in day.to_sell}
    day.round = _id()
    counts = {day.phone: {"Show box": list(day.blanks[: day.bought])}, day.second: {}}
    for number, (box, coins) in enumerate(sorted(day.boxes.items())):
        counts[(day.second, day.phone)[number % 2]][box] = [coin for coin in coins if coin not in sold]
    both = next((box, coins[0]) for box, coins in counts[day.second].items() if coins)
    counts[day.phone].setdefault(both[0], []).append(both[1])
    for phone, found in counts.items():
        for box, coins in found.items():
            if coins:
                seen = [{"coin": coin, "how": "scan"} for coin in sorted(set(coins))]
                phone.record("count", {"count": day.round, "show": day.show["id"], "place": box, "seen": seen})
    day.cash = (day.show["own"]["float"] or 0) + day.taken - day.spent - FOOD
    day.phone.record("drawer", {"show": day.show["id"], "date": day.date, "pieces": _pieces(day.cash)})
    day.counted = {coin for found in counts.values() for coins in found.values() for coin in coins}
    day.step(f"Counted {len(day.counted)} coins with two phones, and the drawer by denomination.")


def _pieces(cents: int) -> list[dict]:
    """Notes and coins that make an amount, the largest first."""
    pieces = []
    for worth in sorted({one.cents for one in denominations("USD")}, reverse=True):
        number, cents = divmod(cents, worth)
        if number:
            pieces.append({"cents": worth, "number": number})
    return pieces


def close(day) -> None:
    """At the desk: the count agrees, and the show is closed."""
    show = f"/desk/shows/{day.show['id']}"
    day.check("Everything agrees" in day.desk.open(f"{show}/count").text, "the desk finds no difference between the count and the book")
    page = day.desk.open(f"{show}/close")
    day.desk.send(f"{show}/close", page.form("do"), do="close")
    day.phone.sync()
    card = day.phone.card("show", day.show["id"])
    day.check(bool(card.get("closed")), "the phone knows that the show is closed")
    day.check(card["own"]["cash"] == card["own"]["drawer"]["cents"] == day.cash, "the drawer holds what the book says")
    day.check("closed with differences" not in day.desk.open("/desk/looks").text, "nothing of the show waits under Needs a look")
    seen = day.phone.card("want", day.want["id"]).get("sightings") or []
    day.check(any(one["dealer"] == "Dealer at table 12" for one in seen), "the want says where it was seen")
    deals = day.phone.card("contact", day.dealer)["own"]["deals"]
    day.check(len(deals) == day.bought, "the dealer's card lists what was bought there")
    day.check("own" not in day.second.card("show", day.show["id"]), "the helper's phone sees no cash")
    day.step("Closed the show at the desk; stock and cash agree.")
