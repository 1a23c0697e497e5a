"""The normal distribution, which numpy has no function for."""

from __future__ import annotations

from math import erfc, sqrt
from typing import Any

import numpy as np
from numpy.typing import NDArray

_ERFC = np.vectorize(erfc, otypes=[np.float64])


def below(deviates: NDArray[np.floating[Any]]) -> NDArray[np.float64]:
    """The share of a normal distribution below each number of standard deviations."""
    return np.asarray(_ERFC(-deviates / sqrt(2)) / 2)
