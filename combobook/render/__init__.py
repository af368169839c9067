"""Finished views to bytes: pages and sheets. Decides nothing."""
