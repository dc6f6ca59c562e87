"""What a reader does at the calculator and sees on the page, and what Python says must stand there."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from playwright.sync_api import Page

from sitegen.compute.ask import Question
from sitegen.compute.plan import Target
from sitegen.compute.rounding import System
from sitegen.compute.scale import ScaledLine, ScaledMixture, scale
from sitegen.compute.whole import Computed
from sitegen.render.mixture import exact_amount
from sitegen.render.wording import measure_of, shown_text

Blanks = Mapping[str, Any]
Amounts = dict[str, dict[str, Any]]

# Set the real controls and let them say so, as typing and choosing does; then read the whole page.
DRIVE = """
(questions) => {
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
    form.querySelector("[data-reset]").click();
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
  return questions.map((blanks) => {
    fill(blanks);
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
  return { mixtures, asked, refused, warnings };
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
    refused: str
    warnings: tuple[str, ...]


def ask(page: Page, *questions: Blanks) -> list[Seen]:
    """Fill in the sentence for each question in turn and read the whole page after it."""
    return [_seen(one) for one in page.evaluate(DRIVE.replace("READ", READ.strip()), list(questions))]


def seen(page: Page) -> Seen:
    """What the page shows now."""
    return _seen(page.evaluate(READ))


def _seen(found: dict[str, Any]) -> Seen:
    return Seen(**{**found, "warnings": tuple(found["warnings"])})


def expected(asked: Asked, written: Amounts, computed: Computed) -> tuple[Amounts, tuple[str, ...]]:
    """What must stand on the page: the answer with the rest as it was written, and what is said of it."""
    measuring = computed.archive.settings.measuring
    here = scale(asked.target, asked.question, measuring, system=asked.system)
    metric = scale(asked.target, asked.question, measuring)
    found = {i: {**mixture, "needed": False} for i, mixture in written.items()}
    for one, other in zip(here.mixtures, metric.mixtures, strict=True):
        found[one.plan.id] = mixture_amounts(one, other, written[one.plan.id])
    return found, here.warnings


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
    if here.shown is None or metric.shown is None:
        return ""
    parts = [measure_of(here.shown).text()]
    if here.shown.unit != metric.shown.unit:
        parts.append(shown_text(metric.shown))
    return " ".join(parts)


def _in_words(here: ScaledLine, metric: ScaledLine) -> str:
    if here.shown is None or metric.shown is None:
        return ""
    return _both(shown_text(here.shown), shown_text(metric.shown), same=here.shown.unit == metric.shown.unit)


def _both(here: str, metric: str, *, same: bool) -> str:
    return here if same else f"{here} · {metric}"
