"""Random pieces, each made from its seed alone, so that only their figures need an outside source.

Lengths in mm, angles in degrees. Every number has at most two decimals, so that JSON keeps it. Profiles have steps, beads,
arcs and ogees; axes are tilted, marked or across; blanks are square or round and sometimes too small. No kept radius
passes LARGEST_RADIUS_MM of solids.py.
"""

from __future__ import annotations

from random import Random
from typing import Any

Node = dict[str, Any]
Cut = dict[str, Any] | str

#: The most a profile climbs, mm a mm, and the most an arc bulges, a share of its length: no arc turns back on itself.
STEEPEST = 1.2
BULGE_SHARE = 0.1
LEAST_RADIUS_MM = 4.0


def invent(seed: int) -> dict[str, Any]:
    """The design of one random piece."""
    random = Random(seed)
    kind = random.choices([bored, across, spindle], [6, 3, 2])[0]
    design = kind(random)
    return {"name": f"Random {seed}", "wood": {"species": "Sapele", "moisture_percent": 9.0}, **design, "contents": "water"}


def bored(random: Random) -> dict[str, Any]:
    """A scoop bored from its end: bowl on A, handle on B, and perhaps its end on A or C."""
    bore, depth, wall = between(random, 26, 50), between(random, 30, 56), between(random, 5, 11)
    bowl = bore + 2 * wall
    neck = round(depth + between(random, 10, 20), 2)
    end = round(neck + between(random, 70, 120), 2)
    axes: list[dict[str, Any]] = [handle_axis(random, neck, end)]
    thickness = between(random, 8, 14)
    plug, tail = plug_for(random, bore, thickness, bowl)
    cuts: list[Cut] = [hollow(random, bore, depth), *([plug] if plug else [])]
    cuts.append(turned(random, "A", -tail, neck, bowl, 0.8 * bowl))
    split = round(end - between(random, 20, 40), 2) if random.random() < 0.5 else end
    cuts.append(turned(random, "B", round(neck - between(random, 0, 6), 2), split, between(random, 18, 34), 18))
    if split < end:
        if random.random() < 0.5:
            axes.append(handle_axis(random, split, end))
        cuts.append(turned(random, "A" if len(axes) == 1 else "C", split, end, 22, between(random, 10, 26)))
    cuts += ["take_out_plug"] if plug else []
    cuts += [opening(random, bowl, depth), part(end)]
    return {"blank": blank(random, bowl, end), "axes": axes, "cuts": cuts}


def across(random: Random) -> dict[str, Any]:
    """A scoop hollowed across the grain about one axis or two, its rim sawn off level or at a slope."""
    first, reach = between(random, 34, 42), between(random, 17, 24)
    outside, end = between(random, 56, 74), between(random, 170, 220)
    from_deg = between(random, -6, 6)
    axes: list[dict[str, Any]] = [{"across": {"station_mm": first, "from_deg": from_deg}}]
    names = ["B"]
    if random.random() < 0.5:
        axes.append({"across": {"station_mm": round(first + between(random, 4, 12), 2), "from_deg": from_deg}})
        names.append("C")
    neck = round(first + 2 * reach + 8, 2)
    axes.append(handle_axis(random, neck, end))
    # The rim is sawn well under the top of the bowl, where a hollow as wide as this stays inside.
    cut_at, slope = between(random, 1, 6), between(random, -0.06, 0.1)
    floor = between(random, 9, 0.3 * outside)
    cuts: list[Cut] = [across_hollow(random, name, reach, floor, outside) for name in names]
    cuts.append(turned(random, "A", 0.0, neck, outside, 0.75 * outside))
    handle = "BCD"[len(axes) - 1]
    cuts.append(turned(random, handle, neck, end, between(random, 20, 34), between(random, 14, 24)))
    line = [(-2.0, cut_at), (round(neck - 2, 2), cut_at + slope * neck)]
    cuts += [saw_lines(line), part(end)]
    return {"blank": blank(random, outside, end), "axes": axes, "cuts": cuts}


def spindle(random: Random) -> dict[str, Any]:
    """No hollow: passes on offset and tilted axes, one over another, so that sides are left flat."""
    end, width = between(random, 120, 220), between(random, 36, 60)
    count = random.randint(2, 4)
    axes = [offset_axis(random) if random.random() < 0.6 else handle_axis(random, 0.4 * end, end) for _ in range(count)]
    cuts: list[Cut] = [turned(random, "A", 0.0, end, width, width)]
    for index in range(count):
        start = round(random.uniform(0.0, 0.5) * end, 2)
        stop = round(start + random.uniform(0.3, 0.5) * end, 2)
        cuts.append(turned(random, "BCDE"[index], start, stop, between(random, 24, width), between(random, 24, width)))
    cuts.append(part(round(end - between(random, 2, 12), 2)))
    return {"blank": blank(random, width, end), "axes": axes, "cuts": cuts}


def between(random: Random, low: float, high: float) -> float:
    """A number from `low` to `high` with two decimals."""
    return round(random.uniform(low, high), 2)


def blank(random: Random, width: float, end: float) -> dict[str, Any]:
    """A blank a little too small for the width up to one well over it, and a stretch of waste."""
    size = round(max(34.0, width * random.uniform(0.94, 1.15)), 2)
    length = round(end + between(random, 8, 30), 2)
    if random.random() < 0.35:
        return {"section": {"round": {"diameter_mm": min(size + 4, 88.0)}}, "length_mm": length}
    return {"section": {"square": {"side_mm": size}}, "length_mm": length}


def handle_axis(random: Random, crossing: float, end: float) -> dict[str, Any]:
    """An axis near A: tilted away from the opening or any way, or set by its marks."""
    if random.random() < 0.5:
        toward = random.choice([180.0, 165.0, between(random, -360, 360)])
        tilt = {"tilt_deg": between(random, 1, 11), "toward_deg": toward, "crossing_mm": round(crossing, 2)}
        return {"tilt": tilt}
    marks = {"tail_x_mm": 5, "tail_y_mm": 8, "head_x_mm": 7, "head_y_mm": 0.07 * end}
    return {"marks": {key: between(random, -most, most) for key, most in marks.items()}}


def offset_axis(random: Random) -> dict[str, Any]:
    """An axis parallel to A."""
    x, y = between(random, -12, 12), between(random, -12, 12)
    return {"marks": {"tail_x_mm": x, "tail_y_mm": y, "head_x_mm": x, "head_y_mm": y}}


def turned(random: Random, axis: str, start: float, end: float, wide: float, narrow: float) -> Cut:
    """A pass whose diameter goes about from `wide` to `narrow`."""
    nodes = profile(random, start, end, wide, round(narrow, 2))
    return {"pass": {"name": "", "axis": axis, "from_mm": start, "to_mm": end, "profile": {"drawn": {"nodes": nodes}}}}


def profile(random: Random, start: float, end: float, first: float, last: float) -> list[Node]:
    """Nodes with a curve each, steps, and now and then a bead of a mm or two."""
    inner = sorted({round(random.uniform(start + 3, end - 3), 2) for _ in range(random.randint(0, 4))})
    nodes = [{"at_mm": start, "diameter_mm": first}]
    for at in inner:
        share = (at - start) / (end - start)
        usual = first + (last - first) * share
        room = 2 * STEEPEST * (at - nodes[-1]["at_mm"])
        wanted = min(usual * random.uniform(0.93, 1.06), nodes[-1]["diameter_mm"] + room, 88.0)
        nodes.append(node(at, max(wanted, nodes[-1]["diameter_mm"] - room)))
        if random.random() < 0.3:
            nodes.append(node(at, min(nodes[-1]["diameter_mm"] * random.uniform(0.9, 1.12), 88.0)))
    room = 2 * STEEPEST * (end - nodes[-1]["at_mm"])
    before = nodes[-1]["diameter_mm"]
    nodes.append(node(end, min(max(last, before - room), before + room)))
    for left, right in zip(nodes, nodes[1:]):
        left.update(curve(random, left, right))
    return nodes


def node(at: float, diameter: float) -> Node:
    """A node, not narrower than a tool can leave it."""
    return {"at_mm": at, "diameter_mm": round(max(diameter, 2 * LEAST_RADIUS_MM), 2)}


def curve(random: Random, left: Node, right: Node) -> dict[str, Any]:
    """How a node is joined to the next: straight, by an ogee or by an arc."""
    length = right["at_mm"] - left["at_mm"]
    kind = random.choice(["line", "ogee", "arc", "arc"])
    if length < 4 or kind == "line":
        return {}
    if kind == "ogee":
        return {"curve": "ogee"}
    most = min(BULGE_SHARE * length, 0.4 * min(left["diameter_mm"], right["diameter_mm"]) / 2, 3.5)
    return {"curve": {"arc": {"bulge_mm": between(random, -most, most)}}}


def hollow(random: Random, bore: float, depth: float) -> Cut:
    """A bore about A, round-ended or drawn with a step of its bits."""
    if random.random() < 0.6:
        rounding = between(random, 0, min(10.0, 0.3 * bore))
        shape: dict[str, Any] = {"round_ended": {"diameter_mm": bore, "depth_mm": depth, "rounding_mm": rounding}}
    else:
        ledge, inner = round(depth * random.uniform(0.5, 0.8), 2), round(bore * random.uniform(0.6, 0.9), 2)
        nodes: list[Node] = [
            {"at_mm": 0.0, "diameter_mm": bore},
            {"at_mm": ledge, "diameter_mm": bore},
            {"at_mm": ledge, "diameter_mm": inner, "curve": "ogee"},
            {"at_mm": depth, "diameter_mm": round(inner * 0.6, 2)},
        ]
        shape = {"drawn": {"nodes": nodes}}
    return {"hollow": {"axis": "A", "mouth_mm": 0.0, "shape": shape}}


def across_hollow(random: Random, axis: str, reach: float, floor: float, outside: float) -> Cut:
    """A bowl about an axis across the blank, from its mouth over the rim to a floor under axis A."""
    mouth = round(-outside / 2 - 8, 2)
    wide, depth = round(2 * reach * random.uniform(0.85, 1.0), 2), round(floor - mouth, 2)
    rounding = between(random, 6, min(floor, 0.45 * wide))
    shape = {"round_ended": {"diameter_mm": wide, "depth_mm": depth, "rounding_mm": rounding}}
    return {"hollow": {"axis": axis, "mouth_mm": mouth, "shape": shape}}


def plug_for(random: Random, bore: float, thickness: float, bowl: float) -> tuple[Cut | None, float]:
    """A plug for the bore, if any, and how far it reaches beyond the bowl-end face."""
    if random.random() < 0.3:
        return None, 0.0
    plug: dict[str, Any] = {
        "disc_diameter_mm": round(bowl + 4, 2),
        "thickness_mm": thickness,
        "spigot_diameter_mm": round(bore - between(random, 0.1, 0.5), 2),
        "spigot_length_mm": between(random, 4, 12),
    }
    tail = thickness
    if random.random() < 0.4:
        plug["tenon"] = {"diameter_mm": between(random, 20, 30), "length_mm": between(random, 4, 9)}
        tail += plug["tenon"]["length_mm"]
    return {"fit_plug": plug}, round(tail, 2)


def opening(random: Random, bowl: float, depth: float) -> Cut:
    """The opening of a bored scoop: a saw cut in one or two lines or an arc."""
    low, high = between(random, -0.2 * bowl, 0.05 * bowl), between(random, 0.25 * bowl, 0.48 * bowl)
    start, end = between(random, 2, 8), round(depth + between(random, -8, 6), 2)
    kind = random.choice(["line", "lines", "arc"])
    if kind == "arc":
        ends = {"from": point(start, low), "to": point(end, high)}
        most = 0.08 * (end - start)
        return {"saw": {"path": {"arc": {**ends, "bulge_mm": between(random, -most, most)}}}}
    bend = [(round((start + end) / 2, 2), round((low + high) / 2 + between(random, -4, 4), 2))] if kind == "lines" else []
    return saw_lines([(start, low), *bend, (end, high)])


def saw_lines(points: list[tuple[float, float]]) -> Cut:
    """A saw cut along straight lines."""
    return {"saw": {"path": {"lines": {"points": [point(at, height) for at, height in points]}}}}


def point(at: float, height: float) -> dict[str, float]:
    """A point of a saw cut."""
    return {"at_mm": at, "height_mm": round(height, 2)}


def part(at: float) -> Cut:
    """The parting cut at the head end."""
    return {"part": {"axis": "A", "at_mm": at, "removes": "head"}}
