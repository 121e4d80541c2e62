"""Products of a model: bodies with name, colour and layer, and groups of them set in their places.

A product that stands in two places is one record placed twice; its file then has it once.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Iterator

    import cadquery as cq

Colour = tuple[float, float, float]  # red, green, blue, 0 to 1


@dataclass(frozen=True, eq=False)
class Body:
    """A product of one shape, mm. `layer` is empty for what is made."""

    name: str
    shape: cq.Shape
    colour: Colour | None = None
    layer: str = ""


@dataclass(frozen=True, eq=False)
class Placed:
    """A product in a place, under a name of its own; no place is its own axes."""

    name: str
    product: Body | Group
    place: cq.Location | None = None


@dataclass(frozen=True, eq=False)
class Group:
    """A product put together of others."""

    name: str
    members: tuple[Placed, ...]


Product = Body | Group


def group_of(assembly: cq.Assembly) -> Group:
    """A flat assembly as a group of bodies, names and colours kept."""
    members = []
    for child in assembly.children:
        colour = child.color.toTuple()[:3] if child.color else None
        assert child.obj is not None
        members.append(Placed(child.name, Body(child.name, child.obj, colour), child.loc))
    return Group(assembly.name, tuple(members))


def bodies_in(product: Product, name: str = "") -> Iterator[tuple[str, Body, cq.Shape]]:
    """Each body as it stands: its name (after those of the groups that it is in), the body, its
    shape moved into its place."""
    if isinstance(product, Body):
        yield name or product.name, product, product.shape
        return
    for member in product.members:
        within = f"{name}/{member.name}" if name else member.name
        for path, body, shape in bodies_in(member.product, within):
            yield path, body, shape if member.place is None else shape.moved(member.place)


def document(product: Product) -> Any:
    """The product as a document of the modeller (OCCT, XCAF), from which it writes files."""
    from OCP.Quantity import Quantity_Color, Quantity_TypeOfColor
    from OCP.TCollection import TCollection_ExtendedString
    from OCP.TDataStd import TDataStd_Name
    from OCP.TDocStd import TDocStd_Document
    from OCP.TopLoc import TopLoc_Location
    from OCP.XCAFApp import XCAFApp_Application
    from OCP.XCAFDoc import XCAFDoc_ColorType, XCAFDoc_DocumentTool

    kind = TCollection_ExtendedString("BinXCAF")
    made = TDocStd_Document(kind)
    XCAFApp_Application.GetApplication_s().InitDocument(made)
    tool = XCAFDoc_DocumentTool.ShapeTool_s(made.Main())
    tool.SetAutoNaming_s(False)
    colours = XCAFDoc_DocumentTool.ColorTool_s(made.Main())
    layers = XCAFDoc_DocumentTool.LayerTool_s(made.Main())
    labels: dict[int, Any] = {}

    def called(label: Any, name: str) -> Any:
        TDataStd_Name.Set_s(label, TCollection_ExtendedString(name, True))
        return label

    def label_of(one: Product) -> Any:
        if id(one) in labels:
            return labels[id(one)]
        label = labels[id(one)] = called(tool.NewShape(), one.name)
        if isinstance(one, Body):
            tool.SetShape(label, one.shape.wrapped)
            if one.colour is not None:
                colour = Quantity_Color(*one.colour, Quantity_TypeOfColor.Quantity_TOC_sRGB)
                colours.SetColor(label, colour, XCAFDoc_ColorType.XCAFDoc_ColorGen)
            if one.layer:
                layers.SetLayer(label, TCollection_ExtendedString(one.layer))
            return label
        for member in one.members:
            inner = label_of(member.product)
            at = TopLoc_Location() if member.place is None else member.place.wrapped
            called(tool.AddComponent(label, inner, at), member.name)
        return label

    label_of(product)
    tool.UpdateAssemblies()
    return made
