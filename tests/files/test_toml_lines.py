import tomllib
from collections.abc import Iterator

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crewtrack.files.toml_lines import KeyPath, Twice, find_lines

NASTY = {
    "strings that hold marks": "a = \"] } = # \\\" [\"\nb = '\\'\nc = '''it''s = [''''\nd = 1\n",
    "strings over several lines": 'a = """\n[x]\ny = 1\n"""\nb = """"quoted""""\nc = 2\n',
    "an escaped quote at the end": 'a = """x\\"""" # a """ here\ny = 1\n',
    "comments everywhere": "# a = 1\na = [ # ]\n 1, # [\n # 2,\n 3,\n] # b = 1\nb = 1 # = 2\n",
    "dates, signs and dots": "a = 1979-05-27 07:32:00\nb = -1.5e+3\nc = 07:32:00.5\nd = +inf\n",
    "quoted and spaced keys": "'a.b' . \"c\\u0064\" . e = 1\n[ x . 'y z' ]\n1.2 = true\n\"\" = 0\n",
    "arrays of tables nested": "[[a]]\nx = 1\n[[a.b]]\n[[a.b]]\ny = 2\n[[a]]\n[a.c]\nz = 3\n",
    "inline tables in arrays": "a = [ { b = { c = [ 1, { d.e = 2 } ] } },\n { f = '}' } ]\n",
    "Windows line ends": 'a = 1\r\n\r\n[b]\r\nc = """\r\n\r\n"""\r\nd = 2\r\n',
    "no line end at the end": "a = [\n1\n]",
    "nothing": "",
    "empty tables and arrays": "a = {}\nb = []\nc = [[], {}, [\n]]\n",
    "deep brackets": "a = " + "[" * 200 + "\n1" + "]" * 200 + "\nb = 2\n",
}


def paths(value: object, path: KeyPath = ()) -> Iterator[KeyPath]:
    """The paths of everything in a parsed file."""
    inside: Iterator[tuple[str | int, object]] = iter(())
    if isinstance(value, dict):
        inside = iter(value.items())
    elif isinstance(value, list):
        inside = enumerate(value)
    for part, one in inside:
        yield (*path, part)
        yield from paths(one, (*path, part))


@pytest.mark.parametrize("text", NASTY.values(), ids=NASTY)
def test_every_path_that_the_parser_finds_has_a_line_and_no_other_has(text: str) -> None:
    assert set(find_lines(text).of) == set(paths(tomllib.loads(text)))


PIECES = st.sampled_from(
    [*"ab.=\n []{},#\"'\\é", '"""', "'''", " = 1", "\r\n", "[a]\n", "[[b]]\n", "a = ", "b = ["]
)


@given(st.lists(PIECES, max_size=30).map("".join))
def test_no_text_makes_it_fail_and_what_toml_takes_is_found_whole(text: str) -> None:
    lines = find_lines(text)
    try:
        values = tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        return
    assert set(lines.of) == set(paths(values))


KEYS = st.text("ab.é\"'# =]", min_size=1, max_size=4)
VALUES = st.recursive(
    st.one_of(st.integers(0, 9), st.text("a\"'\\\n]}#,=", max_size=6), st.booleans()),
    lambda inside: st.one_of(
        st.lists(inside, max_size=3), st.dictionaries(KEYS, inside, max_size=3)
    ),
    max_leaves=8,
)


def quoted(text: str) -> str:
    escaped = text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n")
    return f'"{escaped}"'


def toml(value: object) -> str:
    """A value as TOML, with line breaks wherever an array takes them."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{quoted(k)} = {toml(v)}" for k, v in value.items()) + "}"
    if isinstance(value, list):
        return "[\n" + ",\n".join(toml(one) for one in value) + "\n]"
    return quoted(value) if isinstance(value, str) else str(value).lower()


@given(st.dictionaries(KEYS, st.dictionaries(KEYS, VALUES, max_size=3), max_size=3))
def test_keys_stand_on_the_lines_that_write_them(tables: dict[str, dict[str, object]]) -> None:
    text = "".join(
        f"[{quoted(name)}]\n" + "".join(f"{quoted(k)} = {toml(v)}\n" for k, v in table.items())
        for name, table in tables.items()
    )
    lines = find_lines(text)
    assert set(lines.of) == set(paths(tomllib.loads(text)))
    for path, line in lines.of.items():
        if isinstance(path[-1], str):
            assert quoted(path[-1]) in text.split("\n")[line - 1]


def test_lines_are_those_of_the_key_the_element_and_the_header() -> None:
    text = "a = [\n  1,\n\n  { b = 2,\tc.d = 3 },\n]\n\n[t.u]\nv = 1\n[[w]]\n[[w]]\nx = 1\n"
    assert find_lines(text).of == {
        ("a",): 1,
        ("a", 0): 2,
        ("a", 1): 4,
        ("a", 1, "b"): 4,
        ("a", 1, "c"): 4,
        ("a", 1, "c", "d"): 4,
        ("t",): 7,
        ("t", "u"): 7,
        ("t", "u", "v"): 8,
        ("w",): 9,
        ("w", 0): 9,
        ("w", 1): 10,
        ("w", 1, "x"): 11,
    }


def test_a_path_without_a_line_gets_that_of_what_is_around_it() -> None:
    lines = find_lines("\n[t]\na = [ 1 ]\n")
    assert lines.nearest(("t", "a", 5, "x")) == 3
    assert lines.nearest(("t", "missing")) == 2
    assert lines.nearest(("missing",)) is None
    assert lines.nearest(()) is None


def test_what_is_written_twice_is_found_with_both_lines() -> None:
    lines = find_lines("a = 1\n[t]\nb = 1\nb = 2\n[u]\n[t]\n")
    assert lines.twice == [Twice(("t", "b"), 3, 4), Twice(("t",), 2, 6)]


def test_a_table_that_follows_its_own_inner_table_is_not_written_twice() -> None:
    assert find_lines("[a.b]\n[a]\n[[c]]\nx = 1\n[[c]]\nx = 1\n").twice == []


def test_a_key_that_no_parser_would_take_stands_as_it_is_written() -> None:
    assert find_lines('"\\x" = 1').of == {('"\\x"',): 1}
