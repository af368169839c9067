"""Everything the studio pins up, sticks on and hands out: each sheet a function `edition -> (files, problems)`.

How to add a sheet:

1. `combobook/render/sheets/<name>.py` with a public function of its name; put it into SHEETS of `every.py`.
2. `furnished = frame(edition, title, paper, …)` gives head, foot and the room between them in mm (`frame.py`).
3. A template `templates/print/<name>.html` that begins with `{% import "print/frame.html" as frame %}` and
   `{{ frame.opened(furnished) }}`, ends with `{{ frame.closed() }}`, and between them has only the sheet's own body:
   h2 and below (the head is the h1). Head, key, cautions and "sheet n of m" stand on every page of themselves.
   A block that fills one page: `<section class="whole-page">`.
4. `printed(edition, "print/<name>.html", path="print/<name>.pdf", furnished=furnished, styles=(…), …)` fills it and
   makes the PDF. Lengths of the frame are CSS properties (`var(--small)`, `var(--room-high)` …).
5. Marks are classes (`m-keep-off` …: backgrounds, so that nothing reads them out); an inline SVG needs a `<title>`.
   Pictures are `files` by name; every `<img>` has an alt. Never CSS grid, floats in bulk or balanced columns.
6. tests/sheets/test_<name>.py calls `sound(pdf)` of tests/sheets/reading.py, then reads what the sheet itself says.
"""

