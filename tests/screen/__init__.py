"""The classroom screen, used as a person uses it: Chromium, from a folder with a space, nothing served."""
