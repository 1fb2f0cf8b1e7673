"""How rare: a number of known survivors as the two scales of the literature write it.

Sheldon's scale: Early American Cents (1949); authors differ on R-1 to R-3. Universal rarity scale (1992): each step about
twice the one before. Both from memory.
"""

_SHELDON = ((3, 8), (12, 7), (30, 6), (75, 5), (200, 4), (500, 3), (1250, 2))
_UNIVERSAL = (0, 1, 2, 4, 8, 16, 32, 64, 124, 249, 499, 999)  # the most that each step holds; then it doubles
_DOUBLING = 2000


def sheldon(survivors: int) -> str:
    """ "R-1" (over 1,250 known) to "R-8" (one to three). Raises ValueError for fewer than one."""
    if survivors < 1:
        raise ValueError("Sheldon's scale begins with one known piece.")
    return f"R-{next((step for most, step in _SHELDON if survivors <= most), 1)}"


def universal(survivors: int) -> int:
    """Step 0 (none known), 1 (one), 2 (two), 3 (three or four) … 12 (1,000 to 1,999), 13 (2,000 to 3,999) and on."""
    if survivors < 0:
        raise ValueError("A number of survivors is 0 or more.")
    for step, most in enumerate(_UNIVERSAL):
        if survivors <= most:
            return step
    step = len(_UNIVERSAL)
    most = _DOUBLING
    while survivors >= most:
        step, most = step + 1, most * 2
    return step
