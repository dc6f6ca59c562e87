"""A small archive with everything a page can show, its pages, and a recipe that only supporters may see."""

from collections.abc import Mapping

import pytest
from bs4 import BeautifulSoup

from sitegen.check import check_archive
from sitegen.compute.whole import Computed, compute
from sitegen.model.archive import Archive
from sitegen.problems import Problems
from sitegen.read import compose_sources
from sitegen.read.folder import base_cards
from sitegen.read.theme import Theme, read_theme
from sitegen.render.site import pages

Pages = Mapping[str, bytes]

SETTINGS = """
title: The mill <script>alert("title")</script>
studio: The studio & its tide
summary: Blue prints <script>alert("summary")</script>
address: https://mill.example/
licence: CC BY-SA 4.0
editions: [public, supporters]
measuring: {balance: 0.1 g, vessels: [10 ml in 0.1 ml, 100 ml in 1 ml, 1000 ml in 10 ml], drops per ml: 20}
allowance: 15 %
processes:
  blue: {name: Blue prints, summary: Iron and water.}
  stock: {name: Stock bottles}
welcome: |
  # Come in

  Begin with [the blue print](recipe:blue), not with [a later one](recipe:kept) or <b>bold</b>.
  The [handbook](https://example.org/handbook) says more, [this](javascript:alert(1)) does not.
"""

STOCKS = """
title: Shelf bottles
code: ST-01
summary: Bottles that other recipes draw on.
process: stock
revision: 1
revised: 2026-01-02
credits: own
mixtures:
  citric:
    name: Citric stock
    contains: {citric-acid-monohydrate: 200 g, water: to make 1 l}
    keeps: 3-8 weeks
    dilute: [1+9, 1+19]
    mixing: ["Stir [the acid](amount:citric-acid-monohydrate) in."]
hazards:
  {wear: Eye protection., first aid: Rinse., never: No bleach., disposal: Dilute it., air: No dust.}
"""

BLUE = """
title: Blue print <script>alert("t")</script>
code: IB-01
summary: Two parts & one brush.
about: |
  # What it is

  ### And more

  Mix [part A](amount:part-a), look at [its section](mixture:part-a), at [the stock](mixture:stocks/citric),
  at [the salt](substance:ferric-ammonium-citrate), at [a trouble](trouble:blues-wash-away). See
  [the later recipe](recipe:kept). <script>alert("about")</script>
process: blue
keywords: [sun print]
revision: 3
revised: 2026-03-02
takes: 107 min
image: {file: grass.png, alt: Grasses in white on blue}
credits:
  - {work: A book, relation: after, licence: public domain, address: "https://example.org/book"}
  - {work: The mill, relation: own, licence: CC0}
mixtures:
  part-a:
    name: Part A <script>alert("m")</script>
    makes: 200 ml
    contains:
      ferric-ammonium-citrate-green: {amount: 40.5 g, why: Green & not brown.}
      water: to make 200 ml
    keeps: 1 month
    store: Brown glass.
    mixing: ["Pour [the water](amount:part-a/water) over [the iron](amount:ferric-ammonium-citrate)."]
    note: "A skin of *mould* can be filtered off."
  part-b:
    name: Part B
    contains: {potassium-ferricyanide: 16-20 g, water: {amount: to make 4 fl oz US}}
  working:
    name: Working sensitiser
    contains: {part-a: 1 part, part-b: 1 part}
    coverage: 40-60 ml/m²
    per person: 10 ml
  bath:
    name: Bath
    makes: 1 l
    contains: {stocks/citric: 1 part, water: 19 parts, polysorbate-20: {amount: 2 drops, optional: true}}
  rinse:
    name: Rinse
    contains: {water: 1 l, citric-acid-monohydrate: as needed}
needs: [A brush, "Paper <script>alert('n')</script>"]
hazards:
  wear: [Gloves of nitrile., Eye protection.]
  air: Weigh out of draughts.
  never: [Never add acid <b>to it</b>.]
  first aid: Rinse.
  disposal: Collect it.
  note: Data sheets first.
layers:
  - {name: warm, negative: {label: W, faces: emulsion down}, expose: {to: UV lamp, for: 8 min, at: 20 cm}}
stages:
  - title: Coat
    light: dim
    steps:
      - do: >-
          Brush [the sensitiser](mixture:working) on, about [so much](amount:working).
          <script>alert('d')</script>
        for: 2 min
        look for: An even yellow.
        caution: No puddles.
        image: {file: coat.png, alt: A brush}
    then wait: 45 min
    checks: [The coating is dry.]
  - title: Wash
    steps: [{do: Wash it., for: 1 h, at: 15-20 °C, light: daylight, look in: daylight}]
troubles:
  - symptom: Blues wash away
    causes:
      - {cause: Too short, remedy: "Longer <script>alert('r')</script>", check: A strip., save: Nothing.}
disputes:
  - about: Whether the bath keeps
    claims: [{says: It keeps., source: A book}, {says: It spoils overnight., source: A printer}]
    here: Ours spoiled in two <i>nights</i>.
"""

KEPT = """
title: Plantedtitle print
code: KX-99
summary: Plantedsummary of it.
about: Plantedabout text.
process: blue
keywords: [plantedkeyword]
edition: supporters
revision: 7
revised: 2026-05-06
image: {file: plantedfile.png, alt: Plantedalt}
credits: [{work: Plantedwork, relation: after, licence: Plantedlicence}]
derived from: {recipe: blue, changes: Plantedchange.}
mixtures:
  plantedmixture:
    name: Plantedname
    contains: {plantedcard: 3 g, water: to make 100 ml}
    store: Plantedstore.
    mixing: [Plantedmixing.]
    note: Plantednote.
needs: [Plantedneed]
hazards:
  {wear: Plantedwear., air: Plantedair., never: Plantednever.,
   first aid: Plantedaid., disposal: Plantedwaste.}
layers: [{name: plantedlayer, negative: {label: Plantedlabel}}]
stages:
  - title: Plantedstage
    steps: [{do: Planteddo., look for: Plantedcue., caution: Plantedcaution.}]
    checks: [Plantedcheck.]
troubles: [{symptom: Plantedsymptom, causes: [{cause: Plantedcause, remedy: Plantedremedy}]}]
"""

PALE = """
symptom: Pale overall
processes: [blue]
stage: wash
words: [washed out, weak]
causes:
  - {cause: Thin coat, remedy: Coat twice., step: [Coat/1]}
"""

QUARREL = """
about: How long a coat rests
processes: [blue]
claims:
  - {says: A day <b>at least</b>., source: A handbook, address: "https://example.org/rest"}
  - {says: An hour., source: Another handbook}
"""

CARD = """
name: plantedsubstance
state: solid
hazards: {basis: no data, source: nobody looked}
"""


@pytest.fixture(scope="session")
def theme() -> Theme:
    """The theme that comes with the tool."""
    return read_theme()


@pytest.fixture(scope="session")
def archive() -> Archive:
    """The small archive, checked."""
    texts = {
        "archive.yaml": SETTINGS,
        "recipes/stocks.yaml": STOCKS,
        "recipes/blue.yaml": BLUE,
        "recipes/kept.yaml": KEPT,
        "troubles/pale-overall.yaml": PALE,
        "disputes/how-long-a-coat-rests.yaml": QUARREL,
        "substances/plantedcard.yaml": CARD,
    }
    problems = Problems()
    pictures = frozenset({"grass.png", "coat.png", "plantedfile.png"})
    checked = check_archive(compose_sources(texts | base_cards(), problems, pictures=pictures), problems)
    assert checked
    assert {r.slug for r in checked.recipes} == {"blue", "stocks", "kept"}
    return checked


def of_edition(archive: Archive, edition: str) -> Computed:
    return compute(archive.edition(edition), Problems())


@pytest.fixture(scope="session")
def public(archive: Archive, theme: Theme) -> Pages:
    """Every page of the public edition by path."""
    return {p.path: p.content for p in pages(of_edition(archive, "public"), theme, "public")}


@pytest.fixture(scope="session")
def supporters(archive: Archive, theme: Theme) -> Pages:
    """Every page of the supporters' edition by path."""
    return {p.path: p.content for p in pages(of_edition(archive, "supporters"), theme, "supporters")}


@pytest.fixture(scope="session")
def soups(supporters: Pages) -> Mapping[str, BeautifulSoup]:
    """Every HTML page of the fullest edition, parsed."""
    return {path: BeautifulSoup(text, "html.parser") for path, text in supporters.items() if path.endswith(".html")}


@pytest.fixture(scope="session")
def blue(soups: Mapping[str, BeautifulSoup]) -> BeautifulSoup:
    """The page of the recipe that holds everything."""
    return soups["recipes/blue/index.html"]
