"""One show day, step by step, over HTTP alone. Each step says what it did; each check says what it found."""

import secrets
from dataclasses import dataclass, field

from .. import asset_dir
from ..labels import ids, readback
from ..money import cents
from . import floor
from .desk import Desk
from .phone import Phone
from .served import Served

FILES = ("shows.csv", "coins.csv", "wants.csv", "past_sales.csv")
PURCHASES = (  # what is bought at the show, on blank labels: fields, then cost lines in cents
    ({"denom": "half-cent", "type": "half-cent/classic-head", "year": 1828, "grade": "VF-30", "place": "Show box"},
     {"price": 14_000}),
    ({"denom": "large-cent", "type": "large-cent/draped-bust", "year": 1803, "grade": "F-12", "place": "Show box"},
     {"price": 21_500, "tax": 1_505}),
)  # fmt: skip
DAY = "2027-03-19"


@dataclass
class Rehearsal:
    """What was done and found, in order."""

    served: Served
    name: str
    password: str
    steps: list[str] = field(default_factory=list)
    failures: list[str] = field(default_factory=list)
    checks: int = 0
    whole: bool = False  # the day was walked to its end

    def step(self, text: str) -> None:
        self.steps.append(text)

    def check(self, right: bool, what: str) -> None:
        """Count a check; `what` is the sentence that must hold."""
        self.checks += 1
        if not right:
            self.failures.append(f"Not so: {what}")

    # --- the day ------------------------------------------------------------------------------

    def walk(self) -> None:
        self.desk = Desk(self.served.base)
        self.desk.sign_in(self.name, self.password)
        self.bring_in()
        self.print_labels()
        self.pair()
        self.set_out()
        self.trade_offline()
        floor.look_around(self)
        floor.count(self)
        self.come_home()
        self.compare()
        floor.close(self)
        self.whole = True

    def bring_in(self) -> None:
        for name in FILES:
            data = (asset_dir("sample_inventory") / name).read_bytes()
            page = self.desk.open("/desk/import")
            preview, _, _ = self.desk.send("/desk/import", page.form("kind"), [("file", name, data)])
            form = preview.form("outlook")
            self.desk.send("/desk/import", form)
        phone_sees = self.desk.open("/desk/stock")
        self.check("Half cent" in phone_sees.text, "the imported stock is on the desk")
        self.step(f"Imported {len(FILES)} files at the desk.")

    def print_labels(self) -> None:
        _, pdf, _ = self.desk.wire.ask("GET", "/desk/labels/coins.pdf?state=in+stock&format=letter-30&dpi=600")
        texts = [text for page in readback.read(pdf, 300) for text in page]
        self.labels = {ids.parse(text) for text in texts}
        self.check(len(self.labels) == len(texts) > 0, "every printed label has an ID of its own")
        form = self.desk.open("/desk/labels?blank=6&format=letter-30").form("blank", "csrf_token")
        _, pdf, kind = self.desk.send("/desk/labels", form)
        self.check(kind == "application/pdf", "blank labels come as a PDF")
        self.blanks = [ids.parse(text) for page in readback.read(pdf, 300) for text in page]
        self.check(len(set(self.blanks)) == 6, "six blank labels read back from the PDF")
        self.step(f"Printed {len(self.labels)} labels and 6 blank ones, and read each back from the PDF.")

    def pair(self) -> None:
        self.phone, self.second = self.new_phone("Show phone", "owner"), self.new_phone("Table phone", "helper")
        coins = self.phone.of("coin")
        self.stock = {card["id"] for card in coins if card["state"] == "in stock"}
        self.check(self.stock == self.labels, "there is a label for every coin in stock, and for no other")
        self.check(all("own" not in card for card in self.second.of("coin")), "the helper's phone holds no cost")
        self.check({c["id"] for c in self.phone.of("blank")} == set(self.blanks), "the phone knows the blank labels")
        self.step(f"Paired two phones; the first sync brought {len(self.phone.cards)} cards.")

    def new_phone(self, name: str, role: str) -> Phone:
        form = self.desk.open("/desk/devices").form("role", "label")
        page, _, _ = self.desk.send("/desk/devices", form, role=role, label=name)
        phone = Phone(self.served.base, name)
        phone.pair(page.labelled["Pairing code"])
        phone.first_sync()
        phone.sync()
        return phone

    def set_out(self) -> None:
        self.show = max(self.phone.of("show"), key=lambda show: show["starts"])
        owned = [card for card in self.phone.of("coin") if card["id"] in self.stock and card["own"]["cost"] is not None]
        self.opening = (len(self.stock), sum(c["own"]["cost"] or 0 for c in self.phone.of("coin") if c["id"] in self.stock))
        self.date, self.bought = DAY, len(PURCHASES)
        floor.pack(self)
        self.to_sell = [card for card in owned if card["ask"]][:3]
        self.to_check = next(card for card in owned if card["type"] and card not in self.to_sell)
        self.served.stop()
        self.step(f"Went to {self.show['name']}; no network from here on.")

    def trade_offline(self) -> None:
        common = {"date": DAY, "show": self.show["id"], "payment": "cash"}
        for blank, (about, costs) in zip(self.blanks, PURCHASES, strict=False):
            lines = [{"what": what, "cents": amount} for what, amount in costs.items()]
            self.phone.record("purchase", {"bought": [{"coin": blank, "set": about}], "costs": lines,
                                           "from": "Dealer at table 12"} | common)  # fmt: skip
        for card in self.to_sell:
            self.phone.record("sale", {"coin": card["id"], "price": card["ask"]} | common)
        self.phone.record("check", {"coin": self.to_check["id"], "key": self.look, "answer": "fits", "base": ""})
        self.spent = sum(sum(costs.values()) for _, costs in PURCHASES)
        self.taken = sum(card["ask"] for card in self.to_sell)
        self.step(f"Bought 2 coins on blank labels, sold 3, ticked a checklist: {len(self.phone.waiting)} entries wait.")

    @property
    def look(self) -> str:
        from ..coins import catalogue

        return catalogue.load().checklist(self.to_check["type"])[0].key

    def come_home(self) -> None:
        self.served.start()
        count, helped = len(self.phone.waiting), len(self.second.waiting)
        self.phone.sync(forget_answer=True)  # the answer is lost on its way: the entries are sent again
        verdicts = self.phone.sync()
        self.check(len(verdicts) == count, "every entry got a verdict")
        self.check(all(v["verdict"] == "applied" for v in verdicts), "every entry was applied")
        self.check(not self.phone.waiting, "nothing waits on the phone any more")
        helped -= sum(v["verdict"] == "applied" for v in self.second.sync())
        self.check(helped == 0, "every entry of the helper's phone was applied")
        self.phone.sync()
        self.step(f"Back online: {len(verdicts)} verdicts, after the first answer had been lost.")

    def compare(self) -> None:
        sold = {card["id"] for card in self.to_sell}
        bought = set(self.blanks[: len(PURCHASES)])
        expected = self.stock - sold | bought
        for phone in (self.phone, self.second):
            held = {card["id"] for card in phone.of("coin") if card["state"] == "in stock"}
            self.check(held == expected, f"{phone.name} shows the stock that there is")
        for blank, (about, costs) in zip(self.blanks, PURCHASES, strict=False):
            card = self.phone.card("coin", blank)
            self.check(card["own"]["cost"] == sum(costs.values()), "a coin bought at the show has its landed cost")
            self.check(self.phone.card("blank", blank) is None, "a used blank label is blank no more")
            page = self.desk.open(f"/desk/coins/{blank}").text
            self.check(str(about["year"]) in page and "Show phone" in page, "the desk shows what was bought, and by whom")
        for card in self.to_sell:
            page = self.desk.open(f"/desk/coins/{card['id']}").text
            self.check(cents.show(card["ask"], "USD") in page and "sold" in page.lower(), "the desk shows the sale")
            now = self.phone.card("coin", card["id"])["own"]["sale"]
            self.check(now is not None and now["gain"] == card["ask"] - card["own"]["cost"], "the gain is price less all-in cost")
        answer = self.phone.card("coin", self.to_check["id"])["checks"].get(self.look, {}).get("answer")
        self.check(answer == "fits", "the ticked line of the checklist is there")
        stranger = Desk(self.served.base)
        self.check(self.public(stranger, sorted(bought)[0]) == self.public(stranger, ids.new_id(secrets.choice)),
                   "a stranger who scans an unpublished label learns nothing")  # fmt: skip
        self.step("Compared phone, second phone and desk, coin by coin.")

    def public(self, desk: Desk, coin: str) -> bytes:
        return desk.wire.ask("GET", f"/C/{coin}")[1]
