"""One thing that may have gone wrong, at one place."""

from dataclasses import dataclass, field
from typing import Any, Callable

import numpy as np


@dataclass
class Slip:
    kind: str
    about: list
    column: np.ndarray
    weight: float = 1.0  # among the instances of its kind; brought to sum 1
    size: Callable = None  # rng -> b
    change: Any = None  # of readings: reassigned.Change
    floor: float = 0.02  # the least figure the readings it touches can show
    levels: dict = field(default_factory=dict)  # of benchmarks: what 1 adds to the list
    now: Callable = lambda setup, point, at, minute, figure: 0.0  # what 1 does to the light at one more reading
