"""The ladder itself: its steps, strikes and designations, as data/grades.toml has them."""

from dataclasses import dataclass

from exergue.coins import own_data

_TABLE = own_data.table("grades.toml")


class BadGrade(ValueError):
    """The text is no grade; the message says why in one sentence."""


@dataclass(frozen=True)
class Step:
    """A rung with a name, such as VF, and its numbers. `also`: numbers that only some write."""

    key: str
    name: str
    numbers: tuple[int, ...]
    also: tuple[int, ...]
    said: tuple[str, ...]

    @property
    def all_numbers(self) -> tuple[int, ...]:
        return tuple(sorted(self.numbers + self.also))


@dataclass(frozen=True)
class Strike:
    """A way of striking that stands before the number in place of the step: PF, SP."""

    key: str
    name: str
    sound_from: int
    said: tuple[str, ...]


@dataclass(frozen=True)
class Mark:
    """A designation after the number: colour, mirrors or strike. `on`: prefixes that may carry it; empty: any."""

    key: str
    name: str
    group: str
    on: tuple[str, ...]
    said: tuple[str, ...]


STEPS = {
    s["key"]: Step(s["key"], s["name"], tuple(s["numbers"]), tuple(s.get("also", ())), tuple(s["said"]))
    for s in _TABLE["step"]
}
STRIKES = {s["key"]: Strike(s["key"], s["name"], s["from"], tuple(s["said"])) for s in _TABLE["strike"]}
MARKS = {
    m["key"]: Mark(m["key"], m["name"], m["group"], tuple(m["on"]), tuple(m["said"])) for m in _TABLE["mark"]
}
MARK_ORDER = {key: place for place, key in enumerate(MARKS)}
ADJECTIVES: dict[str, dict[str, int]] = _TABLE["adjective"]
PROBLEMS: tuple[str, ...] = tuple(_TABLE["problems"]["known"])
STEP_OF = {number: step for step in STEPS.values() for number in step.all_numbers}
TOP = max(STEP_OF)


def check_number(prefix: str, number: int) -> None:
    """Raises BadGrade unless `number` is a rung that `prefix` may stand before."""
    if not 1 <= number <= TOP:
        raise BadGrade(f"{prefix}-{number} is off the ladder, which runs from 1 to {TOP}.")
    if prefix in STRIKES:
        if number not in STEP_OF:
            raise BadGrade(f"{prefix}-{number} is no step of the ladder; {_nearest(number)}.")
        return
    step = STEPS[prefix]
    if number in step.all_numbers:
        return
    if number in STEP_OF:
        other = STEP_OF[number]
        raise BadGrade(f"{step.name} ({prefix}) {_span(step)}; {number} belongs to {other.name} ({other.key}).")
    raise BadGrade(f"{step.name} ({prefix}) {_span(step)}; there is no step {number}.")


def _span(step: Step) -> str:
    numbers = [str(n) for n in step.numbers]
    if len(numbers) > 4:
        return f"runs from {numbers[0]} to {numbers[-1]}"
    if len(numbers) == 1:
        return f"is {numbers[0]} alone"
    return f"is {', '.join(numbers[:-1])} or {numbers[-1]}"


def _nearest(number: int) -> str:
    below = max(n for n in STEP_OF if n < number)
    above = min(n for n in STEP_OF if n > number)
    return f"the nearest are {below} and {above}"
