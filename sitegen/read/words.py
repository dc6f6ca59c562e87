"""Reading the word list that passphrases are drawn from. Its licence stands in the file."""

from importlib.resources import files


def word_list() -> tuple[str, ...]:
    """The words, in the order of the file."""
    text = files("sitegen").joinpath("data", "words.txt").read_text(encoding="utf-8")
    return tuple(line for line in text.splitlines() if line and not line.startswith("#"))
