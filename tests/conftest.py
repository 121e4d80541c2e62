"""Property tests give the same verdict every time, and none asserts a time.

To explore with other examples: `pytest --hypothesis-profile=explore`.
"""

from __future__ import annotations

from hypothesis import settings

settings.register_profile("explore", derandomize=False, deadline=None)
settings.register_profile("repeatable", derandomize=True, deadline=None)
settings.load_profile("repeatable")
