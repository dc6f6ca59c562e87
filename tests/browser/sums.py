"""What a reader fills into a dilution or a sum of the bench, and how the program rounds its answer."""

import random
from collections.abc import Callable
from fractions import Fraction
from typing import Any, TypeVar

from playwright.sync_api import Page

from sitegen.compute.dilute import Diluted
from sitegen.compute.rounding import Kind, System, ladders, show
from sitegen.compute.whole import Computed
from sitegen.model.quantity import Quantity, parse_quantity
from sitegen.problems import Refusal
from tests.browser.asking import SYSTEMS, UNITS_OF, number

T = TypeVar("T")
Fields = dict[str, str]

# Fill in one form for each set of fields and read its answer.
FILL = """
([selector, questions]) => {
  const form = document.querySelector(selector);
  const text = (node) => node.textContent.trim();
  const set = (field, value) => {
    field.value = value;
    if (field.value !== value) throw new Error(`${field.name} does not offer ${value}`);
    field.dispatchEvent(new Event("input", { bubbles: true }));
  };
  return questions.map(({ measures, ...fields }) => {
    const radio = document.querySelector(`[name=measures][value=${measures}]`);
    radio.checked = true;
    radio.dispatchEvent(new Event("input", { bubbles: true }));
    for (const [name, value] of Object.entries(fields)) set(form.elements[name], value);
    const parts = [...form.querySelectorAll("[data-part]")].map((part) => [part.dataset.part, text(part)]);
    const swaps = [...form.querySelectorAll("[data-from]")].map((each) => [
      each.dataset.from, each.dataset.to,
      ...[...each.querySelectorAll("[data-part]")].map(text),
      ...[...each.querySelectorAll(".said")].map(text),
    ]);
    return { parts: Object.fromEntries(parts), swaps, refused: text(form.querySelector(".refused")),
      said: [...form.querySelectorAll("output > .said")].map(text) };
  });
}
"""


def answers(page: Page, form: str, questions: list[Fields]) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = page.evaluate(FILL, [form, questions])
    return found


def sum_form(name: str) -> str:
    return f"[data-sum={name}] form"


class Shelf:
    """Rounds as the archive's own balance and vessels do."""

    def __init__(self, computed: Computed) -> None:
        self.ladders = ladders(computed.archive.settings.measuring)

    def text(self, low: Fraction, high: Fraction, kind: Kind, system: System) -> str:
        shown = [self._one(low, high, kind, s) for s in dict.fromkeys((system, "metric"))]
        return " · ".join(shown)

    def quantity(self, quantity: Quantity, system: System) -> str:
        low, high = quantity.base()
        return self.text(low, high, "mass" if quantity.dimension == "mass" else "volume", system)

    def _one(self, low: Fraction, high: Fraction, kind: Kind, system: System) -> str:
        ladder = self.ladders[system][kind]
        return f"0 {ladder[0].unit}" if high == 0 else show(low, high, ladder).text()

    def parts(self, diluted: Diluted, system: System) -> Fields:
        named = {"stock": diluted.stock, "diluent": diluted.diluent, "total": diluted.makes}
        return {name: self.quantity(q, system) for name, q in named.items()}


def amount(dice: random.Random, *dimensions: str) -> Fields:
    return {
        "amount": number(dice),
        "unit": dice.choice(UNITS_OF[dice.choice(dimensions)]),
        "end": dice.choice(["make", "have"]),
        "measures": dice.choice(SYSTEMS),
    }


def asked(fields: Fields) -> dict[str, Quantity]:
    return {fields["end"]: parse_quantity(typed(fields))}


def typed(fields: Fields) -> str:
    return f"{fields['amount']} {fields['unit']}"


def system_of(fields: Fields) -> System:
    return next(s for s in SYSTEMS if s == fields["measures"])


def plain(refusal: Refusal) -> str:
    return refusal.message.replace("`", "")


def or_refusal(work: Callable[[], T]) -> T | Refusal:
    """What the work gives, or why it gives nothing."""
    try:
        return work()
    except Refusal as refusal:
        return refusal
