"""How much of each pass's circle meets wood when the tool reaches size, and why the rest is missing.

The circle of a pass at a station of its axis is cut out of the section of three meshes, each less than the one before: what
earlier passes and partings leave of everything; that within the blank's sides; that less earlier hollows. What they lose
one after another is missing because of an earlier cut, of a blank that is too small, or of a hollow. Saws, facings and
plugs do not count; past the ends of the blank there is nothing to clean up, and nothing is missing.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np
from manifold3d import Manifold

from measures import crossings, surface
from pieces import Piece, add_cut, axis_of, blank_solid, kept_profile, placed_axes, subtract
from solids import FAR_MM, Axis, Floats, Point2, box, half_space, tagged

#: Even stations of every pass; the first and the last lie half a step inside its ends.
STATIONS = 60
#: So many of the stations with the least share are looked at more closely, in rounds of ever nearer ones.
LOWEST, ROUNDS, IN_ROUND = 3, 4, 7
#: How near to the surface a point of the circle is undecided, in mm: a mesh stands 0.005 off its solid, and a program that
#: flattens curves to 0.01 has that twice, in the circle's own radius and in what it meets.
UNDECIDED_MM = 0.03
#: A station at which a corner of a mesh lies is moved by this, in mm.
ASIDE_MM = 1e-6


@dataclass
class Share:
    """Shares of a circle, 0 to 1, at a station of its axis, in mm: what meets wood, what is missing because of earlier cuts
    and of hollows, and what is too near to a surface to be told."""

    at_mm: float
    wood: float
    cut_earlier: float
    in_hollow: float
    undecided: float


class Circles:
    """A pass's circles and the meshes they are cut from."""

    def __init__(self, profile: list[Point2], axis: Axis, solids: list[Manifold]) -> None:
        self.profile = np.array(profile)
        frame = axis.transform()
        self.meshes = [Sections((surface(solid) - frame[:, 3]) @ frame[:, :3]) for solid in solids]

    def at(self, station: float) -> Share:
        """The shares at a station."""
        low, high = self.profile[0, 0], self.profile[-1, 0]
        while True:
            try:
                sections = [mesh.at(station) for mesh in self.meshes]
                break
            except ValueError:
                station += ASIDE_MM if station < (low + high) / 2.0 else -ASIDE_MM
        radius = float(np.interp(station, self.profile[:, 0], self.profile[:, 1]))
        left, in_blank, wood = (share_inside(*segments, radius) for segments in sections)
        undecided = max(share_near(*segments, radius) for segments in sections)
        return Share(station, wood, 1.0 - left, in_blank - wood, undecided)


class Sections:
    """Triangles in an axis's own frame, to be cut square to it."""

    def __init__(self, triangles: Floats) -> None:
        self.triangles = triangles
        self.lowest, self.highest = triangles[:, :, 2].min(axis=1), triangles[:, :, 2].max(axis=1)

    def at(self, station: float) -> tuple[Floats, Floats]:
        """Both ends of the segments at a station."""
        return crossings(self.triangles[(self.lowest <= station) & (self.highest >= station)], station)


def share_inside(a: Floats, b: Floats, radius: float) -> float:
    """The share of a circle about the origin inside the outline of some segments, 0 to 1."""
    ends = np.sort(np.concatenate([*meetings(a, b, radius), [0.0, 2.0 * np.pi]]))
    middles = (ends[:-1] + ends[1:]) / 2.0
    points = radius * np.column_stack([np.cos(middles), np.sin(middles)])
    inside = np.array([is_inside(a, b, point) for point in points], dtype=bool)
    return float(np.diff(ends)[inside].sum() / (2.0 * np.pi))


def meetings(a: Floats, b: Floats, radius: float) -> list[Floats]:
    """The angles, from 0 to a whole turn, at which segments meet a circle about the origin."""
    run = b - a
    square, half = (run * run).sum(axis=1), (a * run).sum(axis=1)
    root = half * half - square * ((a * a).sum(axis=1) - radius * radius)
    met = (root > 0.0) & (square > 0.0)
    a, run, square, half, root = a[met], run[met], square[met], half[met], np.sqrt(root[met])
    found = []
    for sign in (-1.0, 1.0):
        part = (sign * root - half) / square
        on = (part >= 0.0) & (part <= 1.0)
        points = a[on] + part[on, None] * run[on]
        found.append(np.arctan2(points[:, 1], points[:, 0]) % (2.0 * np.pi))
    return found


def is_inside(a: Floats, b: Floats, point: Floats) -> bool:
    """Whether an outline of directed segments goes around a point."""
    left, right = a - point, b - point
    cross = left[:, 0] * right[:, 1] - left[:, 1] * right[:, 0]
    up = (left[:, 1] <= 0.0) & (right[:, 1] > 0.0) & (cross > 0.0)
    down = (left[:, 1] > 0.0) & (right[:, 1] <= 0.0) & (cross < 0.0)
    return bool(up.sum() != down.sum())


def share_near(a: Floats, b: Floats, radius: float) -> float:
    """The share of a circle about the origin nearer than UNDECIDED_MM to some segments, or more.

    Such a point has one of a segment between the circles a little larger and smaller, in a direction hardly another.
    """
    run = b - a
    square, half = (run * run).sum(axis=1), (a * run).sum(axis=1)
    off = (a * a).sum(axis=1)

    def within(size: float) -> tuple[Floats, Floats]:
        root = half * half - square * (off - size * size)
        reach = np.sqrt(np.maximum(root, 0.0))
        with np.errstate(invalid="ignore", divide="ignore"):
            low, high = (-half - reach) / square, (-half + reach) / square
        none = (root <= 0.0) | (square == 0.0)
        return np.where(none, 2.0, np.clip(low, 0.0, 1.0)), np.where(none, 2.0, np.clip(high, 0.0, 1.0))

    (first, last), (inner, outer) = within(radius + UNDECIDED_MM), within(radius - UNDECIDED_MM)
    stretches = [(first, np.minimum(inner, last)), (np.where(inner < 2.0, outer, first), last)]
    margin = UNDECIDED_MM / radius
    arcs: list[tuple[float, float]] = []
    for low, high in stretches:
        real = (high > low) & (first < 2.0)
        from_, to = a[real] + low[real, None] * run[real], a[real] + high[real, None] * run[real]
        start = np.arctan2(from_[:, 1], from_[:, 0])
        turn = (np.arctan2(to[:, 1], to[:, 0]) - start + np.pi) % (2.0 * np.pi) - np.pi
        for begin, end in zip(np.minimum(start, start + turn) - margin, np.maximum(start, start + turn) + margin):
            begin, end = begin % (2.0 * np.pi), begin % (2.0 * np.pi) + (end - begin)
            arcs += [(begin, min(end, 2.0 * np.pi)), *([(0.0, end - 2.0 * np.pi)] if end > 2.0 * np.pi else [])]
    covered, reached = 0.0, 0.0
    for begin, end in sorted(arcs):
        covered += max(0.0, end - max(begin, reached))
        reached = max(reached, end)
    return float(covered / (2.0 * np.pi))


def circles(design: dict[str, Any]) -> Iterator[tuple[int, Circles]]:
    """The circles of every pass, by its cut."""
    length = float(design["blank"]["length_mm"])
    axes = placed_axes(design)
    everything = box([-FAR_MM, -FAR_MM, -FAR_MM], [FAR_MM, FAR_MM, 2.0 * FAR_MM])
    sides = blank_solid(design["blank"]["section"], -FAR_MM, 2.0 * FAR_MM)
    ends = half_space(0.0, -1.0) + half_space(length, 1.0)
    earlier = Piece(everything, everything)
    for index, (kind, cut) in enumerate(map(tagged, design["cuts"])):
        if kind == "pass":
            left = subtract(everything, earlier.outside_cuts)
            in_blank = left ^ sides
            wood = subtract(in_blank, earlier.hollows)
            yield index, Circles(kept_profile(cut), axis_of(cut, axes), [solid + ends for solid in (left, in_blank, wood)])
        add_cut(earlier, kind, cut, axes)


def clean_ups(design: dict[str, Any]) -> list[dict[str, Any]]:
    """For every pass the shares at its stations, and the least share of all that were looked at."""
    found = []
    for index, around in circles(design):
        start, end = float(around.profile[0, 0]), float(around.profile[-1, 0])
        step = (end - start) / STATIONS
        even = [around.at(start + step * (i + 0.5)) for i in range(STATIONS)]
        looked = list(even)
        for lowest in sorted(even, key=lambda share: share.wood)[:LOWEST]:
            reach = step
            for _ in range(ROUNDS):
                middle = lowest.at_mm
                tried = middle + reach * np.linspace(-1.0, 1.0, IN_ROUND)
                shares = [around.at(float(t)) for t in tried if start < t < end]
                looked += shares
                lowest = min([lowest, *shares], key=lambda share: share.wood)
                reach *= 2.0 / (IN_ROUND - 1)
        least = min(looked, key=lambda share: share.wood)
        found.append({"cut": index, "least": vars(least), "stations": [vars(share) for share in even[::6]]})
    return found
