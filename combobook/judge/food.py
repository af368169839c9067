"""Food: the weakest link decides. F1 to F9 of rules.md, section 1, for one surface.

Each rule is a small function from a surface to its reasons; a reason's severity is the level it allows at most.
None of them has a published source unless it says so: F1 is common practice, F2 is the house's, explained by the US FDA
Food Code 4-101.11(E) and 4-202.11; F3 and F9 rest on the figures that a report is measured against.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from combobook.cones import ConeRange
from combobook.entries import NOT_KNOWN, FoodLabel
from combobook.judge.lab import EXCEEDS, WITHIN, from_memory, readings
from combobook.judge.reasons import listed, reason
from combobook.judge.rows import Row
from combobook.judge.surface import Surface, food_ware, within_labels
from combobook.measures import CoatRange
from combobook.verdicts import FoodLevel, FoodVerdict, LabFinding, Reason

KEEP_OFF, UNKNOWN, ALLOW, LAB = FoodLevel.KEEP_OFF, FoodLevel.NOT_KNOWN, FoodLevel.LABELS_ALLOW, FoodLevel.LAB_REPORT
ONE_IN = 5
"""F2: from one faulty tile in so many it is keep off (house)."""


def food(surface: Surface) -> FoodVerdict:
    """The verdict of one surface with every rule that applies; where none does, the labels' lines."""
    reasons = [found for rule in RULES for found in rule(surface)]
    lab = None
    if not reasons:
        matching = lab_lifts(surface)
        reasons = [_f9(each) for each in matching]
        lab = matching[0].report if matching else None
    if not reasons:
        reasons = list(_labels(surface))
    level = FoodLevel(min(each.severity for each in reasons))
    return FoodVerdict(
        level=level,
        food_ware=food_ware(level, surface.of.alone, surface.of.studio.food_rule.value),
        reasons=listed(reasons),
        lab=lab,
    )


def f1_f5_labels(surface: Surface) -> Iterator[Reason]:
    """F1: a label says no. F5: conditional, not stated or not known."""
    for glaze in surface.of.layers:
        label = glaze.food_label
        if label.value is FoodLabel.NO:
            wording = "label_no_alone" if surface.of.alone else "label_no"
            yield reason("F1", wording, label.at, KEEP_OFF, glaze=glaze.name.value)
        elif label.value is not FoodLabel.YES:
            word = "not_known" if label.value is NOT_KNOWN else str(label.value.value).replace(" ", "_")
            yield reason("F5", f"label_{word}", label.at, UNKNOWN, glaze=glaze.name.value)


def f2_faults(surface: Surface) -> Iterator[Reason]:
    """Tiles of these coats with faults: one in five or more keep off, fewer not known.

    A fault written on a row that names no firing counts all the same, as one looked over.
    """
    faulty = [row for row in surface.rows if row.faulty]
    looked = sum(row.faulty or (row.fired and row.looked) for row in surface.rows)
    level = KEEP_OFF if len(faulty) * ONE_IN >= looked else UNKNOWN
    for row in faulty:
        yield _fault(row, level, len(faulty), looked)


def _fault(row: Row, level: FoodLevel, count: int, looked: int) -> Reason:
    faults = row.tile.faults
    assert faults.value is not NOT_KNOWN
    names = tuple(fault.value for fault in faults.value)
    wording = "faults_only" if looked == 1 else "faults_many" if level is KEEP_OFF else "faults_few"
    return reason("F2", wording, faults.at, level, tile=row.mark, faults=names, count=count, looked=looked)


def f3_lab_exceeds(surface: Surface) -> Iterator[Reason]:
    """A report on these layers in this order exceeds, whatever its coats, clay or cone: once for each metal over."""
    for finding in surface.of.findings:
        if finding.outcome == EXCEEDS:
            report = finding.report
            for metal in finding.exceeding:
                wording = "lab_exceeds_unverified" if from_memory(report, metal) else "lab_exceeds"
                facts = {"metal": metal, "limits": report.limits.value.value, "ware": report.ware.value.value}
                yield reason("F3", wording, readings(report, metal).at, KEEP_OFF, **facts)


def f4_entry_says(surface: Surface) -> Iterator[Reason]:
    """The entry says `keep off food`; a blank reason counts."""
    entry = surface.of.entry
    if entry is not None and entry.keep_off_food.value is not None:
        why = entry.keep_off_food.value.strip().rstrip(".")
        wording = "entry_says_why" if why else "entry_says"
        yield reason("F4", wording, entry.keep_off_food.at, KEEP_OFF, **({"why": why} if why else {}))


def f6_coats(surface: Surface) -> Iterator[Reason]:
    """More coats than a label's, or those not known, or more in all than the house's; alone also fewer than it says.

    Of a layering not asked where no coats are suggested and no tile names any. Thick glaze pinholes: common practice,
    no source.
    """
    if surface.coats is None:
        if surface.of.alone:
            glaze = surface.of.layers[0]
            yield reason("F6", "label_coats_not_known", glaze.coats.at, UNKNOWN, glaze=glaze.name.value)
        return
    for glaze, coats in zip(surface.of.layers, surface.coats, strict=True):
        label, name = glaze.coats.value, glaze.name.value
        if not isinstance(label, CoatRange):
            yield reason("F6", "label_coats_not_known", glaze.coats.at, UNKNOWN, glaze=name)
        elif coats > label.high:
            yield reason("F6", "over_label_coats", glaze.coats.at, UNKNOWN, glaze=name, coats=coats, most=label.high)
        elif surface.of.alone and coats < label.low:
            yield reason("F6", "under_label_coats", glaze.coats.at, UNKNOWN, glaze=name, coats=coats, least=label.low)
    total, most = sum(surface.coats), surface.of.studio.most_coats.value
    if total > most:
        yield reason("F6", "over_most_coats", surface.of.coats_place, UNKNOWN, coats=total, most=most)


def f7_f8_cone(surface: Surface) -> Iterator[Reason]:
    """F7: the studio's cone and each label; of a layering also a tile fired within every label, and F8: looked over."""
    studio_cone = surface.of.studio.cone.value
    for glaze in surface.of.layers:
        label, name = glaze.cone.value, glaze.name.value
        if not isinstance(label, ConeRange):
            yield reason("F7", "label_cone_not_known", glaze.cone.at, UNKNOWN, glaze=name)
        elif studio_cone not in label:
            facts = {"glaze": name, "low": str(label.low), "high": str(label.high), "cone": str(studio_cone)}
            wording = "cone_outside_label" if label.low != label.high else "cone_not_the_labels"
            yield reason("F7", wording, glaze.cone.at, UNKNOWN, **facts)
    if surface.of.alone:
        return
    tested = [row for row in surface.rows if row.cone is not None and within_labels(row.cone, surface.of.layers)]
    if not tested:
        yield reason("F7", "no_tile_within_labels", surface.of.coats_place, UNKNOWN)
    if not any(row.looked for row in tested):
        yield reason("F8", "not_looked_over" if tested else "nothing_looked_over", surface.of.coats_place, UNKNOWN)


Rule = Callable[[Surface], Iterator[Reason]]
RULES: tuple[Rule, ...] = (f1_f5_labels, f2_faults, f3_lab_exceeds, f4_entry_says, f6_coats, f7_f8_cone)


def lab_lifts(surface: Surface) -> tuple[LabFinding, ...]:
    """F9, asked only where nothing else applies: the reports within their limits on exactly this surface.

    There must be one for every clay on which these coats have a fired tile, and at least one; a fired tile whose clay
    is blank can be matched by none. Empty where that fails.
    """
    if surface.coats is None or not surface.of.findings:
        return ()
    cone = surface.of.studio.cone.value
    matching = [
        each
        for each in surface.of.findings
        if each.outcome == WITHIN
        and each.report.coats == surface.coats
        and each.report.cone == cone
        and each.report.clay is not None
        and surface.clay in (None, each.report.clay.id)
    ]
    clays = {each.report.clay.id for each in matching if each.report.clay is not None}
    every = all(row.clay in clays for row in surface.rows if row.fired)
    return tuple(matching) if every else ()


def _f9(finding: LabFinding) -> Reason:
    report = finding.report
    facts = {"limits": report.limits.value.value, "ware": report.ware.value.value}
    return reason("F9", "lab_within", report.layers_place, LAB, **facts)


def _labels(surface: Surface) -> Iterator[Reason]:
    for glaze in surface.of.layers:
        yield reason("label", "label_yes", glaze.food_label.at, ALLOW, glaze=glaze.name.value)
