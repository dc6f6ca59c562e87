"""What all tests share: the `--bless` switch and the golden files behind it."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings
from playwright.sync_api import Browser, expect, sync_playwright

from tests.chromium import launch

# `desk` while writing, `ci` before a release: `pytest --hypothesis-profile=ci`. Times vary with the machine,
# and a slow example is no failure.
SLOW = [HealthCheck.too_slow]
settings.register_profile("desk", max_examples=50, deadline=None, suppress_health_check=SLOW)
settings.register_profile("ci", max_examples=300, deadline=None, suppress_health_check=SLOW)
settings.load_profile("desk")

# As patient as an action: a page under a busy machine is no failure either.
expect.set_options(timeout=30_000)

Golden = Callable[[Path, str], None]


def pytest_addoption(parser: pytest.Parser) -> None:
    """`--bless` rewrites the expected texts of golden cases; read the diff before you keep it."""
    parser.addoption("--bless", action="store_true", help="rewrite expected texts with what is said now")


@pytest.fixture
def golden(request: pytest.FixtureRequest) -> Golden:
    """Compare a text with the file that holds what is expected, or rewrite the file under `--bless`."""

    def compare(expected: Path, text: str) -> None:
        if request.config.getoption("--bless"):
            expected.parent.mkdir(exist_ok=True)
            expected.write_text(text, encoding="utf-8")
        assert expected.exists(), f"{expected} is missing; run with --bless and read it"
        assert text == expected.read_text(encoding="utf-8")

    return compare


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """One Chromium for all tests of a worker: its driver can run once in a process.

    Never skipped: where there is no Chromium, these tests fail and say how to name one.
    """
    with sync_playwright() as playwright:
        browser = launch(playwright)
        yield browser
        browser.close()
