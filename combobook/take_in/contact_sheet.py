"""The pictures that are nobody's, small and with their names, to be looked at beside the tiles."""

from __future__ import annotations

import base64
from collections.abc import Sequence
from html import escape

from combobook.take_in.photos import Unmatched

_STYLE = """\
body{font:16px/1.4 sans-serif;margin:24px;color:#1c1b19;background:#fff}
ul{display:grid;grid-template-columns:repeat(auto-fill,minmax(220px,1fr));gap:20px;padding:0;list-style:none}
li{break-inside:avoid}
img,.none{display:block;width:100%;height:220px;object-fit:contain;background:#e7e4de}
.none{box-sizing:border-box;padding:12px}
b{display:block;overflow-wrap:anywhere;margin-top:6px}
"""


def contact_sheet(unmatched: Sequence[Unmatched]) -> bytes:
    """A page that opens by itself and prints: each picture, its file's name, and why it was not taken in."""
    count = f"{len(unmatched)} picture{'' if len(unmatched) == 1 else 's'}"
    items = "\n".join(_item(each) for each in unmatched)
    return f"""<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>{count} without a tile</title>
<style>
{_STYLE}</style>
</head>
<body>
<h1>{count} without a tile</h1>
<p>Put the mark of its tile into a picture's file name, such as b117.jpg, and take the pictures in again. Those that
show a face, a name or anything but a tile stay out.</p>
<ul>
{items}
</ul>
</body>
</html>
""".encode()


def _item(each: Unmatched) -> str:
    source = f"data:image/jpeg;base64,{base64.b64encode(each.thumb).decode()}"
    name = escape(each.name)
    picture = f'<img src="{source}" alt="{name}">' if each.thumb else '<span class="none">It cannot be shown.</span>'
    return f"<li>{picture}<b>{name}</b>{escape(each.why)}</li>"
