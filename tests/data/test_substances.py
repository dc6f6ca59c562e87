"""The built-in substance cards: their fields, names, look-alikes and hazards.

Read with `yaml.BaseLoader`, so that every scalar is text, as the reader of the archive sees it.
Not a test of that reader, which has its own; the figures are in `test_substance_figures`.
"""

import re
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml

FOLDER = Path(__file__).parents[2] / "sitegen" / "data" / "substances"
Card = dict[str, Any]

# Names that the trade truly uses for more than one substance; each card says so in its note.
SHARED_NAMES = {
    "ammonium citrate": {"triammonium-citrate", "diammonium-citrate"},
    "campden tablets": {"sodium-metabisulfite", "potassium-metabisulfite"},
    "coffee": {"instant-coffee", "coffee-grounds"},
    "edta": {"edta-tetrasodium", "edta-disodium"},
    "mordant alum": {"potassium-alum", "ammonium-alum", "aluminium-sulfate"},
}

CARD_KEYS = {
    "name", "state", "formula", "cas", "other names", "assay", "density", "supplies", "content", "forms",
    "look-alikes", "solubility", "hazards", "store", "dispose", "note", "unverified",
}  # fmt: skip
FORM_KEYS = {"name", "formula", "cas", "names", "assay", "density", "state", "content", "note", "supplies"}


@cache
def cards() -> dict[str, Card]:
    return {
        path.stem: yaml.load(path.read_text("utf-8"), Loader=yaml.BaseLoader)  # noqa: S506 - texts only
        for path in sorted(FOLDER.glob("*.yaml"))
    }


def forms(card: Card) -> dict[str, Card]:
    return dict(card.get("forms", {}))


def all_names(card: Card) -> set[str]:
    """Every name of a substance and of its forms, in small letters."""
    names = [card["name"], *card.get("other names", [])]
    for form in forms(card).values():
        names += [*form.get("names", []), form.get("name", card["name"])]
    return {name.lower() for name in names}


def form_names(slug: str, key: str) -> set[str]:
    return {name.lower() for name in forms(cards()[slug])[key].get("names", [])}


def owners(name: str) -> set[str]:
    return {slug for slug, card in cards().items() if name.lower() in all_names(card)}


def test_there_are_enough_cards_for_a_studio() -> None:
    assert len(cards()) >= 90


@pytest.mark.parametrize("slug", sorted(cards()))
def test_card_has_the_required_fields_and_no_unknown_ones(slug: str) -> None:
    card = cards()[slug]
    assert set(card) <= CARD_KEYS
    assert {"name", "state", "hazards"} <= set(card)
    assert card["state"] in {"solid", "liquid", "gas", "plant"}
    for form in forms(card).values():
        assert set(form) <= FORM_KEYS


@pytest.mark.parametrize("slug", sorted(cards()))
def test_card_says_on_what_its_hazards_rest(slug: str) -> None:
    hazards = cards()[slug]["hazards"]
    assert hazards["basis"] in {"harmonised", "national", "notified", "not classified", "no data"}
    assert hazards["source"]
    assert set(hazards) <= {"classes", "basis", "source", "groups", "never"}
    judged = hazards["basis"] in {"harmonised", "national", "notified"}
    assert judged == bool(hazards["classes"])


def test_hazard_classes_are_written_one_way() -> None:
    pattern = re.compile(
        r"(Acute Tox\. [1-4] \((oral|dermal|inhalation)\)"
        r"|STOT SE 3 \((respiratory irritation|narcotic effects)\)|STOT SE 1"
        r"|STOT RE [12]( \(central nervous system\))?|Repr\. (1A|1B|2) \(H36[01][FDfd]*\)"
        r"|Carc\. 1A \(inhalation\)|(Carc|Muta)\. (1A|1B|2)"
        r"|Skin Corr\. 1[ABC]|Skin Irrit\. 2|Eye Dam\. 1|Eye Irrit\. 2|(Skin|Resp\.) Sens\. 1B?"
        r"|(Ox|Flam)\. (Sol|Liq)\. [123]|Self-heat\. 1|Met\. Corr\. 1|Asp\. Tox\. 1"
        r"|Aquatic Acute 1|Aquatic Chronic [1-4])"
    )
    odd = {c for card in cards().values() for c in card["hazards"]["classes"] if not pattern.fullmatch(c)}
    assert odd == set()


@pytest.mark.parametrize("slug", sorted(cards()))
def test_a_card_gives_one_class_for_the_eye_and_one_for_the_skin(slug: str) -> None:
    classes = cards()[slug]["hazards"]["classes"]
    for part in ("Eye", "Skin Corr|Skin Irrit"):
        assert sum(bool(re.match(part, name)) for name in classes) <= 1


def test_ids_are_slugs_and_no_two_substances_or_forms_share_one() -> None:
    ids = list(cards()) + [f"{slug}-{key}" for slug, card in cards().items() for key in forms(card)]
    assert len(ids) == len(set(ids))
    assert [text for text in ids if not re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", text)] == []


def test_look_alikes_exist_and_name_each_other() -> None:
    for slug, card in cards().items():
        for other in card.get("look-alikes", []):
            assert slug in cards()[other]["look-alikes"]
            assert slug != other


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("potassium-ferricyanide", "potassium-ferrocyanide"),
        ("sodium-sulfite", "sodium-sulfate"),
        ("sodium-sulfite", "sodium-thiosulfate"),
        ("sodium-carbonate", "sodium-bicarbonate"),
        ("ferric-ammonium-citrate", "ferric-ammonium-oxalate"),
        ("ferric-ammonium-oxalate", "ferric-oxalate"),
        ("sodium-thiosulfate", "sodium-dithionite"),
        ("ferrous-sulfate", "copper-sulfate"),
    ],
)
def test_dangerous_look_alikes_are_marked(one: str, other: str) -> None:
    assert other in cards()[one]["look-alikes"]


def test_only_the_listed_names_belong_to_two_substances() -> None:
    by_name: dict[str, set[str]] = {}
    for slug, card in cards().items():
        for name in all_names(card):
            by_name.setdefault(name, set()).add(slug)
    assert {name: slugs for name, slugs in by_name.items() if len(slugs) > 1} == SHARED_NAMES


@pytest.mark.parametrize("name", sorted(SHARED_NAMES))
def test_a_shared_name_is_explained_on_every_card_that_bears_it(name: str) -> None:
    for slug in SHARED_NAMES[name]:
        assert name in cards()[slug]["note"].lower()


def test_a_name_belongs_to_two_forms_of_one_substance_only_when_both_say_so() -> None:
    for slug, card in cards().items():
        seen: dict[str, list[str]] = {}
        for key, form in forms(card).items():
            for name in form.get("names", []):
                seen.setdefault(name.lower(), []).append(key)
        for name, keys in seen.items():
            if len(keys) > 1:
                assert all(name in forms(card)[key]["note"].lower() for key in keys), slug


def test_the_three_sodas_are_told_apart() -> None:
    """Trade names after trade practice: ash is dry, crystals are wet, washing soda may be either."""
    assert "soda ash" in form_names("sodium-carbonate", "anhydrous")
    assert "soda crystals" in form_names("sodium-carbonate", "decahydrate")
    soda = forms(cards()["sodium-carbonate"])
    washing = {key for key in soda if "washing soda" in form_names("sodium-carbonate", key)}
    assert washing == {"decahydrate", "monohydrate"}
    for key in washing:
        assert "read the pack" in soda[key]["note"].lower()


@pytest.mark.parametrize(
    ("name", "slug"),
    [
        ("baking soda", "sodium-bicarbonate"),
        ("bicarb", "sodium-bicarbonate"),
        ("hypo", "sodium-thiosulfate"),
        ("sodium hyposulfite", "sodium-thiosulfate"),
        ("sodium hydrosulfite", "sodium-dithionite"),
        ("copperas", "ferrous-sulfate"),
        ("blue vitriol", "copper-sulfate"),
        ("white vitriol", "zinc-sulfate"),
        ("red prussiate", "potassium-ferricyanide"),
        ("yellow prussiate", "potassium-ferrocyanide"),
        ("lunar caustic", "silver-nitrate"),
        ("cream of tartar", "potassium-bitartrate"),
        ("caustic soda", "sodium-hydroxide"),
        ("caustic potash", "potassium-hydroxide"),
        ("Epsom salt", "magnesium-sulfate"),
        ("Glauber's salt", "sodium-sulfate"),
        ("French chalk", "talc"),
        ("vitamin C", "ascorbic-acid"),
        ("alum", "potassium-alum"),
        ("vinegar", "acetic-acid"),
        ("turps substitute", "white-spirit"),
        ("glycerine", "glycerol"),
        ("washing soda", "sodium-carbonate"),
    ],
)
def test_a_trade_name_leads_to_its_substance_alone(name: str, slug: str) -> None:
    assert owners(name) == {slug}


def test_no_substance_is_called_by_an_uncertain_short_name() -> None:
    for name in ("soda", "carbonate", "citrate", "ferricyanide salt", "bleach", "vitriol", "lime", "acid"):
        assert owners(name) == set()


@pytest.mark.parametrize(
    ("part", "slugs"),
    [
        ("carbonate", {"sodium-carbonate", "potassium-carbonate"}),
        ("bromide", {"sodium-bromide", "potassium-bromide", "ammonium-bromide"}),
        ("iodide", {"sodium-iodide", "potassium-iodide"}),
        ("thiosulfate", {"sodium-thiosulfate", "ammonium-thiosulfate"}),
        ("hydroxide", {"sodium-hydroxide", "potassium-hydroxide"}),
        ("ascorbate", {"sodium-ascorbate", "ascorbic-acid"}),
        ("sulfite", {"sodium-sulfite"}),
        ("aluminium", {"potassium-alum", "ammonium-alum", "aluminium-sulfate"}),
    ],
)
def test_what_can_be_swapped_for_what(part: str, slugs: set[str]) -> None:
    assert {slug for slug, card in cards().items() if part in card.get("supplies", {})} == slugs


def test_only_fixed_formulas_supply_a_part() -> None:
    for slug, card in cards().items():
        if "supplies" in card:
            assert "formula" in card, slug
            assert all(int(count) >= 1 for count in card["supplies"].values()), slug


def test_bicarbonate_never_stands_in_for_carbonate() -> None:
    assert "supplies" not in cards()["sodium-bicarbonate"]


def test_iron_content_of_the_two_citrates_differs() -> None:
    """Green 14-18 % iron, brown 18-28 %: trade figures; no formula, so no swap is exact."""
    citrate = cards()["ferric-ammonium-citrate"]
    assert "formula" not in citrate
    assert {key: form["content"]["iron"] for key, form in forms(citrate).items()} == {
        "green": "14-18 %",
        "brown": "18-28 %",
    }


def test_a_judgement_from_memory_is_marked_unverified() -> None:
    for slug, card in cards().items():
        hazards = card["hazards"]
        if hazards["basis"] in {"notified", "not classified"} or "not checked" in hazards["source"]:
            assert "hazards" in card["unverified"], slug


def test_plants_have_no_formula_and_are_never_called_harmless() -> None:
    plants = [card for card in cards().values() if card["state"] == "plant"]
    assert len(plants) >= 20
    for card in plants:
        assert "formula" not in card
        assert card["hazards"]["basis"] == "no data"


def test_the_gas_rules_that_must_not_be_missed_stand_on_the_cards() -> None:
    def never(slug: str) -> str:
        return " ".join(cards()[slug]["hazards"]["never"])

    assert "hydrogen cyanide" in never("potassium-ferricyanide")
    assert "chlorine gas" in never("sodium-hypochlorite")
    assert "hydrogen sulfide" in never("sodium-sulfide")
    assert "explosive" in never("silver-nitrate")
    assert "explosive" in never("gold-chloride")
    assert "rags" in never("linseed-oil")
    assert "zinc" in never("ferric-chloride")


def test_disposal_defers_to_local_rules() -> None:
    for slug, card in cards().items():
        if "dispose" in card:
            assert card["dispose"].endswith("Local rules decide."), slug
