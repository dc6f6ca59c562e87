"""The planted archive, compiled as its author would: by the command, on a day before anything is opened."""

from collections.abc import Mapping
from pathlib import Path

import pytest
from click.testing import CliRunner

from sitegen.cli import main
from tests.editions.bytes_of import everything
from tests.editions.planted import Planted, planted

WORDS = "rib certain credit cotton cattle program mansion"
OTHER = "tide mill feather sluice river chart walnut onion skin bark"
BEFORE, AFTER = "2026-11-30", "2026-12-01"

Found = list[tuple[str, bytes]]


def compiled(archive: Planted, folder: Path, *, day: str = BEFORE, passphrases: str = "") -> Path:
    """The folder of all editions, by `trayside compile`."""
    archive.write(folder / "archive")
    command = ["compile", "--archive", str(folder / "archive"), "--out", str(folder / "build"), "--on", day]
    done = CliRunner().invoke(main, command, env={"TRAYSIDE_PASSPHRASES": passphrases})
    assert done.exit_code == 0, done.output
    return folder / "build"


@pytest.fixture(scope="session")
def archive() -> Planted:
    """The planted archive with a sealed edition."""
    return planted(sealed=True)


@pytest.fixture(scope="session")
def build(archive: Planted, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Both editions, the second sealed with two passphrases."""
    return compiled(archive, tmp_path_factory.mktemp("sealed"), passphrases=f"{WORDS}\n# a friend\nsupporters: {OTHER}")


@pytest.fixture(scope="session")
def public(build: Path) -> Found:
    """Every byte of the public edition, unpacked."""
    return list(everything(build / "public"))


@pytest.fixture(scope="session")
def supporters(archive: Planted, tmp_path_factory: pytest.TempPathFactory) -> Mapping[str, bytes]:
    """The supporters' edition, not sealed: files by path."""
    unsealed = planted(sealed=False)
    assert unsealed.marks == archive.marks
    folder = compiled(unsealed, tmp_path_factory.mktemp("open")) / "supporters"
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in folder.rglob("*") if p.is_file()}
