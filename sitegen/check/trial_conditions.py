"""Trial conditions: what an entry was made with and in. Its water is one of the archive's waters, or told in words."""

from sitegen.check.places import Places
from sitegen.check.trial_documents import ConditionsDoc
from sitegen.model.archive import Archive
from sitegen.model.trial import Conditions
from sitegen.problems import Problem, Problems, did_you_mean


def conditions(doc: ConditionsDoc | None, places: Places, archive: Archive, problems: Problems) -> Conditions:
    """The conditions of an entry; a single word that is nearly a water's id is told of (`unknown-water`)."""
    if doc is None:
        return Conditions()
    waters = {water.id: water.name for water in archive.settings.waters}
    said = doc.water or ""
    near = did_you_mean(said, waters) if said not in waters and len(said.split()) == 1 else ""
    if near:
        problems.add(
            Problem(
                code="unknown-water",
                at=places.value("conditions", "water"),
                message=f"`archive.yaml` has no water `{said}`",
                help=f"{near} To tell of another water, use more than one word",
            )
        )
    return Conditions(
        paper=doc.paper or "",
        lamp=doc.lamp or "",
        temperature=doc.temperature,
        humidity=doc.humidity,
        water="" if said in waters else said,
        place=said if said in waters else "",
        other=doc.other,
    )
