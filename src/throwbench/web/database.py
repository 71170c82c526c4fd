"""The database's form: a copy before it changes, and no newer one is opened."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager

from django.core.management import call_command
from django.db import DatabaseError, OperationalError, connection
from django.db.migrations.executor import MigrationExecutor

from throwbench.web.folder import Folder, FolderError


def bring_up_to_date(folder: Folder) -> None:
    """Migrate the database of a folder, after a copy of it was made.

    Raises
    ------
    FolderError
        The database was written by a newer Throwbench, or cannot be read.
    """
    executor = _executor(folder)
    applied = set(executor.loader.applied_migrations)
    _refuse_newer(executor, folder)
    if not _steps_to_go(executor):
        return
    if applied:
        _copy(folder, count=len(applied))
    with _whole_or_empty(folder):
        call_command("migrate", verbosity=0, interactive=False)


def demand_this_form(folder: Folder) -> None:
    """For a command that writes while a server may be open: it changes no form.

    Raises
    ------
    FolderError
        The database has an older or newer form, or cannot be read.
    """
    executor = _executor(folder)
    _refuse_newer(executor, folder)
    if _steps_to_go(executor):
        raise FolderError(
            f"The notes in {folder.path} have the form of an older Throwbench. A server brings "
            "them up to date when it starts. Call `throwbench serve` on this folder first."
        )


def fold_in() -> None:
    """Bring into the database what stands in the file beside it, so that one file holds all.

    Called when nothing is written any more; left as it is, a copy of the database alone is empty,
    and an older one put back is overlaid.
    """
    with connection.cursor() as cursor:
        cursor.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    connection.close()


@contextmanager
def _whole_or_empty(folder: Folder) -> Iterator[None]:
    """A new database that was not made to its end is begun anew the next time."""
    is_new = not connection.introspection.table_names()
    try:
        yield
    except BaseException:
        if is_new:
            connection.close()
            for path in folder.path.glob(f"{folder.database.name}*"):
                path.unlink()
            folder.database.touch()
        raise


def _executor(folder: Folder) -> MigrationExecutor:
    """What the database says of its form."""
    try:
        return MigrationExecutor(connection)
    except OperationalError:  # it is whole, but the disk is full or another program holds it
        raise
    except DatabaseError as error:
        raise FolderError(
            f"The notes in {folder.database} cannot be read ({error}). It is a SQLite file that "
            "Throwbench wrote. Put it back from a copy of the folder."
        ) from error


def _steps_to_go(executor: MigrationExecutor) -> bool:
    return bool(executor.migration_plan(executor.loader.graph.leaf_nodes()))


def _refuse_newer(executor: MigrationExecutor, folder: Folder) -> None:
    applied = set(executor.loader.applied_migrations)
    unknown = applied - set(executor.loader.disk_migrations)
    if unknown:
        raise FolderError(
            f"The notes in {folder.path} were written by a newer Throwbench "
            f"({len(unknown)} steps newer). This version reads its own and older ones. "
            "Install the newer version again."
        )


def _copy(folder: Folder, *, count: int) -> None:
    """SQLite's own way to copy a database in use."""
    target = folder.path / f"workshop-before-step-{count + 1}.sqlite3"
    with (
        closing(sqlite3.connect(folder.database)) as source,
        closing(sqlite3.connect(target)) as copy,
    ):
        source.backup(copy)
