"""Times of volume, one section and the least wall, beside those of a general-purpose mesh kernel.

    cargo bench --locked --bench table -- meshes >ours.json
    .tools/reference-venv/bin/python tests/reference/side_by_side.py ours.json

Both start from the saved design and are as accurate as the program promises: circles of 90 corners, whose corners stand up to
0.02 mm out, and curves chorded within 0.01 mm.
"""

from __future__ import annotations

import json
import statistics
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import solids

solids.CORNERS = 90
solids.CHORD_MM = 0.01

from measures import least_wall, mass, section  # noqa: E402
from pieces import build, saved_design  # noqa: E402

HERE = Path(__file__).parent
#: How often each is timed; the median counts.
TIMES = 5


def timed(work: Callable[[], Any]) -> tuple[float, Any]:
    """The median time in ms, and what comes of it."""
    times: list[float] = []
    found: Any = None
    for _ in range(TIMES):
        began = time.perf_counter()
        found = work()
        times.append((time.perf_counter() - began) * 1e3)
    return statistics.median(times), found


def main() -> None:
    """Prints the table."""
    ours: dict[str, dict[str, Any]] = json.loads(Path(sys.argv[1]).read_text(encoding="utf-8"))
    print("| piece | volume | section | least wall | all three |")
    print("|---|---|---|---|---|")
    for file, row in ours.items():
        design = saved_design(HERE / "pieces" / f"{file}.json")
        if row["wall_mm"] is None:
            design["cuts"] = [cut for cut in design["cuts"] if "hollow" not in cut]
        volume_ms, body = timed(lambda: mass(build(design).finished()))
        finished = build(design).finished()
        finished.num_tri()
        section_ms, cut = timed(lambda: section(finished, row["station_mm"] + 1e-6))
        has_wall = row["wall_mm"] is not None
        wall_ms, wall = timed(lambda: least_wall(build(design)).distance) if has_wall else (0.0, None)
        assert abs(body.volume / row["volume_mm3"] - 1.0) < 1e-3, (file, body.volume, row["volume_mm3"])
        assert abs(cut[0] / row["area_mm2"] - 1.0) < 2e-3, (file, cut[0], row["area_mm2"])
        assert wall is None or abs(wall - row["wall_mm"]) < 0.05, (file, wall, row["wall_mm"])
        of_ours = row["piece_ms"] + row["volume_ms"] + row["section_ms"] + (row["wall_ms"] if has_wall else 0.0)
        print(f"| {row['name']} | {ratio(volume_ms, row['piece_ms'] + row['volume_ms'])} "
              f"| {ratio(section_ms, row['section_ms'])} "
              f"| {ratio(wall_ms, row['piece_ms'] + row['wall_ms']) if has_wall else '-'} "
              f"| {ratio(volume_ms + section_ms + wall_ms, of_ours)} |")


def ratio(theirs_ms: float, ours_ms: float) -> str:
    """How many times longer the mesh kernel takes, and both times."""
    return f"{theirs_ms / ours_ms:.0f} times ({theirs_ms:.1f} / {ours_ms:.2f} ms)"


if __name__ == "__main__":
    main()
