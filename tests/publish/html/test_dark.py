"""The dark page: measured in Chromium's pixels, and by the formula of WCAG 2.2, 1.4.3.

Outside: the colour matrices of W3C Filter Effects, level 1, sec. 8.2 and 8.8, and Chromium, which
applies them; contrast by the definition of WCAG 2.2.
"""

from __future__ import annotations

import io
from math import cos, pi, sin
from pathlib import Path
from typing import TYPE_CHECKING, Final, Literal

import pytest
from PIL import Image

from edgewise.publish.html import page as pages
from edgewise.views.drawing import theme
from tests.outside.test_axe import complaints

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

RAIN: Final = Path(__file__).parents[3] / "examples" / "rain-gauges.md"
Colour = tuple[float, float, float]


def read(text: str) -> Colour:
    r, g, b = (int(text[i : i + 2], 16) / 255 for i in (1, 3, 5))
    return r, g, b


def turned(colour: Colour) -> Colour:
    """Invert, then rotate the hue by half a turn: the matrix of the standard."""
    c, s = cos(pi), sin(pi)
    r, g, b = (1 - one for one in colour)
    rows = (
        (
            0.213 + c * 0.787 - s * 0.213,
            0.715 - c * 0.715 - s * 0.715,
            0.072 - c * 0.072 + s * 0.928,
        ),
        (
            0.213 - c * 0.213 + s * 0.143,
            0.715 + c * 0.285 + s * 0.140,
            0.072 - c * 0.072 - s * 0.283,
        ),
        (
            0.213 - c * 0.213 - s * 0.787,
            0.715 - c * 0.715 + s * 0.715,
            0.072 + c * 0.928 + s * 0.072,
        ),
    )
    x, y, z = (min(max(i * r + j * g + k * b, 0.0), 1.0) for i, j, k in rows)
    return x, y, z


def luminance(colour: Colour) -> float:
    r, g, b = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in colour)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


def contrast(one: Colour, other: Colour) -> float:
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize(
    ("letters", "ground", "least"),
    [
        (theme.INK, theme.PAPER, 7.0),
        (theme.INK, theme.PANEL, 7.0),
        (theme.PAPER, theme.INK, 7.0),
        (theme.SLATE, theme.PAPER, 4.5),
        (theme.SLATE_DARK, theme.PANEL, 4.5),
        (theme.BRICK, theme.PAPER, 4.5),
        (theme.BRICK, theme.BRICK_PALE, 4.5),
        (theme.VIOLET, theme.PAPER, 3.0),  # wires: WCAG 1.4.11
        (theme.AMBER_TURNED, theme.PAPER, 3.0),  # what changed, on the stage
    ],
)
def test_letters_and_wires_have_contrast(letters: str, ground: str, least: float) -> None:
    assert contrast(turned(read(letters)), turned(read(ground))) >= least


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> str:
    return pages.build(RAIN, tmp_path_factory.mktemp("dark")).as_uri()


def ground(browser: Browser, address: str, scheme: Literal["light", "dark"]) -> Colour:
    """The colour of the page beside its text, as it comes to the screen."""
    page = browser.new_page(viewport={"width": 900, "height": 700}, color_scheme=scheme)
    page.goto(address)
    with Image.open(io.BytesIO(page.screenshot())) as shot:
        pixel = shot.convert("RGB").getpixel((3, 350))
    page.close()
    assert isinstance(pixel, tuple)
    r, g, b = (one / 255 for one in pixel[:3])
    return r, g, b


def test_the_page_follows_the_reader_s_choice(browser: Browser, built: str) -> None:
    light, dark = (ground(browser, built, scheme) for scheme in ("light", "dark"))
    assert luminance(light) > 0.9
    assert luminance(dark) < 0.05
    wanted = turned(read(theme.PAPER))
    assert all(abs(a - b) < 0.02 for a, b in zip(dark, wanted, strict=True))


@pytest.mark.parametrize("refused", [False, True])
def test_projected_it_is_light_until_asked(browser: Browser, built: str, *, refused: bool) -> None:
    page = browser.new_page(viewport={"width": 900, "height": 700}, color_scheme="dark")
    if refused:  # no screen of its own: it lies over the page, which is turned
        page.add_init_script("Element.prototype.requestFullscreen = async () => { throw 0; };")
    page.goto(built)
    page.get_by_role("button", name="Project").click()
    page.wait_for_selector(".stage.projected")
    seen = [projected(page)]
    page.get_by_role("button", name="Black").click()
    seen.append(projected(page))
    page.close()
    assert seen[0] > 0.9
    assert seen[1] < 0.05


def projected(page: Page) -> float:
    """The luminance of the ground, once it has stopped changing."""
    page.wait_for_timeout(300)
    with Image.open(io.BytesIO(page.screenshot())) as shot:
        pixel = shot.convert("RGB").getpixel((5, 350))
    assert isinstance(pixel, tuple)
    return luminance((pixel[0] / 255, pixel[1] / 255, pixel[2] / 255))


def test_axe_finds_nothing_on_the_dark_page(browser: Browser, built: str) -> None:
    context = browser.new_context(bypass_csp=True, color_scheme="dark")
    page = context.new_page()
    page.goto(f"{built}#row=2")
    assert complaints(page) == []
    context.close()


@pytest.mark.browser
def test_high_contrast_keeps_the_readers_own_colours(browser: Browser, tmp_path: Path) -> None:
    """What a device forces is not turned round again; figures keep their weights and fills."""
    address = pages.build(RAIN, tmp_path).as_uri()
    context = browser.new_context(color_scheme="dark", forced_colors="active", bypass_csp=True)
    page = context.new_page()
    page.goto(f"{address}#row=8")
    page.wait_for_selector(".picture svg")
    style = "e => { const s = getComputedStyle(e); return [s.filter, s.mixBlendMode]; }"
    assert page.locator("html").evaluate(style) == ["none", "normal"]
    assert page.locator(".drawing svg").last.evaluate(style) == ["none", "normal"]
    ground = Image.open(io.BytesIO(page.screenshot())).convert("RGB").getpixel((2, 2))
    assert ground == (0, 0, 0)
    fill = "e => getComputedStyle(e).fill"
    assert page.locator(".picture .cell.one .ground").first.evaluate(fill) == "rgb(27, 36, 48)"
    context.close()
