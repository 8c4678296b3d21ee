"""``pip install .``: the wheel holds every file the hub reads, and its command works anywhere."""

from __future__ import annotations

import subprocess
import sys
import sysconfig
import zipfile
from pathlib import Path

import pytest

from hub.bootstrap import build
from tests.start.checkout import fresh_checkout


@pytest.fixture(scope="module")
def checkout(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return fresh_checkout(tmp_path_factory.mktemp("source"))


@pytest.fixture(scope="module")
def wheel(checkout: Path) -> Path:
    """The wheel of this checkout, built by the locked backend."""
    command = [sys.executable, "-m", "hatchling", "build", "--target", "wheel"]
    subprocess.run(command, cwd=checkout, check=True, capture_output=True)
    [built] = (checkout / "dist").glob("*.whl")
    return built


def files_below(folder: Path) -> set[str]:
    return {file.relative_to(folder).as_posix() for file in folder.rglob("*") if file.is_file()}


def test_the_wheel_holds_every_file_of_the_hub(checkout: Path, wheel: Path):
    packed = {name for name in zipfile.ZipFile(wheel).namelist() if ".dist-info/" not in name}
    wanted = {f"hub/{name}" for name in files_below(checkout / "hub")}
    wanted |= {f"hub/templates/{name}" for name in files_below(checkout / "templates")}
    wanted |= {f"hub/demo_data/{name}" for name in files_below(checkout / "demo_data")}
    assert packed == wanted


@pytest.fixture(scope="module")
def installed(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The programs of an environment that holds the wheel, and borrows the packages of this one."""
    folder = tmp_path_factory.mktemp("installed")
    build.make_environment(folder)
    build.install(folder, "", "--no-deps", str(wheel))
    [packages] = (folder / ".venv" / "lib").glob("python*/site-packages")
    (packages / "borrowed.pth").write_text(sysconfig.get_path("purelib") + "\n")
    return folder / ".venv" / "bin"


def test_the_installed_command_works_anywhere(installed: Path, tmp_path: Path):
    run = subprocess.run([installed / "hub", "--help"], cwd=tmp_path, capture_output=True, text=True)
    assert (run.returncode, run.stderr) == (0, "")
    assert run.stdout.startswith("usage: hub COMMAND")


def test_the_installed_package_makes_no_environment(installed: Path, tmp_path: Path):
    command = [installed / "python", "-m", "hub", "serve", "--help"]
    run = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True)
    assert run.returncode == 0, run.stderr
    assert run.stdout.startswith("usage: hub serve")


@pytest.mark.parametrize("name", ["templates", "demo_data"])
def test_the_installed_hub_reads_its_own_copies(installed: Path, tmp_path: Path, name: str):
    program = f"from hub.config import resource_folder; print(resource_folder({name!r}))"
    run = subprocess.run([installed / "python", "-c", program], cwd=tmp_path, capture_output=True, text=True)
    found = Path(run.stdout.strip())
    assert found.is_dir(), run.stderr
    assert found.is_relative_to(installed.parent)
