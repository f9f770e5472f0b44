"""A saved design, built as solids by the model of a piece.

A piece is the blank less what every pass, hollow, saw cut, facing and parting removes. `s` runs along the blank from the
finished bowl-end face, x is to the right and y up; solids carry (x, y, s) as their three coordinates.
"""

from __future__ import annotations

import json
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path
from typing import Any

from manifold3d import Manifold, OpType

from solids import (
    FAR_MM,
    Axis,
    PieceError,
    Point2,
    above_path,
    arc,
    box,
    clip,
    half_space,
    profile,
    revolve,
    tagged,
)


@dataclass
class Piece:
    """A built piece and the solids it was built from."""

    #: The blank, run on far beyond s = 0: the bowl-end face is no part of the outside.
    long_blank: Manifold
    #: What lies beyond the bowl-end face.
    before_bowl_end: Manifold
    #: What the passes and partings remove, one solid a cut. Their surfaces are the outside.
    outside_cuts: list[Manifold] = field(default_factory=list)
    #: What lies beyond the blank's sides, and beyond its head end.
    beyond_blank: list[Manifold] = field(default_factory=list)
    #: What the hollows remove.
    hollows: list[Manifold] = field(default_factory=list)
    #: What saw cuts and facings remove: they open hollows and are no part of the outside.
    opening_cuts: list[Manifold] = field(default_factory=list)

    @cached_property
    def outside(self) -> Manifold:
        """The outside alone: blank, passes and partings, run on far beyond s = 0."""
        outside = subtract(self.long_blank, self.outside_cuts)
        # Solids are worked out when first asked about: now, so that it is done once.
        outside.num_tri()
        return outside

    def finished(self) -> Manifold:
        """What is left when every cut is made."""
        return subtract(self.outside, [self.before_bowl_end, *self.hollows, *self.opening_cuts])

    def cavity(self) -> Manifold:
        """The wood the hollows take from under the saw cuts and facings."""
        hollows = Manifold.batch_boolean(self.hollows, OpType.Add)
        return subtract(hollows ^ self.outside, [self.before_bowl_end, *self.opening_cuts])


def subtract(solid: Manifold, removed: Sequence[Manifold]) -> Manifold:
    """`solid` less every one of `removed`."""
    return Manifold.batch_boolean([solid, *removed], OpType.Subtract)


def saved_design(path: Path) -> dict[str, Any]:
    """The design saved in a file."""
    document = json.loads(path.read_text(encoding="utf-8"))
    if document["format"] != "skewline-design" or document["version"] != 1:
        raise PieceError(f"{path.name} is not a design of version 1")
    design: dict[str, Any] = document["design"]
    return design


def build(design: dict[str, Any]) -> Piece:
    """Builds a design."""
    length = float(design["blank"]["length_mm"])
    section = design["blank"]["section"]
    sides = blank_solid(section, -FAR_MM, 2.0 * FAR_MM)
    everything = box([-FAR_MM, -FAR_MM, -FAR_MM], [FAR_MM, FAR_MM, 2.0 * FAR_MM])
    piece = Piece(
        long_blank=blank_solid(section, -FAR_MM, length),
        before_bowl_end=half_space(0.0, -1.0),
        beyond_blank=[everything - sides, half_space(length, 1.0)],
    )
    axes = placed_axes(design)
    for kind, cut in map(tagged, design["cuts"]):
        add_cut(piece, kind, cut, axes)
    return piece


def placed_axes(design: dict[str, Any]) -> list[Axis]:
    """Axis A and the others of a design, in order."""
    length = float(design["blank"]["length_mm"])
    cuts = map(tagged, design["cuts"])
    tail = max((tail_mm(cut) for kind, cut in cuts if kind == "fit_plug"), default=0.0)
    others = [placed_axis(choice, -tail, length) for choice in design.get("axes", [])]
    return [Axis((0.0, 0.0, 0.0), (0.0, 0.0, 1.0)), *others]


@dataclass
class State:
    """The wood before one pass, and the axis it spins on."""

    cut: int
    axis: Axis
    wood: Manifold


def states(design: dict[str, Any]) -> Iterator[State]:
    """The wood before every pass, its plug included while it is in: passes and partings cut that, bores and saws do not."""
    length = float(design["blank"]["length_mm"])
    wood = blank_solid(design["blank"]["section"], 0.0, length)
    axes = placed_axes(design)
    plug: Manifold | None = None
    for index, (kind, cut) in enumerate(map(tagged, design["cuts"])):
        if kind == "pass":
            yield State(index, axis_of(cut, axes), wood if plug is None else wood + plug)
        if kind == "fit_plug":
            plug = plug_solid(cut)
        elif kind == "take_out_plug":
            plug = None
        else:
            single = Piece(wood, wood)
            add_cut(single, kind, cut, axes)
            wood = subtract(wood, [*single.outside_cuts, *single.hollows, *single.opening_cuts])
            if plug is not None:
                plug = subtract(plug, single.outside_cuts)


def tail_mm(cut: dict[str, Any]) -> float:
    """How far a plug reaches beyond the bowl-end face: its disc, and the tenon it may have."""
    return float(cut["thickness_mm"]) + float((cut.get("tenon") or {}).get("length_mm", 0.0))


def plug_solid(cut: dict[str, Any]) -> Manifold:
    """A plug as it is fitted."""
    disc, spigot = float(cut["disc_diameter_mm"]) / 2.0, float(cut["spigot_diameter_mm"]) / 2.0
    start, end = -float(cut["thickness_mm"]), float(cut["spigot_length_mm"])
    outline: list[Point2] = [(start, 0.0), (start, disc), (0.0, disc)]
    outline += [(0.0, spigot), (end, spigot), (end, 0.0)] if end > 0.0 else [(0.0, 0.0)]
    tenon = cut.get("tenon")
    if tenon:
        radius, far = float(tenon["diameter_mm"]) / 2.0, -tail_mm(cut)
        outline = [(far, 0.0), (far, radius), (start, radius), *outline[1:]]
    return revolve(outline)


def blank_solid(choice: dict[str, Any], start: float, end: float) -> Manifold:
    """A stretch of the blank."""
    kind, section = tagged(choice)
    if kind == "square":
        half = float(section["side_mm"]) / 2.0
        return box([-half, -half, start], [half, half, end])
    radius = float(section["diameter_mm"]) / 2.0
    return revolve([(start, 0.0), (start, radius), (end, radius), (end, 0.0)])


def placed_axis(placing: dict[str, Any], tail_face: float, head_face: float) -> Axis:
    """An axis as the turner placed it."""
    kind, choice = tagged(placing)
    if kind == "across":
        from_rad = math.radians(float(choice["from_deg"]))
        return Axis((0.0, 0.0, float(choice["station_mm"])), (-math.sin(from_rad), -math.cos(from_rad), 0.0))
    if kind == "tilt":
        slope = math.tan(math.radians(float(choice["tilt_deg"])))
        toward = math.radians(float(choice["toward_deg"]))
        dx, dy = slope * math.sin(toward), slope * math.cos(toward)
        crossing = float(choice["crossing_mm"])
        tail = (dx * (tail_face - crossing), dy * (tail_face - crossing))
        head = (dx * (head_face - crossing), dy * (head_face - crossing))
    elif kind == "marks":
        tail = (float(choice["tail_x_mm"]), float(choice["tail_y_mm"]))
        head = (float(choice["head_x_mm"]), float(choice["head_y_mm"]))
    else:
        raise PieceError(f"no such way to place an axis: {kind}")
    run = head_face - tail_face
    dx, dy = (head[0] - tail[0]) / run, (head[1] - tail[1]) / run
    unit = 1.0 / math.sqrt(1.0 + dx * dx + dy * dy)
    return Axis((tail[0] - dx * tail_face, tail[1] - dy * tail_face, 0.0), (dx * unit, dy * unit, unit))


def add_cut(piece: Piece, kind: str, cut: dict[str, Any], axes: Sequence[Axis]) -> None:
    """Adds what one cut removes to the list it belongs to."""
    if kind == "pass":
        piece.outside_cuts.append(turn(cut, axes))
    elif kind == "hollow":
        piece.hollows.append(axis_of(cut, axes).place(revolve(hollow_outline(cut))))
    elif kind == "saw":
        piece.opening_cuts.append(above_path(saw_path(cut["path"])))
    elif kind in ("face", "part"):
        toward = {"tail": -1.0, "head": 1.0}[cut["removes"]]
        removed = axis_of(cut, axes).place(half_space(float(cut["at_mm"]), toward))
        (piece.opening_cuts if kind == "face" else piece.outside_cuts).append(removed)
    elif kind not in ("fit_plug", "take_out_plug"):
        raise PieceError(f"no such cut: {kind}")


def axis_of(cut: dict[str, Any], axes: Sequence[Axis]) -> Axis:
    """The axis a cut is made on."""
    return axes[ord(cut["axis"]) - ord("A")]


def turn(cut: dict[str, Any], axes: Sequence[Axis]) -> Manifold:
    """What a pass removes: the wood between its ends and farther from its axis than its profile."""
    points = kept_profile(cut)
    start, end = points[0][0], points[-1][0]
    return axis_of(cut, axes).place(revolve([*points, (end, 2.0 * FAR_MM), (start, 2.0 * FAR_MM)]))


def kept_profile(cut: dict[str, Any]) -> list[Point2]:
    """The profile of a pass between its ends."""
    shape, drawn = tagged(cut["profile"])
    if shape != "drawn":
        raise PieceError("a proposed join has no profile to build: draw it")
    points = clip(profile(drawn["nodes"]), float(cut["from_mm"]), float(cut["to_mm"]))
    if any(r == 0.0 for _, r in points[1:-1]):
        raise PieceError("a pass may run out to nothing only at its ends")
    return points


def hollow_outline(cut: dict[str, Any]) -> list[Point2]:
    """The outline of a hollow, which runs on outward from its mouth at its first radius."""
    mouth = float(cut["mouth_mm"])
    kind, shape = tagged(cut["shape"])
    if kind == "round_ended":
        radius, depth = float(shape["diameter_mm"]) / 2.0, float(shape["depth_mm"])
        rounding = float(shape["rounding_mm"])
        inner: list[Point2] = [(0.0, radius)]
        if rounding > 0.0:
            side, floor = (depth - rounding, radius), (depth, radius - rounding)
            # A quarter circle stands rounding * (1 - 1/sqrt 2) off its chord.
            inner += [side, *arc(side, floor, rounding * (1.0 - math.sqrt(0.5))), floor]
        else:
            inner.append((depth, radius))
    else:
        inner = profile(shape["nodes"])
        if inner[0][0] != 0.0:
            raise PieceError("a drawn hollow starts at its mouth")
    points = [(mouth + t, r) for t, r in inner]
    if points[-1][1] > 0.0:
        points.append((points[-1][0], 0.0))
    return [(mouth - 2.0 * FAR_MM, 0.0), (mouth - 2.0 * FAR_MM, points[0][1]), *points]


def saw_path(choice: dict[str, Any]) -> list[Point2]:
    """The path of a saw cut from far beyond its bowl-side end, along its tangent there, to its handle-side end."""
    kind, path = tagged(choice)
    if kind == "lines":
        points = [(float(p["at_mm"]), float(p["height_mm"])) for p in path["points"]]
        slope = (points[1][1] - points[0][1]) / (points[1][0] - points[0][0])
    else:
        start, end = ((float(path[k]["at_mm"]), float(path[k]["height_mm"])) for k in ("from", "to"))
        bulge = float(path["bulge_mm"])
        points = [start, *arc(start, end, bulge), end]
        # The tangent leaves the chord by the angle between chord and tangent, 2 atan(2 bulge / chord).
        chord_angle = math.atan2(end[1] - start[1], end[0] - start[0])
        slope = math.tan(chord_angle + 2.0 * math.atan2(2.0 * bulge, math.dist(start, end)))
    outward = (points[0][0] - FAR_MM, points[0][1] - slope * FAR_MM)
    return [outward, *points]
