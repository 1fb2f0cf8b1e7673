"""Watching what is called, while it does its work as ever."""


def calls(monkeypatch, owner, name: str) -> list:
    """The first argument of each call of `owner`'s function `name` from here on, in order."""
    noted, real = [], getattr(owner, name)

    def watched(first, *rest):
        noted.append(first)
        return real(first, *rest)

    monkeypatch.setattr(owner, name, watched)
    return noted
