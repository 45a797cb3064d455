"""The colour words that a bead is drawn from: our own plain table, nothing taken from a maker's chart or code."""

from __future__ import annotations

import re
from collections.abc import Callable

Colour = tuple[int, int, int]  # red, green, blue, 0 to 255

COLOUR_WORDS: dict[str, Colour] = {
    "amber": (224, 150, 30), "amethyst": (146, 96, 190), "apricot": (244, 176, 120), "aqua": (80, 200, 200),
    "aquamarine": (120, 205, 195), "ash": (170, 172, 168), "azure": (50, 130, 220), "beige": (222, 208, 180),
    "black": (40, 40, 42), "blue": (45, 95, 200), "blue green": (20, 140, 150), "blush": (236, 190, 190),
    "bone": (230, 222, 202), "bottle green": (16, 84, 62), "brass": (184, 150, 66), "bronze": (150, 108, 60),
    "brown": (120, 78, 48), "burgundy": (122, 26, 52), "buttermilk": (248, 238, 196), "caramel": (190, 124, 62),
    "carnelian": (196, 74, 36), "charcoal": (68, 70, 74), "cherry": (180, 26, 50), "chestnut": (132, 66, 42),
    "chocolate": (92, 56, 38), "claret": (130, 24, 50), "clay": (178, 110, 84), "clear": (212, 228, 232),
    "cobalt": (28, 70, 170), "copper": (190, 106, 64), "coral": (244, 118, 96), "cream": (246, 236, 208),
    "crimson": (196, 24, 56), "crystal": (214, 230, 238), "cyan": (40, 190, 210), "ebony": (48, 40, 36),
    "emerald": (20, 150, 90), "fuchsia": (214, 40, 140), "garnet": (140, 24, 44), "gold": (212, 168, 40),
    "golden": (212, 168, 40), "gray": (140, 142, 146), "green": (50, 145, 70), "grey": (140, 142, 146),
    "heather": (160, 130, 170), "honey": (222, 164, 62), "horn": (150, 124, 92), "indigo": (60, 50, 140),
    "ink": (34, 40, 76), "ivory": (240, 232, 208), "jade": (60, 160, 110), "jet": (36, 34, 36), "khaki": (160, 148, 96),
    "lapis": (38, 70, 150), "lavender": (180, 160, 220), "lemon": (244, 224, 80), "lilac": (196, 164, 212),
    "lime": (160, 210, 60), "magenta": (206, 40, 150), "mahogany": (120, 52, 36), "malachite": (20, 128, 84),
    "maroon": (118, 30, 40), "mauve": (176, 140, 176), "midnight": (28, 36, 84), "mint": (160, 220, 184),
    "moss": (104, 124, 62), "mustard": (206, 164, 42), "navy": (28, 42, 100), "nickel": (170, 168, 162),
    "ochre": (200, 140, 50), "olive": (120, 126, 52), "olive green": (120, 126, 52), "onyx": (38, 38, 40),
    "opal": (216, 224, 220), "orange": (238, 132, 36), "orchid": (200, 110, 190), "peach": (248, 192, 150),
    "pearl": (236, 230, 218), "peridot": (160, 190, 70), "periwinkle": (140, 150, 220), "petrol": (20, 96, 110),
    "pewter": (140, 144, 144), "pink": (240, 150, 180), "plum": (120, 50, 100), "purple": (120, 60, 160),
    "red": (204, 40, 44), "rose": (226, 110, 136), "rose gold": (206, 142, 120), "ruby": (176, 20, 60),
    "russet": (150, 74, 40), "rust": (172, 80, 40), "sage": (150, 170, 136), "salmon": (244, 144, 120),
    "sand": (216, 194, 150), "sapphire": (30, 72, 170), "scarlet": (222, 40, 36), "sea green": (70, 160, 130),
    "sepia": (112, 84, 60), "shell": (240, 220, 204), "sienna": (160, 90, 54), "silver": (190, 194, 200),
    "sky": (130, 190, 236), "sky blue": (130, 190, 236), "slate": (100, 112, 124), "smoke": (150, 150, 152),
    "steel": (124, 136, 148), "straw": (226, 206, 122), "tan": (202, 166, 122), "tangerine": (242, 136, 50),
    "taupe": (146, 130, 116), "teal": (20, 130, 130), "terracotta": (200, 104, 76), "topaz": (226, 170, 70),
    "turquoise": (60, 190, 185), "umber": (108, 80, 56), "violet": (136, 84, 190), "walnut": (104, 76, 54),
    "white": (244, 244, 240), "wine": (116, 28, 54), "wood": (160, 118, 76), "yellow": (242, 206, 50),
}  # fmt: skip
BLACK: Colour = (0, 0, 0)
WHITE: Colour = (255, 255, 255)
_MIDDLE_LUMINANCE = 0.179  # black and white contrast alike with it: 1.05 / (l + 0.05) = (l + 0.05) / 0.05
_SHADES = 64  # steps from a colour to black or white
_TOWARD = {"light": WHITE, "pale": WHITE, "dark": BLACK, "deep": BLACK}
_SHARE = 0.35  # how far pale and dark lean
_HEX = re.compile(r"#([0-9a-f]{3}|[0-9a-f]{6})", re.ASCII)
_MOST_WORDS = 20  # of a colour; words before its last so many are not read


def colour_of(words: str) -> Colour | None:
    """The colour that words such as "pale sea green", "#1a8" or "#11aa88" name; None where no word is known.

    Of several colour words the last counts ("grey green" is a green); pale, light, dark and deep shift it.
    """
    words = words.strip().lower()
    if found := _HEX.fullmatch(words):
        return _from_hex(found[1])
    parts = re.findall(r"[a-z]+", words)[-_MOST_WORDS:]
    for end in range(len(parts), 0, -1):
        for name in (" ".join(parts[max(0, end - 2) : end]), parts[end - 1]):
            if name in COLOUR_WORDS:
                return _shifted(COLOUR_WORDS[name], parts)
    return None


def relative_luminance(colour: Colour) -> float:
    """From 0 for black to 1 for white. Source: WCAG 2.2, https://www.w3.org/TR/WCAG22/#dfn-relative-luminance."""
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in (c / 255 for c in colour)
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast_ratio(one: Colour, other: Colour) -> float:
    """From 1 to 21, in either order. Source: WCAG 2.2, https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio."""
    darker, lighter = sorted((relative_luminance(one), relative_luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)


def ink_on(colour: Colour) -> Colour:
    """Black or white, whichever reads better on the colour: at least 4.5 to 1 on any."""
    return BLACK if relative_luminance(colour) > _MIDDLE_LUMINANCE else WHITE


def readable_on(
    ground: Colour, colour: Colour, least: float, contrast: Callable[[Colour, Colour], float] = contrast_ratio
) -> Colour:
    """The colour, made lighter or darker until it contrasts with the ground as `contrast` says; its hue stays.

    Black or white, the farther from the ground, where even that is not enough.
    """
    end = ink_on(ground)
    shades = (mixed(colour, end, step / _SHADES) for step in range(_SHADES))
    return next((shade for shade in shades if contrast(ground, shade) >= least), end)


def mixed(colour: Colour, end: Colour, share: float) -> Colour:
    """A colour with a share (0 to 1) of another mixed in."""
    red, green, blue = (round(c + (e - c) * share) for c, e in zip(colour, end, strict=True))
    return red, green, blue


def _from_hex(code: str) -> Colour:
    if len(code) == 3:
        code = "".join(2 * digit for digit in code)
    return int(code[:2], 16), int(code[2:4], 16), int(code[4:], 16)


def _shifted(colour: Colour, parts: list[str]) -> Colour:
    toward = next((_TOWARD[word] for word in parts if word in _TOWARD), colour)
    return mixed(colour, toward, _SHARE)
