"""Figures of a mesh: volume, moments, reach, swing, sections, least wall, depth of a breakthrough, hold."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import trimesh
from manifold3d import Manifold
from numpy.typing import NDArray
from scipy.spatial import cKDTree

from pieces import Piece, subtract
from solids import Axis, Floats

#: Longest triangle edge while distances are measured, in mm.
EDGE_MM = 1.0
#: How far around a hollow the outside is looked at; thicker walls are not found.
NEAR_MM = 20.0
#: Grid of the first sieve, in mm, and how many cells and triangles pass.
CELL_MM = 1.5
BEST_CELLS = 300
BEST_TRIANGLES = 300


@dataclass(frozen=True)
class Mass:
    """Volume (mm3), centroid (x, y, s in mm) and inertia tensor about it for unit density (mm5)."""

    volume: float
    centroid: Floats
    inertia: Floats


@dataclass(frozen=True)
class Extreme:
    """An extreme distance, in mm, and the point of the hollow (x, y, s) where it is met."""

    distance: float
    at: Floats


def surface(solid: Manifold, originals: list[int] | None = None) -> Floats:
    """Triangles of a solid as (n, 3, 3); with `originals`, only those that came from these solids."""
    mesh = solid.to_mesh64()
    triangles = np.asarray(mesh.vert_properties)[:, :3][np.asarray(mesh.tri_verts)]
    if originals is None:
        return triangles
    starts = np.asarray(mesh.run_index) // 3
    keep = np.zeros(len(triangles), dtype=bool)
    for run, original in enumerate(mesh.run_original_id):
        keep[starts[run] : starts[run + 1]] |= original in originals
    return triangles[keep]


def originals(solid: Manifold) -> list[int]:
    """The marks that a solid's triangles keep through every later cut."""
    return [int(mark) for mark in solid.to_mesh64().run_original_id]


def mass(solid: Manifold) -> Mass:
    """Volume, centroid and inertia. The tensor's off-diagonal terms are minus the products of inertia."""
    mesh = solid.to_mesh64()
    body = trimesh.Trimesh(np.asarray(mesh.vert_properties)[:, :3], np.asarray(mesh.tri_verts), process=False)
    body.density = 1.0
    figures = body.mass_properties
    return Mass(float(figures.volume), np.asarray(figures.center_mass), np.asarray(figures.inertia))


def corners(solid: Manifold) -> Floats:
    """The corners (x, y, s) of a solid's mesh."""
    return np.asarray(solid.to_mesh64().vert_properties)[:, :3]


def reach(solid: Manifold, count: int = 24) -> list[float]:
    """How far a solid reaches in the side view, in even directions from s toward y, in mm."""
    seen = corners(solid)[:, [2, 1]]
    angles = np.arange(count) * 2.0 * np.pi / count
    return [float((seen @ [np.cos(angle), np.sin(angle)]).max()) for angle in angles]


def swing(solid: Manifold, axis: Axis) -> float:
    """The greatest distance of a solid from an axis, in mm."""
    off = corners(solid) - np.array(axis.origin)
    return float(np.linalg.norm(np.cross(off, np.array(axis.direction)), axis=1).max())


def section(solid: Manifold, station: float) -> tuple[float, float, float]:
    """Area (mm2) and centroid (x, y) of the section square to axis A.

    Every triangle that crosses the plane adds one directed segment with the wood on its left, so Green's theorem gives
    the area and its moments without linking the segments. The plane must pass no corner.
    """
    a, b = crossings(surface(solid), station)
    cross = a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]
    area = float(cross.sum()) / 2.0
    moments = (cross[:, None] * (a + b)).sum(axis=0) / 6.0
    return area, float(moments[0] / area), float(moments[1] / area)


def crossings(triangles: Floats, station: float) -> tuple[Floats, Floats]:
    """Both ends (x, y) of the segment in which each triangle that meets it crosses a plane square to the third axis.

    Seen from the far side, the wood is on the left.
    """
    height = triangles[:, :, 2] - station
    if np.any(height == 0.0):
        raise ValueError(f"section at {station} passes a corner of the mesh: move it")
    above = height > 0.0
    crossing = above.any(axis=1) & ~above.all(axis=1)
    triangles, height, above = triangles[crossing], height[crossing], above[crossing]
    leaving = np.zeros((len(triangles), 2))
    entering = np.zeros((len(triangles), 2))
    for i, j in ((0, 1), (1, 2), (2, 0)):
        share = height[:, i] / np.where(above[:, i] == above[:, j], 1.0, height[:, i] - height[:, j])
        point = triangles[:, i, :2] + share[:, None] * (triangles[:, j, :2] - triangles[:, i, :2])
        up, down = ~above[:, i] & above[:, j], above[:, i] & ~above[:, j]
        leaving[up], entering[down] = point[up], point[down]
    # An outward-facing triangle meets the plane from its falling edge to its rising edge.
    return entering, leaving


def split(triangles: Floats, low: float | Floats = -np.inf, high: float | Floats = np.inf) -> Floats:
    """The same surface with no edge longer than EDGE_MM, less what lies outside the box from `low` to `high`.

    The longest edge of a triangle is halved while it is longer, and what has left the box is dropped as it comes.
    """
    done: list[Floats] = []
    while len(triangles):
        triangles = triangles[np.all((triangles.max(axis=1) >= low) & (triangles.min(axis=1) <= high), axis=1)]
        # Edge k is the one opposite corner k.
        edges = np.linalg.norm(np.roll(triangles, -1, axis=1) - np.roll(triangles, 1, axis=1), axis=2)
        longest = edges.argmax(axis=1)
        short = edges.max(axis=1) <= EDGE_MM
        done.append(triangles[short])
        triangles, longest = triangles[~short], longest[~short]
        rows = np.arange(len(triangles))
        a, b, c = (triangles[rows, (longest + k) % 3] for k in range(3))
        middle = (b + c) / 2.0
        triangles = np.concatenate([np.stack([a, b, middle], axis=1), np.stack([a, middle, c], axis=1)])
    return np.concatenate(done)


class Target:
    """The part of a surface that lies near a patch of triangles, to measure distances to."""

    def __init__(self, solid: Manifold, patch: Floats) -> None:
        low, high = patch.min(axis=(0, 1)) - NEAR_MM, patch.max(axis=(0, 1)) + NEAR_MM
        self.triangles = split(surface(solid), low, high)
        self.tree = cKDTree(self.triangles.mean(axis=1))

    def distance(self, points: Floats, candidates: int) -> Floats:
        """Distance of each point to the nearest of the `candidates` triangles whose middles are nearest."""
        count = min(candidates, len(self.triangles))
        _, nearest = self.tree.query(points, k=count)
        pairs = self.triangles[nearest.reshape(-1)]
        repeated = np.repeat(points, count, axis=0)
        foot = trimesh.triangles.closest_point(pairs, repeated)
        return np.linalg.norm(foot - repeated, axis=1).reshape(-1, count).min(axis=1)


def extreme_distance(patch: Floats, target: Target, sign: float) -> Extreme:
    """The least (sign +1) or greatest (sign -1) distance from a patch of triangles to a surface.

    One triangle in each cell of a grid is measured; of the best cells every triangle; the best triangles are then split
    in four and measured again until an edge is under 0.005 mm. The distance changes with the square of what is then
    missed, under 0.0001 mm.
    """
    middles = patch.mean(axis=1)
    _, chosen, cell = np.unique(np.floor(middles / CELL_MM), axis=0, return_index=True, return_inverse=True)
    by_cell = np.argsort(sign * target.distance(middles[chosen], 8))
    inside = np.flatnonzero(np.isin(cell.reshape(-1), by_cell[:BEST_CELLS]))
    by_triangle = np.argsort(sign * target.distance(middles[inside], 8))
    triangles = patch[inside[by_triangle[:BEST_TRIANGLES]]]
    best = Extreme(sign * np.inf, np.zeros(3))
    while True:
        samples = np.concatenate([triangles, triangles.mean(axis=1, keepdims=True)], axis=1)
        distances = sign * target.distance(samples.reshape(-1, 3), 32).reshape(-1, 4)
        found = np.unravel_index(np.argmin(distances), distances.shape)
        if distances[found] < sign * best.distance:
            best = Extreme(float(sign * distances[found]), samples[found])
        if np.ptp(triangles, axis=1).max() < 0.005:
            return best
        triangles = quarters(triangles[np.argsort(distances.min(axis=1))[: BEST_TRIANGLES // 4]])


def quarters(triangles: Floats) -> Floats:
    """Each triangle split in four at the middles of its edges."""
    a, b, c = triangles[:, 0], triangles[:, 1], triangles[:, 2]
    ab, bc, ca = (a + b) / 2, (b + c) / 2, (c + a) / 2
    parts = [(a, ab, ca), (ab, b, bc), (ca, bc, c), (ab, bc, ca)]
    return np.concatenate([np.stack(part, axis=1) for part in parts])


def kept_hollow(piece: Piece, index: int) -> Manifold:
    """One hollow cut down to where its surface counts: s >= 0, under every saw and facing, outside the others."""
    others = [h for i, h in enumerate(piece.hollows) if i != index]
    return subtract(piece.hollows[index], [piece.before_bowl_end, *piece.opening_cuts, *others])


def least_wall(piece: Piece) -> Extreme:
    """Nearest distance from the kept surface of the hollows to the outside, for a piece that is not broken through."""
    best = Extreme(np.inf, np.zeros(3))
    for index, hollow in enumerate(piece.hollows):
        patch = split(surface(kept_hollow(piece, index), originals(hollow)))
        found = extreme_distance(patch, Target(piece.outside, patch), 1.0)
        best = min(best, found, key=lambda extreme: extreme.distance)
    return best


def deepest_overrun(piece: Piece) -> Extreme | None:
    """How deep the kept surface of a hollow goes into what one pass, parting or the blank's bounds take away.

    The depth is the distance to the surface of that one, the greatest over all of them: not a distance to wood.
    `None` when no hollow meets the outside.
    """
    deepest: Extreme | None = None
    for index, hollow in enumerate(piece.hollows):
        kept = kept_hollow(piece, index)
        for removed in [*piece.outside_cuts, *piece.beyond_blank]:
            patch = surface(kept ^ removed, originals(hollow))
            if len(patch) == 0:
                continue
            patch = split(patch)
            found = extreme_distance(patch, Target(removed, patch), -1.0)
            if deepest is None or found.distance > deepest.distance:
                deepest = found
    return deepest


def hold(piece: Piece, pitch_deg: float) -> float:
    """A liquid in the hollow of a sound piece, the bowl end raised by this: the cavity under the rim's lowest point, in mm3.

    The rim is where triangles of the hollows meet others. What closes the cavity over a straight or arched opening, or
    one through an outside that is not waisted there, is nowhere lower than its rim: so the level cuts only the cavity.
    """
    mesh = piece.finished().to_mesh64()
    points = np.asarray(mesh.vert_properties)[:, :3]
    triangles = np.asarray(mesh.tri_verts)
    starts = np.asarray(mesh.run_index) // 3
    marks = {mark for hollow in piece.hollows for mark in originals(hollow)}
    inner = np.zeros(len(triangles), dtype=bool)
    for run, original in enumerate(mesh.run_original_id):
        inner[starts[run] : starts[run + 1]] |= original in marks
    rim = points[np.intersect1d(triangles[inner], triangles[~inner])]
    pitch = np.radians(pitch_deg)
    up = np.array([0.0, np.cos(pitch), -np.sin(pitch)])
    level = float((rim @ up).min())
    return float(piece.cavity().trim_by_plane(list(-up), -level).volume())
