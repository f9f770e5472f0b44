"""How a mesh lies on a table without roll: the least heights of its centre of mass over the hull of its side view.

A pose is a local least over the pitch of the height of the centre of mass: an edge of the hull (s, y) with the foot of the
centre between its ends. From one least to the next the height rises to its distance from a corner, so every barrier is
known without sampling. Leasts with no barrier over DEPTH_MM between them are chords of one curve, or one to the mesh.

How good. The hull is within HULL_MM of the piece's (solids.py), so a height is too. The true pitch of a pose therefore has a
height within 2 HULL_MM of the least, and on a contact of length L it is off by at most 2 HULL_MM / L: the lesser of the two
is stated with each pose.

A contact ends where the true hull leaves the table; all of the mesh's hull that the true one may still touch the table with is
nearer to it than 2 HULL_MM. So a margin is off by no more than that goes on past the mesh's own contact, and no less: on a
curve the true end may lie as far to the other side of the mesh's corner.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from manifold3d import Manifold
from scipy.spatial import ConvexHull

from measures import corners, mass
from solids import Floats

#: How far the hull of a mesh may be from the piece's, in mm.
HULL_MM = 0.005
#: A least that is left over a lower barrier than this is no pose of its own, in mm.
DEPTH_MM = 2.0 * HULL_MM
#: A shorter contact may be a chord of a curve, in mm.
SHORTEST_CONTACT_MM = 5.0


@dataclass
class Lying:
    """One pose: pitch (degrees, the bowl end raised by it), and how far that may be off.

    `margin_mm` is how far inside its contact the foot of the centre of mass is, along the table, and `margin_off_mm` how far
    that may be off. `barrier_mm` is how far the centre of mass must rise before it rolls into another pose.
    """

    pitch_deg: float
    pitch_off_deg: float
    margin_mm: float
    margin_off_mm: float
    barrier_mm: float


def poses(solid: Manifold) -> list[Lying]:
    """Every pose of a solid, the least pitch first."""
    centre = mass(solid).centroid[[2, 1]]
    seen = corners(solid)[:, [2, 1]] - centre
    hull = seen[ConvexHull(seen).vertices]
    found = [described(hull, edge, barrier) for edge, barrier in deep_leasts(hull)]
    return sorted(found, key=lambda pose: abs(pose.pitch_deg))


def deep_leasts(hull: Floats) -> list[tuple[int, float]]:
    """The edges that are poses, each from its corner to the next, and their barriers in mm.

    The centre of mass is the origin, and the hull counter-clockwise.
    """
    following = np.roll(hull, -1, axis=0)
    along = (following - hull) / np.linalg.norm(following - hull, axis=1, keepdims=True)
    before, after = -np.einsum("ij,ij->i", hull, along), np.einsum("ij,ij->i", following, along)
    edges = [int(edge) for edge in np.flatnonzero((before > 0.0) & (after > 0.0))]
    heights = [float(np.cross(hull[edge], along[edge])) for edge in edges]
    distances = np.linalg.norm(hull, axis=1)
    tops = [barrier_between(distances, edge, edges[(i + 1) % len(edges)]) for i, edge in enumerate(edges)]
    while len(edges) > 1:
        depths = [min(tops[i - 1], tops[i]) - height for i, height in enumerate(heights)]
        shallow = int(np.argmin(depths))
        if depths[shallow] >= DEPTH_MM:
            return list(zip(edges, depths))
        # Its lower barrier falls away: the higher one is then between its neighbours.
        higher = max(tops[shallow - 1], tops[shallow])
        tops[shallow - 1] = higher
        del edges[shallow], heights[shallow], tops[shallow]
    return [(edge, float(distances.max()) - height) for edge, height in zip(edges, heights)]


def barrier_between(distances: Floats, edge: int, other: int) -> float:
    """How high the centre of mass rises between two leasts that follow each other: its distance to a corner."""
    count = (other - edge - 1) % len(distances) + 1
    return float(distances[(edge + 1 + np.arange(count)) % len(distances)].max())


def described(hull: Floats, edge: int, barrier: float) -> Lying:
    """The pose on an edge of the hull, with what it may be off."""
    a, b = hull[edge], hull[(edge + 1) % len(hull)]
    along = (b - a) / np.linalg.norm(b - a)
    down = np.array([along[1], -along[0]])
    pitch = float(np.degrees(np.arctan2(down[0], -down[1])))
    off = level_set(hull, pitch, float(a @ down))
    contact = float(np.linalg.norm(b - a))
    if contact >= SHORTEST_CONTACT_MM:
        off = min(off, float(np.degrees(2.0 * HULL_MM / contact)))
    margin = float(min(-a @ along, b @ along))
    return Lying(pitch, off, margin, past_ends(hull, along, down, a, b), barrier)


def past_ends(hull: Floats, along: Floats, down: Floats, a: Floats, b: Floats) -> float:
    """How far a hull goes on past a contact from `a` to `b` before it is 2 HULL_MM over the table, the farther of both ways."""
    level = float(a @ down) - 2.0 * HULL_MM
    places, heights = hull @ along, hull @ down
    farthest = 0.0
    for place, height, other, above in zip(places, heights, np.roll(places, -1), np.roll(heights, -1)):
        if max(height, above) < level:
            continue
        ends = [p for p, h in ((place, height), (other, above)) if h >= level]
        if len(ends) == 1:
            ends.append(place + (other - place) * (level - height) / (above - height))
        farthest = max(farthest, max(ends) - float(b @ along), float(a @ along) - min(ends))
    return farthest


def level_set(hull: Floats, pitch_deg: float, height: float) -> float:
    """How far the pitch may change, in degrees, before the centre of mass is more than 2 HULL_MM over its least."""
    away = np.linspace(-4.0, 4.0, 4001)
    pitch = np.radians(pitch_deg + away)
    heights = (np.column_stack([np.sin(pitch), -np.cos(pitch)]) @ hull.T).max(axis=1)
    return float(np.abs(away[heights <= height + 2.0 * HULL_MM]).max(initial=0.0)) + 0.002
