"""How columns and indexes are made on a PostgreSQL server; imported only where tables are made or
compared.
"""

from typing import Any

from sqlalchemy import Text
from sqlalchemy.ext.compiler import compiles
from sqlalchemy.sql.elements import TypeClause

from studio.storage import tables as t

# What an index of a part of a table leaves out it leaves out here too. Said in tables.py, it would
# load SQLAlchemy's part for such servers with every command on a file.
for _table in t.metadata.tables.values():
    for _index in _table.indexes:
        if (_where := _index.dialect_options["sqlite"]["where"]) is not None:
            _index.dialect_kwargs["postgresql_where"] = _where


@compiles(Text, "postgresql")
def _text(kind: Text, _compiler: Any, **where: Any) -> str:  # noqa: ANN401 - SQLAlchemy's own
    """Text in the order of its bytes, whatever language the server speaks.

    So lists come in the same order, upper() and lower() change the same letters, and 'A' to 'Z' are
    the same 26 as in SQLite, which orders text by its bytes (datatype3, "BINARY").
    """
    del kind
    # A cast names no order of letters.
    return "TEXT" if isinstance(where.get("type_expression"), TypeClause) else 'TEXT COLLATE "C"'
