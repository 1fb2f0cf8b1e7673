"""For each difference of a count: its likely story in words, and the actions that settle it. Pure."""

from dataclasses import dataclass, replace

from .expected import Coin, Went

KINDS = {
    "missing": "Not counted", "gone": "Counted, but gone by the book", "never packed": "Counted, but never packed",
    "unknown": "Unknown label", "place": "In another box", "twice": "Perhaps one label on two coins",
}  # fmt: skip


@dataclass(frozen=True)
class Action:
    """Something that settles a difference: a fact of this kind with this body; `asks`: a person must give more (a price) first."""

    name: str
    says: str
    kind: str
    body: dict
    asks: bool = False


@dataclass(frozen=True)
class Difference:
    """`when` (ms) and `who` are of the entry or scan that tells most; `explained`: nothing is to be done."""

    key: str
    kind: str
    coin: str
    story: str
    when: int | None = None
    who: str = ""
    actions: tuple[Action, ...] = ()
    explained: bool = False
    settled: str | None = None

    @property
    def open(self) -> bool:
        return not self.explained and self.settled is None


def settled(one: Difference, asked) -> Difference:
    """The difference with the words in which it was explained, and with the action of explaining it."""
    show = {"show": asked.show} if asked.show else {}
    words = Action("settle", "Explain it in words", "settle", show | {"key": one.key, "note": ""}, asks=True)
    return replace(one, settled=asked.settled.get(one.key), actions=(*one.actions, words))


DESK = "the desk"


def _on(by: str) -> str:
    """Where an entry was made, in words."""
    return f"at {by}" if by == DESK else f"on {by}"


def _key(asked, kind: str, coin: str) -> str:
    return f"{asked.round}/{kind.replace(' ', '-')}/{coin}"


def missing(coin: Coin, last: int, asked) -> Difference:
    """A coin that should be there and was not scanned; `last`: the last scan of the round."""
    came, day = coin.came, {"date": asked.day}
    told = CAME[coin.how]
    if came and coin.how in ("bought", "traded in") and came.when > last:
        story = f"{told} at {asked.clock(came.when)} {_on(came.by)}, after the count: nobody could have scanned it."
        return Difference(_key(asked, "missing", coin.id), "missing", coin.id, story, came.when, came.by, explained=True)
    said = [told]
    if coin.box:
        said.append(f"in {coin.box}" if coin.how == "in the book" else f"into {coin.box}" if coin.how == "packed" else f"and put into {coin.box}")
    if came and coin.how != "in the book":
        said.append(f"at {asked.clock(came.when)} {_on(came.by)}")
    story = f"{' '.join(said)}, and not counted."
    actions = []
    if coin.undone:
        undone = coin.undone
        story += f" A sale of it was undone at {asked.clock(undone.when)} {_on(undone.by)}: perhaps it was sold after all."
    if coin.label_twice:
        story += " Another coin waits for its label: perhaps that one lies there."
    if coin.how == "packed":
        actions.append(Action("unpack", "It stayed at home", "pack", {"show": asked.show, "coins": [coin.id], "undo": True}))
    actions.append(Action("lost", "It is missing", "lost", {"coin": coin.id, "how": "missing"} | day))
    actions.append(Action("sale", "It was sold", "sale", {"coin": coin.id} | day | ({"show": asked.show} if asked.show else {}), asks=True))
    who, when = (coin.undone.by, coin.undone.when) if coin.undone else (came.by, came.when) if came else ("", None)
    return Difference(_key(asked, "missing", coin.id), "missing", coin.id, story, when, who, tuple(actions))


CAME = {"packed": "Packed", "bought": "Bought at the show", "traded in": "Traded in at the show", "in the book": "In the book"}


def unexpected(key: str, coin: Coin | None, scans: list, asked) -> Difference:
    """A label that was scanned and should not be there."""
    seen = scans[-1]
    counted = f"counted{f' in {seen.place}' if seen.place else ''} at {asked.clock(seen.when)} {_on(seen.by)}"
    if coin is None:
        return _unknown(key, counted, seen, asked)
    if coin.went:
        return _gone(coin, coin.went, counted, seen, asked)
    story = f"In the book{f', in {coin.box}' if coin.box else ''}, and never packed for this show; {counted}."
    pack = {"show": asked.show, "coins": [coin.id]} | ({"box": seen.place} if seen.place else {})
    action = Action("pack", "It came along", "pack", pack)
    return Difference(_key(asked, "never packed", key), "never packed", key, story, seen.when, seen.by, (action,))


def _unknown(key: str, counted: str, seen, asked) -> Difference:
    if key in asked.blanks:
        story = f"A printed label whose coin nobody entered; {counted}. Perhaps a coin that was bought there."
    else:
        story = f"The book has no coin under this label; {counted}. It may be another book's, or its entry was undone."
    bought = {"bought": [{"coin": key, "set": {}}], "costs": [], "date": asked.day} | ({"show": asked.show} if asked.show else {})
    action = Action("purchase", "Enter its purchase", "purchase", bought, asks=True)
    return Difference(_key(asked, "unknown", key), "unknown", key, story, seen.when, seen.by, (action,))


def _gone(coin: Coin, went: Went, counted: str, seen, asked) -> Difference:
    entry, day = went.entry, {"date": asked.day}
    at = f"{went.state.capitalize()} at {asked.clock(entry.when)} {_on(entry.by)}"
    one = Difference(_key(asked, "gone", coin.id), "gone", coin.id, f"{at}, but {counted}.", entry.when, entry.by)
    if entry.when > seen.when:
        return replace(one, story=f"{at}; {counted}, before it went.", explained=True)
    if went.how in ("sold", "traded out"):
        whole = " (with all that it names)" if entry.others else ""
        actions = [Action("void", f"That entry was wrong: undo it{whole}", "void", {"of": entry.fact})]
        if went.how == "sold":
            actions.append(Action("return", "The buyer gave it back", "return", {"of": entry.fact, "coins": [coin.id]} | day, asks=True))
        return replace(one, actions=tuple(actions))
    if went.how == "returned":
        return one
    return replace(one, actions=(Action("back", "It is back", "back", {"coins": [coin.id]} | day),))


def elsewhere(coin: Coin, scans: list, asked) -> Difference | None:
    """A coin that is there, as it should be, but in another box than the book says, or in two."""
    places = {scan.place: scan for scan in scans if scan.place}
    if len(places) > 1 or coin.label_twice:
        where = " and ".join(f"{place} at {asked.clock(scan.when)} {_on(scan.by)}" for place, scan in places.items())
        story = f"Counted in {where}: moved meanwhile, or two coins carry this label." if len(places) > 1 else (
            "Counted once, but another coin waits for this label: look whether one label is on two coins.")  # fmt: skip
        return Difference(_key(asked, "twice", coin.id), "twice", coin.id, story, scans[-1].when, scans[-1].by, _moved(coin, scans[-1], asked))
    seen = scans[-1]
    if not seen.place or not coin.box or seen.place == coin.box:
        return None
    story = f"{CAME[coin.how]} in {coin.box}, and counted in {seen.place} at {asked.clock(seen.when)} {_on(seen.by)}."
    return Difference(_key(asked, "place", coin.id), "place", coin.id, story, seen.when, seen.by, _moved(coin, seen, asked))


def _moved(coin: Coin, seen, asked) -> tuple[Action, ...]:
    if not seen.place or seen.place == coin.box:
        return ()
    if coin.how == "packed":
        return (Action("box", f"It is in {seen.place} now", "pack", {"show": asked.show, "coins": [coin.id], "box": seen.place}),)
    edit = {"coin": coin.id, "base": {"place": coin.box}, "set": {"place": seen.place}}
    return (Action("place", f"It is in {seen.place} now", "coin.edit", edit),)
