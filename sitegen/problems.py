"""Problems: what is wrong in an author's files, as data.

A check adds problems and goes on, so that one run reports everything. Showing them on a terminal, as
JSON or in the preview's page is `sitegen.report`; nothing here formats or prints.

    Refusal(ValueError)   a text or a question that cannot be answered; knows no file
    Problem               one mistake at one place in a file
"""

import difflib
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import Literal

Level = Literal["error", "warning"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """A place in a file: lines and columns count from 0; `end` is the column after the last, same line."""

    file: str
    line: int = 0
    column: int = 0
    end: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """One mistake at one place. `code` is stable: tests, docs and JSON use it.

    `message` says what is wrong, with the value; only `help` says what to write instead; `notes` are
    facts that explain.
    """

    code: str
    at: Span
    message: str
    help: str = ""
    notes: tuple[str, ...] = ()
    level: Level = "error"


class Refusal(ValueError):
    """A value or a question that is refused rather than guessed.

    Carries `code`, `message`, `help` and `notes` as a `Problem` does, but no place: whoever knows the
    file turns it into a problem, the command line into its own message.
    """

    def __init__(self, code: str, message: str, help: str = "", notes: tuple[str, ...] = ()) -> None:  # noqa: A002  # the word the whole message format uses
        super().__init__(message)
        self.code = code
        self.message = message
        self.help = help
        self.notes = notes


@dataclass(slots=True)
class Problems:
    """Collects problems in any order; `in_order` sorts them by file, line, column, code."""

    found: list[Problem] = field(default_factory=list)

    def add(self, problem: Problem) -> None:
        """Keep the problem, once: equal ones (an alias used twice) are one mistake."""
        if problem not in self.found:
            self.found.append(problem)

    def refuse(self, refusal: Refusal, at: Span) -> None:
        """Keep a refusal as an error at the place it was written."""
        self.add(Problem(code=refusal.code, at=at, message=refusal.message, help=refusal.help, notes=refusal.notes))

    @contextmanager
    def at(self, span: Span) -> Iterator[None]:
        """Turn a `Refusal` raised inside into a problem at `span`."""
        try:
            yield
        except Refusal as refusal:
            self.refuse(refusal, span)

    @property
    def failed(self) -> bool:
        """Whether any problem is an error: nothing is written then."""
        return any(p.level == "error" for p in self.found)

    def in_order(self) -> tuple[Problem, ...]:
        """All problems, sorted, so that output never depends on the order of checking."""
        return tuple(sorted(self.found, key=lambda p: (p.at.file, p.at.line, p.at.column, p.code, p.message)))


def did_you_mean(name: str, known: Iterable[str]) -> str:
    """Help text naming up to three near names, or '' when none is near.

    >>> did_you_mean("citrat", ["citrate", "nitrate", "gum"])
    'did you mean `citrate` or `nitrate`?'
    >>> did_you_mean("zzz", ["citrate"])
    ''
    """
    near = difflib.get_close_matches(name.casefold(), sorted(set(known)), n=3, cutoff=0.7)
    return "did you mean " + " or ".join(f"`{n}`" for n in near) + "?" if near else ""
