"""combobook: a studio's glaze entries and test tiles, checked, judged and published."""

__version__ = "0.3.0"
