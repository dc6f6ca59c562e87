"""The questions on the command line of `scale`: each `--mixture` begins one, with the options that follow it.

Of a single question the options may stand in any order.
"""

from collections.abc import Mapping, Sequence
from typing import Any, Final

import click

from sitegen.compute.ask import (
    Have,
    Make,
    People,
    Question,
    parse_allowance,
    parse_base,
    parse_factor,
    parse_left,
    parse_sheets,
    parse_tray,
)
from sitegen.compute.names import forms_named
from sitegen.compute.plan import Target
from sitegen.compute.whole import Computed
from sitegen.model.archive import Settings
from sitegen.model.quantity import parse_quantity
from sitegen.model.sizes import parse_count
from sitegen.problems import Refusal, did_you_mean

WAYS: Final = ("make", "factor", "tray", "sheets", "have", "base")
OPTIONS: Final = ("wanted", *WAYS, "coats", "coverage", "allowance", "people", "session", "lasting")
"""What a question is made of, by the names of the command's parameters; all may be given several times."""

_ORDER: Final = "sitegen.cli.questions.order"

Words = dict[str, Any]
"""One question's options: text by name, '' where it is not given, a tuple of texts for `have`."""


class InQuestions(click.Command):
    """A command that knows in which order its options were given."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """As any command, and the order is kept for `said_in_questions`."""
        *_, order = self.make_parser(ctx).parse_args(list(args))
        ctx.meta[_ORDER] = tuple(param.name for param in order)
        return super().parse_args(ctx, args)


def said_in_questions(ctx: click.Context, options: Mapping[str, Sequence[str]]) -> tuple[Words, ...]:
    """The options of each question. `Refusal` where one is given that belongs to none, or twice to the same."""
    several = len(options["wanted"]) > 1
    rest = {name: iter(options[name]) for name in OPTIONS}
    found: list[Words] = [] if several else [_nothing_said()]
    for name in ctx.meta[_ORDER]:
        if name not in rest:
            continue
        if several and name == "wanted":
            found.append(_nothing_said())
        if not found:
            raise Refusal(
                "option-before-mixture",
                f"`--{name}` stands before the first of several `--mixture`",
                "write each `--mixture` first and what is asked of it behind it",
            )
        _say(found[-1], name, next(rest[name]))
    return tuple(found)


def _nothing_said() -> Words:
    return {**dict.fromkeys(OPTIONS, ""), "have": ()}


def _say(words: Words, name: str, value: str) -> None:
    if name == "have":
        words["have"] += (value,)
    elif words[name]:
        raise Refusal(
            "option-twice",
            f"`--{name}` is given twice for one mixture",
            "give it once; a second mixture begins with its own `--mixture`",
        )
    else:
        words[name] = value


def target_of(computed: Computed, slug: str, wanted: str) -> Target:
    """The mixture wanted: the one named, or the only one that nothing else of the recipe uses."""
    targets = computed.targets[slug]
    if wanted:
        named = next((t for t in targets if wanted in (t.local, t.id)), None)
        if named is None:
            known = [t.local for t in targets]
            raise Refusal(
                "unknown-mixture",
                f"`{slug}` has no mixture `{wanted}`",
                did_you_mean(wanted, known) or "write one of " + ", ".join(f"`{k}`" for k in known),
            )
        return named
    recipe = computed.archive.recipe_named[slug]
    used = {line.mixture for m in recipe.mixtures for line in m.lines}
    final = [t for t in targets if t.id not in used and t.id == f"{slug}/{t.local}"]
    if len(final) != 1:
        raise Refusal(
            "which-mixture",
            f"`{slug}` ends in {len(final)} mixtures",
            "say which is wanted: " + ", ".join(f"`--mixture {t.local}`" for t in final),
        )
    return final[0]


def question_of(options: Words, settings: Settings, computed: Computed, target: Target) -> Question:
    """What is asked of a mixture; `Refusal` where nothing is, or in two ways at once."""
    asked = [way for way in WAYS if options[way]]
    if len(asked) > 1 or (not asked and not options["people"]):
        raise Refusal(
            "ask-one-way",
            "ask in one way" if asked else "say how much is wanted",
            'give one of --make, --factor, --tray, --sheets, --have, --base or --people, such as --make "350 ml"',
        )
    each = _way(asked[0], options, settings, computed, target) if asked else None
    if not options["people"]:
        assert each is not None, "one way was asked"
        return each
    if each is not None and asked[0] in ("factor", "have", "base"):
        raise Refusal(
            "ask-one-way",
            f"--people does not go with --{asked[0]}",
            "use --make, --tray or --sheets for each person",
        )
    return People(count=parse_count(options["people"], "people"), each=each)  # type: ignore[arg-type]  # just checked


def _way(way: str, options: Words, settings: Settings, computed: Computed, target: Target) -> Question:
    value = options[way]
    match way:
        case "make":
            return Make(quantity=parse_quantity(value, single=True))
        case "factor":
            return parse_factor(value)
        case "tray":
            return parse_tray(value)
        case "sheets":
            allowance = parse_allowance(options["allowance"]) if options["allowance"] else settings.allowance
            return parse_sheets(value, coats=options["coats"] or "1", allowance=allowance, coverage=options["coverage"])
        case "have":
            return Have(left=tuple((_known(n, computed, target), q) for n, q in map(parse_left, value)))
        case _:
            return parse_base(value)


def _known(name: str, computed: Computed, target: Target) -> str:
    """A household name as the id the plan uses, where it means exactly one ingredient of the plan."""
    ids = {t.of for t in target.totals}
    try:
        meant = [f.id for f in forms_named(name, computed.archive) if f.id in ids]
    except Refusal:
        return name  # a mixture, or a name the plan refuses with its own list
    return meant[0] if len(meant) == 1 else name
