"""Short codes that are typed where no camera reads the square one: eight of Crockford's base 32.

The alphabet has no I, L, O or U, which people misread; what they type instead is read.
"""

import secrets
import unicodedata

from django.utils.crypto import salted_hmac

ALPHABET = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
LENGTH, GROUP = 8, 4
MEANT = str.maketrans({"O": "0", "I": "1", "L": "1"})
SALT = "throwbench typed code"


def new_code() -> str:
    """A code drawn by chance: one of 32 to the power of 8."""
    return "".join(secrets.choice(ALPHABET) for _ in range(LENGTH))


def in_groups(code: str) -> str:
    """'K2F8 9QTM', as it is shown."""
    return " ".join(code[at : at + GROUP] for at in range(0, len(code), GROUP))


def as_meant(typed: str) -> str:
    """What was meant by what was typed: capitals, no spaces or dashes, 0 for O, 1 for I and L."""
    wide = unicodedata.normalize("NFKC", typed).upper()
    return "".join(sign for sign in wide if sign.isalnum()).translate(MEANT)


def digest_of_code(code: str) -> str:
    """What may be kept of a code.

    It is short: a bare hash of it could be guessed by who has the database alone, so the folder's
    secret, which lies beside the database and not in it, is part of it.
    """
    return salted_hmac(SALT, code, algorithm="sha256").hexdigest()
