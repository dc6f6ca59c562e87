"""What is published against what was compiled."""

from sitegen.render.published import Compiled, Difference, differences, to_ask

OURS = {"index.html": "1", "a.html": "2", "shared.css": "3"}
ABOVE = {"index.html": "7", "a.html": "2", "shared.css": "3", "secret.html": "8"}
COMPILED = Compiled(edition="public", files=OURS, higher={"supporters": ABOVE})


def test_nothing_is_wrong_when_all_is_as_compiled() -> None:
    assert differences(COMPILED, {**OURS, "manifest.json": "9"}) == ()


def test_missing_stale_and_left_over_are_told_apart() -> None:
    found = {"index.html": "1", "a.html": "old", "gone.html": "5"}
    assert differences(COMPILED, found) == (
        Difference(kind="left over", path="gone.html"),
        Difference(kind="missing", path="shared.css"),
        Difference(kind="stale", path="a.html"),
    )


def test_a_file_of_a_higher_edition_comes_first_by_its_path() -> None:
    found = {**OURS, "gone.html": "5", "secret.html": "an older one"}
    assert differences(COMPILED, found)[0] == Difference(kind="left over", path="secret.html", of="supporters")


def test_a_file_of_a_higher_edition_is_known_by_its_bytes_under_any_name() -> None:
    assert differences(COMPILED, {**OURS, "innocent.txt": "8"}) == (
        Difference(kind="left over", path="innocent.txt", of="supporters"),
    )
    assert differences(COMPILED, {**OURS, "index.html": "7"}) == (
        Difference(kind="stale", path="index.html", of="supporters"),
    )


def test_a_file_that_both_editions_share_is_no_leak() -> None:
    assert differences(COMPILED, {**OURS, "copy.css": "3"}) == (Difference(kind="left over", path="copy.css"),)


def test_the_hosts_own_files_are_passed_over() -> None:
    assert differences(COMPILED, {**OURS, "CNAME": "5", ".well-known/security.txt": "6", ".nojekyll": "7"}) == ()


def test_no_answer_is_not_taken_for_missing() -> None:
    assert differences(COMPILED, {**OURS, "a.html": None}) == (Difference(kind="no answer", path="a.html"),)


def test_a_host_is_asked_for_listed_paths_only() -> None:
    assert to_ask(COMPILED, {"gone.html": "5"}) == (
        "a.html",
        "gone.html",
        "index.html",
        "manifest.json",
        "secret.html",
        "shared.css",
    )
