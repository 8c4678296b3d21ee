"""What the hub needs from the operating system, by the names of Debian's packages."""

from __future__ import annotations

import ctypes.util
import os
import shutil
from pathlib import Path

# The libraries that WeasyPrint opens by name, and the packages that carry them.
PDF_LIBRARIES = {
    "gobject-2.0": "libglib2.0-0",
    "pango-1.0": "libpango-1.0-0",
    "pangoft2-1.0": "libpangoft2-1.0-0",
    "harfbuzz": "libharfbuzz0b",
    "harfbuzz-subset": "libharfbuzz-subset0",
    "fontconfig": "libfontconfig1",
}
POSTGRESQL_PROGRAMS = Path("/usr/lib/postgresql")


def missing_libraries() -> tuple[str, ...]:
    """The packages without which no PDF can be made."""
    return tuple(package for name, package in PDF_LIBRARIES.items() if not ctypes.util.find_library(name))


def missing_programs() -> tuple[str, ...]:
    """The packages without which a part of the checks cannot run; also the names of those parts."""
    absent = []
    if shutil.which("chromium") is None:
        absent.append("chromium")
    if not list(POSTGRESQL_PROGRAMS.glob("*/bin/initdb")):
        absent.append("postgresql")
    return tuple(absent)


def may_install() -> bool:
    """Whether this process can install Debian's packages itself."""
    return os.geteuid() == 0 and shutil.which("apt-get") is not None


def install_command(packages: tuple[str, ...]) -> str:
    """The one command that a person can run instead."""
    return "sudo apt-get install -y --no-install-recommends " + " ".join(packages)
