"""A device that sends what it kept, as the page's own script does; for tests without a browser."""

import json
import uuid
from collections.abc import Iterable
from datetime import datetime, timedelta
from typing import Any

from django.test import Client

DOOR = "/entries/"
Fields = Iterable[tuple[str, Any]]


def ms(moment: datetime) -> int:
    return round(moment.timestamp() * 1000)


class Device:
    """One browser with its own clock, `slow` behind the workshop's."""

    def __init__(self, client: Client, now: datetime, *, slow: timedelta = timedelta(0)) -> None:
        self.client, self.now, self.slow = client, now, slow
        self.name, self.turn = str(uuid.uuid4()), 0
        self.token = ""
        self.key = ""
        self.hello()

    def hello(self) -> Any:
        """What the page asks before it sends."""
        answer = self.client.get(DOOR)
        told = answer.json()
        self.token = told.get("token", self.token)
        self.key = told.get("key", self.key)
        return answer

    def entry(
        self, address: str, fields: Fields, *, pressed: datetime | None = None, **other: Any
    ) -> bytes:
        """The bytes in which one press is kept."""
        self.turn += 1
        told = {
            "id": str(uuid.uuid4()),
            "key": self.key,
            "device": self.name,
            "turn": self.turn,
            "address": address,
            "pressed_at": ms((pressed or self.now) - self.slow),
            "fields": [[name, str(value)] for name, value in fields],
        }
        return json.dumps({**told, **other}, ensure_ascii=False).encode()

    def send(self, body: bytes, *, sent: datetime | None = None, **headers: str) -> Any:
        """The answer of the door to these bytes."""
        told = {"X-CSRFToken": self.token, "X-Sent-At": str(ms((sent or self.now) - self.slow))}
        return self.client.post(
            DOOR, body, content_type="application/json", headers={**told, **headers}
        )


def changed(body: bytes, **other: Any) -> bytes:
    """Other bytes under the same id."""
    return json.dumps({**json.loads(body), **other}).encode()


def said(answer: Any) -> str:
    return " ".join(answer.json()["said"])
