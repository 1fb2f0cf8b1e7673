"""Invented coins whose labels the tests print: short and long texts, with and without price and cost code."""

import random

from exergue.labels import Label, ids

BASE = "https://exergue.example"
TEXTS = [
    (("Half cent, Draped Bust", "1806", "VF-20"), "$95", "BKX"),
    (("Large cent, Liberty Cap", "1794", "VG-8"), "$1,250.00", "LHA.XO"),
    (("Silver dollar, Liberty Head", "1893-S", "MS-64"), "", ""),
    (("Half dollar, Capped Bust, lettered edge", "1827", "AU-50 Details (cleaned)"), "$87.50", ""),
    (("Large cent, Braided Hair", "1846", "EF-40"), "", "R"),
    (("Quarter dollar, Standing Liberty", "1918/7-S", "F-12"), "$2,400", "OXE"),
    (("Eagle, Coronet", "no date", "PF-65 CAM"), "$12,345.67", "BLACKHORSE"),
]
LONGEST = (
    ("Quarter eagle, Capped Bust facing right, stars in the left field " * 2).strip(),
    "1796/1795 over date",
    "MS-63 Details (scratched, cleaned)",
)


def labels(count: int, base: str = BASE, seed: int = 7) -> list[Label]:
    """`count` labels, every seventh of them blank; the same for the same `seed`."""
    draw = random.Random(seed).choice
    made = []
    for at in range(count):
        coin = ids.new_id(draw)
        texts, ask, code = TEXTS[at % len(TEXTS)]
        address = ids.address(base, coin)
        made.append(Label.for_later(coin, base) if at % 7 == 6 else Label(coin, address, texts, ask, code))
    return made
