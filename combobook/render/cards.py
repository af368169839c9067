"""The layering's card: what chart, lists and sheets say of one layering, in the same words everywhere."""

from __future__ import annotations

from dataclasses import dataclass

from combobook.book import TestTile
from combobook.edition import Edition
from combobook.entries import NOT_KNOWN, FoodRule, Glaze, Status
from combobook.pictures import Picture
from combobook.render.our_kiln import refused, to_do, to_do_key
from combobook.verdicts import FoodLevel, GlazeVerdict, LayeringVerdict, Reason, TileFire
from combobook.wording import (
    EVIDENCE_KEYS,
    Words,
    coats_words,
    colour_words,
    evidence_words,
    food_in_full,
    food_key,
    food_lines,
    order_words,
    picture_note,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureView:
    """A picture with what must always be said beside it."""

    picture: Picture
    caption: str
    """Tile, coats, clay, firing; and that it is a drawing where it is one."""
    alt: str
    fired: str = ""
    """That the tile was fired hot, or cool; empty where it was fired as meant."""
    tile: TestTile | None = None
    """The tile that it shows; None where no log row names it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LayeringCard:
    """Finished words and mark names; templates only place them."""

    id: str
    page: str
    """Relative to site/."""
    base: str
    top: str
    base_mark: str
    top_mark: str
    first: str
    """`Ferry Rust first`."""
    then: str
    """`then Pond Lantern`."""
    over: str
    """`Pond Lantern over Ferry Rust`."""
    order: str
    """`Ferry Rust first, then Pond Lantern`."""
    nickname: str
    coats: str
    looks: str
    looks_short: str
    """At most two words or so, for the chart."""
    colour: str
    """The picture's, in words and with how it was measured: `deep blue-green, breaks amber (as drawn)`, or empty."""
    food_key: str
    """`keep_off`, `not_known`, `labels_allow`, `lab_report` or `never`."""
    food_mark: str
    food_lines: tuple[str, ...]
    food_full: str
    food_small: str
    """The first reason in a few words, or the report's limits and ware; may be empty."""
    movement_key: str
    movement_mark: str
    to_do: str
    catch_plate: str
    """The words, or empty where none is needed."""
    evidence_key: str
    evidence_mark: str
    evidence: str
    rim_band: bool
    """A reach is set: the rim-band mark is shown."""
    on_shelf: str
    """Empty, or that a glaze is out or retired."""
    picture: PictureView | None


def is_house_never(edition: Edition) -> bool:
    """House rule: nothing made here is for food."""
    return edition.book.studio.food_rule.value is FoodRule.NEVER


def food_classes(key: str, words: Words) -> str:
    """On a sheet: the class of the frame of a food word and that of its mark; `key` as `wording.food_key` gives it."""
    return f"{key.replace('_', '-')} m-{words(f'food.{key}.mark')}"


def card(edition: Edition, verdict: LayeringVerdict) -> LayeringCard:
    """The card of a layering, with or without an entry."""
    words, never = edition.words, is_house_never(edition)
    base, top = verdict.base.name.value, verdict.top.name.value
    entry = verdict.entry
    looks = entry.looks.value if entry is not None and entry.looks.value is not NOT_KNOWN else ""
    key, picture = food_key(verdict.food, never), best_picture(edition, verdict)
    evidence, out = EVIDENCE_KEYS[verdict.evidence.level], refused(verdict, edition.book)
    movement, mark = to_do_key(verdict, edition.book)
    return LayeringCard(
        id=verdict.id,
        page=f"combinations/{verdict.id}.html",
        base=base,
        top=top,
        base_mark=verdict.base.mark.value,
        top_mark=verdict.top.mark.value,
        first=words("coats.first", base=base),
        then=words("coats.then", top=top),
        over=words("coats.over", base=base, top=top),
        order=order_words(base, top, words),
        nickname=entry.name.value if entry is not None and entry.name.value is not NOT_KNOWN else "",
        coats=coats_words(base, top, verdict.coats, words),
        looks=looks,
        looks_short=short_looks(looks),
        colour=picture_colour(picture.picture, words) if picture is not None else "",
        food_key=key,
        food_mark=words(f"food.{key}.mark"),
        food_lines=food_lines(verdict.food, never, words),
        food_full=food_in_full(verdict.food, never, words),
        food_small=food_small(verdict, words, never),
        movement_key=movement,
        movement_mark=mark,
        to_do=to_do(verdict, edition.book, words, short=True),
        catch_plate=words("to_do.catch_plate") if verdict.movement.catch_plate and not out else "",
        evidence_key=evidence,
        evidence_mark=evidence.replace("_", "-"),
        evidence=evidence_words(verdict.evidence, words),
        rim_band=verdict.movement.reach_mm is not None and not out,
        on_shelf=off_shelf(verdict, words),
        picture=picture,
    )


def short_looks(looks: str) -> str:
    """The first clause of the looks, at most three words: `blue-grey`, `deep blue-green`."""
    clause = looks.replace(";", ",").split(",")[0].split()
    return " ".join(clause) if len(clause) <= 3 else " ".join(clause[:3])


def food_small(verdict: LayeringVerdict, words: Words, never: bool) -> str:
    """Under the food words on a card: limits and ware of a report, else the worst reason in a few words."""
    if never:
        return ""
    if verdict.food.level is FoodLevel.LAB_REPORT and verdict.food.lab is not None:
        return words("food.lab_report.small", limits=verdict.food.lab.limits.value, ware=verdict.food.lab.ware.value)
    return next((s for s in (short_reason(r, words) for r in verdict.food.reasons) if s), "")


def short_reason(reason: Reason, words: Words) -> str:
    """A reason in a few words (`short.<wording>`), or nothing where the theme has none for it."""
    key = f"short.{reason.wording}"
    return words(key, **dict(reason.facts)) if words.has(key) else ""


def off_shelf(verdict: LayeringVerdict, words: Words) -> str:
    """That a layer is out or retired, in words; empty where both can be used."""
    return off_words(verdict.base, words) or off_words(verdict.top, words)


def off_words(glaze: Glaze, words: Words) -> str:
    """That the glaze is out or retired, in words; empty where it can be used."""
    if glaze.status.value not in (Status.OUT, Status.RETIRED):
        return ""
    return words("shelf.off", glaze=glaze.name.value, status=glaze.status.value)


def best_picture(edition: Edition, verdict: LayeringVerdict | GlazeVerdict) -> PictureView | None:
    """The entry's own photo, else that of a tile of the judged coats, else of any tile; one fired as meant first."""
    entry = verdict.entry if isinstance(verdict, LayeringVerdict) else None
    wanted = entry.photo.value if entry is not None and isinstance(entry.photo.value, str) else ""
    tiles = [t for t in verdict.tiles if t.photo.value in edition.pictures]
    judged = (
        ()
        if not isinstance(verdict, LayeringVerdict) or verdict.coats is None
        else (verdict.coats.base, verdict.coats.top)
    )
    fires, words = edition.judged.tile_fire, edition.words
    tiles.sort(
        key=lambda t: (
            t.photo.value != wanted,
            t.coats != judged,
            not t.fired,
            bool(off_aim(fires.get(t.place), words)),
            t.place,
        )
    )
    if wanted in edition.pictures and (not tiles or tiles[0].photo.value != wanted):
        return _untold(edition, edition.pictures[wanted], verdict)
    return tile_picture(edition, tiles[0]) if tiles else None


def tile_picture(edition: Edition, tile: TestTile) -> PictureView | None:
    """A tile's picture with its caption, or None where it has none that can be shown."""
    if not isinstance(tile.photo.value, str) or tile.photo.value not in edition.pictures:
        return None
    picture, words = edition.pictures[tile.photo.value], edition.words
    fire = edition.judged.tile_fire.get(tile.place)
    told = tile_words(tile, words, fire)
    looks = tile.looks.value if tile.looks.value is not NOT_KNOWN else ""
    return PictureView(
        picture=picture,
        caption=f"{told} {picture_note(picture, words)}",
        alt=_alt(picture, f"{told} {looks}." if looks else told, words),
        fired=off_aim(fire, words),
        tile=tile,
    )


def _alt(picture: Picture, what: str, words: Words) -> str:
    """The alternative text: that it is a drawing or a photograph, of what, and its colour in words."""
    colour = picture_colour(picture, words)
    said = f"{what} {words('picture.alt_colour', colour=colour)}" if colour else what
    return words("picture.alt_drawing" if picture.drawing else "picture.alt_photo", what=said)


def picture_colour(picture: Picture, words: Words) -> str:
    """`deep blue-green, breaks amber (as drawn)`: what was measured and how; empty where nothing was."""
    if picture.colour is None:
        return ""
    how = words(f"picture.measured.{measured(picture)}")
    return words("picture.colour", colour=colour_words(picture.colour, words), how=how)


def measured(picture: Picture) -> str:
    """How its colours were measured: `drawn`, `balanced` by a tile tag, or as `photographed`."""
    if picture.drawing:
        return "drawn"
    return "balanced" if picture.colour is not None and picture.colour.balanced else "photographed"


def tile_words(tile: TestTile, words: Words, fire: TileFire | None) -> str:
    """`Tile B117: 2 coats Ferry Rust, then 1 Pond Lantern, on Buff, firing f02, middle shelf, fired hot.`"""
    clay = words("tile.clay", clay=tile.clay.name.value) if tile.clay else words("tile.no_clay")
    coats, off = tile_coats(tile, words), off_aim(fire, words)
    fired = tile_fired(tile, words) + (f", {off}" if off else "")
    return words("tile.told", tile=tile.tile.value, coats=coats, clay=clay, fired=fired)


def tile_coats(tile: TestTile, words: Words) -> str:
    """`2 coats Ferry Rust, then 1 Pond Lantern`: base first, whatever the name says."""
    first = words.counted("coats", tile.base_coats.value)
    if tile.top is None or tile.top_coats is None:
        return words("coats.alone", first=first, glaze=tile.base.name.value)
    return words(
        "coats.layering", first=first, base=tile.base.name.value, n=tile.top_coats.value, top=tile.top.name.value
    )


def off_aim(fire: TileFire | None, words: Words) -> str:
    """`fired hot` or `fired cool`: more than half a cone from what was meant; else empty."""
    return "" if fire is None or fire.fired == "as meant" else words(f"site.tiles.fired_{fire.fired}")


def tile_fired(tile: TestTile, words: Words) -> str:
    """`firing f02, middle shelf`; that it is not fired yet."""
    fired = words("tile.firing", firing=tile.firing.id) if tile.firing else words("tile.not_fired")
    shelf = words("tile.shelf", shelf=tile.kiln_shelf.value) if tile.kiln_shelf.value is not NOT_KNOWN else ""
    return fired + shelf


def _untold(edition: Edition, picture: Picture, verdict: LayeringVerdict | GlazeVerdict) -> PictureView:
    """A picture that no log row names: it says that its tile is not known."""
    words = edition.words
    told = words("picture.no_tile")
    name = (
        verdict.glaze.name.value
        if isinstance(verdict, GlazeVerdict)
        else words("coats.over", base=verdict.base.name.value, top=verdict.top.name.value)
    )
    caption = f"{told} {picture_note(picture, words)}"
    return PictureView(picture=picture, caption=caption, alt=_alt(picture, f"{name}.", words))
