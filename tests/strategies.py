"""What the property tests draw from: quantities, amounts, archives of nested mixtures, odd text.

Everything drawn is valid as the check would leave it; archives hold the model's own values, so that
no property depends on the reader. Each archive has one recipe, `r`, whose mixtures draw on each other.
"""

from fractions import Fraction

from hypothesis import strategies as st

from sitegen.model.amount import (
    Absolute,
    Amount,
    FillUp,
    OfBase,
    Parts,
    Percent,
    Unscaled,
    format_amount,
)
from sitegen.model.archive import Archive
from sitegen.model.quantity import Quantity
from sitegen.model.recipe import Line, Mixture
from sitegen.model.units import UNITS, Dimension, to_base
from tests.compute.shelf import HERE, archive_of, card, form

SOLIDS = ("citrate", "carbonate", "nitrate", "gum")
LIQUIDS = ("acid", "spirit", "oil")
FORMULAS = {"carbonate": "Na2CO3", "nitrate": "AgNO3", "acid": "CH3COOH"}
DENSITIES = {"acid": "1.05 g/ml", "spirit": "0.79 g/ml"}

factors = st.fractions(min_value=Fraction(1, 50), max_value=50, max_denominator=60)
"""By what a recipe is multiplied."""


def positive(most: int = 5000, *, places: int = 3) -> st.SearchStrategy[Fraction]:
    """Decimals above zero, as an author types them."""
    return st.integers(1, most * 10**places).map(lambda n: Fraction(n, 10**places))


@st.composite
def quantities(draw: st.DrawFn, dimension: Dimension | None = None, *, single: bool = False) -> Quantity:
    """Any quantity that can be written, ranges and odd fractions among them."""
    units = [unit for unit in UNITS if dimension in (None, unit.dimension)]
    unit = draw(st.sampled_from(units))
    least = Fraction(-200) if unit.dimension == "temperature" else Fraction(1, 10**6)
    number = st.fractions(min_value=least, max_value=10**6, max_denominator=10**6)
    low, high = draw(st.tuples(number, number).map(sorted))
    return Quantity(low=low, high=low if single else high, unit=unit.symbol)


def amounts() -> st.SearchStrategy[Amount]:
    """Any amount that can be written."""
    number = st.fractions(min_value=Fraction(1, 1000), max_value=100, max_denominator=1000)
    pair = st.tuples(number, number).map(sorted)
    measured = st.sampled_from(["mass", "volume"]).flatmap(lambda d: quantities(d, single=True))
    counted = st.sampled_from(["mass", "volume", "drops", "pieces"]).flatmap(quantities)
    basis = st.sampled_from(["w/v", "w/w", "v/v"])
    return st.one_of(
        st.builds(Absolute, quantity=counted),
        st.builds(FillUp, quantity=measured),
        st.builds(Parts, count=number, by=st.sampled_from([None, "weight", "volume"])),
        st.builds(lambda p, b: Percent(low=p[0], high=p[1], basis=b), pair, basis),
        st.builds(lambda p, b: OfBase(low=p[0], high=p[1], base=b), pair, st.sampled_from(["fibre", "wool-2"])),
        st.builds(Unscaled, words=st.sampled_from(["as needed", "to pH 8", "to pH 8-8.5"])),
    )


# What parsers trip over: signs, dots, dashes, other alphabets' digits, units cut short, line breaks.
_PIECES = [
    "0", "1", "12", "1.5", "1/2", "1/0", "1 1/2", "1e3", "1,5", "1,000", "1:10", "1+9", "010", "-", "–", "+", ".",
    ",", "/", ":", "%", "=", " ", "\n", "\t", "x", "×", " of ", " to ", "to make ", "part", "parts", " by weight",
    "g", "ml", "mol/l", "°C", "oz", "oz av", "fl oz US", "w/v", "w/w", "of fibre", "times fibre", "A4", "cm", "in",
    "drops", "²", "½", "٣", "३", "fibre=250 g", "as needed", "to pH 8", "NaCl", "(", ")", "\x00", "\ud7ff", "１",
]  # fmt: skip
odd_text = st.one_of(st.text(max_size=30), st.lists(st.sampled_from(_PIECES), max_size=7).map("".join))
"""Text of any kind, half of it made of pieces that parsers know."""


@st.composite
def archives(draw: st.DrawFn, *, ranges: bool = True) -> Archive:
    """A recipe `r` of one to four mixtures by volume, later ones drawing on earlier ones.

    Solids are weighed, liquids poured. The last mixture is the one that everything may flow into.
    """
    made: list[Mixture] = []
    for n in range(draw(st.integers(1, 4))):
        kind = draw(st.sampled_from([_filled, _poured, _in_parts]))
        made.append(draw(kind(f"r/m{n}", tuple(made), ranges=ranges)))
    return archive_of(*made, cards=_cards())


def _cards() -> tuple[object, ...]:
    solids = [card(form(i, formula=FORMULAS.get(i, ""))) for i in SOLIDS]
    liquids = [
        card(form(i, state="liquid", formula=FORMULAS.get(i, ""), density=DENSITIES.get(i, ""))) for i in LIQUIDS
    ]
    return (*solids, *liquids, card(form("water", state="liquid", formula="H2O", density="0.998 g/ml")))


def _line(key: str, amount: Amount) -> Line:
    known = key in (*SOLIDS, *LIQUIDS, "water")
    return Line(
        key=key, amount=amount, written=format_amount(amount), form=key if known else "",
        mixture="" if known else key, at=HERE,
    )  # fmt: skip


@st.composite
def _some(draw: st.DrawFn, dimension: Dimension, most: int, *, ranges: bool) -> Absolute:
    """An absolute amount of at most so many base units, in g or ml."""
    low = draw(positive(most))
    high = draw(st.sampled_from([low, min(low * 2, Fraction(most))])) if ranges else low
    return Absolute(
        quantity=Quantity(low=min(low, high), high=max(low, high), unit="g" if dimension == "mass" else "ml")
    )


@st.composite
def _filled(draw: st.DrawFn, id_: str, made: tuple[Mixture, ...], *, ranges: bool) -> Mixture:
    """Solids, liquids, percents and stocks, filled up with water."""
    solids = draw(st.lists(st.sampled_from(SOLIDS), unique=True, max_size=3))
    liquids = draw(st.lists(st.sampled_from([*LIQUIDS, *(m.id for m in made)]), unique=True, max_size=3))
    lines = []
    for key in solids:
        share = draw(positive(20))
        percent = Percent(low=share, high=share, basis="w/v")
        lines.append(_line(key, draw(st.one_of(_some("mass", 200, ranges=ranges), st.just(percent)))))
    lines += [_line(key, draw(_some("volume", 150, ranges=ranges))) for key in liquids]
    makes = Fraction(draw(st.integers(500, 3000)))
    whole = Quantity(low=makes, high=makes, unit="ml")
    stated = draw(st.sampled_from([None, whole]))
    lines.append(_line("water", FillUp(quantity=whole)))
    return Mixture(id=id_, name=id_, lines=tuple(lines), makes=stated, at=HERE)


@st.composite
def _poured(draw: st.DrawFn, id_: str, made: tuple[Mixture, ...], *, ranges: bool) -> Mixture:
    """Volumes that are added up."""
    keys = draw(
        st.lists(st.sampled_from([*LIQUIDS, "water", *(m.id for m in made)]), unique=True, min_size=1, max_size=4)
    )
    lines = tuple(_line(key, draw(_some("volume", 900, ranges=ranges))) for key in keys)
    return Mixture(id=id_, name=id_, lines=lines, at=HERE)


@st.composite
def _in_parts(draw: st.DrawFn, id_: str, made: tuple[Mixture, ...], *, ranges: bool) -> Mixture:
    """Parts by volume, with a size."""
    keys = draw(
        st.lists(st.sampled_from([*LIQUIDS, "water", *(m.id for m in made)]), unique=True, min_size=1, max_size=4)
    )
    by = draw(st.sampled_from([None, "volume"])) if not ranges else "volume"
    lines = tuple(_line(key, Parts(count=Fraction(draw(st.integers(1, 30))), by=by)) for key in keys)
    size = Fraction(draw(st.integers(20, 3000)))
    return Mixture(id=id_, name=id_, lines=lines, makes=Quantity(low=size, high=size, unit="ml"), at=HERE)


def in_base(value: Fraction, unit: str) -> Fraction:
    """Shorthand of the tests: a value of a unit in base units."""
    return to_base(value, unit)
