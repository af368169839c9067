"""Where it may go on each form, and what each label asks of fire and coats."""

from __future__ import annotations

from combobook.entries import Glaze
from combobook.render import said
from combobook.render.our_kiln import shown
from combobook.render.why.view import Asked, Part, Point
from combobook.wording import no_band_sentence


def places(asked: Asked) -> Part:
    """One point a form: outside, why not, inside."""
    words, made = asked.words, []
    bands, moves = shown(asked.verdict, asked.book).bands, asked.verdict.movement
    for band in bands:
        why_not = [no_band_sentence(found, words) for found in band.none]
        sides = " ".join([said.outside(band, words), *why_not, *said.inside_of(band, moves, words)])
        rules = " ".join(dict.fromkeys(found.rule for found in band.none if found.rule.startswith("P")))
        says = words("why.form", form=band.form.name.value, says=sides)
        made.append(Point(says=says, rests_on="", at=band.form.height.at.at, rule=rules))
    # Where no part of the outside is open, "off the lip" would sound as if below it were fine.
    lips = [band.lip_mm for band in bands if band.lip_mm and band.to_mm is not None]
    notes = (words("why.lip", lip_up_mm=lips[0]),) if lips else ()
    return Part(
        key="places", title=words("site.layering.places"), verdict="", under=(), points=tuple(made), notes=notes
    )


def fire(asked: Asked) -> Part:
    """What each label asks of fire and coats, and the cone that the studio fires to."""
    words, studio = asked.words, asked.book.studio
    made = [_label(asked, glaze) for glaze in asked.glazes]
    cone = words("why.studio_cone", cone=studio.cone.value)
    made.append(Point(says=cone, rests_on="", at=studio.cone.at.at, rule=""))
    if asked.layering is not None:
        most = words("why.most_coats", coats=words.counted("coats", studio.most_coats.value))
        rests = "" if studio.most_coats.stated else words("why.rests.house_unwritten")
        made.append(Point(says=most, rests_on=rests, at=studio.most_coats.at.at, rule=""))
    apart = [found for band in asked.verdict.bands for found in band.none if found.wording == "no_shared_cone"]
    notes = dict.fromkeys(no_band_sentence(found, words) for found in apart)
    return Part(
        key="fire", title=words("why.title.fire"), verdict="", under=(), points=tuple(made), notes=tuple(notes)
    )


def _label(asked: Asked, glaze: Glaze) -> Point:
    words = asked.words
    cones, coats = said.cones(glaze.cone.value, words), said.label_coats(glaze.coats.value, words)
    says = words("why.label", glaze=glaze.name.value, cones=cones, coats=coats)
    return Point(says=says, rests_on="", at=glaze.cone.at.at, rule="")
