"""What the server writes into its own window never holds the token of a link."""

import logging
import re

TOKEN = re.compile(r"(/(?:sign-in|nose/by)/)[^/\s]+")


class NoTokens(logging.Filter):
    """Write a link's address without its token."""

    def filter(self, record: logging.LogRecord) -> bool:
        record.msg = TOKEN.sub(r"\1…", record.getMessage())
        record.args = ()
        return True
