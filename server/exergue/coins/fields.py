"""Taking typed fields out of a TOML table, with complaints that name the file, the place and the field."""

from fractions import Fraction

from exergue.coins import years as year_text


class Fields:
    """One table. Each take removes a field; `done` complains of those nobody asked for.

    Complaints go to `problems` and a harmless value comes back, so that one reading finds every fault.
    """

    def __init__(self, table: object, place: str, problems: list[str]):
        self.place, self.problems = place, problems
        if not isinstance(table, dict):
            self.complain("", "should be a table of fields.")
            table = {}
        self.left = dict(table)

    def complain(self, name: str, sentence: str) -> None:
        self.problems.append(f"{self.place}{', ' if name else ''}{name}: {sentence}")

    def _take(self, name: str, kind: type, wanted: str, default):
        if name not in self.left:
            if default is None:
                self.complain(name, "is missing.")
            return default
        value = self.left.pop(name)
        if not isinstance(value, kind) or (isinstance(value, bool) and kind is not bool):
            self.complain(name, f"should be {wanted}, not {value!r}.")
            return default
        return value

    def text(self, name: str, default: str | None = None) -> str:
        value = self._take(name, str, "text", default)
        return " ".join((value or "").split())

    def whole(self, name: str, default: int | None = None) -> int:
        value = self._take(name, int, "a whole number of 0 or more", default)
        if value is not None and value < 0:
            self.complain(name, f"should be a whole number of 0 or more, not {value}.")
        return value if value is not None else 0

    def maybe_whole(self, name: str) -> int | None:
        return self.whole(name) if name in self.left else None

    def flag(self, name: str) -> bool:
        return self._take(name, bool, "true or false", False)

    def share(self, name: str, default: float | None) -> float:
        value = self._take(name, (int, float), "a number from 0 to 1", default)
        if value is not None and not 0 <= value <= 1:
            self.complain(name, f"should be a number from 0 to 1, not {value}.")
        return float(value or 0)

    def fraction(self, name: str, default: str | None = None) -> Fraction:
        """An exact number above 0, written as text such as "104" or "6.74"."""
        value = self._take(name, str, "a number written as text", default)
        try:
            number = Fraction(value or "1")
        except (ValueError, ZeroDivisionError):
            number = Fraction(0)
        if number <= 0:
            self.complain(name, f"should be a number above 0, not “{value}”.")
        return number if number > 0 else Fraction(1)

    def fractions(self, name: str) -> tuple[Fraction, ...]:
        """One such number, or a list of them."""
        if not isinstance(self.left.get(name), list):
            return (self.fraction(name),)
        found = []
        for item in self.left.pop(name):
            self.left[name] = item
            found.append(self.fraction(name))
        return tuple(found)

    def years(self, name: str, default: str | None = None) -> tuple[int, ...]:
        """Years as "1800, 1802-1808"; a bare year may be a number."""
        value = self._take(name, (str, int), "years such as “1800, 1802-1808”", default)
        if value in (None, ""):
            return ()
        try:
            return year_text.parse(value)
        except ValueError as problem:
            self.complain(name, str(problem))
            return ()

    def texts(self, name: str, required: bool = False) -> tuple[str, ...]:
        value = self._take(name, list, "a list of texts", None if required else [])
        if any(not isinstance(item, str) for item in value or ()):
            self.complain(name, "should be a list of texts.")
            return ()
        return tuple(value or ())

    def one_or_more(self, name: str) -> tuple[str, ...]:
        if isinstance(self.left.get(name), str):
            return (self.text(name),)
        return self.texts(name, True)

    def table(self, name: str) -> dict:
        return self._take(name, dict, "a table", {})

    def tables(self, name: str) -> list:
        return self._take(name, list, "a list of tables", [])

    def done(self) -> None:
        for name in self.left:
            self.complain(name, "is not a field of the catalogue.")
