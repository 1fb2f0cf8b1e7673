"""A made-up catalogue of many types in the form of the pack, for trials of naming: nothing in it is a coin."""

import random

from exergue.coins.pack import columns


def pack(base: dict, count: int, seed: int = 1793) -> dict:
    """`base`: a real pack, of which features, alloys, laws and checks are taken. About `count` types, twelve a
    denomination; neighbours share much, as design families do."""
    draw = random.Random(seed)
    values = {key: list(f["values"]) for key, f in base["features"].items() if f.get("core")}
    types, denominations = {}, []
    for d in range((count + 11) // 12):
        key = f"made-{d}"
        denominations.append({"key": key, "name": f"Made-up {d}", "plural": f"made-up {d}s", "country": "XX", "cents": d + 1,
                              "order": d, "first": 1790, "last": None})  # fmt: skip
        year, millimetres = 1790 + draw.randrange(60), 15 + draw.random() * 23
        grams = millimetres**3 / 2600 * draw.choice((1, 1.2, 1.8))
        usual = {name: draw.choice(of) for name, of in values.items()} | {"country": "us"}
        spoken = draw.sample(values["value"], 2)
        for t in range(min(12, count - 12 * d)):
            if draw.random() < 0.3:
                usual |= {name: draw.choice(values[name]) for name in draw.sample(("colour", "edge", "god", "pluribus", "date-place"), 2)}
            changed = draw.sample(("subject", "facing", "headgear", "back", "stars", "liberty", "edge"), draw.randrange(1, 5))
            usual |= {name: draw.choice(values[name]) for name in changed} | {"value": draw.choice(spoken)}
            shows = {name: [one, draw.choice(values[name])] if draw.random() < 0.05 else one for name, one in usual.items()}
            span = draw.choice((1, 2, 4, 8, 15, 25, 40))
            types[f"{key}/{t}"] = {
                "name": f"Type {t}", "title": f"Made-up {d}, Type {t}", "denom": key, "years": f"{year}-{year + span - 1}", "edge": "", "axis": "coin",
                "survivors": 10 ** draw.randrange(2, 9), "alloy": draw.choice(list(base["alloys"])), "mm": [round(millimetres, 1)] * 2, "obverse": "", "reverse": "",
                "weights": [{"grains": 0, "grams": round(grams, 3), "law": ""}], "shows": {n: v if isinstance(v, str) or v[0] != v[1] else v[0] for n, v in shows.items()},
                "struck": {mint: f"{year}-{year + span - 1}" for mint in draw.choice(([""], ["", "S"], ["", "D", "S"], ["", "CC", "O", "S"]))}, "looks": [],
            }  # fmt: skip
            year = min(2020, year + span)
    return base | {"types": columns(types), "denominations": denominations}
