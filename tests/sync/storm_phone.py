"""A phone in bad weather: what web/engine keeps and does, in memory, against the real protocol."""

import copy
import json

from exergue.labels.ids import new_id
from exergue.records import devices
from exergue.records.uuid7 import uuid7
from exergue.records.verdicts import JournalError
from exergue.sync import protocol, snapshot


class StormPhone:
    """`storage` may be lost or copied; `device` is the cookie, which survives both."""

    def __init__(self, world, name, role="owner"):
        self.world, self.random = world, world.random
        device, _ = devices.pair(devices.new_code(role), name, name)
        self.role, self.device, self.skew = role, device.id, self.random.choice([0, 0, 5_000, -31_536_000_000, 31_536_000_000])
        self.late = []
        self.start_empty(1)

    def start_empty(self, next_n):
        self.storage = {"epoch": self.world.book.epoch, "cursor": 0, "n": next_n - 1, "cards": {},
                        "waiting": [], "kept": [], "wiped": next_n > 1}  # fmt: skip

    # --- what a person does -----------------------------------------------------------------

    def act(self):
        pick, coins = self.random.choice, self.world.coins
        coin = pick(coins) if coins and self.random.random() < 0.7 else new_id(pick)
        if coin not in coins:
            coins.append(coin)
        kind, body = pick([
            ("purchase", {"bought": [{"coin": coin, "set": {"place": "Box 1"}}], "date": "2026-03-14",
                          "costs": [{"what": "price", "cents": self.random.randrange(10**6)}]}),
            ("sale", {"coin": coin, "price": self.random.randrange(10**6), "date": "2026-03-15"}),
            ("coin.edit", {"coin": coin, "base": {"place": pick(["Box 1", "Box 2"])}, "set": {"place": pick(
                ["Box 1", "Box 2", "Box 3"])}}),
            ("note", {"coin": coin, "text": f"note {self.random.randrange(100)}"}),
            ("check", {"coin": coin, "key": "facing", "answer": pick(["fits", "differs"]), "base": ""}),
            ("void", {"of": pick(self.world.said)["id"] if self.world.said else uuid7(0, self.random.getrandbits)}),
            ("of.the.future", {"coin": coin}),
            *self.money(coin, pick),
            *self.floor(coin, pick),
        ])  # fmt: skip
        held = self.storage
        held["n"] += 1
        when = self.world.tick() + self.skew
        fact = {"id": uuid7(abs(when), self.random.getrandbits), "n": held["n"], "kind": kind, "when": when, "body": body}
        held["waiting"].append(fact)
        self.world.said.append(fact)

    def money(self, coin, pick):
        day, other = {"date": "2026-03-16"}, pick(self.world.coins)
        sold = [fact["id"] for fact in self.world.said if fact["kind"] in ("sale", "ticket")]
        return [
            ("ticket", day | {"sold": [{"coin": one} for one in sorted({coin, other})], "price": self.random.randrange(10**6)}),
            ("return", day | {"of": pick(sold) if sold else uuid7(0, self.random.getrandbits), "refund": 0}),
            ("trade", day | {"out": [{"coin": other, "value": 500}], "in": [
                {"coin": new_id(pick), "set": {"title": "traded in"}, "value": 700}], "boot": -200}),
            ("memo", day | {"way": "out", "kind": "memo", "coins": [{"coin": coin, "net": 100}]}),
            ("back", day | {"coins": [coin]}),
            ("lost", day | {"coin": coin, "how": "missing"}),
            ("cost", day | {"coins": [{"coin": coin}], "costs": [{"what": "grading", "cents": self.random.randrange(10**4)}]}),
        ]  # fmt: skip

    def floor(self, coin, pick):
        show, other = {"show": self.world.show}, pick(self.world.coins)
        counted, dealer = (f"01890000-0000-7000-8000-0000000000{part}{self.random.randrange(3)}" for part in "cd")
        return [
            ("pack", show | {"coins": sorted({coin, other}), "box": pick(["Box 1", "Box 2"]), "undo": self.random.random() < 0.2}),
            ("count", show | {"count": counted, "place": pick(["Box 1", "Box 2"]), "seen": [{"coin": one} for one in sorted({coin, other})]}),
            ("drawer", show | {"date": "2026-03-16", "pieces": [{"cents": 100, "number": self.random.randrange(50)}]}),
            (pick(["show.close", "show.open"]), show | {"date": "2026-03-16"}),
            ("settle", show | {"key": f"{counted}/missing/{coin}", "note": "left at home"}),
            (pick(["contact.add", "contact.drop"]), {"contact": dealer} | pick([{"set": {"name": "A. Marsh"}}, {}])),
            ("sighting.add", {"sighting": uuid7(0, self.random.getrandbits), "set": {"contact": dealer, "ask": 900, "title": "seen"} | show}),
        ]  # fmt: skip

    # --- what the weather does ----------------------------------------------------------------

    def wipe(self):
        """The browser clears its storage; what was not sent is lost, and what was sent is on the desk alone."""
        self.world.unsent |= {fact["id"] for fact in self.storage["waiting"]}
        self.world.on_desk_alone |= {fact["id"] for fact in self.storage["kept"]}
        device = devices.get(self.device)
        self.start_empty(device.next_n if device else 1)

    def clone(self):
        twin = copy.copy(self)
        twin.storage, twin.late = copy.deepcopy(self.storage), []
        return twin

    # --- sync ---------------------------------------------------------------------------------

    def sync(self, weather="fair"):
        """One exchange. Weather: fair, lost (the request), deaf (the answer), twice, late (the answer comes later)."""
        held = self.storage
        if weather == "lost":
            return False
        if devices.get(self.device) is None:  # paired after the backup that was put back: pair again, keep all
            self.new_identity(devices.pair(devices.new_code(self.role), "again", str(self.world.tick()))[0].id)
        if held["cursor"] == 0 and not held["cards"]:
            self.first_sync()
        asked = {"book": self.world.book.id, "epoch": held["epoch"], "cursor": held["cursor"],
                 "facts": held["waiting"][: self.random.randint(1, 5)], "wiped": held["wiped"]}  # fmt: skip
        if held["waiting"] and held["waiting"][0]["n"] > devices.get(self.device).next_n:
            asked["lost_before"] = held["waiting"][0]["n"]
        try:
            for _ in range(2 if weather == "twice" else 1):
                answer = json.loads(protocol.sync(self.world.book, devices.get(self.device), copy.deepcopy(asked)))
        except JournalError as problem:
            self.refused(problem)
            return False
        if weather == "late":
            self.late.append((held["cursor"], answer))
        elif weather != "deaf":
            self.take(held["cursor"], answer)
        return not held["waiting"] and not answer["more"]

    def late_answer(self):
        if self.late:
            self.take(*self.late.pop(0))

    def take(self, asked_from, answer):
        held = self.storage
        if asked_from != held["cursor"] or answer["epoch"] != held["epoch"]:
            return  # the base changed meanwhile: not for us any more
        told = {verdict["id"] for verdict in answer["verdicts"]}
        held["kept"] += [fact for fact in held["waiting"] if fact["id"] in told]
        held["waiting"] = [fact for fact in held["waiting"] if fact["id"] not in told]
        for seq, kind, key, card in answer["cards"]:
            if card is None:
                held["cards"].pop((kind, key), None)
            else:
                held["cards"][(kind, key)] = (seq, card)
        held["cursor"], held["wiped"] = answer["cursor"], False

    def first_sync(self):
        role = devices.get(self.device).role
        head, *packs, _ = [json.loads(line) for line in snapshot.lines(self.world.book, role)]
        for pack in packs:
            kind = pack["pack"].partition("/")[0]
            for seq, key, card in pack["cards"]:
                self.storage["cards"][(kind, key)] = (seq, card)
        self.storage["cursor"], self.storage["epoch"] = head["seq"], head["epoch"]

    def refused(self, problem):
        held = self.storage
        if problem.code == "restored":
            # All that is kept is offered again: the desk knows by its id what it has. Numbers alone would
            # not do: another phone of the same identity may have used them since.
            held["waiting"], held["kept"] = held["kept"] + held["waiting"], []
            held["epoch"], held["cursor"], held["cards"] = problem.more["epoch"], 0, {}
            self.number_from(problem.more["next_n"])
        elif problem.code == "cloned":
            self.new_identity(devices.clone_of(devices.get(self.device))[0].id)
        elif problem.code == "number_gap":
            self.number_from(problem.more["next_n"])
        else:
            raise problem

    def new_identity(self, device):
        """What was numbered under another identity is numbered anew before it is offered again."""
        self.device = device
        self.number_from(1)

    def number_from(self, n):
        for fact in self.storage["waiting"]:
            fact["n"], n = n, n + 1
        self.storage["n"] = n - 1
