"""The reference as pages: `python -m platewheel.cli.site.build out/site` makes them with sphinx.

Start at `build.py`. Nothing is written by hand twice: README, docstrings, keys, schema, examples.
May import: all of cli but commands.
"""
