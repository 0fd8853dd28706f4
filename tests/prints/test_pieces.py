from crewtrack.prints.pieces import Piece, Rule, Words, abreast, padded, stacked, written
from crewtrack.prints.wrapping import Style

STYLE = Style("plain", 10.0, "#000000")


def test_stacked_pieces_lie_one_below_the_other() -> None:
    piece = stacked([written(["a"], STYLE), written(["b"], STYLE)], gap=3)
    first, second = (item for item in piece.items if isinstance(item, Words))
    assert second.y - first.y == STYLE.leading + 3
    assert piece.height == 2 * STYLE.leading + 3


def test_pieces_abreast_are_as_high_as_the_highest() -> None:
    piece = abreast([(0, Piece(5)), (40, Piece(9, (Rule(1, 2, 3),)))])
    assert piece == Piece(9, (Rule(41, 2, 3),))


def test_padding_moves_what_is_in_the_piece_down() -> None:
    assert padded(Piece(5, (Rule(0, 1, 3),)), 2, 4) == Piece(11, (Rule(0, 3, 3),))


def test_empty_lines_take_room_but_hold_nothing() -> None:
    assert written(["", ""], STYLE) == Piece(2 * STYLE.leading, ())
