"""What everything asked for takes all in all, as rows of a recipe sheet."""

from sitegen.compute.rounding import Shown
from sitegen.compute.together import Together
from sitegen.render.sheet_model import Row
from sitegen.render.wording import measure_of


def stock_rows(found: Together) -> tuple[Row, ...]:
    """The batches that go into others, and how much of each for which."""
    return tuple(_row(stock.batch.plan.name, stock.batch.shown, stock.texts()) for stock in found.stocks)


def thing_rows(found: Together) -> tuple[Row, ...]:
    """Every ingredient to have at hand; what nobody measures stands last."""
    measured = (_row(thing.name, thing.shown, thing.said()) for thing in found.things)
    return (*measured, *(Row(words="–", name=one.name, notes=(one.text(),)) for one in found.unmeasured))


def _row(name: str, shown: Shown, notes: tuple[str, ...]) -> Row:
    measure = measure_of(shown)
    return Row(whole=measure.whole, fraction=measure.fraction, unit=measure.unit, name=name, notes=notes)
