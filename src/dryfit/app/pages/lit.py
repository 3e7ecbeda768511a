"""A drawing for its page: one part lit, findings as flags at its number, links that keep the line.

The drawing is made once for a text and kept; what hangs on the page is put into it here.
"""

import re
from collections.abc import Mapping
from urllib.parse import urlencode

from dryfit.draw.environment import escaped
from dryfit.draw.lettering import written

BALLOON = re.compile(r'<g class="balloons"[^>]* data-part="([^"]*)">.*?</g>', re.DOTALL)
RING = re.compile(r'<circle[^>]* cx="([\d.]+)" cy="([\d.]+)" r="([\d.]+)"/>')
LINK = re.compile(r'(?<=<a href=")[^"]*')

BOXES = "#part"
"""Where the boxes of a part begin on its page."""


def lit_up(svg: str, part: str, flags: Mapping[str, tuple[int, ...]], line: str = "") -> str:
    """Light a part on a drawing, and hang the numbers of findings at the balloons.

    Parameters
    ----------
    svg
        The drawing.
    part
        Which to light.
    flags
        Numbers of findings, by part.
    line
        Which line is drawn alone, if one is.
    """
    named = {_attribute(name): numbers for name, numbers in flags.items()}

    def flagged(balloon: re.Match[str]) -> str:
        ring, numbers = RING.search(balloon[0]), named.get(balloon[1])
        return balloon[0] + (_flag(ring, numbers) if ring and numbers else "")

    tail = (f"?{urlencode({'line': line})}" if line else "") + BOXES
    drawn = LINK.sub(lambda link: link[0] + tail, BALLOON.sub(flagged, svg))
    name = f'data-part="{_attribute(part)}"'
    return drawn.replace(name, f"{name} data-lit")


def _attribute(part: str) -> str:
    """Write the name of a part as the drawing has it."""
    return escaped(written(part))


def _flag(ring: re.Match[str], numbers: tuple[int, ...]) -> str:
    """Draw a flag at the upper right of a balloon, with the first number and how many more."""
    x, y, r = (float(value) for value in ring.groups())
    left, top = x + 0.55 * r, y - 1.75 * r
    told = f"{numbers[0]}{'+' if len(numbers) > 1 else ''}"
    shape = f"M{left:.2f} {top:.2f}h6.4l-1.4 1.9l1.4 1.9h-6.4Z"
    return (
        f'<g class="flagged"><path class="solid" d="{shape}"/>'
        f'<text x="{left + 2.5:.2f}" y="{top + 2.9:.2f}" font-size="3" text-anchor="middle">'
        f"{told}</text></g>"
    )
