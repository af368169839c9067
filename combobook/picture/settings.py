"""How pictures are made. Apart from `develop`, so that a publish that makes none does not import Pillow's decoders."""

from __future__ import annotations

from PIL import __version__ as pillow_version

from combobook.pictures import SIZES

JPEG_QUALITY = 85
WEBP_QUALITY, WEBP_METHOD = 80, 1
"""Method 2 takes a quarter more time for 7 % of the bytes of a large picture, the library's own 4 twice as much."""
SETTINGS = f"3 jpeg {JPEG_QUALITY} webp {WEBP_QUALITY} {WEBP_METHOD} {' '.join(map(str, SIZES.values()))}"
"""Changes whenever the same photograph would give other pictures or colours by our doing: count the first number up."""
MADE_WITH = f"{SETTINGS} pillow {pillow_version}"
"""What decides the bytes; pictures kept from another are made again."""
