"""RFC 8785: its own examples (read), and the published ``rfc8785`` package beside ours."""

import json
from typing import Any

import pytest
import rfc8785
from hypothesis import example, given
from hypothesis import strategies as st

from crewtrack.records.canonical import canonical, number

SCALARS = (
    st.none()
    | st.booleans()
    | st.integers(-(2**53) + 1, 2**53 - 1)
    | st.floats(allow_nan=False, allow_infinity=False)
    | st.text()
)
VALUES = st.recursive(
    SCALARS, lambda inner: st.lists(inner) | st.dictionaries(st.text(), inner), max_leaves=20
)


def test_the_numbers_of_the_rfc_come_out_as_it_says() -> None:
    # RFC 8785 section 3.2.2 (read; check value D4).
    numbers = json.loads("[333333333.33333329,1E30,4.50,2e-3,0.000000000000000000000000001]")
    assert canonical(numbers) == "[333333333.3333333,1e+30,4.5,0.002,1e-27]"


@pytest.mark.parametrize(
    ("bits", "written"),
    [
        # RFC 8785 appendix B (read): the bits of a double, and how it is written.
        ("0000000000000000", "0"),
        ("8000000000000000", "0"),
        ("0000000000000001", "5e-324"),
        ("8000000000000001", "-5e-324"),
        ("7fefffffffffffff", "1.7976931348623157e+308"),
        ("4340000000000000", "9007199254740992"),
        ("4430000000000000", "295147905179352830000"),
        ("44b52d02c7e14af5", "9.999999999999997e+22"),
        ("44b52d02c7e14af6", "1e+23"),
        ("444b1ae4d6e2ef4e", "999999999999999700000"),
        ("444b1ae4d6e2ef50", "1e+21"),
        ("3eb0c6f7a0b5ed8c", "9.999999999999997e-7"),
        ("3eb0c6f7a0b5ed8d", "0.000001"),
        ("41b3de4355555555", "333333333.3333333"),
        ("becbf647612f3696", "-0.0000033333333333333333"),
        ("43143ff3c1cb0959", "1424953923781206.2"),
    ],
)
def test_a_double_is_written_as_in_the_rfcs_table(bits: str, written: str) -> None:
    import struct

    assert number(struct.unpack(">d", bytes.fromhex(bits))[0]) == written


def test_keys_sort_by_utf16_code_units() -> None:
    # RFC 8785 section 3.2.3 (read).
    keys = ["\u20ac", "\r", "\ufb33", "1", "\U0001f600", "\u0080", "\u00f6"]
    ordered = ["\r", "1", "\u0080", "\u00f6", "\u20ac", "\U0001f600", "\ufb33"]
    assert list(json.loads(canonical(dict.fromkeys(keys, 0)))) == ordered


def test_strings_are_escaped_only_where_they_must_be() -> None:
    # RFC 8785 section 3.2.2.2 (read).
    assert canonical('\u20ac$\u000f\nA\'B"\\\\"/') == '"\u20ac$\\u000f\\nA\'B\\"\\\\\\\\\\"/"'


@given(VALUES)
@example({"": [1e21, -0.0, 1e-7, 123456789012345680000.0]})
def test_any_value_is_written_as_the_published_package_writes_it(value: Any) -> None:
    assert canonical(value).encode() == rfc8785.dumps(value)


@pytest.mark.parametrize("value", [float("nan"), float("inf"), 2**53, -(2**53)])
def test_what_json_numbers_cannot_hold_is_refused(value: float) -> None:
    with pytest.raises(ValueError, match="JSON number"):
        canonical(value)
