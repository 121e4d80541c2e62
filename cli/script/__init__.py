"""A job for a script: read, changed by its own rules, checked, rated, priced, laid, built.

Start at `job_file.py`. Its names stand on the package `platewheel` itself.
May import: all of cli but commands.
"""
