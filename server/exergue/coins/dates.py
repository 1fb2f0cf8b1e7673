"""Whether a date was ever struck, said in a sentence."""

from exergue.coins.denominations import Denomination
from exergue.coins.model import Series, Type
from exergue.coins.years import show


def never_struck(
    t: Type, year: int | None, mint: str, series: Series, family: list[Type], denomination: Denomination
) -> str | None:
    """Why no such coin was struck, or None where it was. A missing year or mint mark is not asked about."""
    coins = denomination.plural
    mark = mint.strip().upper()
    if year is not None and year not in t.years:
        others = [other for other in family if year in other.years]
        if others:
            names = " or ".join(other.name for other in others)
            return f"No {t.name} {coins} are dated {year}; {coins} of {year} are {names}."
        if year in series.gaps:
            return f"No {coins} are dated {year}: {series.gaps[year]}"
        struck = sorted(y for other in family for y in other.years)
        if year < struck[0] and series.begun:
            return f"No {coins} are dated {year}: {series.begun}"
        if year > struck[-1] and series.ended:
            return f"No {coins} are dated {year}: {series.ended}"
        return f"No {t.name} {coins} are dated {year}; they are dated {show(t.years)}."
    if mark and mark not in t.mints:
        if not t.mints:
            return series.mint_note or f"{t.name} {coins} bear no mint mark."
        return f"No {t.name} {coins} bear the mint mark {mark}; they bear {', '.join(t.mints)}."
    if year is not None and not any(i.year == year and i.mint == mark for i in t.issues) and mark:
        return f"No {t.name} {coins} were struck with the mint mark {mark} in {year}."
    return None


def proof_note(t: Type, year: int | None, mint: str, denomination: Denomination) -> str | None:
    """A note, not a refusal: the date is known in proof only, or may be."""
    coins = denomination.plural
    mark = mint.strip().upper()
    issues = [i for i in t.issues if i.year == year]
    issue = next((i for i in issues if i.mint == mark), issues[0] if issues else None)
    if year in t.proof_only:
        note = f"{coins.capitalize()} dated {year} are known in proof only."
    elif year in t.proof_disputed:
        note = f"Whether any {coins} dated {year} were made for circulation is disputed."
    elif issue and issue.proof_only and issue.mint == mark:
        borne = f"with the mint mark {mark}" if mark else "without a mint mark"
        note = f"{coins.capitalize()} dated {year} {borne} are known in proof only."
    else:
        return None
    return f"{note} {issue.note}".strip() if issue else note
