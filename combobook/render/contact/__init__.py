"""Contact sheets: all fired tiles of a firing, and of a glaze, at one scale."""
