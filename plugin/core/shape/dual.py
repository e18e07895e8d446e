# SPDX-License-Identifier: GPL-2.0-or-later
"""Numbers that carry their exact first derivatives: plane vectors and angles as functions of the stations."""

from __future__ import annotations

import cmath
import math
from collections.abc import Mapping

Key = tuple[int, int]
"""A station's row and its axis, 0 for x and 1 for y."""


class Dual:
    """A complex number (a vector x + iy, or a real figure) and its change by metre of each station's x or y."""

    __slots__ = ("by", "value")

    def __init__(self, value: complex, by: Mapping[Key, complex] | None = None) -> None:
        """A value and its derivatives; none for a constant."""
        self.value = complex(value)
        self.by: Mapping[Key, complex] = by if by is not None else {}

    def _joined(self, other: Dual, value: complex, mine: complex, others: complex) -> Dual:
        by = {k: mine * d for k, d in self.by.items()}
        for k, d in other.by.items():
            by[k] = by.get(k, 0.0) + others * d
        return Dual(value, by)

    def _mapped(self, value: complex, factor: complex) -> Dual:
        return Dual(value, {k: factor * d for k, d in self.by.items()})

    def __add__(self, other: Dual) -> Dual:
        """Sum."""
        return self._joined(other, self.value + other.value, 1.0, 1.0)

    def __sub__(self, other: Dual) -> Dual:
        """Difference."""
        return self._joined(other, self.value - other.value, 1.0, -1.0)

    def __mul__(self, other: Dual) -> Dual:
        """Complex product."""
        return self._joined(other, self.value * other.value, other.value, self.value)

    def __truediv__(self, other: Dual) -> Dual:
        """Complex quotient."""
        value = self.value / other.value
        return self._joined(other, value, 1.0 / other.value, -value / other.value)

    def times(self, factor: complex) -> Dual:
        """Product with a constant."""
        return self._mapped(self.value * factor, factor)

    def conj(self) -> Dual:
        """Mirrored in the x axis."""
        return Dual(self.value.conjugate(), {k: complex(d).conjugate() for k, d in self.by.items()})

    def real(self) -> Dual:
        """Real part."""
        return Dual(self.value.real, {k: complex(d).real for k, d in self.by.items()})

    def imag(self) -> Dual:
        """Imaginary part."""
        return Dual(self.value.imag, {k: complex(d).imag for k, d in self.by.items()})

    def size(self) -> Dual:
        """Length of the vector; it must not be nothing."""
        length = abs(self.value)
        unit = self.value.conjugate() / length
        return Dual(length, {k: (unit * d).real for k, d in self.by.items()})

    def unit(self) -> Dual:
        """The vector's direction, length 1."""
        return self / self.size()

    def phase(self) -> Dual:
        """Angle of the vector in radians, anticlockwise from x."""
        return Dual(cmath.phase(self.value), {k: (d / self.value).imag for k, d in self.by.items()})

    def turned(self) -> Dual:
        """exp(i a) of a real angle a: the turn by it."""
        value = cmath.exp(1j * self.value)
        return self._mapped(value, 1j * value)

    def sine(self) -> Dual:
        """Sine of a real angle."""
        return self._mapped(math.sin(self.value.real), math.cos(self.value.real))

    def root(self) -> Dual:
        """Square root of a positive real figure."""
        value = math.sqrt(self.value.real)
        return self._mapped(value, 0.5 / value)


def dot(a: Dual, b: Dual) -> Dual:
    """Inner product of two vectors."""
    return (a.conj() * b).real()


def cross(a: Dual, b: Dual) -> Dual:
    """Outer product of two vectors, positive where b lies to the left of a."""
    return (a.conj() * b).imag()
