"""``hub serve`` and ``hub demo``: the hub behind a production server, on this machine's own address."""

from __future__ import annotations

import argparse
import errno
import http.client
import multiprocessing
import os
import socket
import sys
import threading
import time
from collections.abc import Sequence
from pathlib import Path

from hub.config import Misconfigured, Settings

HOST, PORT = "127.0.0.1", 8020
WORKERS, THREADS = 2, 4  # more processes answer faster; more threads in one process answer slower
PATIENCE_SECONDS = 5  # for one answer of /health


class PortTaken(Exception):
    """Another program listens where the hub was to listen."""


def serve_command(arguments: list[str]) -> int:
    """``hub serve [--port N] [--data DIR]``."""
    options = parsed("serve", arguments, data=os.environ.get("HUB_DATA", ".data/hub"))
    return guarded(options, demo=False)


def demo_command(arguments: list[str]) -> int:
    """``hub demo [--port N] [--data DIR]``: the same, over the invented Halverin Vale."""
    return guarded(parsed("demo", arguments, data=".data/demo"), demo=True)


def parsed(command: str, arguments: list[str], *, data: str) -> argparse.Namespace:
    """The options that both commands know."""
    parser = argparse.ArgumentParser(prog=f"hub {command}")
    parser.add_argument("--port", type=port_number, default=PORT, help=f"where to listen (default {PORT})")
    parser.add_argument("--data", type=Path, default=Path(data), help=f"the hub's folder (default {data})")
    return parser.parse_args(arguments)


def port_number(typed: str) -> int:
    """A port that can be listened on."""
    if not typed.isdecimal() or not 1 <= int(typed) <= 65535:
        raise argparse.ArgumentTypeError(f"a port is a whole number from 1 to 65535, not “{typed}”")
    return int(typed)


def guarded(options: argparse.Namespace, *, demo: bool) -> int:
    """Serve until told to stop; what stands in the way is told in one sentence, before anything is built."""
    try:
        refuse_taken(options.port)
        sign_ins = open_demo(options.data) if demo else ()
        configure(options)
        settings = Settings.from_environment()
        refuse_unfit_tables(settings)
        serve(settings, options.port, greeting=sign_ins)
    except (Misconfigured, PortTaken) as refusal:
        print(f"hub: {refusal}", file=sys.stderr)
        return 1
    return 0


def open_demo(data_dir: Path) -> Sequence[object]:
    """Build the demo where it is not built yet; its sign-ins each print as one line."""
    from hub import demo

    forget_settings()
    print("hub: Preparing Halverin Vale …", flush=True)
    sign_ins = demo.build(data_dir)
    os.environ["HUB_DAYS_AHEAD"] = str(demo.days_ahead_in(data_dir))
    return sign_ins


def forget_settings() -> None:
    """Whatever is set is meant for a real hub: a demo must not reach its places, nor be shut by its rules."""
    for name in [name for name in os.environ if name.startswith("HUB_")]:
        del os.environ[name]


def configure(options: argparse.Namespace) -> None:
    """Put the options where the server’s processes read them."""
    os.environ["HUB_DATA"] = str(options.data)
    os.environ.setdefault("HUB_BASE_URL", f"http://{HOST}:{options.port}")


def refuse_unfit_tables(settings: Settings) -> None:
    """Say before the server starts what its processes would refuse to start with."""
    if settings.database_url.startswith("sqlite:///"):
        refuse_unfit_file(settings)
    else:
        refuse_unfit_server(settings)


def refuse_unfit_file(settings: Settings) -> None:
    """An embedded hub's first start makes its tables; later they wait for ``hub db upgrade``."""
    from hub.db import revision

    file = Path(settings.database_url.removeprefix("sqlite:///"))
    if revision.seen_by_file(file) is None:
        make_tables(settings)
    revision.refuse_another(revision.seen_by_file(file))


def make_tables(settings: Settings) -> None:
    """Run every migration."""
    from hub.db.migrate import upgrade
    from hub.wiring import make_house

    house = make_house(settings)
    upgrade(house.engine)
    house.engine.dispose()


def refuse_unfit_server(settings: Settings) -> None:
    """A database server waits for ``hub db upgrade``, and for a role that its policies hold."""
    from hub.db.engine import make_engine
    from hub.db.policies import refuse_a_mighty_role
    from hub.db.revision import refuse_another, seen_by

    engine = make_engine(settings.database_url)
    refuse_a_mighty_role(engine)
    with engine.connect() as connection:
        refuse_another(seen_by(connection))
    engine.dispose()


def refuse_taken(port: int) -> None:
    """Raise ``PortTaken`` before the server would fail in words of its own."""
    with socket.socket() as probe:
        probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind((HOST, port))
        except OSError as error:
            reason = (
                "is in use by another program" if error.errno == errno.EADDRINUSE else "is not open to you"
            )
            raise PortTaken(f"Port {port} {reason}. Choose another with --port.") from error


def serve(settings: Settings, port: int, *, greeting: Sequence[object] = ()) -> None:
    """Answer requests on ``port`` until SIGTERM or Ctrl+C; the address is printed once it answers."""
    from granian.constants import Interfaces
    from granian.log import LogLevels
    from granian.server import Server

    # Fresh processes, not copies of this one: a copy would share its open database connections.
    multiprocessing.set_start_method("spawn", force=True)
    server = Server(
        "hub.wsgi:app",
        address=HOST,
        port=port,
        interface=Interfaces.WSGI,
        workers=WORKERS,
        blocking_threads=THREADS,
        log_level=LogLevels.warning,
        workers_kill_timeout=10,
    )
    threading.Thread(target=announce, args=(settings, port, greeting), daemon=True).start()
    server.serve()


def announce(settings: Settings, port: int, greeting: Sequence[object]) -> None:
    """Print the address when the hub answers, not when it begins to try."""
    while not healthy(port):
        time.sleep(0.05)
    lines = [f"hub: Open {settings.base_url} (stop with Ctrl+C)", *(f"  {line}" for line in greeting)]
    print("\n".join(lines), flush=True)


def healthy(port: int) -> bool:
    """Whether ``/health`` answers 200."""
    connection = http.client.HTTPConnection(HOST, port, timeout=PATIENCE_SECONDS)
    try:
        connection.request("GET", "/health")
        return connection.getresponse().status == 200
    except (OSError, http.client.HTTPException):
        return False
    finally:
        connection.close()
