"""What an edition says today, in words: to be closed with it, and to compare the next one with."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import asdict, replace

from combobook.edition import Edition
from combobook.entries import NOT_KNOWN, Glaze, Unknown
from combobook.past import FORMAT, PastEdition, PastPlace, PastReason, PastVerdict, slug
from combobook.render import said
from combobook.render.cards import is_house_never
from combobook.render.data import CLASSES, EVIDENCE, FOOD
from combobook.verdicts import Band, GlazeVerdict, LayeringVerdict, Reason, ToDo
from combobook.wording import coats_words, evidence_words, food_in_full, no_band_sentence, sentence, to_do_words


def snapshot(edition: Edition) -> PastEdition:
    """Every glaze alone and every layering that has an entry or a tile, as its page says it."""
    studio, judged = edition.book.studio, edition.judged
    shown = (v for v in judged.layerings.values() if v.entry is not None or v.tiles)
    return PastEdition(
        slug=slug(studio.edition.value),
        studio=studio.name.value,
        edition=studio.edition.value,
        date=None if studio.date.value is NOT_KNOWN else studio.date.value,
        cone=str(studio.cone.value),
        glazes=tuple(_alone(edition, verdict) for _, verdict in sorted(judged.glazes.items())),
        layerings=tuple(sorted((_layering(edition, verdict) for verdict in shown), key=lambda past: past.id)),
    )


def written(past: PastEdition) -> bytes:
    """The edition as editions/<slug>.json holds it; `validate` reads it back as the same."""
    record = {"format": FORMAT, **asdict(past), "date": past.date.isoformat() if past.date else None}
    return (json.dumps(record, ensure_ascii=False, indent=1, sort_keys=True) + "\n").encode()


def _layering(edition: Edition, verdict: LayeringVerdict) -> PastVerdict:
    words = edition.words
    base, top = verdict.base, verdict.top
    return _verdict(
        edition,
        verdict,
        id_=verdict.id,
        layers=(base, top),
        name=words("coats.over", base=base.name.value, top=top.name.value),
        order=coats_words(base.name.value, top.name.value, verdict.coats, words),
        status="",
    )


def _alone(edition: Edition, verdict: GlazeVerdict) -> PastVerdict:
    glaze = verdict.glaze
    status = edition.words("not_known") if glaze.status.value is NOT_KNOWN else glaze.status.value.value
    past = _verdict(edition, verdict, id_=glaze.id, layers=(glaze,), name=glaze.name.value, order="", status=status)
    return replace(past, was="" if isinstance(glaze.was.value, Unknown) else glaze.was.value)


def _verdict(
    edition: Edition,
    verdict: LayeringVerdict | GlazeVerdict,
    *,
    id_: str,
    layers: tuple[Glaze, ...],
    name: str,
    order: str,
    status: str,
) -> PastVerdict:
    words, food, movement, evidence = edition.words, verdict.food, verdict.movement, verdict.evidence
    marks = frozenset(tile.tile.value for tile in verdict.tiles)
    return PastVerdict(
        id=id_,
        base=layers[0].id,
        top=layers[1].id if len(layers) > 1 else "",
        name=name,
        order=order,
        marks=tuple(glaze.mark.value for glaze in layers),
        status=status,
        food_level=FOOD[food.level],
        food_ware=food.food_ware,
        food=food_in_full(food, is_house_never(edition), words, one_glaze=len(layers) == 1),
        food_reasons=_reasons(edition, food.reasons, marks),
        movement_class=CLASSES[movement.cls],
        to_do=to_do_words(movement, words),
        catch_plate=movement.catch_plate,
        margin_mm=movement.margin_mm,
        reach_mm=movement.reach_mm,
        off_walls=movement.to_do is ToDo.NOT_ON_WALLS,
        movement_reasons=_reasons(edition, movement.reasons, marks),
        evidence_level=EVIDENCE[evidence.level],
        tiles=evidence.tiles,
        firings=evidence.firings,
        evidence=evidence_words(evidence, words),
        places=tuple(_place(edition, band) for band in verdict.bands),
    )


def _reasons(edition: Edition, reasons: Iterable[Reason], marks: frozenset[str]) -> tuple[PastReason, ...]:
    return tuple(
        PastReason(says=sentence(reason, edition.words), tiles=_tiles(dict(reason.facts), marks)) for reason in reasons
    )


def _tiles(facts: Mapping[str, object], marks: frozenset[str]) -> tuple[str, ...]:
    """The tiles that a reason's facts name, so that it can be left out when one of them is withdrawn."""
    found: set[str] = set()
    for fact in facts.values():
        for each in fact if isinstance(fact, tuple | list) else (fact,):
            if isinstance(each, str) and each in marks:
                found.add(each)
    return tuple(sorted(found))


def _place(edition: Edition, band: Band) -> PastPlace:
    words = edition.words
    where = " ".join(no_band_sentence(why, words) for why in band.none) if band.none else said.outside(band, words)
    return PastPlace(form=band.form.name.value, says=f"{where} {said.inside(band, words)}")
