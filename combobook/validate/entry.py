"""One raw entry's fields to `Written` values: missing, blank, *not known*, refused or read, every problem placed."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import TypeVar

from combobook.claims import claims
from combobook.entries import NOT_KNOWN, Unknown, Written
from combobook.problems import Place, Problem, Severity
from combobook.raw import RawEntry, RawField, RawList, RawMap, RawOther, RawText
from combobook.validate.refusal import Converter, Refusal, is_not_known

T = TypeVar("T")
D = TypeVar("D")


class Fields:
    """Reads one entry's fields by name and gathers what is wrong with them.

    `stands_at` names the field at whose line an absent field stands (a glaze's `name`); where that is absent too, the
    entry's first line. `refused` are the fields whose text had a problem and counts as not known.
    """

    def __init__(self, raw: RawEntry, stands_at: str = "") -> None:
        self.path = raw.path
        self.fields: Mapping[str, RawField] = raw.fields
        self.problems: list[Problem] = []
        self.refused: set[str] = set()
        anchor = raw.fields.get(stands_at)
        line = anchor.key.line if anchor else 1
        self.absent: Written[Unknown] = Written(
            value=NOT_KNOWN, place=Place(path=raw.path, line=line), field_line=line, stated=False
        )

    def optional(self, name: str, convert: Converter[T]) -> Written[T | Unknown]:
        """The field's value; NOT_KNOWN where it is absent, blank, `?`, or refused."""
        field = self.fields.get(name)
        if field is None:
            return self.absent
        text = self._text(name, field)
        if text is None:
            return self._refused(name, field)
        key = field.key
        if is_not_known(text.text):
            return Written(value=NOT_KNOWN, place=self._at(text), field_line=key.line, stated=bool(text.text))
        value = self._converted(name, text, convert)
        if isinstance(value, Refusal):
            return self._refused(name, field)
        return Written(value=value, place=self._at(text), field_line=key.line)

    def default(self, name: str, convert: Converter[T], default: D) -> Written[T | D]:
        """As `optional`, but absent, blank and `?` take the default (`stated` False)."""
        found = self.optional(name, convert)
        if found.value is not NOT_KNOWN:
            return found  # type: ignore[return-value]  # the value is a T
        return Written(value=default, place=found.place, field_line=found.field_line, stated=False)

    def absent_as(self, name: str, convert: Converter[T], value: D) -> Written[T | Unknown | D]:
        """As `optional`, but where the field is absent (blank and `?` stay not known) it is `value`."""
        if name in self.fields:
            return self.optional(name, convert)
        return Written(value=value, place=self.absent.place, field_line=self.absent.field_line, stated=False)

    def required(self, name: str, convert: Converter[T], sample: str) -> Written[T] | None:
        """The field's value; None, with a problem, where it is absent, not known or refused."""
        if name not in self.fields:
            if name in self.refused:
                return None
            self.find(
                self.absent.place,
                1,
                code="missing-field",
                message=f"the field `{name}` is missing",
                help=f"add a line such as\n{name}: {sample}",
            )
            return None
        found = self.optional(name, convert)
        if isinstance(found.value, Unknown):
            if name not in self.refused:
                self._must_be_known(name, sample)
            return None
        return found  # type: ignore[return-value]  # the value is a T

    def known_if_written(self, name: str, convert: Converter[T], sample: str) -> Written[T | Unknown]:
        """As `optional`, but a field that is written must be known."""
        found = self.optional(name, convert)
        if name in self.fields and found.value is NOT_KNOWN and name not in self.refused:
            self._must_be_known(name, sample)
            self.refused.add(name)
        return found

    def several(self, name: str, convert: Converter[T]) -> tuple[Written[T], ...]:
        """A list's values; one text is a list of one; items not known are left out."""
        field = self.fields.get(name)
        if field is None:
            return ()
        items = field.value.items if isinstance(field.value, RawList) else (field.value,)
        found: list[Written[T]] = []
        for item in items:
            if not isinstance(item, RawText):
                self._wrong_shape(name, item, "a list of texts", getattr(item, "shown", ""))
            elif not is_not_known(item.text):
                value = self._converted(name, item, convert)
                if isinstance(value, Refusal):
                    self.refused.add(name)
                else:
                    found.append(Written(value=value, place=self._at(item), field_line=field.key.line))
        return tuple(found)

    def find(
        self, place: Place, width: int, severity: Severity = Severity.ERROR, *, code: str, message: str, help: str
    ) -> None:
        self.problems.append(
            Problem(place=place, severity=severity, code=code, message=message, help=help, width=width)
        )

    def place_of(self, text: RawText | RawOther | RawList | RawMap) -> Place:
        return Place(path=self.path, line=text.line, column=text.column)

    def _at(self, text: RawText) -> Place:
        return Place(path=self.path, line=text.line, column=text.column)

    def _text(self, name: str, field: RawField) -> RawText | None:
        if isinstance(field.value, RawText):
            return field.value
        if isinstance(field.value, RawList) and not field.value.items:
            return field.key._replace(text="")
        self._wrong_shape(name, field.value, "one text", field.value.shown)
        return None

    def _wrong_shape(self, name: str, got: RawOther | RawList | RawMap | RawText, due: str, shown: str = "") -> None:
        kinds = {
            RawList: "a list",
            RawMap: "fields inside a field",
            RawOther: "a list or a field in it",
            RawText: "text",
        }
        self.refused.add(name)
        if due == "one text":
            fix = f"put the text in quotes:\n{name}: {in_quotes(shown)}" if shown else f"write `{name}: …` on one line"
        else:
            items = f"  - {in_quotes(shown)}" if shown else "  - first\n  - second"
            fix = f"put each text in quotes:\n{name}:\n{items}"
        self.find(
            self.place_of(got),
            max(1, len(shown)),
            code="wrong-shape",
            message=f"`{name}` takes {due}, and this is {kinds[type(got)]}",
            help=fix,
        )

    def _converted(self, name: str, text: RawText, convert: Converter[T]) -> T | Refusal:
        value = convert(text.text)
        if isinstance(value, Refusal):
            place = Place(path=self.path, line=text.line, column=text.column + value.start)
            self.find(place, value.width or text.width, code=value.code, message=value.message, help=value.help)
        return value

    def _refused(self, name: str, field: RawField) -> Written[Unknown]:
        self.refused.add(name)
        return Written(value=NOT_KNOWN, place=self.place_of(field.value), field_line=field.key.line)

    def _must_be_known(self, name: str, sample: str) -> None:
        field = self.fields[name]
        at = field.value if isinstance(field.value, RawText) and field.value.text else field.key
        self.find(
            self.place_of(at),
            at.width if isinstance(at, RawText) else 1,
            code="must-be-known",
            message=f"`{name}` cannot be blank or not known",
            help=f"write it:\n{name}: {sample}",
        )


def in_quotes(text: str) -> str:
    """The text as YAML reads it letter by letter."""
    return f'"{text}"' if not re.search(r'["\\]', text) else "'" + text.replace("'", "''") + "'"


def claims_in_fields(fields: Fields, strict: Sequence[str], free: Sequence[str]) -> None:
    """Finds claims of food safety: errors in the `strict` fields, warnings in other `free` text."""
    for name in (*strict, *free):
        field = fields.fields.get(name)
        if field is None:
            continue
        items = field.value.items if isinstance(field.value, RawList) else (field.value,)
        for item in items:
            if isinstance(item, RawText):
                for claim in claims(item.text):
                    place = Place(path=fields.path, line=item.line, column=item.column + claim.start)
                    fields.problems.append(claim_problem(claim.words, place, in_text=name not in strict))


def claim_problem(words: str, place: Place, *, in_text: bool) -> Problem:
    """An error for a claim in a name, in looks or in a log; a warning in running text (`in_text`)."""
    shown = " ".join(words.split())
    message = f"`{shown}` claims what no glaze, label or tile can promise of a piece"
    fix = "say what the label or a lab report says, and whose words they are; the label's own go into `label says`"
    if in_text:
        return Problem(
            place=place, severity=Severity.WARNING, code="claim-in-text", message=message, help=fix, width=len(words)
        )
    return Problem(place=place, severity=Severity.ERROR, code="claim", message=message, help=fix, width=len(words))
