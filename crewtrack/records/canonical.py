"""JSON in its one canonical form (RFC 8785), as the journal digests it.

Keys sort by UTF-16 code units, numbers are written as ECMAScript writes a double, strings are
escaped only where they must be, and there is no white space.
"""

from collections.abc import Mapping
from functools import lru_cache
from json.encoder import encode_basestring
from math import isfinite
from typing import Final

Json = str | int | float | bool | None | list["Json"] | tuple["Json", ...] | Mapping[str, "Json"]

_EXACT: Final = 2**53

string = encode_basestring
"""A string as a JSON string; TypeError for anything else."""


def whole(value: int) -> str:
    """A whole number; TypeError for anything else, ValueError where a double can't hold it."""
    if not -_EXACT < value < _EXACT:
        raise ValueError(f"{value} is too large for a JSON number")
    return int.__repr__(value)


@lru_cache(maxsize=16_384)
def number(value: float) -> str:
    """A number as ECMAScript writes it: 4.5, 1e+30, 0.002, 1e-27; ValueError unless finite."""
    if value == 0:
        return "0"
    if not isfinite(value):
        raise ValueError(f"{value} is no JSON number")
    written = float.__repr__(value + 0.0)
    if "e" not in written:
        return written.removesuffix(".0")
    return _exponential(written)


def _exponential(written: str) -> str:
    """Python's exponential form, in ECMAScript's choice of forms (its section 6.1.6.1.20)."""
    mantissa, exponent = written.split("e")
    sign = "-" if mantissa.startswith("-") else ""
    digits = mantissa.lstrip("-").replace(".", "")
    point = int(exponent) + 1
    if len(digits) <= point <= 21:
        return sign + digits.ljust(point, "0")
    if -6 < point <= 0:
        return f"{sign}0.{digits.rjust(len(digits) - point, '0')}"
    tail = f".{digits[1:]}" if len(digits) > 1 else ""
    return f"{sign}{digits[0]}{tail}e{point - 1:+d}"


def utf16(key: str) -> bytes:
    """What keys are sorted by."""
    return key.encode("utf-16-be")


def canonical(value: Json) -> str:
    """The canonical text of a value; ValueError for what JSON can't hold."""
    match value:
        case None:
            return "null"
        case bool():
            return "true" if value else "false"
        case str():
            return string(value)
        case int():
            return whole(value)
        case float():
            return number(value)
        case Mapping():
            members = (f"{string(key)}:{canonical(value[key])}" for key in sorted(value, key=utf16))
            return f"{{{','.join(members)}}}"
        case _:
            return f"[{','.join(map(canonical, value))}]"
