"""Watertight meshes of the shapes a piece is cut with.

Discretisation. A circle of radius r becomes a regular polygon of N corners whose circumradius is enlarged to
r * sqrt(a / sin a), a = 2 pi / N, so that the polygon has the circle's own area: an inscribed polygon would be too small
by 1 - sin(a)/a. Its corners then stand r a^2/12 outside the circle and the middles of its sides r a^2/24 inside it.
With N = 180 and r <= 45 mm that is at most 0.0046 mm, and the area is exact for a whole circle.

A curved profile is chorded so that no chord leaves its curve by more than e = CHORD_MM = 0.0008 mm; every inner point is
then moved out by two thirds of that, so that curve and chords hold the same area but for the first and last chord of a
curve: a share of (2/3) e / (r n) of the volume with n chords, 0.001 % at r = 10 mm and n = 10.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from manifold3d import Error, Manifold, Mesh64
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Point2 = tuple[float, float]

CORNERS = 180
CHORD_MM = 0.0008
#: Stands for infinity: farther than any wood.
FAR_MM = 500.0
#: Above this radius the corners of a circle would stand farther out than stated.
LARGEST_RADIUS_MM = 45.0


class PieceError(ValueError):
    """A piece this generator cannot build; the message says why."""


def tagged(choice: str | dict[str, Any]) -> tuple[str, dict[str, Any]]:
    """One of several kinds as a document writes it: its name alone, or its name before its fields."""
    if isinstance(choice, str):
        return choice, {}
    [(kind, fields)] = choice.items()
    return kind, fields


@dataclass(frozen=True)
class Axis:
    """A line: `origin` is where its stations count from, `direction` the unit vector they grow along."""

    origin: tuple[float, float, float]
    direction: tuple[float, float, float]

    def transform(self) -> Floats:
        """3x4 matrix from the axis's own frame (third coordinate along the axis) to the piece's."""
        d = np.array(self.direction)
        helper = np.array([1.0, 0.0, 0.0]) if abs(d[0]) < 0.9 else np.array([0.0, 1.0, 0.0])
        u = helper - helper.dot(d) * d
        u /= np.linalg.norm(u)
        return np.column_stack([u, np.cross(d, u), d, np.array(self.origin)])

    def place(self, solid: Manifold) -> Manifold:
        """The solid, moved from the axis's own frame to the piece's."""
        return solid.transform(self.transform())


def mesh(vertices: Floats, triangles: NDArray[np.uint64]) -> Manifold:
    """A solid from an oriented watertight mesh; turned inside out when its volume is negative."""
    solid = Manifold(Mesh64(np.ascontiguousarray(vertices), np.ascontiguousarray(triangles)))
    if solid.status() != Error.NoError:
        raise PieceError(f"mesh is not a solid: {solid.status()}")
    if solid.volume() < 0.0:
        return mesh(vertices, triangles[:, ::-1])
    return solid


def profile(nodes: Sequence[dict[str, Any]]) -> list[Point2]:
    """Nodes (diameters at stations) flattened to (t, r)."""
    points: list[Point2] = []
    for node, following in zip(nodes, nodes[1:]):
        start = (float(node["at_mm"]), float(node["diameter_mm"]) / 2.0)
        end = (float(following["at_mm"]), float(following["diameter_mm"]) / 2.0)
        kind, curve = tagged(node.get("curve", "line"))
        points.append(start)
        if kind == "arc":
            points += arc(start, end, float(curve["bulge_mm"]))
        elif kind == "ogee":
            points += ogee(start, end)
        elif kind != "line":
            raise PieceError(f"no such curve: {kind}")
    points.append((float(nodes[-1]["at_mm"]), float(nodes[-1]["diameter_mm"]) / 2.0))
    return points


def arc(start: Point2, end: Point2, bulge: float) -> list[Point2]:
    """Inner points of the circular arc whose middle stands `bulge` off its chord, to the left of start -> end."""
    if bulge == 0.0:
        return []
    a, b = np.array(start), np.array(end)
    chord = float(np.linalg.norm(b - a))
    height = abs(bulge)
    if height >= chord / 2.0:
        raise PieceError(f"arc of {bulge} mm over a chord of {chord} mm is a half circle or more")
    radius = chord * chord / (8.0 * height) + height / 2.0
    half = 2.0 * math.atan2(2.0 * height, chord)
    along = (b - a) / chord
    # The left of start -> end is the greater r, or the greater y of a saw cut, because stations grow.
    left = np.array([-along[1], along[0]]) * math.copysign(1.0, bulge)
    centre = (a + b) / 2.0 + left * (height - radius)
    count = max(2, math.ceil(half / math.acos(1.0 - CHORD_MM / radius)))
    angles = np.linspace(-half, half, count + 1)[:, None]
    points = centre + radius * (np.cos(angles) * left + np.sin(angles) * along)
    if np.any(np.diff(points[:, 0]) < 0.0):
        raise PieceError(f"arc of {bulge} mm over a chord of {chord} mm turns back on itself")
    return balanced(points)


def ogee(start: Point2, end: Point2) -> list[Point2]:
    """Inner points of the cubic Bezier that leaves both ends parallel to the axis, its handles meeting half way."""
    middle = (start[0] + end[0]) / 2.0
    controls = np.array([start, (middle, start[1]), (middle, end[1]), end])
    # Largest second derivative of a cubic: 6 max |P0 - 2 P1 + P2|, the same at both ends here.
    bend = 6.0 * math.hypot(middle - start[0], end[1] - start[1])
    count = max(2, math.ceil(math.sqrt(bend / (8.0 * CHORD_MM))))
    u = np.linspace(0.0, 1.0, count + 1)[:, None]
    weights = np.hstack([(1 - u) ** 3, 3 * u * (1 - u) ** 2, 3 * u * u * (1 - u), u**3])
    return balanced(weights @ controls)


def balanced(points: Floats) -> list[Point2]:
    """Inner points of a chorded curve, moved out so that the chords hold the curve's area.

    An inner point stands off the line between its neighbours by four times the height of a chord's arc, and a chord loses
    two thirds of that height: a sixth of the stand-off.
    """
    inner = points[1:-1]
    moved = inner + (inner - (points[:-2] + points[2:]) / 2.0) / 6.0
    return [(float(t), float(r)) for t, r in moved]


def clip(points: Sequence[Point2], start: float, end: float) -> list[Point2]:
    """The part of a profile with start <= t <= end; of a step at either end the value just inside stays."""
    if points[0][0] > start or points[-1][0] < end:
        raise PieceError(f"profile does not cover {start} to {end}")
    chords = list(zip(points, points[1:]))
    first = next(between(a, b, start) for a, b in chords if a[0] <= start < b[0])
    last = next(between(a, b, end) for a, b in chords if a[0] < end <= b[0])
    return [first, *(point for point in points if start < point[0] < end), last]


def between(a: Point2, b: Point2, t: float) -> Point2:
    """The point at t of the straight line from a to b."""
    return t, a[1] + (b[1] - a[1]) * (t - a[0]) / (b[0] - a[0])


def revolve(outline: Sequence[Point2]) -> Manifold:
    """The solid of revolution of a closed (t, rho) outline about the third coordinate.

    Corners on the axis (rho = 0) become poles. The outline may run along the axis but not touch it at a lone corner.
    """
    rotation = 2.0 * math.pi / CORNERS
    swell = math.sqrt(rotation / math.sin(rotation))
    angles = np.arange(CORNERS) * rotation
    circle = np.column_stack([np.cos(angles), np.sin(angles)]) * swell
    rings: list[NDArray[np.uint64]] = []
    vertices: list[Floats] = []
    count = 0
    for t, rho in outline:
        if rho < 0.0:
            raise PieceError(f"negative radius {rho} at {t}")
        if 0.0 < rho < 1e-9:
            raise PieceError(f"radius {rho} at {t} is too small to mesh")
        if rho > LARGEST_RADIUS_MM and rho < FAR_MM:
            raise PieceError(f"radius {rho} is over {LARGEST_RADIUS_MM}: raise CORNERS")
        size = 1 if rho == 0.0 else CORNERS
        points = np.zeros((size, 3))
        points[:, 2] = t
        if rho > 0.0:
            points[:, :2] = circle * rho
        vertices.append(points)
        rings.append(np.arange(count, count + size, dtype=np.uint64))
        count += size
    triangles: list[NDArray[np.uint64]] = []
    for ring, other in zip(rings, rings[1:] + rings[:1]):
        if len(ring) == len(other) == 1:
            continue
        a, b = np.broadcast_to(ring, CORNERS), np.broadcast_to(other, CORNERS)
        if len(ring) > 1:
            triangles.append(np.column_stack([a, np.roll(a, -1), b]))
        if len(other) > 1:
            triangles.append(np.column_stack([np.roll(a, -1), np.roll(b, -1), b]))
    return mesh(np.vstack(vertices), np.vstack(triangles))


def half_space(at: float, toward: float) -> Manifold:
    """What lies beyond the plane at station `at` of an axis, `toward` +1 or -1, in the axis's own frame."""
    far = at + toward * 2.0 * FAR_MM
    low, high = min(at, far), max(at, far)
    return box((-2.0 * FAR_MM, -2.0 * FAR_MM, low), (2.0 * FAR_MM, 2.0 * FAR_MM, high))


def box(low: Sequence[float], high: Sequence[float]) -> Manifold:
    """A box between two corners."""
    size = [b - a for a, b in zip(low, high)]
    return Manifold.cube(size).translate(list(low))


def above_path(path: Sequence[Point2]) -> Manifold:
    """What lies over a path (s, y) of growing s, across all x, as a prism."""
    count = len(path)
    top = 4.0 * FAR_MM
    if max(y for _, y in path) > top / 2.0:
        raise PieceError("saw cut is too steep to mesh")
    s = np.array([p[0] for p in path])
    y = np.array([p[1] for p in path])
    if np.any(np.diff(s) <= 0.0):
        raise PieceError("stations of a saw cut must grow")
    corners: list[Floats] = []
    for x in (-FAR_MM, FAR_MM):
        for height in (y, np.full(count, top)):
            corners.append(np.column_stack([np.full(count, x), height, s]))
    # Four rows of points: low left, high left, low right, high right.
    low_left, high_left, low_right, high_right = (np.arange(count) + row * count for row in range(4))
    quads: list[NDArray[np.int64]] = []
    for row, following in (
        (low_left, high_left),
        (high_left, high_right),
        (high_right, low_right),
        (low_right, low_left),
    ):
        quads.append(np.column_stack([row[:-1], row[1:], following[1:], following[:-1]]))
    ends = np.array(
        [
            [low_left[0], high_left[0], high_right[0], low_right[0]],
            [low_left[-1], low_right[-1], high_right[-1], high_left[-1]],
        ]
    )
    faces = np.vstack([*quads, ends])
    triangles = np.vstack([faces[:, [0, 1, 2]], faces[:, [0, 2, 3]]]).astype(np.uint64)
    return mesh(np.vstack(corners), triangles)
