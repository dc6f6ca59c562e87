"""The list of what was compiled."""

import hashlib
import json

import pytest

from sitegen.problems import Refusal
from sitegen.render.manifest import MANIFEST, read_manifest, with_manifest
from sitegen.render.page import Page

PAGES = (Page(path="index.html", content=b"home"), Page(path="assets/a.css", content=b""))


def test_the_manifest_comes_last_and_lists_every_other_file() -> None:
    *others, last = with_manifest(PAGES)
    assert tuple(others) == PAGES
    assert last.path == MANIFEST
    assert read_manifest(last.content, MANIFEST) == {
        "assets/a.css": hashlib.sha256(b"").hexdigest(),
        "index.html": hashlib.sha256(b"home").hexdigest(),
    }


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"<html>",
        b"[]",
        b'{"sha256": []}',
        b"\xff",
        b"[" * 100_000,
        *(
            json.dumps({"sha256": {path: "00"}}).encode()
            for path in ("../up", "/etc/passwd", "a//b", "a/./b", "https://other.example/", "a\\b", "")
        ),
    ],
)
def test_what_is_no_manifest_is_refused(content: bytes) -> None:
    with pytest.raises(Refusal, match="no manifest"):
        read_manifest(content, "x")
