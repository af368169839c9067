"""The gallery of problems: for every code the smallest broken folder, and the exact words it gets.

    tests/gallery/_good/content/           a whole small studio without a single problem
    tests/gallery/<code>/content/          files laid over it: what is here replaces or joins what is there
    tests/gallery/<code>/expected.txt      every problem of that folder as `check` prints it, paths from the content folder
    tests/gallery/<code>--<variant>/…      a further case of the same code
    tests/gallery/<case>/_delete           paths to take away from _good first, one a line (a folder goes with its files)
    tests/gallery/<case>/_make             what git cannot hold, one a line: `link PATH TARGET`, `large PATH BYTES`, `pipe PATH`

A case passes when read → parse → validate → link → judge find exactly what expected.txt says: that problem and nothing
else. `python -m tests.gallery CASE…` prints what a case gets now; with `--write` it becomes the expected text, for the
author to read with care before it is committed.
"""
