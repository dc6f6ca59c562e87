"""Near words: how many slips of the finger lie between two words. Twin of `near` in `search-rank.js`.

A slip is a letter added, left out, changed, or two neighbours exchanged; no letter is touched twice
(optimal string alignment).
"""

from typing import Final

FAR: Final = 9
"""More slips than are ever allowed."""


def slips_allowed(word: str) -> int:
    """One slip from four letters on, two from eight; none in shorter words and in figures."""
    if len(word) < 4 or not word.isalpha():
        return 0
    return 1 if len(word) < 8 else 2


def slips(typed: str, meant: str, most: int, *, unfinished: bool) -> int:
    """Slips between the two, or `FAR` when over `most`. Unfinished: to the nearest beginning of `meant`.

    >>> slips("ferricianide", "ferricyanide", 2, unfinished=False), slips("ocat", "coating", 1, unfinished=True)
    (1, 1)
    """
    if not unfinished and len(meant) - len(typed) > most:
        return FAR
    width = min(len(meant), len(typed) + most)
    before: list[int] = []
    row = list(range(width + 1))
    for i, sign in enumerate(typed, 1):
        earlier, before, row = before, row, [i]
        for j in range(1, width + 1):
            cost = min(before[j] + 1, row[j - 1] + 1, before[j - 1] + (sign != meant[j - 1]))
            if i > 1 and j > 1 and sign == meant[j - 2] and typed[i - 2] == meant[j - 1]:
                cost = min(cost, earlier[j - 2] + 1)
            row.append(cost)
        if min(row) > most:
            return FAR
    found = min(row) if unfinished else row[-1]
    return found if found <= most else FAR
