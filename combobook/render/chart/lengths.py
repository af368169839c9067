"""The plan's lengths by the names the style sheet knows them by."""

from __future__ import annotations

from combobook.render.chart.plan import Plan


def mm(length: float) -> str:
    """A CSS length."""
    return f"{length:.3f}".rstrip("0").rstrip(".") + "mm"


def lengths(plan: Plan) -> dict[str, float]:
    """In mm, for the style sheet's properties."""
    s, air = plan.sizes, plan.air / 4
    return {
        "wide": plan.width,
        "high": plan.height,
        "side": plan.side,
        "edge": plan.edge,
        "inner": plan.width - 2 * plan.side,
        "title": plan.head.title_size,
        "head": plan.head.height,
        "room": plan.room,
        "foot": plan.foot.height,
        "apart": s.apart,
        "foot-pad": plan.foot.pad,
        "foot-gap": plan.foot.gap,
        "column": plan.column,
        "column-gap": s.column_gap,
        "large": s.large,
        "name": plan.name_size,
        "small": s.small,
        "caution": s.caution,
        "large-line": s.large_line,
        "key-line": s.key_line,
        "todo-line": s.todo_line,
        "small-line": s.small_line,
        "caution-line": s.caution_line,
        "title-line": 1.25 * s.caution,
        "food-mark": s.food_mark,
        "food-indent": s.food_mark + s.of(5),
        "mark": s.mark,
        "mark-past": s.mark + s.of(2),
        "mark-room": s.mark_room,
        "key-mark": s.large,
        "caution-mark": s.caution,
        "frame": s.frame,
        "gap": s.gap + air,
        "pad": s.pad + air,
        "edge-gap": s.of(2.5),
        "text": s.text_left,
        "tile-wide": s.tile_width,
        "tile-high": s.tile_height + plan.air * 0.5,
        "line-thin": s.of(0.5),
        "line-thick": s.head_rule,
        "line-double": s.of(1.5),
        "hair": max(0.2, s.of(0.3)),
        "frame-inner": s.frame - s.of(1.0),
        "radius": s.of(1.2),
    }
