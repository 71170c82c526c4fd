"""Heat release of a candle flame."""

from math import inf

from throwbench.science.errors import in_range

PARAFFIN_KJ_G = 43.8
"""Effective heat of combustion of paraffin in the cone calorimeter [kJ/g]."""

HEAT_DOUBT = 9 / 77
"""Share by which the published heat release of a paraffin taper, 77 ± 9 W, is in doubt."""

SOURCE = "Hamins, Bundy, Dillon 2005"


def heat_release_w(*, rate_g_h: float, combustion_kj_g: float = PARAFFIN_KJ_G) -> float:
    """Heat released by a candle that burns at a rate [W].

    Parameters
    ----------
    rate_g_h : burn rate [g/h]
    combustion_kj_g : effective heat of combustion [kJ/g]; the default is paraffin's, vegetable
        waxes hold about a sixth less (36.9 for stearic acid, lower heating value)

    Raises
    ------
    OutOfRangeError
        A rate below zero, or a heat of combustion not above zero.

    Notes
    -----
    rate × heat of combustion / 3.6. The effective value is used, not the higher heating value,
    which would overstate by about 7 %.

    References
    ----------
    Hamins, Bundy, Dillon 2005, J. Fire Prot. Eng. 15:265-285 (abstract read; figures from two
    copies of it that agree): 0.105 g/min × 43.8 kJ/g, 77 ± 9 W.

    Checked against: printed (77 W), definition (rows BU004, BU006, BU014, BU017 to BU020).
    """
    in_range(rate_g_h, what="The burn rate", unit="g/h", limits=(0, inf), source=SOURCE)
    in_range(
        combustion_kj_g,
        what="The heat of combustion",
        unit="kJ/g",
        limits=(1e-3, inf),
        source=SOURCE,
    )
    return rate_g_h * combustion_kj_g / 3.6
