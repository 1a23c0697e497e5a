"""What every mechanics function takes and gives: one number or an array of worlds."""

from __future__ import annotations

from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

Array: TypeAlias = NDArray[np.floating[Any]]
Values: TypeAlias = float | Array

_SINGLE = {np.dtype(np.float32)}


def aligned(*values: Values) -> tuple[Array, ...]:
    """Return the values as floating arrays of one precision, shapes untouched.

    Plain numbers take the precision of the arrays beside them. Without this, the sine of a
    plain number is a double and turns a whole single-precision calculation into doubles.
    """
    precisions = {value.dtype for value in values if isinstance(value, np.ndarray) and value.ndim}
    if precisions == _SINGLE:  # the usual case, without numpy's rules of promotion
        return tuple(np.asarray(value, np.float32) for value in values)
    wide = [value for value in values if np.ndim(value)]
    dtype = np.result_type(*(wide or values))
    if not np.issubdtype(dtype, np.floating):
        dtype = np.dtype(np.float64)
    return tuple(np.asarray(value, dtype=dtype) for value in values)
