"""The page of one glaze: what its label says, its own tiles, and every layering it takes part in."""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup

from combobook.entries import NOT_KNOWN, FoodLabel, Glaze, Status, Unknown
from combobook.measures import CoatRange, Span
from combobook.render import said
from combobook.render.cards import best_picture
from combobook.render.our_kiln import shown, unread
from combobook.render.profiles import legend
from combobook.render.views.comparisons import colours_view
from combobook.render.views.desk import Desk
from combobook.render.views.lab import further_views, lab_views
from combobook.render.views.page import Page
from combobook.render.views.pieces import Fact, image, known, small_card
from combobook.render.views.places import place_views
from combobook.render.views.running import running_view
from combobook.render.views.surfaces import surface_grid
from combobook.render.views.tiles import tile_table
from combobook.render.views.trust import trust_view
from combobook.render.views.verdict import food_sign, food_view, stop_words
from combobook.verdicts import FoodLevel, GlazeVerdict
from combobook.wording import number

ROOT = "../"


def pages(desk: Desk) -> Iterator[Page]:
    """One page for each glaze, also for those that are out or retired."""
    for verdict in desk.edition.judged.glazes.values():
        glaze = verdict.glaze
        path = f"glazes/{glaze.id}.html"
        view = _view(desk, verdict)
        yield Page(path=path, template="glaze.html", title=glaze.name.value, view=view, nav="glazes")


def _view(desk: Desk, verdict: GlazeVerdict) -> dict[str, object]:
    glaze = verdict.glaze
    coats = coats_words(desk, glaze)
    return {
        "mark": glaze.mark.value,
        "line": desk.text("glaze.line", cone=cone_words(desk, glaze), coats=coats),
        "looks": "" if isinstance(glaze.looks.value, Unknown) else glaze.looks.value,
        "stop": stop_words(desk, verdict),
        "notice": " ".join(part for part in (_notice(desk, glaze), _unread(desk, glaze)) if part),
        "image": image(best_picture(desk.edition, verdict), desk, "page"),
        "no_image": desk.words("picture.none") if verdict.tiles else desk.text("tiles.not_made"),
        "food": food_view(desk, verdict, desk.text("glaze.alone", coats=coats) if coats_known(glaze) else ""),
        "running": running_view(desk, verdict),
        "trust": trust_view(desk, verdict.evidence),
        "places": place_views(desk, shown(verdict, desk.book)),
        "legend": legend(desk.words),
        "quote": "" if isinstance(glaze.label_says.value, Unknown) else glaze.label_says.value,
        "stricter": _stricter(desk, verdict),
        "facts": glaze_facts(desk, glaze),
        "handling": tuple(line.value for line in glaze.handling),
        "surfaces": surface_grid(desk, verdict, ROOT),
        "labs": lab_views(desk, verdict, ROOT),
        "further": further_views(desk),
        "colours": colours_view(desk, verdict),
        "prose": desk.prose(glaze.body, ROOT, under=2),
        "first": tuple(small_card(desk, each, "then") for each in desk.on.get(glaze.id, ())),
        "first_title": desk.text("glaze.first", glaze=glaze.name.value),
        "first_none": desk.text("glaze.first_none", glaze=glaze.name.value),
        "on_top": tuple(small_card(desk, each, "first") for each in desk.over.get(glaze.id, ())),
        "on_top_title": desk.text("glaze.on_top", glaze=glaze.name.value),
        "on_top_none": desk.text("glaze.on_top_none", glaze=glaze.name.value),
        "table": tile_table(desk, verdict.tiles, ROOT, desk.text("glaze.table", glaze=glaze.name.value)),
    }


def cone_words(desk: Desk, glaze: Glaze) -> str:
    """`5 to 6`, one cone, or not known."""
    return said.cones(glaze.cone.value, desk.words)


def coats_known(glaze: Glaze) -> bool:
    """The label's number of coats is written down."""
    return isinstance(glaze.coats.value, CoatRange)


def _stricter(desk: Desk, verdict: GlazeVerdict) -> str:
    """That the label allows food and this book does not; empty where they agree."""
    allows = verdict.glaze.food_label.value is FoodLabel.YES
    if not allows or verdict.food.level >= FoodLevel.LABELS_ALLOW:
        return ""
    return desk.text("glaze.stricter", said=food_sign(desk, verdict.food, True).words)


def coats_words(desk: Desk, glaze: Glaze) -> str:
    """`2 to 3 coats`, or that nobody knows how many."""
    return said.label_coats(glaze.coats.value, desk.words)


def _notice(desk: Desk, glaze: Glaze) -> str:
    status = glaze.status.value
    if status is NOT_KNOWN:
        return desk.text("glaze.status_not_known")
    return "" if status is Status.IN_USE else desk.words("shelf.off", glaze=glaze.name.value, status=status.value) + "."


def _unread(desk: Desk, glaze: Glaze) -> str:
    """That nobody knows for which kiln it is; empty where its label's cone is written down."""
    return desk.words("other_kiln.unread", glaze=glaze.name.value) if unread(glaze) else ""


def glaze_facts(desk: Desk, glaze: Glaze) -> tuple[Fact, ...]:
    """What is written of it, in the order in which a student asks; what nobody knows is said so."""
    values: dict[str, str | Markup] = {
        "food_label": _food_label(desk, glaze),
        "cone": cone_words(desk, glaze),
        "coats": coats_words(desk, glaze),
        "flow": _flow(desk, glaze),
        "goes_on": goes_on_words(desk, glaze),
        "surface": known(glaze.surface, desk),
        "clay_shows": known(glaze.clay_shows, desk),
        "lot": known(glaze.lot, desk),
        "label_read": label_read_words(desk, glaze),
        "data_sheet": known(glaze.data_sheet, desk),
        "maker": known(glaze.maker, desk),
        "status": known(glaze.status, desk),
    }
    if not isinstance(glaze.retest_since.value, Unknown):
        values["retest_since"] = known(glaze.retest_since, desk)
    if not isinstance(glaze.was.value, Unknown):
        values["was"] = glaze.was.value
    values |= _jar(desk, glaze)
    return tuple(Fact(name=desk.text(f"glaze.facts.{key}"), value=value) for key, value in values.items())


def _food_label(desk: Desk, glaze: Glaze) -> str:
    label = glaze.food_label.value
    return desk.words("not_known") if isinstance(label, Unknown) else desk.text(f"glaze.label.{label.name.lower()}")


def _flow(desk: Desk, glaze: Glaze) -> str:
    flow = glaze.flow.value
    return desk.text("glaze.flow.not_known" if isinstance(flow, Unknown) else f"glaze.flow.{flow.value}")


def goes_on_words(desk: Desk, glaze: Glaze) -> str:
    """`anywhere`, or rims only and how far down."""
    if not glaze.rim_only:
        return desk.text("glaze.anywhere")
    band = glaze.rim_band.value if isinstance(glaze.rim_band.value, Span) else desk.book.studio.rim_band.value
    said = desk.text("glaze.rim_only", reach_down_mm=band.high)
    return f"{desk.text('glaze.goes_not_known')} {said}" if glaze.goes_on.value is NOT_KNOWN else said


def label_read_words(desk: Desk, glaze: Glaze) -> str:
    """The glaze's own date, else the studio's for all labels."""
    own = glaze.label_read.value
    return known(glaze.label_read if not isinstance(own, Unknown) else desk.book.studio.labels_read, desk)


def _jar(desk: Desk, glaze: Glaze) -> dict[str, str | Markup]:
    """How much there is, where somebody wrote it down."""
    litres = {"left": glaze.left.value, "jar": glaze.jar.value}
    found: dict[str, str | Markup] = {
        key: desk.text("glaze.millilitres", n=number(round(value * 1000)))
        for key, value in litres.items()
        if not isinstance(value, Unknown)
    }
    if not isinstance(glaze.covers.value, Unknown):
        found["covers"] = desk.text("glaze.covers", n=number(glaze.covers.value))
    return found
