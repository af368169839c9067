"""Nodes to raw fields: text with its place. Finds repeated fields and what YAML dropped after a `#`."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

import yaml

from combobook.parse.compose import Composed, quoted
from combobook.problems import Place, Problem, Severity
from combobook.raw import RawField, RawList, RawMap, RawOther, RawText

Fields = Mapping[str, RawField]
_DROPPED = re.compile(r"\s+(#.*?)\s*")
_DROPPED_MARK = re.compile(r"\s*(#[^\s#].*?)\s*")


def fields(composed: Composed, path: str, first_line: int) -> tuple[Fields | None, tuple[Problem, ...]]:
    """The fields by name, the first of each; None, with a problem, where the text is not made of fields."""
    root = composed.root
    if root is None:
        return {}, ()
    if not isinstance(root, yaml.MappingNode):
        place = Place(path=path, line=root.start_mark.line + first_line, column=root.start_mark.column + 1)
        return None, (
            Problem(
                place=place,
                severity=Severity.ERROR,
                code="not-fields",
                message="these lines are not fields",
                help="write each field on a line of its own, as `field: value`",
            ),
        )
    taking = _Taking(composed.lines, path, first_line)
    found: dict[str, RawField] = {}
    for key, value in root.value:
        taking.take(key, value, found)
    return found, tuple(taking.problems)


class _Taking:
    """Turns the nodes of one file into raw fields."""

    def __init__(self, lines: Sequence[str], path: str, first_line: int) -> None:
        self.lines, self.path, self.first = lines, path, first_line
        self.problems: list[Problem] = []
        self.hashes = any("#" in line for line in lines)

    def take(self, key: yaml.Node, value: yaml.Node, found: dict[str, RawField]) -> None:
        name = self.text(key)
        if isinstance(name, RawOther):
            self.problem(
                name.line,
                name.column,
                1,
                code="not-fields",
                message="this is no field's name",
                help="write each field on a line of its own, as `field: value`",
            )
        elif name.text in found:
            earlier = found[name.text].key.line
            self.problem(
                name.line,
                name.column,
                name.width,
                code="repeated-key",
                message=f"`{name.text}` is written twice; the first is in line {earlier}",
                help="keep one of the two lines",
            )
        else:
            found[name.text] = RawField(name, self.value(value))
            if self.hashes:
                self.dropped(name.text, value)

    def value(self, node: yaml.Node) -> RawText | RawList | RawMap:
        line, column = node.start_mark.line + self.first, node.start_mark.column + 1
        if isinstance(node, yaml.SequenceNode):
            return RawList(tuple(map(self.text, node.value)), line, column, self.shown(node))
        if isinstance(node, yaml.MappingNode):
            pairs = ((self.text(k), self.text(v)) for k, v in node.value)
            return RawMap(tuple((k, v) for k, v in pairs if isinstance(k, RawText)), line, column, self.shown(node))
        text = self.text(node)
        assert isinstance(text, RawText)
        return text

    def text(self, node: yaml.Node) -> RawText | RawOther:
        start, end = node.start_mark, node.end_mark
        line, column = start.line, start.column
        if not isinstance(node, yaml.ScalarNode):
            return RawOther(line + self.first, column + 1, self.shown(node))
        width = end.column - column if end.line == line else len(self.lines[line]) - column
        return RawText(node.value.strip(), line + self.first, column + 1, width if width > 0 else 1)

    def shown(self, node: yaml.Node) -> str:
        """What the author typed, where it stands on one line (`[blue, grey]`); else empty."""
        start, end = node.start_mark, node.end_mark
        line = self.lines[start.line]
        if start.line == end.line:
            return line[start.column : end.column]
        # A block ends where the next thing begins: it stood on one line when nothing but blank lies between.
        between = [
            *self.lines[start.line + 1 : end.line],
            "" if end.column == 0 else self.lines[end.line][: end.column],
        ]
        return "" if any(text.strip() for text in between) else line[start.column :].rstrip()

    def dropped(self, name: str, node: yaml.Node) -> None:
        """Warns of text behind a `#` on the line of each value in the node."""
        if isinstance(node, yaml.SequenceNode) and not node.flow_style:
            for item in node.value:
                if isinstance(item, yaml.ScalarNode):
                    self.dropped_behind(item, "- ")
        elif isinstance(node, yaml.MappingNode) and not node.flow_style:
            for key, value in node.value:
                if isinstance(value, yaml.ScalarNode):
                    self.dropped_behind(value, f"{key.value}: ")
        else:
            self.dropped_behind(node, f"{name}: ")

    def dropped_behind(self, node: yaml.Node, lead: str) -> None:
        end = node.end_mark
        if isinstance(node, yaml.ScalarNode) and node.style in ("|", ">"):
            return
        line = self.lines[end.line] if end.line < len(self.lines) else ""
        # Behind nothing at all only `#4` is a value that went missing; `# to do` is a comment.
        blank = isinstance(node, yaml.ScalarNode) and not node.value
        match = (_DROPPED_MARK if blank else _DROPPED).fullmatch(line, end.column)
        if match is None:
            return
        start = node.start_mark.column if node.start_mark.line == end.line and not blank else match.start(1)
        typed = line[start : match.end(1)]
        if isinstance(node, yaml.ScalarNode) and node.style:
            typed = f"{node.value} {match[1]}"
        self.problem(
            end.line + self.first,
            match.start(1) + 1,
            len(match[1]),
            Severity.WARNING,
            code="dropped-after-hash",
            message="YAML drops what stands behind ` #`",
            help="if it belongs to the text, put all of it in quotes; if it is a comment, give it a line of "
            f"its own:\n{lead}{quoted(typed)}",
        )

    def problem(
        self,
        line: int,
        column: int,
        width: int,
        severity: Severity = Severity.ERROR,
        *,
        code: str,
        message: str,
        help: str,
    ) -> None:
        place = Place(path=self.path, line=line, column=column)
        self.problems.append(
            Problem(place=place, severity=severity, code=code, message=message, help=help, width=width)
        )
