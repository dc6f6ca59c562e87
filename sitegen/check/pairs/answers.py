"""Answers and intentions: each must have something it answers, and none may answer an error."""

from sitegen.check.pairs.findings import Standing, tainted
from sitegen.check.pairs.kitchen import keeps_longer
from sitegen.check.pairs.table import Severity, table
from sitegen.check.pairs.wording import known_rules
from sitegen.model.archive import Archive
from sitegen.model.quantity import format_quantity
from sitegen.model.recipe import Answer, Recipe
from sitegen.problems import Problem, Problems, did_you_mean


def check_answers(recipe: Recipe, standings: tuple[Standing, ...], problems: Problems) -> None:
    """Every answer names a rule that is a warning here."""
    for answer in recipe.answers:
        severities = {s.severity for s in standings if s.finding.id == answer.pair and not s.intended}
        if problem := _answer(answer, severities):
            problems.add(problem)


def _answer(answer: Answer, severities: set[Severity]) -> Problem | None:
    if answer.pair not in known_rules():
        return Problem(
            code="unknown-pair",
            at=answer.at,
            message=f"there is no rule `{answer.pair}`",
            help=did_you_mean(answer.pair, known_rules()) or "write the number that the warning gives, such as `X34`",
        )
    if "error" in severities:
        return Problem(
            code="answer-to-error",
            at=answer.at,
            message=f"`{answer.pair}` is an error in this recipe; no reason answers it",
            help="keep the two apart; a process that needs the pair is declared in `intends`",
            notes=(table().rules[answer.pair].makes,),
        )
    if "warning" not in severities:
        return Problem(
            code="answer-unneeded",
            at=answer.at,
            message=f"`{answer.pair}` is no warning in this recipe",
            help="delete the answer, so that it does not stand for a pair that comes later",
            level="warning",
        )
    return None


def check_intentions(recipe: Recipe, standings: tuple[Standing, ...], problems: Problems) -> None:
    """Every declared process is one that the mixtures show."""
    for name in recipe.intends:
        if name not in {s.intended for s in standings}:
            problems.add(
                Problem(
                    code="intention-unneeded",
                    at=recipe.at,
                    message=f"`{name}` is declared, and no mixture of this recipe shows it",
                    help=f"delete it from `intends`; it covers {_covers(name)}",
                    level="warning",
                )
            )


def _covers(name: str) -> str:
    doc = table().intentions[name]
    groups = " or ".join(group.replace("_", " ") for group in doc.with_)
    return f"{', '.join(doc.rules)} with {groups}"


def check_not_kept(recipe: Recipe, archive: Archive, problems: Problems) -> None:
    """What holds an intended pair is used at once and has no shelf life."""
    for mixture, name in tainted(recipe, archive):
        limit = table().intentions[name].used_within
        if keeps_longer(mixture, limit):
            kept = f"is kept `{format_quantity(mixture.keeps)}`" if mixture.keeps else "is stored"
            problems.add(
                Problem(
                    code="intended-pair-kept",
                    at=mixture.at,
                    message=f"`{mixture.local}` {kept}, and it holds the pair of `{name}`",
                    help=f"write `keeps: {format_quantity(limit)}` or less, and `store: Not kept.`",
                    notes=(table().intentions[name].use_now,),
                )
            )
