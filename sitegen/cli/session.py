"""A session of prints through one bath: what `trayside scale --session` adds to a size that was asked for."""

from fractions import Fraction

from sitegen.cli.answers import Json, quantity_json
from sitegen.compute.ask import Make, Question, Tray
from sitegen.compute.needed import Bath, bath, parse_session
from sitegen.model.quantity import Quantity, exact_text
from sitegen.model.recipe import Mixture
from sitegen.problems import Refusal


def over_session(filling: Question, session: str, lasting: str, mixture: Mixture) -> tuple[Make, Bath]:
    """How much to mix in all when `filling` fills the tray once, and how the bath fares."""
    spent = bath(
        _volume(filling), parse_session(session, lasting=lasting), capacity=mixture.capacity, keeps=mixture.keeps
    )
    topped_up = mixture.when_spent == "replenish" and spent.replenished is not None
    total = spent.replenished if topped_up and spent.replenished is not None else spent.replaced
    return Make(quantity=Quantity(low=total, high=total, unit="ml")), spent


def _volume(filling: Question) -> Fraction:
    match filling:
        case Tray(length=length, width=width, depth=depth):
            return length * width * depth / 1000  # mm³ to ml
        case Make(quantity=quantity) if quantity.dimension == "volume":
            return quantity.base()[1]
    raise Refusal(
        "session-of-filling",
        "a session is reckoned from the volume that fills the tray once",
        'give the tray, `--tray "24x30x1.5 cm"`, or a volume, `--make "1 l"`',
    )


def session_json(spent: Bath) -> Json:
    """The bath over the session: volumes in ml."""
    return {
        "filling": _ml(spent.volume),
        "lasts": spent.lasts,
        "fillings": spent.fillings,
        "replaced": _ml(spent.replaced),
        "per_print": None if spent.per_print is None else _ml(spent.per_print),
        "replenished": None if spent.replenished is None else _ml(spent.replenished),
        "warnings": list(spent.warnings),
    }


def _ml(value: Fraction) -> Json:
    return quantity_json(value, value, "ml")


def session_words(spent: Bath) -> list[str]:
    """The same as lines to print."""
    prints = "1 print" if spent.lasts == 1 else f"{spent.lasts} prints"
    fillings = "1 filling" if spent.fillings == 1 else f"{spent.fillings} fillings"
    whole = f"{fillings}, {_text(spent.replaced)} in all if replaced whole"
    said = [f"a filling of {_text(spent.volume)} does {prints}: {whole}"]
    if spent.per_print is not None and spent.replenished is not None:
        said.append(f"or {_text(spent.replenished)} in all, topped up with {_text(spent.per_print)} after each print")
    return [*said, *(f"note: {warning}" for warning in spent.warnings)]


def _text(ml: Fraction) -> str:
    return f"{exact_text(Fraction(-(-ml // 1)))} ml"
