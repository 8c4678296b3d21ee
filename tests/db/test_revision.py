"""Which migration a database stands at, told without Alembic, is what Alembic would tell."""

from __future__ import annotations

from pathlib import Path

import pytest
from alembic.script import ScriptDirectory

from hub.config import Misconfigured
from hub.db.engine import make_engine
from hub.db.migrate import config_for, upgrade
from hub.db.revision import known, refuse_another, seen_by, seen_by_file
from hub.wiring import load_tables


def test_the_names_of_the_files_tell_the_migrations() -> None:
    scripts = ScriptDirectory.from_config(config_for())
    assert known() == [each.revision for each in scripts.walk_revisions()][::-1]


def test_a_file_is_read_as_its_database_is(tmp_path: Path) -> None:
    load_tables()
    file = tmp_path / "hub.sqlite3"
    engine = make_engine(f"sqlite:///{file}")
    with engine.connect() as connection:
        assert seen_by(connection) is None
    assert seen_by_file(file) is None
    upgrade(engine)
    with engine.connect() as connection:
        assert seen_by(connection) == seen_by_file(file) == known()[-1]
    engine.dispose()


@pytest.mark.parametrize(("seen", "words"), [(None, "hub db upgrade"), ("9999", "newer version")])
def test_other_tables_are_refused_in_a_sentence(seen: str | None, words: str) -> None:
    with pytest.raises(Misconfigured, match=words):
        refuse_another(seen)
    refuse_another(known()[-1])
