"""What is believed after the scores, as draws."""

import numpy as np
import numpy.typing as npt

Draws = npt.NDArray[np.float64]
"""One row per draw and one column per candidate; a mean over the draws has the columns alone."""
