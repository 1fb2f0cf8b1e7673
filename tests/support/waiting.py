"""Waiting for something that another process does."""

import time


def until(ask, *, seconds: float = 60, what: str = ""):
    """The first true answer of `ask`, asked again and again; AssertionError after `seconds`."""
    end = time.monotonic() + seconds
    while not (answer := ask()):
        if time.monotonic() > end:
            raise AssertionError(f"waited {seconds} s for {what or ask}")
        time.sleep(0.02)
    return answer
