"""Reading the trade's synonyms, which come with the program: `data/synonyms.yaml`."""

from functools import cache
from importlib.resources import files

from sitegen.problems import Problems
from sitegen.read.compose import compose
from sitegen.read.nodes import to_data

FILE = "synonyms.yaml"


@cache
def synonyms() -> tuple[tuple[str, ...], ...]:
    """The groups in the order of the file, the word for the page first. It is ours, so it is well-formed."""
    text = files("sitegen").joinpath("data", FILE).read_text(encoding="utf-8")
    problems = Problems()
    root = compose(text, FILE, problems)
    if root is None:
        raise ValueError(problems.found[0].message)
    data = to_data(root)
    assert isinstance(data, dict)
    return tuple((name, *(str(o) for o in others)) for name, others in data.items() if isinstance(others, list))
