"""What the generator must get right before its values are used: shapes with a closed form, built from saved designs.

Sources. Conical frustum, cylinder-cylinder intersection (Steinmetz solid): MathWorld. Inertia of a cylinder: standard
engineering-mechanics tables. Ellipse cut from a tilted cylinder, wall round a bore set off centre: elementary.
"""

from __future__ import annotations

import math
from typing import Any

from measures import deepest_overrun, least_wall, mass, section
from pieces import build

#: Promised for volumes and areas, as a share.
SHARE = 1e-4
#: Promised for lengths, in mm.
LENGTH_MM = 0.005


def check_all() -> None:
    """Raises `AssertionError` at the first shape that is built or measured wrongly."""
    cylinder()
    frustum()
    bicylinder()
    tilted_cylinder()
    eccentric_bore()
    half_space_overrun()


def check(what: str, found: float, wanted: float, tolerance: float) -> None:
    """Asserts that a figure agrees."""
    assert abs(found - wanted) <= tolerance, f"{what}: {found}, should be {wanted} within {tolerance}"


def design(cuts: list[dict[str, Any]], axes: list[dict[str, Any]] | None = None, side: float = 90.0) -> dict[str, Any]:
    """A square blank 200 mm long with these cuts."""
    return {
        "blank": {"section": {"square": {"side_mm": side}}, "length_mm": 200.0},
        "axes": axes or [],
        "cuts": cuts,
    }


def turned(axis: str, start: float, end: float, d0: float, d1: float) -> dict[str, Any]:
    """A pass with one straight taper."""
    nodes = [{"at_mm": start, "diameter_mm": d0}, {"at_mm": end, "diameter_mm": d1}]
    profile = {"drawn": {"nodes": nodes}}
    return {"pass": {"name": "", "axis": axis, "from_mm": start, "to_mm": end, "profile": profile}}


def bored(axis: str, diameter: float, depth: float) -> dict[str, Any]:
    """A square-ended bore from the tail end."""
    shape = {"round_ended": {"diameter_mm": diameter, "depth_mm": depth, "rounding_mm": 0.0}}
    return {"hollow": {"axis": axis, "mouth_mm": 0.0, "shape": shape}}


def parted(axis: str, at: float) -> dict[str, Any]:
    """A parting cut that removes the head end."""
    return {"part": {"axis": axis, "at_mm": at, "removes": "head"}}


def cylinder() -> None:
    """pi r^2 L; m r^2/2 about its own axis and m (3 r^2 + L^2)/12 across."""
    r, length = 25.0, 60.0
    found = mass(build(design([turned("A", 0.0, 80.0, 2 * r, 2 * r), parted("A", length)])).finished())
    volume = math.pi * r * r * length
    check("cylinder volume", found.volume, volume, SHARE * volume)
    check("cylinder centroid", found.centroid[2], length / 2, LENGTH_MM)
    for row, wanted in ((0, (3 * r * r + length**2) / 12), (1, (3 * r * r + length**2) / 12), (2, r * r / 2)):
        check(f"cylinder inertia {row}", found.inertia[row, row], volume * wanted, 2 * SHARE * volume * wanted)


def frustum() -> None:
    """pi h (R^2 + R r + r^2)/3, its centroid h (R^2 + 2 R r + 3 r^2)/(4 (R^2 + R r + r^2)) from the large end."""
    found = mass(build(design([turned("A", 0.0, 45.0, 60.0, 36.0), parted("A", 45.0)])).finished())
    check("frustum volume", found.volume, 83126.54161, SHARE * 83126.54161)
    check("frustum centroid", found.centroid[2], 18.82653061, LENGTH_MM)


def bicylinder() -> None:
    """16 r^3/3 at r = 25: one pass along the blank, one on an axis square to it."""
    across = [{"across": {"station_mm": 100.0, "from_deg": 40.0}}]
    cuts = [turned("A", 0.0, 200.0, 50.0, 50.0), turned("B", -80.0, 80.0, 50.0, 50.0)]
    found = mass(build(design(cuts, across)).finished())
    check("bicylinder volume", found.volume, 83333.33333, SHARE * 83333.33333)
    check("bicylinder centroid", found.centroid[2], 100.0, LENGTH_MM)


def tilted_cylinder() -> None:
    """A cylinder of radius r tilted by tau is cut square to axis A in an ellipse of area pi r^2 / cos tau."""
    axes = [{"tilt": {"tilt_deg": 12.5, "toward_deg": 35.0, "crossing_mm": 80.0}}]
    solid = build(design([turned("B", -20.0, 190.0, 34.0, 34.0)], axes)).finished()
    area, x, y = section(solid, 101.3)
    check("ellipse area", area, math.pi * 17.0**2 / math.cos(math.radians(12.5)), SHARE * area)
    off = (101.3 - 80.0) * math.tan(math.radians(12.5))
    check("ellipse centre x", x, off * math.sin(math.radians(35.0)), LENGTH_MM)
    check("ellipse centre y", y, off * math.cos(math.radians(35.0)), LENGTH_MM)


def eccentric_bore() -> None:
    """The least wall around a bore d set e off the centre of a round D is (D - d)/2 - e."""
    offset = {"tail_x_mm": 1.8, "tail_y_mm": -2.4, "head_x_mm": 1.8, "head_y_mm": -2.4}
    axes = [{"marks": offset}]
    piece = build(
        design([bored("B", 44.0, 50.0), turned("A", 0.0, 100.0, 60.0, 60.0), parted("A", 80.0)], axes)
    )
    check("wall round an eccentric bore", least_wall(piece).distance, 5.0, LENGTH_MM)
    assert deepest_overrun(piece) is None, "a sound bore breaks through"


def half_space_overrun() -> None:
    """A bore 60 mm deep in a piece parted at 52 mm passes the parting by 8 mm at its floor."""
    piece = build(design([bored("A", 30.0, 60.0), turned("A", 0.0, 100.0, 60.0, 60.0), parted("A", 52.0)]))
    overrun = deepest_overrun(piece)
    assert overrun is not None, "the bore should break through"
    check("overrun of a parting", overrun.distance, 8.0, LENGTH_MM)
