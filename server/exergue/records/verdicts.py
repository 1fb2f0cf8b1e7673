"""What becomes of a fact."""

from dataclasses import dataclass, field

APPLIED, MERGED, CONTESTED, REFUSED = "applied", "merged", "contested", "refused"


class Refused(Exception):
    """A fact that changes nothing. `code` is for programs, `message` one sentence for people."""

    def __init__(self, code: str, message: str, now=None):
        super().__init__(message)
        self.code, self.message, self.now = code, message, now


class JournalError(Exception):
    """A batch that cannot be taken as it is: `code`, `message` and what the device needs to go on."""

    def __init__(self, code: str, message: str, **more):
        super().__init__(message)
        self.code, self.message, self.more = code, message, more


@dataclass(frozen=True)
class Verdict:
    """The answer to one fact: applied, merged, contested or refused; `now` is the present value."""

    fact: str
    n: int
    verdict: str
    code: str | None = None
    message: str | None = None
    now: object = field(default=None)

    def as_json(self) -> dict:
        return {"id": self.fact, "n": self.n, "verdict": self.verdict,
                "code": self.code, "message": self.message, "now": self.now}  # fmt: skip
