"""Builds the reference pieces with general-purpose solid modelling and writes, or checks, their figures.

    python build_reference.py            writes values.json
    python build_reference.py --check    rebuilds and fails when a figure differs from values.json
    python build_reference.py --random   the same for the random pieces and random_values.json

Every piece is a saved design in pieces/; the stations of its sections are in stations.json. With --folder, those of
another folder. Random pieces are invented from their seeds, and stored with their figures.
"""

from __future__ import annotations

import argparse
import json
import os
import sys
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path
from typing import Any

import closed_forms
from cleaning import clean_ups
from invented import invent
from measures import deepest_overrun, hold, least_wall, mass, reach, section, swing
from pieces import Piece, State, build, saved_design, states
from resting import poses

HERE = Path(__file__).parent

#: How far a rebuilt figure may be from the stored one: well inside what the stored one promises.
CHECK_SHARE = 2e-5
CHECK_LENGTH_MM = 0.0005
#: Pitches at which liquid is measured: the bowl end raised by these, in degrees.
PITCHES_DEG = (-10.0, 0.0, 7.0, 15.0, 30.0)
#: How many random pieces there are; their seeds run from 1.
RANDOM_PIECES = 50
#: Digits of a stored figure of a random piece: far more than it promises.
RANDOM_DIGITS = 8


def figures(design: dict[str, Any], stations: list[float]) -> dict[str, Any]:
    """Every figure of one piece. Stations in mm along axis A."""
    piece = build(design)
    finished = piece.finished()
    body = mass(finished)
    values: dict[str, Any] = {
        "volume_mm3": body.volume,
        "cavity_mm3": piece.cavity().volume(),
        "centroid_mm": list(body.centroid),
        "inertia_mm5": [list(row) for row in body.inertia],
        "reach_mm": reach(finished),
        "poses": [vars(pose) for pose in poses(finished)],
        "states": [state_figures(state) for state in states(design)],
        "clean_ups": clean_ups(design),
        "holds": [],
        "sections": [],
    }
    for station in stations:
        area, x, y = section(finished, station)
        values["sections"].append({"station_mm": station, "area_mm2": area, "centroid_x_mm": x, "centroid_y_mm": y})
    values |= wall_figures(piece)
    return values


def wall_figures(piece: Piece) -> dict[str, Any]:
    """The least wall and what the piece holds, or how deep it is broken through; of a piece without hollows neither."""
    if not piece.hollows:
        return {"breakthrough": False}
    overrun = deepest_overrun(piece)
    if overrun is not None:
        return {"breakthrough": True, "overrun_depth_mm": overrun.distance}
    holds = [{"pitch_deg": pitch, "volume_mm3": hold(piece, pitch)} for pitch in PITCHES_DEG]
    return {"breakthrough": False, "wall_min_mm": least_wall(piece).distance, "holds": holds}


def state_figures(state: State) -> dict[str, Any]:
    """Swing, volume, centroid and inertia of the wood before one pass."""
    body = mass(state.wood)
    return {
        "cut": state.cut,
        "swing_mm": swing(state.wood, state.axis),
        "volume_mm3": body.volume,
        "centroid_mm": list(body.centroid),
        "inertia_mm5": [list(row) for row in body.inertia],
    }


def rounded(value: Any, shorter: Callable[[float], float]) -> Any:
    """The same with every number shortened, so that the file stays readable."""
    if isinstance(value, float):
        return shorter(float(value)) + 0.0
    if isinstance(value, dict):
        return {key: rounded(item, shorter) for key, item in value.items()}
    if isinstance(value, list):
        return [rounded(item, shorter) for item in value]
    return value


def all_figures(folder: Path) -> dict[str, Any]:
    """Figures of all pieces of a folder, by name."""
    stations: dict[str, list[float]] = json.loads((folder / "stations.json").read_text(encoding="utf-8"))
    paths = sorted((folder / "pieces").glob("*.json"))
    if {path.stem for path in paths} != set(stations):
        raise SystemExit("pieces/ and stations.json do not name the same pieces")
    with ProcessPoolExecutor(os.cpu_count()) as workers:
        found = workers.map(figures_of_saved, paths, [stations[path.stem] for path in paths])
        return {path.stem: values for path, values in zip(paths, found)}


def all_random() -> dict[str, Any]:
    """Designs and figures of the random pieces, by name."""
    designs = [invent(seed) for seed in range(1, RANDOM_PIECES + 1)]
    with ProcessPoolExecutor(os.cpu_count()) as workers:
        found = workers.map(random_figures, designs)
        return {design["name"]: {"design": design, **values} for design, values in zip(designs, found)}


def figures_of_saved(path: Path, stations: list[float]) -> dict[str, Any]:
    """Figures of a saved piece, with seven decimals."""
    return rounded(figures(saved_design(path), stations), lambda value: round(value, 7))


def random_figures(design: dict[str, Any]) -> dict[str, Any]:
    """Figures of a random piece, which has no stations for sections."""
    return rounded(figures(design, []), lambda value: float(f"{value:.{RANDOM_DIGITS}g}"))


def written(values: dict[str, Any], is_random: bool) -> str:
    """The text of a file of figures: of random pieces a line each."""
    if not is_random:
        return json.dumps(values, indent=1) + "\n"
    lines = [f"{json.dumps(name)}: {json.dumps(piece, separators=(',', ':'))}" for name, piece in values.items()]
    return "{\n" + ",\n".join(lines) + "\n}\n"


def differences(where: str, stored: Any, rebuilt: Any) -> list[str]:
    """Sentences for everything in which two sets of figures differ."""
    if isinstance(stored, dict) and isinstance(rebuilt, dict) and stored.keys() == rebuilt.keys():
        return [line for key in stored for line in differences(f"{where}.{key}", stored[key], rebuilt[key])]
    if isinstance(stored, list) and isinstance(rebuilt, list) and len(stored) == len(rebuilt):
        if where.endswith("inertia_mm5"):
            # A product of inertia may be next to nothing: it is held to the greatest moment.
            greatest = max(abs(term) for row in stored for term in row)
            pairs = [pair for old, new in zip(stored, rebuilt) for pair in zip(old, new)]
            return [
                f"{where}: {old} stored, {new} rebuilt" for old, new in pairs if abs(old - new) > CHECK_SHARE * greatest
            ]
        pairs = list(enumerate(zip(stored, rebuilt)))
        return [line for index, (old, new) in pairs for line in differences(f"{where}[{index}]", old, new)]
    if isinstance(stored, float) and isinstance(rebuilt, float):
        length = where.endswith("_mm") or "centroid_mm" in where or "reach_mm" in where
        allowed = CHECK_LENGTH_MM if length else CHECK_SHARE * abs(stored)
        return [] if abs(stored - rebuilt) <= allowed else [f"{where}: {stored} stored, {rebuilt} rebuilt"]
    return [] if stored == rebuilt else [f"{where}: {stored} stored, {rebuilt} rebuilt"]


def main() -> None:
    """Runs from the command line."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else None)
    parser.add_argument("--check", action="store_true", help="compare with values.json instead of writing it")
    parser.add_argument("--random", action="store_true", help="the random pieces instead")
    parser.add_argument("--folder", type=Path, default=HERE, help="where pieces/, stations.json and values.json are")
    asked = parser.parse_args()
    kept = asked.folder / ("random_values.json" if asked.random else "values.json")
    closed_forms.check_all()
    rebuilt = all_random() if asked.random else all_figures(asked.folder)
    if not asked.check:
        kept.write_text(written(rebuilt, asked.random), encoding="utf-8")
        return
    found = differences("values", json.loads(kept.read_text(encoding="utf-8")), rebuilt)
    for line in found:
        print(line, file=sys.stderr)
    if found:
        raise SystemExit(1)
    print(f"{len(rebuilt)} pieces rebuilt: every figure as stored")


if __name__ == "__main__":
    main()
