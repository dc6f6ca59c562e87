"""What stands beside a hazard block: usual cautions, and the lines of dangerous pairs; for pages and sheets."""

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from itertools import chain
from typing import Final

from sitegen.check.pairs import PairLine, pair_lines
from sitegen.compute.cautions import UsualCaution, usual_cautions
from sitegen.model.archive import Archive
from sitegen.model.once import once
from sitegen.model.recipe import Hazards, Recipe
from sitegen.render.sheet_model import Caution

_OPEN: Final = "Take care"
_OF_OTHERS: Final = ("Use now", "Take care", "Pairs", "Usual")


@dataclass(frozen=True, slots=True, kw_only=True)
class Warned:
    """The additions to one recipe's block, by kind; they never take the place of it."""

    intended: tuple[PairLine, ...]
    pairs: tuple[tuple[str, tuple[PairLine, ...]], ...]
    """Warnings, answered ones, remarks and what was not checked, each kind under its name."""
    usual: tuple[UsualCaution, ...]
    sources: tuple[str, ...]
    """Where the usual cautions are from, each source once."""


@once
def warned(recipe: Recipe, archive: Archive) -> Warned:
    """Derived from the archive given, so that an edition tells only of what it holds."""
    lines = pair_lines(recipe, archive)
    usual = usual_cautions(recipe, archive)
    named = (
        (_OPEN, "warning"),
        ("Answered by the author", "answered"),
        ("Good to know", "remark"),
        ("Not checked", "unchecked"),
    )
    return Warned(
        intended=tuple(line for line in lines if line.kind == "intended"),
        pairs=tuple(
            (name, found) for name, kind in named if (found := tuple(one for one in lines if one.kind == kind))
        ),
        usual=usual,
        sources=tuple(dict.fromkeys(one.source for one in usual)),
    )


def sheet_caution(recipe: Recipe, archive: Archive, *, of: str = "") -> Caution:
    """A recipe's hazards on a sheet: processes that must be used now first, then the author's own lines."""
    found = warned(recipe, archive)
    lines = (*_of_processes(found), *_own(recipe.hazards), *_more(found))
    return Caution(of=of, lines=lines)


def left_to_say(caution: Caution, said: Collection[str]) -> Caution:
    """Of a recipe whose mixtures another one takes: what the other's block is not checked for, and has not said.

    What their ingredients ask for (to wear, air, never, first aid, disposal) stands in the other's block already;
    processes, pairs and the usual cautions of their mixing words are left.
    """
    lines = ((label, tuple(t for t in texts if t not in said)) for label, texts in caution.lines if label in _OF_OTHERS)
    return Caution(of=caution.of, lines=tuple((label, texts) for label, texts in lines if texts))


def gravest(recipe: Recipe, archive: Archive) -> tuple[str, ...]:
    """Two lines at most, for where there is no room for a block.

    The first is of a process whose product must be used now, else the author's first `never`, else an open pair; the
    second is the first usual caution: their table begins with what burns eyes.
    """
    found = warned(recipe, archive)
    processes = (f"{one.title.capitalize()}. {one.text}" for one in found.intended)
    pairs = (
        f"{line.title.capitalize()}: {line.text}" for name, lines in found.pairs if name == _OPEN for line in lines
    )
    first = next(chain(processes, recipe.hazards.never, pairs), "")
    usual = next((one.says for one in found.usual), "")
    return tuple(line for line in (first, usual) if line)


def whole_caution(recipe: Recipe, archive: Archive) -> Caution:
    """A recipe's hazards in a booklet: all that its page says, pairs that were answered and sources, too."""
    found = warned(recipe, archive)
    return Caution(of="", lines=(*_of_processes(found), *_own(recipe.hazards), *_all_more(found)))


def _of_processes(found: Warned) -> Iterator[tuple[str, tuple[str, ...]]]:
    for one in found.intended:
        yield "Use now", (f"{one.title.capitalize()}. {one.text}",)
        yield "Take care", one.cautions


def _own(hazards: Hazards) -> Iterator[tuple[str, tuple[str, ...]]]:
    for label, texts in (
        ("Never", hazards.never),
        ("Wear", hazards.wear),
        ("Air", hazards.air),
        ("First aid", hazards.first_aid),
        ("Disposal", hazards.disposal),
        ("Note", hazards.note),
    ):
        if texts:
            yield label, texts


def _more(found: Warned) -> Iterator[tuple[str, tuple[str, ...]]]:
    open_ = [f"{line.title}: {line.text}" for name, lines in found.pairs if name == _OPEN for line in lines]
    if open_:
        yield "Pairs", tuple(open_)
    if found.usual:
        yield "Usual", tuple(one.says for one in found.usual)


def _all_more(found: Warned) -> Iterator[tuple[str, tuple[str, ...]]]:
    for name, lines in found.pairs:
        yield name, tuple(f"{line.title}: {line.text}{_source(line)}" for line in lines)
    for one in found.usual:
        yield one.name, (f"{one.says} Because {one.because}.",)
    if found.sources:
        yield "Sources", (f"{'; '.join(found.sources)}. What is not named here is not called safe.",)


def _source(line: PairLine) -> str:
    return f" ({line.source}; rule {line.rule})" if line.source else ""
