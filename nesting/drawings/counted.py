"""How many entities a drawing holds, counted before any is drawn."""

from __future__ import annotations

import re
from typing import Any

MOST_ENTITIES = 100_000
MOST_BLOCKS_DEEP = 12
BINARY = b"AutoCAD Binary DXF"  # first words of the binary form; DXF reference
# group code 0 and the name of what it begins: the line after a value "0" is a number
_BEGUN = re.compile(rb"\n[ \t]*0[ \t]*\r?\n[ \t]*(\d?[A-Z][A-Z0-9_]*)")
_PARTS = frozenset((b"VERTEX", b"SEQEND", b"ATTRIB", b"SECTION"))  # of an entity, or none


class BlockError(ValueError):
    """Blocks that cannot be taken apart; says why."""


def entities_in_text(data: bytes) -> int:
    """Entities of a DXF file that is text, blocks not taken apart; 0 in a binary one."""
    if data.startswith(BINARY):
        return 0
    begin = re.search(rb"\n[ \t]*2[ \t]*\r?\n[ \t]*ENTITIES[ \t]*\r?\n", data)
    if begin is None:
        return 0
    count = 0
    for match in _BEGUN.finditer(data, begin.end() - 1):
        if match[1] == b"ENDSEC":
            break
        count += match[1] not in _PARTS
    return count


def entities_in_space(drawing: Any) -> int:
    """Entities of modelspace, those of blocks as often as they are set out; a block of none is one.

    Raises: BlockError for a block that is missing, or holds itself or too many in each other.
    """
    known: dict[str, int] = {}

    def inside(entities: Any, homes: tuple[str, ...]) -> int:
        return sum(of(entity, homes) for entity in entities)

    def of(entity: Any, homes: tuple[str, ...]) -> int:
        if entity.dxftype() != "INSERT":
            return 1
        block = entity.block()
        name = str(entity.dxf.get("name", ""))
        if block is None:
            raise BlockError(f"the block {name!r}, which is not in the file")
        if name.lower() in homes:
            raise BlockError(f"the block {name!r}, which holds itself")
        if len(homes) >= MOST_BLOCKS_DEEP:
            raise BlockError(
                f"blocks in blocks, more than {MOST_BLOCKS_DEEP} deep, such as {name!r}"
            )
        if name.lower() not in known:
            known[name.lower()] = max(1, inside(block, (*homes, name.lower())))
        return len(entity.attribs) + max(1, int(entity.mcount)) * known[name.lower()]

    return inside(drawing.modelspace(), ())
