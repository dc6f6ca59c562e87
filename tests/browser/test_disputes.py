"""Disputes on a phone and on a wide screen."""

from playwright.sync_api import expect

from tests.browser.conftest import Open

REGISTER = "disputes/index.html"


def places(page: object) -> list[tuple[float, float]]:
    claims = page.locator("#green-or-brown-iron-salt .claim").all()  # type: ignore[attr-defined]
    return [(box["x"], box["y"]) for claim in claims if (box := claim.bounding_box())]


def test_claims_stand_below_each_other_on_a_phone_and_beside_on_a_table(visit: Open) -> None:
    page = visit(REGISTER)
    narrow = places(page)
    assert len({x for x, _ in narrow}) == 1
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    page.set_viewport_size({"width": 1280, "height": 800})
    wide = places(page)
    assert len({y for _, y in wide}) == 1
    assert len({x for x, _ in wide}) == len(wide) == 3


def test_the_register_leads_to_the_dispute_on_the_recipe(visit: Open) -> None:
    page = visit(REGISTER)
    page.locator("#green-or-brown-iron-salt").get_by_role("link", name="IB-01 Iron-blue print").click()
    assert page.url.endswith("recipes/iron-blue/index.html#dispute-green-or-brown-iron-salt")
    expect(page.locator("#dispute-green-or-brown-iron-salt")).to_be_visible()
