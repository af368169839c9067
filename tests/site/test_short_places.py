"""The few words under each small pot: outside and inside told apart, as the full text tells them."""

from __future__ import annotations

from combobook.render.views.desk import desk
from combobook.render.views.places import PlaceView, place_views
from combobook.verdicts import Band
from tests.published_demo import demo_edition, demo_files
from tests.site.editions import pages_of, text_of
from tests.studios import entry, log

LAYERING = "combinations/pond-lantern-over-ferry-rust.html"
OFF = log("A1,FR,2,PL,1,Quarry White,f01,middle,upright,off the tile,none")


def demo_places(name: str) -> dict[str, tuple[str, ...]]:
    """The few words for each form of one of the demo's layerings."""
    edition = demo_edition()
    verdict = next(each for each in edition.judged.layerings.values() if each.id == name)
    return {place.id: place.short for place in place_views(desk(edition), verdict)}


def every_place() -> list[tuple[Band, PlaceView]]:
    edition = demo_edition()
    laid = desk(edition)
    verdicts = (*edition.judged.layerings.values(), *edition.judged.glazes.values())
    return [pair for each in verdicts for pair in zip(each.bands, place_views(laid, each), strict=True)]


def test_a_rim_only_glaze_that_runs_is_kept_to_the_top_of_an_inside_that_its_outside_has_no_room_for() -> None:
    said = demo_places("candle-weir-over-snow-pantry")
    assert said["bowl"] == ("outside: nowhere", "inside: top 25 mm only")
    assert said["plate"] == ("inside: top 25 mm only",)
    assert said["wall-tile"] == ("outside: rim down 25 mm",), "a wall tile has no inside"


def test_the_few_words_never_say_more_than_the_full_text_of_any_form_in_the_demo() -> None:
    for band, place in every_place():
        inside = [said for said in place.short if said.startswith("inside: ")]
        outside = [said for said in place.short if said.startswith("outside: ")]
        assert len(inside) == int(band.inside is not None)
        if band.inside is not None:
            assert ("keep it out" in inside[0]) is (not band.inside)
            assert ("only" in inside[0]) is bool(band.inside and band.inside_to_mm and "better not" not in inside[0])
        assert outside == [] or (outside == ["outside: nowhere"]) is (not place.useful)


def test_what_ran_off_a_tile_is_better_not_on_a_wall_inside_in_few_words_and_on_the_page_of_any_pair() -> None:
    mug = entry("name: Mug", "height: 95 mm", "holds food: no", "inside: hollow")
    page = text_of(pages_of({"logs/autumn.csv": OFF, "forms/mug.md": mug})[LAYERING])
    assert "inside: better not on its wall" in page
    assert "Better not on a wall inside either" in demo_files()["site/script/pairs.js"].decode()


def test_each_small_pot_has_its_words_beneath_it_on_the_page() -> None:
    page = text_of(demo_files()["site/combinations/candle-weir-over-snow-pantry.html"].decode())
    assert "Cereal bowl outside: nowhere inside: top 25 mm only" in page
