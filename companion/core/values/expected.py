"""A length that is not known for certain."""

from __future__ import annotations

from msgspec import Struct

Z95 = 1.959963984540054


class Expected(Struct, frozen=True):
    """A length that is not known for certain: its mean and standard deviation, mm.

    `low_mm`, `high_mm`: its 95 % interval where it is no plain normal value, else None.
    """

    mean_mm: float
    sd_mm: float
    low_mm: float | None = None
    high_mm: float | None = None

    @property
    def low95_mm(self) -> float:
        return self.mean_mm - Z95 * self.sd_mm if self.low_mm is None else self.low_mm

    @property
    def high95_mm(self) -> float:
        return self.mean_mm + Z95 * self.sd_mm if self.high_mm is None else self.high_mm

    @property
    def half95_mm(self) -> float:
        """Half the width of the 95 % interval, mm."""
        return (self.high95_mm - self.low95_mm) / 2

    def longer(self, by_mm: float) -> Expected:
        """The same with a length beside it that is known, mm."""
        ends_mm = (None if end is None else end + by_mm for end in (self.low_mm, self.high_mm))
        return Expected(self.mean_mm + by_mm, self.sd_mm, *ends_mm)
