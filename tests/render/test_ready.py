"""What each stage works with stands at its head."""

from bs4 import BeautifulSoup


def test_a_stage_names_its_mixtures_with_amount_and_what_to_mix_first(blue: BeautifulSoup) -> None:
    ready = blue.select(".stage .ready")
    assert ready
    for item in blue.select(".ready li"):
        names = [link["href"] for link in item.select("a")]
        assert all(blue.find(id=str(way).removeprefix("#")) for way in names)
    linked = {str(a["href"]) for a in blue.select(".stage .do a[href^='#mix-']")}
    assert linked <= {str(a["href"]) for a in blue.select(".ready li > a:first-child")}


def test_the_amount_at_a_stage_is_the_one_of_the_mixing_table(blue: BeautifulSoup) -> None:
    for amount in blue.select(".ready data.live"):
        section = blue.select_one(f"section[data-mixture='{amount['data-mixture']}']")
        assert section is not None
        makes = section.select_one("[data-makes]")
        assert makes is not None
        assert amount.get_text() == makes.get_text()


def test_a_stage_without_a_mixture_has_no_empty_list(blue: BeautifulSoup) -> None:
    assert not [each for each in blue.select(".ready ul") if not each.select("li")]


def test_a_mixture_leads_back_to_every_stage_that_works_with_it(blue: BeautifulSoup) -> None:
    for stage in blue.select(".stage"):
        for link in stage.select(".ready a"):
            section = blue.find(id=str(link["href"]).removeprefix("#"))
            assert section is not None
            assert section.select_one(f"a[href='#{stage['id']}']"), (stage["id"], link["href"])


def test_a_list_leads_to_each_mixture_where_there_are_many(blue: BeautifulSoup) -> None:
    ways = [str(link["href"]) for link in blue.select("ul.page-jumps a")]
    assert ways == [f"#{section['id']}" for section in blue.select("section.mixture")]
    assert len(ways) > 3
