"""Contrast and colour vision, for tests of colours.

Contrast: WCAG 2, relative luminance and contrast ratio, at least 4.5:1 for text (from memory).
Colour vision: matrices of Machado, Oliveira and Fernandes (2009) at full severity, on linear RGB
(from memory); distances are CIE 1976 in L*a*b*, where about 2.3 is just noticeable.
"""

Triple = tuple[float, float, float]
Matrix = tuple[Triple, Triple, Triple]

VISIONS: dict[str, Matrix] = {
    "usual": ((1, 0, 0), (0, 1, 0), (0, 0, 1)),
    "protanopia": (
        (0.152286, 1.052583, -0.204868),
        (0.114503, 0.786281, 0.099216),
        (-0.003882, -0.048116, 1.051998),
    ),
    "deuteranopia": (
        (0.367322, 0.860646, -0.227968),
        (0.280085, 0.672501, 0.047413),
        (-0.011820, 0.042940, 0.968881),
    ),
    "tritanopia": (
        (1.255528, -0.076749, -0.178779),
        (-0.078411, 0.930809, 0.147602),
        (0.004733, 0.691367, 0.303900),
    ),
}
XYZ: Matrix = (
    (0.4124564, 0.3575761, 0.1804375),
    (0.2126729, 0.7151522, 0.0721750),
    (0.0193339, 0.1191920, 0.9503041),
)
WHITE: Triple = (0.95047, 1.0, 1.08883)


def linear(ink: str) -> Triple:
    def channel(start: int) -> float:
        value = int(ink[start : start + 2], 16) / 255
        return value / 12.92 if value <= 0.04045 else float(((value + 0.055) / 1.055) ** 2.4)

    return channel(1), channel(3), channel(5)


def times(matrix: Matrix, vector: Triple) -> Triple:
    one, two, three = (sum(m * v for m, v in zip(row, vector, strict=True)) for row in matrix)
    return one, two, three


def contrast(one: str, other: str) -> float:
    light, dark = sorted((times(XYZ, linear(ink))[1] for ink in (one, other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def lab(colour: Triple) -> Triple:
    def bent(value: float) -> float:
        return float(value ** (1 / 3)) if value > 216 / 24389 else (value * 24389 / 27 + 16) / 116

    x, y, z = (bent(max(v, 0) / w) for v, w in zip(times(XYZ, colour), WHITE, strict=True))
    return 116 * y - 16, 500 * (x - y), 200 * (y - z)


def distance(one: str, other: str, vision: Matrix) -> float:
    ends = (lab(times(vision, linear(ink))) for ink in (one, other))
    return float(sum((a - b) ** 2 for a, b in zip(*ends, strict=True)) ** 0.5)
