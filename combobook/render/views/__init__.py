"""Finished views of the site's pages, one module a kind: every word, figure and link; templates only place them."""
