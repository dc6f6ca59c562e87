"""The browser's exact arithmetic against Python's fractions, over ten thousand random triples."""

import random
from fractions import Fraction
from typing import Any

import pytest

from sitegen.compute.rounding import ladders, show, to_figures, to_step
from sitegen.compute.whole import Computed
from sitegen.model.quantity import exact_number, exact_text, parse_number
from sitegen.problems import Refusal
from tests.browser.conftest import Open

COUNT = 10_000
PAGE = "recipes/iron-blue/index.html"

REPORT = """
(triples) => {
  const r = globalThis.traysideRatio;
  const c = globalThis.traysideCalc;
  const text = ({ n, d }) => (d === 1n ? `${n}` : `${n}/${d}`);
  return triples.map(([a, b, step]) => {
    const [x, y, s] = [a, b, step].map(r.read);
    return [
      r.add(x, y), r.subtract(x, y), r.multiply(x, y), r.divide(x, y), r.least([x, y, s]),
      c.toStep(x, s), c.toFigures(x, 2), c.toFigures(x, 4),
    ].map(text).concat([r.exactText(x), r.exactNumber(y), String(r.ceiling(x)), String(r.compare(x, y) < 0n)]);
  });
}
"""


def triples(dice: random.Random) -> list[tuple[Fraction, Fraction, Fraction]]:
    def one() -> Fraction:
        return Fraction(dice.randint(1, 10 ** dice.randint(1, 15)), dice.randint(1, 10 ** dice.randint(1, 9)))

    return [(one(), one(), one()) for _ in range(COUNT)]


def in_python(x: Fraction, y: Fraction, step: Fraction) -> list[str]:
    figures = [x + y, x - y, x * y, x / y, min(x, y, step), to_step(x, step), to_figures(x, 2), to_figures(x, 4)]
    ceiling = -(-x.numerator // x.denominator)
    return [*(str(f) for f in figures), exact_text(x), exact_number(y), str(ceiling), str(x < y).lower()]


def test_ten_thousand_triples_come_out_alike(visit: Open) -> None:
    made = triples(random.Random(10745))
    found = visit(PAGE).evaluate(REPORT, [[str(x) for x in triple] for triple in made])
    assert [(t, f) for t, f in zip(made, found, strict=True) if f != in_python(*t)] == []


def test_ladders_round_alike(visit: Open, computed: Computed) -> None:
    dice = random.Random(2418)
    steps = ladders(computed.archive.settings.measuring)
    asked, said = [], []
    for system, kinds in steps.items():
        for kind, ladder in kinds.items():
            for _ in range(150):
                low = Fraction(dice.randint(1, 10**6), 10 ** dice.randint(0, 6))
                high = low * Fraction(dice.randint(100, 130), 100)
                shown = show(low, high, ladder)
                asked.append([system, kind, str(low), str(high)])
                said.append({"low": shown.low, "high": shown.high, "unit": shown.unit})
    found = visit(PAGE).evaluate(
        """(asked) => {
          const { readMeasures, show } = globalThis.traysideCalc;
          const { read } = globalThis.traysideRatio;
          const { ladders } = readMeasures(JSON.parse(document.getElementById("plan").textContent));
          return asked.map(([system, kind, low, high]) => show(read(low), read(high), ladders[system][kind]));
        }""",
        asked,
    )
    assert found == said


def test_typed_numbers_are_read_or_refused_alike(visit: Open) -> None:
    dice = random.Random(1810)
    typed = ["".join(dice.choice("0123456789./,: e-+x") for _ in range(dice.randint(0, 6))) for _ in range(4000)]
    typed += [
        "350",
        "350.5",
        "1/2",
        "1 1/2",
        " 7 ",
        "1,5",
        "1,500",
        "1:9",
        "2:1",
        "1e3",
        "1.5E-2",
        "010",
        "-3",
        "½",
        "9" * 500,
    ]
    found = visit(PAGE).evaluate(
        """(typed) => typed.map((text) => {
          const { parseNumber } = globalThis.traysideRatio;
          try {
            const { n, d } = parseNumber(text);
            return d === 1n ? `${n}` : `${n}/${d}`;
          } catch (refusal) {
            return [refusal.code, refusal.message, refusal.help];
          }
        })""",
        typed,
    )
    assert [(t, f, read(t)) for t, f in zip(typed, found, strict=True) if f != read(t)] == []


def read(text: str) -> Any:
    try:
        return str(parse_number(text))
    except Refusal as refusal:
        return [refusal.code, refusal.message, refusal.help]


@pytest.mark.parametrize(("value", "text"), [("1/3", "0.333333333333"), ("7/2", "3.5"), ("-1/8", "-0.125")])
def test_exact_text_is_what_the_program_writes(value: str, text: str, visit: Open) -> None:
    page = visit(PAGE)
    assert page.evaluate("v => traysideRatio.exactText(traysideRatio.read(v))", value) == text
    assert exact_text(Fraction(value)) == text
