"""Which coin goes into which slot: an optimal assignment in exact integers.

The Hungarian method with potentials (Kuhn 1955, Munkres 1957, in the form with shortest augmenting paths) over whole
numbers of any size, so that three aims in strict order need no rounding. Slots that share no coin are solved apart.
"""

from collections import defaultdict

Offers = dict[tuple[str, str], tuple[int, int | None]]  # (slot, coin) → (fit, cost in cents or None)


def best(offers: Offers) -> dict[str, str]:
    """{slot: coin}, each coin once: most slots filled, then the greatest sum of fits, then the least sum of costs.

    A cost that nobody knows counts as one cent more than the dearest known. The same offers give the same answer.
    """
    dearest = max((cost for _, cost in offers.values() if cost is not None), default=0) + 1
    coins: dict[str, dict[str, tuple[int, int]]] = defaultdict(dict)
    for (slot, coin), (fit, cost) in offers.items():
        coins[slot][coin] = fit, -(dearest if cost is None else cost)
    found = {}
    for group in _groups(coins):
        found |= _solved({slot: _first(coins[slot], len(group)) for slot in group})
    return found


def _groups(coins: dict[str, dict]) -> list[list[str]]:
    """Slots that share coins, directly or through others, together; in order."""
    slots_of = defaultdict(list)
    for slot in sorted(coins):
        for coin in coins[slot]:
            slots_of[coin].append(slot)
    seen, groups = set(), []
    for start in sorted(coins):
        if start in seen:
            continue
        group, waiting = [], [start]
        seen.add(start)
        while waiting:
            slot = waiting.pop()
            group.append(slot)
            for other in (other for coin in coins[slot] for other in slots_of[coin] if other not in seen):
                seen.add(other)
                waiting.append(other)
        groups.append(sorted(group))
    return groups


def _first(offered: dict[str, tuple[int, int]], most: int) -> dict[str, tuple[int, int]]:
    """The best coins of a slot, as many as slots compete: of these one is always left, and none further down is better."""
    ranked = sorted(offered.items(), key=lambda item: (item[1], item[0]), reverse=True)
    return dict(ranked[:most])


def _solved(coins: dict[str, dict[str, tuple[int, int]]]) -> dict[str, str]:
    slots = sorted(coins)
    names = sorted({coin for offered in coins.values() for coin in offered})
    many = len(slots)
    costs = 1 + many * max(-cost for offered in coins.values() for _, cost in offered.values())
    fill = costs * (1 + many * max(fit for offered in coins.values() for fit, _ in offered.values()))
    never = fill * (many + 1)
    table = [
        [-(fill + offered[coin][0] * costs + offered[coin][1]) if coin in offered else never for coin in names] + [0] * many
        for offered in (coins[slot] for slot in slots)
    ]  # a column of zeros for each slot: it stays open
    return {slots[row]: names[column] for row, column in enumerate(_least(table)) if column < len(names)}


def _least(table: list[list[int]]) -> list[int]:
    """The column of each row in the assignment of least sum; at least as many columns as rows."""
    rows, columns = len(table), len(table[0])
    of_row, of_column = [0] * (rows + 1), [0] * (columns + 1)  # potentials
    row_in = [0] * (columns + 1)  # row (from 1) that holds a column; column 0 is the row being placed
    for row in range(1, rows + 1):
        row_in[0] = row
        free: list[int | None] = [None] * (columns + 1)
        came, done, at = [0] * (columns + 1), [False] * (columns + 1), 0
        while row_in[at]:
            done[at] = True
            line, step, there = table[row_in[at] - 1], None, 0
            base = of_row[row_in[at]]
            for column in range(1, columns + 1):
                if done[column]:
                    continue
                gap = line[column - 1] - base - of_column[column]
                if free[column] is None or gap < free[column]:
                    free[column], came[column] = gap, at
                if step is None or free[column] < step:
                    step, there = free[column], column
            for column in range(columns + 1):
                if done[column]:
                    of_row[row_in[column]] += step
                    of_column[column] -= step
                elif free[column] is not None:
                    free[column] -= step
            at = there
        while at:
            row_in[at] = row_in[came[at]]
            at = came[at]
    placed = [0] * rows
    for column in range(1, columns + 1):
        if row_in[column]:
            placed[row_in[column] - 1] = column - 1
    return placed
