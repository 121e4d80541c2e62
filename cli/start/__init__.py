"""The first job file: few keys, all keys, or asked question by question.

Start at `first_keys.py`, then `interview.py`. What a newcomer is asked stands in one list.
May import: job, words and below; neither terminal nor papers.
"""
