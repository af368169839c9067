"""Draws the demo studio's tiles: a development tool, not part of the program."""
