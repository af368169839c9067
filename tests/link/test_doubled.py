"""What is doubled is reported at the later place and names the earlier."""

from __future__ import annotations

from tests.studios import entry, glaze, make_with, said


def test_a_mark_on_two_glazes_is_an_error_at_the_later_one_only() -> None:
    _, problems = make_with({"glazes/zinc-hollow.md": glaze("Zinc Hollow", "fr")})
    assert said(problems) == ["glazes/zinc-hollow.md:3:7 error doubled-mark"]
    assert "glazes/ferry-rust.md:3" in problems[0].message


def test_a_name_on_two_glazes_is_an_error_at_the_later_one_only() -> None:
    _, problems = make_with({"glazes/zinc-hollow.md": glaze("ferry  rust", "ZH")})
    assert said(problems) == ["glazes/zinc-hollow.md:2:7 error doubled-name"]
    assert "glazes/ferry-rust.md:2" in problems[0].message


def test_a_name_is_doubled_however_its_accents_are_put_together() -> None:
    _, problems = make_with({"glazes/a.md": glaze("Fa\u0308hre", "FX"), "glazes/b.md": glaze("F\u00e4hre", "FY")})
    assert said(problems) == ["glazes/b.md:2:7 error doubled-name"]


def test_the_third_of_a_name_also_names_the_first() -> None:
    _, problems = make_with({f"glazes/zinc-{n}.md": glaze("Ferry Rust", f"Z{n}") for n in (1, 2)})
    assert said(problems) == [f"glazes/zinc-{n}.md:2:7 error doubled-name" for n in (1, 2)]
    assert all("glazes/ferry-rust.md:2" in p.message for p in problems)


def test_clays_and_forms_have_names_of_their_own() -> None:
    _, problems = make_with(
        {"clays/second.md": entry("name: Quarry White", "cone: 5 to 7"), "forms/second.md": entry("name: mug", "height: 9 cm", "holds food: no")},
    )  # fmt: skip
    assert said(problems) == ["clays/second.md:2:7 error doubled-name", "forms/second.md:2:7 error doubled-name"]


def test_a_clay_a_form_and_a_glaze_may_share_a_name_and_a_mark() -> None:
    _, problems = make_with(
        {"clays/second.md": entry("name: Ferry Rust", "mark: FR", "cone: 5 to 7"), "forms/second.md": entry("name: Ferry Rust", "height: 9 cm", "holds food: no")},
    )  # fmt: skip
    assert problems == ()


def test_two_entries_for_one_layering_are_an_error_at_the_later_one() -> None:
    book, problems = make_with({"combinations/zz.md": entry("base: ferry rust", "top: pond-lantern", "coats: 1 + 1")})
    assert said(problems) == ["combinations/zz.md:2:7 error doubled-layering"]
    assert "combinations/pond-lantern-over-ferry-rust.md:2" in problems[0].message
    assert book.combinations["pond-lantern-over-ferry-rust"].path == "combinations/pond-lantern-over-ferry-rust.md"


def test_the_other_order_is_another_layering() -> None:
    book, problems = make_with({"combinations/zz.md": entry("base: PL", "top: FR")})
    assert sorted(book.combinations) == ["ferry-rust-over-pond-lantern", "pond-lantern-over-ferry-rust"]
    assert problems == ()
