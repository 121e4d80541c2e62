"""Names that a table tells of, sought in the code."""

from __future__ import annotations

import re
from collections.abc import Iterator

from platewheel.parts.workings.terms import ModuleNames
from tests.places import ROOT


def lost_names(told: ModuleNames) -> Iterator[tuple[str, str]]:
    """Module and name of those that the module does not have; what a lambda gives has none."""
    for module, names in told.items():
        code = "".join(path.read_text("utf-8") for path in (ROOT / "parts").rglob(f"{module}.py"))
        for name in names:
            of_lambda = name == "found" and "lambda" in code
            plain = re.sub(r"_\d$", "", name)  # one of several that a line gives
            if not of_lambda and not re.search(rf"\b({name}|{plain})\b", code):
                yield module, name
