"""A page that computes nothing waits for no numerical or geometry library."""

import subprocess
import sys
from pathlib import Path

import hub.science

HEAVY = {"numpy", "scipy", "shapely", "pyproj"}
SCIENCE = Path(hub.science.__file__).parent


def test_importing_all_of_the_science_loads_no_heavy_library():
    files = [file.relative_to(SCIENCE).with_suffix("") for file in SCIENCE.rglob("*.py")]
    modules = [".".join(("hub.science", *file.parts)) for file in files if file.stem != "__init__"]
    program = f"import sys, {', '.join(modules)}; print(*sorted({HEAVY!r} & set(sys.modules)))"
    ran = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True, cwd=SCIENCE.parent.parent
    )
    assert ran.stdout.split() == []
