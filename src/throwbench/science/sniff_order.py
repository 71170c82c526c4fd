"""In which order noses sniff: each tag stands at each place, and follows each other one, alike.

Williams, E. J. (1949): Experimental designs balanced for the estimation of residual effects of
treatments. Australian Journal of Scientific Research, Series A 2, 149-168: for an even number of
treatments one square does it, for an odd number a square and its mirror. MacFie, H. J., Bratchell,
N., Greenhoff, K. and Vallis, L. V. (1989): Designs to balance the effect of order of presentation
and first-order carry-over effects in hall tests. Journal of Sensory Studies 4, 129-148: such
squares for a panel that sniffs or tastes.
"""


def walk(count: int, row: int) -> tuple[int, ...]:
    """The places 0 to `count` - 1 in the order of one row of the square; rows begin again after
    the last.

    After `count` rows, or twice as many where `count` is odd, each place has come equally often in
    each position, and each has followed each other one equally often. Where it is odd a row and
    its mirror take turns, so that few noses do not all go the same way round.
    """
    if count == 0:
        return ()
    turn, is_mirror = divmod(row, 2) if count % 2 else (row, 0)
    steps = [(nth + 1) // 2 if nth % 2 else -(nth // 2) for nth in range(count)]
    places = tuple((step + turn) % count for step in steps)
    return places[::-1] if is_mirror else places
