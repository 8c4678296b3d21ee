"""Serial numbers without gaps or doubles, and the check character that ends every number people copy."""

from __future__ import annotations

from sqlalchemy import String, select
from sqlalchemy.dialects import postgresql, sqlite
from sqlalchemy.orm import Mapped, mapped_column
from stdnum.iso7064 import mod_37_36

from hub.db.base import Base
from hub.db.work import Work


class Serial(Base):
    """The last number given in one series, such as a bank's accessions of one year."""

    __tablename__ = "serial"
    series: Mapped[str] = mapped_column(String(80), primary_key=True)
    last: Mapped[int]


def next_in(work: Work, series: str) -> int:
    """The next number of a series. The row stays locked until the commit, so none is given twice."""
    insert = postgresql.insert if work.db.get_bind().dialect.name == "postgresql" else sqlite.insert
    start = insert(Serial).values(series=series, last=1)
    bump = start.on_conflict_do_update(index_elements=["series"], set_={"last": Serial.last + 1})
    work.db.execute(bump)
    return int(work.db.scalars(select(Serial.last).where(Serial.series == series)).one())


def with_check(number: str) -> str:
    """Add the ISO 7064 MOD 37,36 check character: ``HVSB-2031-0042`` becomes ``HVSB-2031-0042-…``."""
    return f"{number}-{mod_37_36.calc_check_digit(bare(number))}"


def is_whole(number: str) -> bool:
    """Whether a number that somebody typed ends in its right check character."""
    return bool(mod_37_36.is_valid(bare(number)))


def bare(number: str) -> str:
    """Letters and digits alone, in capitals: what the check character is reckoned over."""
    return "".join(sign for sign in number.upper() if sign.isalnum() and sign.isascii())
