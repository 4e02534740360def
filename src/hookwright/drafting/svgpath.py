"""The `d` of an SVG path to one closed outline: lines, arcs and Bézier curves, absolute and relative.

Source: Scalable Vector Graphics (SVG) 2, chapter 9 "Paths" (grammar 9.3) and appendix B.2 "Elliptical arc implementation notes", W3C;
from memory.
"""

from __future__ import annotations

import math
import re
from itertools import pairwise

from .asks import Refused
from .outline import Point

_TOKEN = re.compile(r"([MmLlHhVvCcSsQqTtAaZz])|([-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?)|([\s,]+)|(.)", re.S)
_TAKES = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2, "A": 7, "Z": 0}
_MOST = 20_000
_CURVE = 24


def path_points(d: str) -> tuple[Point, ...]:
    """The corners of the path's one closed figure, y upward. Refuses more than one figure, and what is no path.

    >>> path_points("M0 0 h4 v3 H0 z")
    ((0.0, -0.0), (4.0, -0.0), (4.0, -3.0), (0.0, -3.0))
    """
    points: list[Point] = []
    here = start = (0.0, 0.0)
    handle: Point | None = None
    before = ""
    for command, numbers in _commands(d):
        letter = command.upper()
        x0, y0 = here if command.islower() else (0.0, 0.0)
        if letter == "M":
            if points:
                raise Refused("The path draws more than one figure.", "Draft each one by itself.")
            here = start = (x0 + numbers[0], y0 + numbers[1])
            points.append(here)
        elif letter == "Z":
            here = start
        elif letter in "LHV":
            here = _line(letter, numbers, here, (x0, y0))
            points.append(here)
        elif letter == "A":
            end = (x0 + numbers[5], y0 + numbers[6])
            points += _arc(here, numbers, end)
            here = end
        else:
            control, handle = _controls(letter, numbers, here, (x0, y0), handle if before in _SMOOTH[letter] else None)
            points += _bezier(control)
            here = control[-1]
        before = letter
        if len(points) > _MOST:
            raise Refused(f"The path has more than {_MOST} corners.", "Simplify it first.")
    if len(points) > 1 and math.dist(points[0], points[-1]) < 1e-9:
        points.pop()
    return tuple((x, -y) for x, y in points)


_SMOOTH = {"C": "", "S": "CS", "Q": "", "T": "QT"}


def _commands(d: str) -> list[tuple[str, list[float]]]:
    out: list[tuple[str, list[float]]] = []
    command = ""
    numbers: list[float] = []
    for match in _TOKEN.finditer(d):
        letter, number, _, other = match.groups()
        if other:
            raise Refused(f"“{other}” does not belong in a path.", 'Write it as in SVG: "M0 0 L40 0 L20 30 Z".')
        if letter:
            _closed(command, numbers)
            command, numbers = letter, []
            if letter.upper() == "Z":
                out.append((letter, []))
        elif number:
            if not command or command.upper() == "Z":
                raise Refused("The path has numbers before its first letter.", 'Begin it with M: "M0 0 …".')
            numbers.append(float(number))
            if len(numbers) == _TAKES[command.upper()]:
                out.append((command, numbers))
                command, numbers = {"M": "L", "m": "l"}.get(command, command), []
    _closed(command, numbers)
    if not out or out[0][0].upper() != "M":
        raise Refused("A path begins with M.", 'Write it as in SVG: "M0 0 L40 0 L20 30 Z".')
    return out


def _closed(command: str, numbers: list[float]) -> None:
    if numbers:
        raise Refused(f"The path's {command} takes {_TAKES[command.upper()]} numbers, and {len(numbers)} follow it.")


def _line(letter: str, n: list[float], here: Point, origin: Point) -> Point:
    if letter == "H":
        return (origin[0] + n[0], here[1])
    if letter == "V":
        return (here[0], origin[1] + n[0])
    return (origin[0] + n[0], origin[1] + n[1])


def _controls(letter: str, n: list[float], here: Point, origin: Point, handle: Point | None) -> tuple[list[Point], Point]:
    pairs = [(origin[0] + n[k], origin[1] + n[k + 1]) for k in range(0, len(n), 2)]
    if letter in "ST":
        mirrored = here if handle is None else (2 * here[0] - handle[0], 2 * here[1] - handle[1])
        pairs = [mirrored, *pairs]
    return [here, *pairs], pairs[-2]


def _bezier(control: list[Point]) -> list[Point]:
    """Points along a Bézier curve after its first one (de Casteljau)."""
    out = []
    for k in range(1, _CURVE + 1):
        t, level = k / _CURVE, control
        while len(level) > 1:
            level = [(a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t) for a, b in pairwise(level)]
        out.append(level[0])
    return out


def _arc(start: Point, n: list[float], end: Point) -> list[Point]:
    rx, ry, turn = abs(n[0]), abs(n[1]), math.radians(n[2])
    if rx == 0 or ry == 0 or start == end:
        return [end]
    c, s = math.cos(turn), math.sin(turn)
    dx, dy = (start[0] - end[0]) / 2, (start[1] - end[1]) / 2
    x, y = c * dx + s * dy, -s * dx + c * dy
    scale = math.sqrt(max(1.0, (x / rx) ** 2 + (y / ry) ** 2))
    rx, ry = rx * scale, ry * scale
    under = (rx * ry) ** 2 - (rx * y) ** 2 - (ry * x) ** 2
    f = math.sqrt(max(0.0, under / ((rx * y) ** 2 + (ry * x) ** 2))) * (-1 if bool(n[3]) == bool(n[4]) else 1)
    cx, cy = f * rx * y / ry, -f * ry * x / rx
    a0 = math.atan2((y - cy) / ry, (x - cx) / rx)
    sweep = math.atan2((-y - cy) / ry, (-x - cx) / rx) - a0
    if n[4] and sweep < 0:
        sweep += 2 * math.pi
    elif not n[4] and sweep > 0:
        sweep -= 2 * math.pi
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    steps = max(2, int(abs(sweep) / (math.pi / 24)) + 1)
    out = []
    for k in range(1, steps + 1):
        a = a0 + sweep * k / steps
        u, v = rx * math.cos(a) + cx, ry * math.sin(a) + cy
        out.append((c * u - s * v + middle[0], s * u + c * v + middle[1]))
    out[-1] = end
    return out
