"""Figures as they stand in a sentence."""


def plain(value: float) -> str:
    """Two decimals, or three digits below one, without trailing zeros: 505.56, 90, 0.55."""
    if abs(value) < 1:
        return f"{value:.3g}"
    return f"{value:.2f}".rstrip("0").rstrip(".")


def counted(count: int, one: str) -> str:
    """'1 vessel', '6 vessels'."""
    return f"{count} {one}" if count == 1 else f"{count} {one}s"
