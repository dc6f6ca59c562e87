"""An archive in which everything that is for supporters carries a mark that stands nowhere else.

Marks differ from their first letters on, so that no shared beginning can hide one in a packed list of words.
Figures are marked by odd numbers.
"""

import hashlib
import io
from dataclasses import dataclass
from pathlib import Path

from PIL import Image, PngImagePlugin

LETTERS = "bcdfghjklmnpqrstvwxz"
SETTINGS = """
title: Bench book of the mill
studio: The tide mill
summary: Prints with salt and water.
address: https://mill.example/
editions: [public, {id: supporters, name: friends of the mill, address: "https://#edition address#.example/"%SEALED%}]
processes:
  salt: {name: Salt prints, summary: Salt and water.}
  #process#: {name: "#process name#", summary: "#process summary#"}
water:
  tap: {name: The tap, pH: "7.3"}
  #water#: {name: "#water name#", pH: "7.3", hardness: 19.37 °dH, measured: 2026-07-19, source: "#water source#",
            note: "#water note#", edition: supporters}
welcome: |
  Begin with [the open one](recipe:open), then [the closed one](recipe:#slug#) and
  [its bath](mixture:#slug#/#mixture#), [its trouble](trouble:#slug#/symptom-#symptom#) or
  [its salt](substance:#card#); [the named one](recipe:#teased slug#) comes last.
"""
OPEN = """
title: Open print
code: OP-01
summary: A print that everybody may read.
about: Compare [the closed one](recipe:#slug#), [its salt](substance:#card#) and [the named one](recipe:#teased slug#).
process: salt
revision: 2
revised: 2026-03-02
derived from: {recipe: "#slug#", changes: Without the second bath., compare: {plain: "#mixture#"}}
changes: [{revision: 2, what: Shorter., before: {times: {"#stage title#/1": 91.73 min}}}]
image: {file: "#image file#.png", alt: "#image alt#", edition: supporters}
mixtures:
  bath:
    name: Salt bath
    contains: {sodium-chloride: 20 g, water: to make 1 l}
    note: {text: "#note# [the salt](amount:sodium-chloride)", edition: supporters}
  plain:
    name: Plain bath
    contains: {bath: 1 part, water: 9 parts}
    note: Everybody may read this.
hazards: {wear: Eye protection., air: No dust., never: No bleach., first aid: Rinse., disposal: Down the drain.}
layers:
  - {name: Base, negative: {label: Base film}}
  - name: "#hidden layer#"
    record: "#hidden record#"
    coat: bath
    negative: {label: "#hidden film#", top edge: "#hidden edge#", marks: ["#hidden mark#"]}
    expose: {to: "#hidden light#", for: 53.91 min, at: 67.31 cm}
    bleach: {in: plain, look for: "#hidden bleach#"}
stages:
  - title: Float
    layer: Base
    steps:
      - do: Float it on [the bath](mixture:bath).
        image: {file: shared.png, alt: A sheet on a bath}
      - do: Lift it.
        image: {file: "#step file#.jpg", alt: "#step alt#", edition: supporters}
        compare: {before: {file: shared.png, alt: "#before alt#"},
                  after: {file: "#after file#.png", alt: "#after alt#", edition: supporters}}
        moving picture: {title: "#moving title#", address: "https://#moving address#.example/",
                         marks: [{at: "0:41", says: "#moving says#"}],
                         poster: {file: "#poster file#.png", alt: "#poster alt#", edition: supporters}}
  - title: "#stage title#"
    edition: supporters
    light: "#stage light#"
    steps:
      - {do: "#stage do#", for: 7 min, at: 31.7 °C, look for: "#stage cue#", look in: "#stage look in#",
         caution: "#stage caution#", water: last rinse, image: {file: "#stage file#.png", alt: "#stage alt#"}}
    then wait: 8311 min
    checks: ["Dried through. #stage check#"]
  - {title: "#layer stage#", layer: "#hidden layer#", edition: supporters,
     steps: [{do: "Expose it. #layer do#", for: 53.91 min}]}
troubles:
  - symptom: Pale
    causes:
      - {cause: Too little salt, remedy: More salt., step: "#stage title#"}
      - {cause: "#cause#", remedy: "#cause remedy#", check: "#cause check#", save: "#cause save#",
         old stock: bath, edition: supporters}
  - symptom: "Symptom #own symptom#"
    stage: wash
    words: ["#own words#"]
    edition: supporters
    causes: [{cause: "#own cause#", remedy: "#own remedy#"}]
  - symptom: Grey
    words: ["#only words#"]
    causes: [{cause: "#only cause#", remedy: "#only remedy#", edition: supporters}]
disputes:
  - about: "Point #point#"
    edition: supporters
    claims:
      - {says: "#point says#", source: "#point source#", address: "https://#point address#.example/"}
      - {says: "#point other#", source: A book}
    here: "#point here#"
"""
CLOSED = """
title: "#title#"
code: QZ-719
summary: "#summary#"
about: "#about# [the bath](mixture:#mixture#)"
process: "#process#"
keywords: ["#keyword#"]
edition: supporters
status: trial
revision: 6173
revised: 2026-07-19
takes: 30 min
credits: [{work: "#work#", relation: after, licence: "#credit licence#", address: "https://#address#.example/"}]
image: {file: "#file#.png", alt: "#alt#"}
mixtures:
  #mixture#:
    name: "#mixture name#"
    makes: 8317 ml
    contains:
      #card#: {amount: 6133 g, why: "#why#"}
      water: to make 8317 ml
      open/bath: 1.9 ml
    keeps: 29 weeks
    store: "#store#"
    dilute: [1+37]
    capacity: 7937 sheets of 18.73x23.93 cm per l
    when spent: replace
    coverage: 613.7 ml/m²
    mixing: ["#mixing#"]
    note: "#mixture note#"
  #fizz#:
    name: "#fizz name#"
    contains: {water: 1 l, sodium-carbonate-anhydrous: 54 g, citric-acid-monohydrate: 3 g}
needs: ["#need#"]
hazards:
  {wear: "Gloves, eye protection, #wear#", air: "No dust, #air#", never: "No bleach, #never#",
   first aid: "Rinse, #aid#", disposal: "Local rules decide, #waste#", note: "#hazard note#"}
changes: [{revision: 6173, what: "#change#", corrects: "#corrected#",
           before: {amounts: {"#card#": 5711 g}, times: {"#closed stage#/1": 4733 min}}}]
answers: [{pair: X104, reason: "#answer#"}]
layers:
  - {name: "#layer#", record: "#record#", negative: {label: "#film#", top edge: "#edge#", marks: ["#film mark#"]},
     expose: {to: "#lamp#"}, tone: {in: "#mixture#", look for: "#tone cue#"}}
stages:
  - title: "#closed stage#"
    light: "#closed light#"
    steps: [{do: "#do#", for: 30 min, look for: "#cue#", look in: "#look in#", caution: "#caution#", light: "#light#",
             image: {file: "below/#deep file#.jpg", alt: "#deep alt#"}}]
    checks: ["#check#"]
troubles:
  - symptom: "Symptom #symptom#"
    stage: wash
    words: ["#symptom words#"]
    causes: [{cause: "#closed cause#", remedy: "#remedy#", check: "#first look#", save: "#save#"}]
disputes:
  - about: "Quarrel #quarrel#"
    claims: [{says: "#quarrel says#", source: "#quarrel source#"}, {says: "#quarrel other#", source: A book}]
"""
TEASED = """
title: A title that may be named
code: QZ-721
summary: "#teased summary#"
process: salt
derived from: {recipe: open, changes: "#changes#"}
edition: supporters
teaser: A sentence that may be read.
revision: 5227
revised: 2026-08-23
credits: own
image: {file: "#teased file#.png", alt: "#teased alt#"}
mixtures:
  #teased mixture#:
    name: "#teased name#"
    contains: {sodium-chloride: 4.7 g, #slug#/#mixture#: 0.3 ml, water: to make 1 l}
hazards: {wear: Eye protection., air: No dust., never: No bleach., first aid: Rinse., disposal: Down the drain.}
"""
LATER = """
title: "#later title#"
code: QZ-723
summary: "#later summary#"
process: salt
edition: supporters
sealed title: yes
publish from: 2026-12-01
revision: 1
revised: 2026-09-01
credits: own
mixtures:
  bath: {name: "#later mixture#", contains: {sodium-chloride: 5 g, water: to make 1 l}}
hazards: {wear: Eye protection., air: No dust., never: No bleach., first aid: Rinse., disposal: Down the drain.}
"""
CARD = """
name: "#card name#"
state: solid
other names: ["#card other#"]
forms:
  #form#: {name: "#form name#", names: ["#form other#"], formula: Na2SO4, note: "#form note#"}
solubility: [{at: 20 °C, limit: 417.3 g, form: "#form#", source: "#solubility source#"}]
look-alikes: [sodium-chloride]
hazards: {classes: [], basis: no data, source: "#card source#", never: ["#card never#"]}
store: "#card store#"
dispose: "#card dispose#"
note: "#card note#"
"""
SHARED = """
symptom: Symptom #shared symptom#
stage: wash
words: ["#shared words#"]
processes: [salt]
edition: supporters
causes: [{cause: "#shared cause#", remedy: "#shared remedy#", check: "#shared check#", save: "#shared save#"}]
"""
HALF = """
symptom: Half told
processes: [salt, #process#]
causes:
  - {cause: Told to all., remedy: Wait., step: ["#stage title#", "#closed stage#", Float/1]}
  - {cause: "#half cause#", remedy: "#half remedy#", edition: supporters}
"""
QUARREL = """
about: Shared #shared quarrel#
processes: [salt]
edition: supporters
claims: [{says: "#shared says#", source: "#shared source#"}, {says: Something else., source: A book}]
here: "#shared here#"
"""
ABROAD = """
about: Abroad #abroad#
processes: [#process#]
claims: [{says: "#abroad says#", source: "#abroad source#"}, {says: Something else., source: A book}]
"""
ELSEWHERE = """
symptom: Symptom #elsewhere#
words: ["#elsewhere words#"]
processes: [#process#]
causes: [{cause: "#elsewhere cause#", remedy: "#elsewhere remedy#"}]
"""
OPEN_TRIAL = """
title: Tried by all
recipe: open
revision: 2
date: 2026-03-03
changed:
  amounts: {bath/sodium-chloride: 25 g}
  times: {"#stage title#/1": 7.3 min}
conditions: {water: #water#}
batches: [OP-01 bath 2026-03-01, QZ-719 #mixture# 2026-03-02]
image: {file: "#open trial file#.png", alt: "#open trial alt#", edition: supporters}
outcome: "See [the closed one](recipe:#slug#) and [its bath](mixture:#slug#/#mixture#)."
verdict: failed
trouble: symptom-#own symptom#
solved by: 2026-07-20-#trial slug#
"""
CLOSED_TRIAL = """
title: "#closed trial title#"
recipe: #slug#
revision: 6173
date: 2026-07-21
aim: "#closed trial aim#"
changed:
  amounts: {#mixture#/open/bath: 2.9 ml}
  times: {"#closed stage#/1": 47.9 min}
  coverage: {#mixture#: 613 ml/m²}
  other: ["#closed trial other#"]
conditions: {paper: "#closed trial paper#", lamp: "#closed trial lamp#", temperature: 23.7 °C, humidity: 61.3 %,
             water: "#closed trial water#", other: ["#closed trial also#"]}
batches: [QZ-719 #mixture# 2026-07-19]
image: {file: "#closed trial file#.png", alt: "#closed trial alt#"}
outcome: "#closed trial outcome#"
verdict: failed
suspected: "#closed trial suspected#"
trouble: symptom-#symptom#
"""
KEPT_TRIAL = """
title: "#kept trial title#"
recipe: open
revision: 2
date: 2026-07-20
edition: supporters
aim: "#kept trial aim#"
changed: {amounts: {bath/sodium-chloride: 73.1 g}, other: "#kept trial other#"}
conditions: {paper: "#kept trial paper#", lamp: "#kept trial lamp#", temperature: 23.7 °C, humidity: 61.3 %,
             water: "#kept trial water#", other: "#kept trial also#"}
batches: [OP-01 bath 2026-07-19]
image: {file: "#kept trial file#.png", alt: "#kept trial alt#"}
outcome: "#kept trial outcome#"
verdict: worked
suspected: "#kept trial suspected#"
"""
LEFT_BEHIND_TRIAL = """
title: Tried long ago
recipe: open
revision: 1
date: 2026-02-02
changed: {times: {"#gone stage#/1": {from: 17.9 min, to: 71.9 min}}}
conditions: {water: #water#}
outcome: It was another recipe then.
verdict: failed
"""
TRIAL_PICTURES = ("open trial file", "closed trial file", "kept trial file")
FIGURES = (
    "17.9\N{NO-BREAK SPACE}min", "71.9\N{NO-BREAK SPACE}min",
    "53.91", "3234.6", "67.31", "8311", "498660", "7937", "18.73", "23.93", "613.7",
    "91.73", "5711", "4733",
    "8317", "6133", "6173", "5227", "417.3", "31.7", "19.37", "QZ-719", "QZ-721", "QZ-723", "2026-07-19", "2026-08-23",
    "19 July", "23 August", "1+37", "2026-07-20", "2026-07-21", "73.1", "47.9", "23.7", "61.3",
    "7.3 min", "7.3\N{NO-BREAK SPACE}min",
)  # fmt: skip
"""Figures that stand in supporters' content alone; not searched in pictures and packed bytes."""
SHOWN = ("A title that may be named", "A sentence that may be read.", "friends of the mill")


def mark(name: str) -> str:
    """A word of ten letters for a place, the same each time."""
    digest = hashlib.sha256(name.encode()).digest()
    return "".join(LETTERS[byte % len(LETTERS)] for byte in digest[:10])


@dataclass(frozen=True, slots=True, kw_only=True)
class Planted:
    """The archive's texts and pictures by path, and every mark in them by the place it stands in."""

    texts: dict[str, str]
    pictures: dict[str, bytes]
    marks: dict[str, str]

    def write(self, folder: Path) -> None:
        """The archive as a folder."""
        for path, content in {**{p: t.encode() for p, t in self.texts.items()}, **self.pictures}.items():
            (folder / path).parent.mkdir(parents=True, exist_ok=True)
            (folder / path).write_bytes(content)


def planted(*, sealed: bool) -> Planted:
    """The archive, its second edition sealed or not."""
    marks: dict[str, str] = {}

    def fill(text: str) -> str:
        pieces = text.split("#")
        for n in range(1, len(pieces), 2):
            pieces[n] = marks.setdefault(pieces[n], mark(pieces[n]))
        return "".join(pieces)

    card = fill(CARD)
    closed = fill(CLOSED).replace(f"      {mark('card')}:", f"      {mark('card')}-{mark('form')}:")
    texts = {
        "archive.yaml": fill(SETTINGS).replace("%SEALED%", ", sealed: yes" if sealed else ""),
        "recipes/open.yaml": fill(OPEN),
        f"recipes/{mark('slug')}.yaml": closed,
        f"recipes/{mark('teased slug')}.yaml": fill(TEASED),
        f"recipes/{mark('later slug')}.yaml": fill(LATER),
        f"substances/{mark('card')}.yaml": card,
        f"troubles/symptom-{mark('shared symptom')}.yaml": fill(SHARED),
        "troubles/half-told.yaml": fill(HALF),
        f"troubles/symptom-{mark('elsewhere')}.yaml": fill(ELSEWHERE),
        f"disputes/shared-{mark('shared quarrel')}.yaml": fill(QUARREL),
        f"disputes/abroad-{mark('abroad')}.yaml": fill(ABROAD),
    }
    texts |= {
        "journal/2026-02-02-tried-long-ago.yaml": fill(LEFT_BEHIND_TRIAL),
        "journal/2026-03-03-tried-by-all.yaml": fill(OPEN_TRIAL),
        f"journal/2026-07-20-{mark('trial slug')}.yaml": fill(KEPT_TRIAL),
        f"journal/2026-07-21-{mark('closed trial slug')}.yaml": fill(CLOSED_TRIAL),
    }
    marks.setdefault("later slug", mark("later slug"))
    marks.setdefault("closed trial slug", mark("closed trial slug"))
    names = ["image file", "stage file", "file", "teased file", "after file", "poster file", *TRIAL_PICTURES]
    pictures = {f"images/{mark(name)}.png": picture(name, marks) for name in names}
    pictures[f"images/{mark('step file')}.jpg"] = picture("step file", marks, jpeg=True)
    pictures[f"images/below/{mark('deep file')}.jpg"] = picture("deep file", marks, jpeg=True)
    pictures["images/shared.png"] = picture("shared", {})
    return Planted(texts=texts, pictures=pictures, marks=marks)


def picture(name: str, marks: dict[str, str], *, jpeg: bool = False) -> bytes:
    """Pixels of its own, and a mark in its metadata."""
    raw = hashlib.shake_256(name.encode()).digest(24 * 16 * 3)
    image = Image.frombytes("RGB", (24, 16), raw)
    out = io.BytesIO()
    told = marks.setdefault(f"{name} metadata", mark(f"{name} metadata"))
    if jpeg:
        exif = Image.Exif()
        exif[0x010E] = told
        image.save(out, "JPEG", exif=exif, comment=told.encode())
    else:
        info = PngImagePlugin.PngInfo()
        info.add_text("Comment", told)
        image.save(out, "PNG", pnginfo=info)
    return out.getvalue()
