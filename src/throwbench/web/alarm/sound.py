"""The alarm's own sound: two plain tones in turn, as a WAV file in the workshop's folder."""

import io
import wave
from pathlib import Path

import numpy as np

NAME = "alarm.wav"
RATE_HZ = 22_050
HIGH_HZ, LOW_HZ = 880, 660
TONE_S = 0.4
TONES = 6
LOUD = 0.8
"""Of what the file can hold; more would crackle."""
FADE_S = 0.01
"""A tone that begins at once clicks."""


def sound_file(folder: Path) -> Path:
    """The file, made where it is not there or not whole."""
    path, told = folder / NAME, two_tones()
    if not path.is_file() or path.read_bytes() != told:
        path.write_bytes(told)
    return path


def two_tones() -> bytes:
    """A WAV file: 16 bit, one channel, high and low in turn.

    Checked against: definition (read back with its duration and its two tones).
    """
    turns = [_tone(HIGH_HZ if turn % 2 == 0 else LOW_HZ) for turn in range(TONES)]
    samples = np.concatenate(turns)
    file = io.BytesIO()
    with wave.open(file, "wb") as out:
        out.setnchannels(1)
        out.setsampwidth(2)
        out.setframerate(RATE_HZ)
        out.writeframes((samples * LOUD * 32_767).astype("<i2").tobytes())
    return file.getvalue()


def _tone(hertz: float) -> np.ndarray:
    seconds = np.arange(round(RATE_HZ * TONE_S)) / RATE_HZ
    edge = np.minimum(seconds, TONE_S - seconds) / FADE_S
    tone: np.ndarray = np.sin(2 * np.pi * hertz * seconds) * np.clip(edge, 0, 1)
    return tone
