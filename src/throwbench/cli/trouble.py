"""What the disk or the file of the notes refused, as a sentence for the maker."""

import errno
import sqlite3

ONCE_MORE = "call the command once more"
OF_A_FILE = {
    errno.ENOSPC: f"Notes and papers need room on the disk. Make room and {ONCE_MORE}.",
    errno.EEXIST: "Throwbench needs a folder of that name. Put what is there elsewhere.",
    errno.ENAMETOOLONG: "A disk takes names of 255 letters at most. Write a shorter one.",
}
OF_ANY_FILE = "A file or folder is needed that this user can open. Allow it, or name another one."
HELD = f"One program at a time writes them. Close the other one and {ONCE_MORE}."
CLOSED = (
    "They lie in the workshop’s folder, which has to be writable and on a disk with room. Allow "
    "this user to write there and make room, or open a copy of the folder."
)
OF_NOTES = {
    sqlite3.SQLITE_FULL: OF_A_FILE[errno.ENOSPC],
    sqlite3.SQLITE_BUSY: HELD,
    sqlite3.SQLITE_LOCKED: HELD,
    sqlite3.SQLITE_READONLY: CLOSED,
    sqlite3.SQLITE_CANTOPEN: CLOSED,
    sqlite3.SQLITE_IOERR: CLOSED,
}
OF_ANY_NOTES = (
    "They are a SQLite file that Throwbench wrote. Put it back from a copy of the folder."
)


def said_of(error: BaseException) -> str | None:
    """The sentence of an error of the disk or of SQLite; None of any other, which is our fault.

    Django wraps SQLite's own error and keeps it as the cause.
    """
    if isinstance(error, OSError) and error.strerror and not isinstance(error, BrokenPipeError):
        what = f"{error.filename} cannot be used" if error.filename else "A file was not written"
        return f"{what}: {error.strerror}. {OF_A_FILE.get(error.errno or 0, OF_ANY_FILE)}"
    for found in (error, error.__cause__):
        if type(found) in (sqlite3.OperationalError, sqlite3.DatabaseError):
            code = getattr(found, "sqlite_errorcode", 0) & 0xFF  # the rest tells apart why
            return f"The notes cannot be used: {found}. {OF_NOTES.get(code, OF_ANY_NOTES)}"
    return None
