"""What WeasyPrint leaves to others before a PDF is written, for people who read it with their ears.

Done on the PDF's objects just before they become bytes: nothing is read back, and equal input stays equal bytes.

- Header cells get their Scope (ISO 32000-1, 14.8.5.7, table 349), links their Print flag (12.5.3, table 165).
- Heads and feet of pages stand outside the tree of tags: those of the first page are put into it, so that title,
  key and cautions are read out once; those of later pages become pagination artifacts (14.8.2.2).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

_PRINT = 4
"""The annotation flag that lets an annotation appear on paper."""


def finish(document: Any, pdf: Any) -> None:
    """WeasyPrint's finisher: `document` is its own, `pdf` the objects that it is about to write."""
    root = _object(pdf, pdf.catalog["StructTreeRoot"])
    whole = _object(pdf, root["K"][0])
    elements = {o.number: o for o in pdf.objects if _is(o, "StructElem")}
    reached = _reached(whole, elements)
    _scopes(elements, reached)
    _print_links(pdf)
    numbers = _object(pdf, root["ParentTree"])["Nums"]
    for page, reference in enumerate(pdf.page_references):
        _furniture(pdf, page, _object(pdf, reference), numbers[2 * page + 1], whole, elements, reached)


def _is(thing: Any, kind: str) -> bool:
    return isinstance(thing, dict) and thing.get("Type") == f"/{kind}"


def _number(reference: Any) -> int:
    """The object's number in `12 0 R`; -1 for what is no reference."""
    return int(reference.split()[0]) if isinstance(reference, bytes) and reference.endswith(b" R") else -1


def _object(pdf: Any, reference: Any) -> Any:
    return pdf.objects[_number(reference)]


def _children(element: Any, elements: Mapping[int, Any]) -> Iterator[Any]:
    for kid in element["K"]:
        if (child := elements.get(_number(kid))) is not None:
            yield child


def _reached(whole: Any, elements: Mapping[int, Any]) -> set[int]:
    """The numbers of every element that stands in the tree."""
    found, stack = {whole.number}, [whole]
    while stack:
        for child in _children(stack.pop(), elements):
            found.add(child.number)
            stack.append(child)
    return found


def _scopes(elements: Mapping[int, Any], reached: set[int]) -> None:
    """A header cell in the table's head, or in a row of headers alone, is its column's; any other its row's."""
    for row in (e for e in elements.values() if e["S"] == "/TR" and e.number in reached):
        cells = list(_children(row, elements))
        part = elements.get(_number(row["P"]))
        heads = part is not None and part["S"] == "/THead"
        scope = "/Column" if heads or all(cell["S"] == "/TH" for cell in cells) else "/Row"
        for cell in cells:
            if cell["S"] == "/TH":
                cell["A"]["Scope"] = scope


def _print_links(pdf: Any) -> None:
    for thing in pdf.objects:
        if isinstance(thing, dict) and thing.get("Subtype") == "/Link":
            thing["F"] = int(thing.get("F", 0)) | _PRINT


def _furniture(
    pdf: Any, page: int, its: Any, parents: Any, whole: Any, elements: Mapping[int, Any], reached: set[int]
) -> None:
    """The page's head and foot: read out on the first page, artifacts on the others."""
    outside = [n for n, parent in enumerate(parents) if _number(parent) not in reached]
    if not outside:
        return
    if page == 0:
        tops = dict.fromkeys(_top(elements[_number(parents[n])], whole, elements) for n in outside)
        first, *rest = (elements[number].reference for number in tops)
        whole["K"].insert(0, first)
        whole["K"].extend(rest)
        return
    for n in outside:
        parents[n] = "null"
    _as_artifacts(_object(pdf, its["Contents"]).stream, set(outside))


def _top(element: Any, whole: Any, elements: Mapping[int, Any]) -> int:
    """The number of the element's ancestor right under the document."""
    while _number(element["P"]) != whole.number:
        element = elements[_number(element["P"])]
    number: int = element.number
    return number


def _as_artifacts(operations: list[Any], marked: set[int]) -> None:
    """Changes, in a page's content, the marks of these numbers into those of pagination artifacts."""
    for n, operation in enumerate(operations):
        if isinstance(operation, dict) and operation.get("MCID") in marked:
            operations[n - 1] = "/Artifact"
            del operation["MCID"]
            operation["Type"] = "/Pagination"
