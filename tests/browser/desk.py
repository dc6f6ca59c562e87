"""What a reader does at the calculator and sees on the page, and what Python says must stand there."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from playwright.sync_api import Page

from sitegen.compute import together
from sitegen.compute.ask import Question
from sitegen.compute.plan import Target
from sitegen.compute.rounding import Shown, System
from sitegen.compute.scale import ScaledLine, ScaledMixture
from sitegen.compute.whole import Computed
from sitegen.render.mixture import exact_amount
from sitegen.render.wording import measure_of, shown_text

Blanks = Mapping[str, Any]
Amounts = dict[str, dict[str, Any]]
Totals = dict[str, list[list[str]]]

# Set the real controls and let them say so, as typing and choosing does; then read the whole page.
DRIVE = """
(states) => {
  const form = document.getElementById("calculator");
  const set = (field, value) => {
    if (field.value === value) return;
    field.value = value;
    if (field.value !== value) throw new Error(`${field.name} does not offer ${value}`);
    field.dispatchEvent(new Event("input", { bubbles: true }));
  };
  const choose = (name, value) => {
    const radio = form.querySelector(`input[name=${name}][value=${value}]`);
    if (radio.closest("label").hidden) throw new Error(`${value} is not offered`);
    radio.checked = true;
    radio.dispatchEvent(new Event("input", { bubbles: true }));
  };
  const fill = ({ mix, ask, measures, left, ...rest }) => {
    set(form.elements.mix, mix);
    choose("ask", ask);
    choose("measures", measures);
    for (const [name, value] of Object.entries(rest)) set(form.elements[name], value);
    for (const [at, one] of (left ?? []).entries()) {
      if (at > 0) form.querySelector("[data-more]").click();
      const row = [...form.querySelectorAll("[data-one]")].at(-1);
      set(row.querySelector("[name=left-of]"), one.of);
      set(row.querySelector("[name=left-unit]"), one.unit);
      set(row.querySelector("[name=left]"), one.amount);
    }
  };
  const read = READ;
  return states.map((questions) => {
    form.querySelector("[data-reset]").click();
    questions.forEach(fill);
    return read();
  });
}
"""

READ = """
() => {
  const text = (node) => node.textContent.replaceAll("\\u00a0", " ").trim();
  const mixtures = {};
  for (const section of document.querySelectorAll("section[data-mixture]")) {
    const lines = {};
    for (const row of section.querySelectorAll("tr[data-line]")) {
      const [measure, exact, notes] = ["measure", "exact", "notes"].map((what) =>
        text(row.querySelector(`[data-${what}]`)));
      lines[row.dataset.line] = { measure, exact, notes };
    }
    mixtures[section.dataset.mixture] = {
      makes: text(section.querySelector("[data-makes]")),
      needed: !section.classList.contains("not-needed"),
      lines,
      live: [],
    };
  }
  for (const live of document.querySelectorAll("data.live")) {
    const mixture = mixtures[live.dataset.mixture];
    if (mixture) mixture.live.push([live.dataset.line ?? null, text(live), live.getAttribute("value")]);
  }
  const [asked, refused] = ["asked", "refused"].map((id) => text(document.getElementById(id)));
  const warnings = [...document.querySelectorAll("#said li")].map(text);
  const also = [...document.querySelectorAll("#also li b")].map(text);
  const rows = (part) => [...document.querySelectorAll(`#total [data-${part}] tbody tr`)].map((row) =>
    [".measure", ".of", ".notes"].map((cell) => text(row.querySelector(cell))));
  const total = document.getElementById("total");
  const totals = total.hidden ? null : { things: rows("things"), stocks: rows("stocks") };
  return { mixtures, asked, also, refused, warnings, totals };
}
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """One question as a reader fills it in and as Python puts it."""

    target: Target
    blanks: Blanks
    question: Question
    system: System


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """What the page shows: amounts by mixture, by line and in sentences, and what it says of them."""

    mixtures: Amounts
    asked: str
    also: tuple[str, ...]
    refused: str
    warnings: tuple[str, ...]
    totals: Totals | None
    """All in all, by part of the list: rows of an amount, a name and notes; None where no total stands."""


def ask(page: Page, *questions: Blanks) -> list[Seen]:
    """Fill in the sentence for each question in turn and read the whole page after it."""
    return ask_together(page, *([one] for one in questions))


def ask_together(page: Page, *states: Sequence[Blanks]) -> list[Seen]:
    """From the recipe as written, ask all questions of each state in turn and read the whole page after the last."""
    return [_seen(one) for one in page.evaluate(DRIVE.replace("READ", READ.strip()), list(map(list, states)))]


def seen(page: Page) -> Seen:
    """What the page shows now."""
    return _seen(page.evaluate(READ))


def _seen(found: dict[str, Any]) -> Seen:
    return Seen(**{**found, "warnings": tuple(found["warnings"]), "also": tuple(found["also"])})


def expected(asked: Sequence[Asked], written: Amounts, computed: Computed) -> tuple[Amounts, tuple[str, ...], Totals]:
    """What must stand on the page: the answer with the rest as it was written, what is said of it, and the total."""
    questions = [together.Asked(target=one.target, question=one.question) for one in asked]
    here = together.together(questions, computed.archive, system=asked[0].system)
    metric = together.together(questions, computed.archive)
    found = set_back(written, asked[0].target.recipe, computed)
    for one, other in zip(here.batches, metric.batches, strict=True):
        found[one.plan.id] = mixture_amounts(one, other, written[one.plan.id])
    return found, here.warnings, total_rows(here, metric)


def total_rows(here: together.Together, metric: together.Together) -> Totals:
    """What everything takes all in all, as the page must list it."""
    things = [
        [_shown(one.shown, other.shown), one.name, "; ".join(one.said())]
        for one, other in zip(here.things, metric.things, strict=True)
    ]
    stocks = [
        [_shown(one.batch.shown, other.batch.shown), one.batch.plan.name, ", ".join(one.texts())]
        for one, other in zip(here.stocks, metric.stocks, strict=True)
    ]
    return {"things": [*things, *(["–", one.name, one.text()] for one in here.unmeasured)], "stocks": stocks}


def set_back(written: Amounts, recipe: str, computed: Computed) -> Amounts:
    """The mixtures of a page that nothing asked needs: as written, and so they say in sentences."""
    kinds = _kinds(computed.targets[recipe])
    return {
        id_: {
            **mixture,
            "needed": False,
            "live": [
                [key, text if kinds.get((id_, key)) == "words" else f"{text} (as written)", value]
                for key, text, value in mixture["live"]
            ],
        }
        for id_, mixture in written.items()
    }


def _kinds(targets: Iterable[Target]) -> dict[tuple[str, str | None], str]:
    """How each line is measured, by the ids of its mixture and itself."""
    plans = (plan for target in targets for plan in target.mixtures)
    return {(plan.id, line.key): line.kind for plan in plans for line in plan.lines}


def refused_amounts(asked: Sequence[Asked], written: Amounts, computed: Computed) -> Amounts:
    """What must stand on the page when none of the questions has an answer: no amount of all that they need."""
    kinds = _kinds(one.target for one in asked)
    found = set_back(written, asked[0].target.recipe, computed)
    for id_ in {id_ for id_, _ in kinds}:
        lines = {
            key: line if kinds[id_, key] == "words" else {"measure": "–", "exact": "–", "notes": ""}
            for key, line in written[id_]["lines"].items()
        }
        live = [one if kinds.get((id_, one[0])) == "words" else [one[0], "–", "–"] for one in written[id_]["live"]]
        found[id_] = {"makes": "–", "needed": True, "lines": lines, "live": live}
    return found


def mixture_amounts(here: ScaledMixture, metric: ScaledMixture, written: Mapping[str, Any]) -> dict[str, Any]:
    """One mixture's amounts as the page must show them; words that are never scaled stay as written."""
    lines = {
        one.line.key: {
            "measure": _measure(one, other) or written["lines"][one.line.key]["measure"],
            "exact": exact_amount(one),
            "notes": "; ".join(note.text() for note in one.notes),
        }
        for one, other in zip(here.lines, metric.lines, strict=True)
    }
    makes = _both(shown_text(here.shown), shown_text(metric.shown), same=here.shown.unit == metric.shown.unit)
    by_key = {one.line.key: (one, other) for one, other in zip(here.lines, metric.lines, strict=True)}
    live = []
    for key, text, value in written["live"]:
        said = makes if key is None else _in_words(*by_key[key])
        live.append([key, said or text, said or value])
    return {"makes": makes, "needed": True, "lines": lines, "live": live}


def _measure(here: ScaledLine, metric: ScaledLine) -> str:
    return "" if here.shown is None or metric.shown is None else _shown(here.shown, metric.shown)


def _shown(here: Shown, metric: Shown) -> str:
    """An amount of a table, with the metric one behind it where that says something else."""
    besides = [] if here.unit == metric.unit else [shown_text(metric)]
    return " ".join([measure_of(here).text(), *besides])


def _in_words(here: ScaledLine, metric: ScaledLine) -> str:
    if here.shown is None or metric.shown is None:
        return ""
    return _both(shown_text(here.shown), shown_text(metric.shown), same=here.shown.unit == metric.shown.unit)


def _both(here: str, metric: str, *, same: bool) -> str:
    return here if same else f"{here} · {metric}"
