"""Reading the tables of hazards that come with the program. What their lines mean is `labels` and `check.pairs`."""

from importlib.resources import files


def hazard_table(name: str) -> str:
    """The text of a file of `data/hazards`, such as `statements.yaml`."""
    return files("sitegen").joinpath("data", "hazards", name).read_text(encoding="utf-8")
