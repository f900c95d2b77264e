"""The page: its size, the time to the first step, and the time of one step, in Chromium.

Budgets: 250 kB compressed, 0.5 s from the beginning of navigation to the first step, 16 ms a
step (script, style and layout; the moving bits are drawn between).
"""

from __future__ import annotations

import gzip
import statistics
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING, Final

from edgewise.publish.html import page as pages

if TYPE_CHECKING:
    from playwright.sync_api import Browser

LESSON: Final = Path(__file__).parents[1] / "examples" / "rain-gauges.md"
CHROMIUM: Final = "/usr/bin/chromium"
BUDGETS: Final = {"kB": 250.0, "first step, ms": 500.0, "a step, ms": 16.0}

# A step is made, and then the browser is made to work out where everything is.
STEPS: Final = """\
async ([size, operands]) => {
  const { stage } = document.querySelector("edgewise-stage");
  if (operands) stage.play(size, Object.fromEntries(
    Object.entries(operands).map(([name, value]) => [name, BigInt(value)])), -1, 0);
  const taken = [];
  const last = stage.run.length - 1;
  for (let i = 0; i < 120; i++) {
    const wanted = i % last + 1;
    if (wanted === 1) stage.go(0, true);
    await new Promise(requestAnimationFrame);
    const start = performance.now();
    stage.go(wanted, true);
    document.body.getBoundingClientRect();
    taken.push(performance.now() - start);
  }
  return taken;
}
"""


def page(folder: Path) -> Path:
    """The page of the demo lesson."""
    return pages.build(LESSON, folder)


# Waits in the page itself: asking from outside would add the way there and back.
FIRST: Final = """\
new MutationObserver((_, watching) => {
  const { stage } = document.querySelector("edgewise-stage") || {};
  if (!stage) return;
  watching.disconnect();
  stage.go(1, true);
  document.body.getBoundingClientRect();
  window.stepped = performance.now();
}).observe(document, { childList: true, subtree: true });
"""


def first_step(browser: Browser, address: str) -> float:
    """Milliseconds from the beginning of navigation until a step is made."""
    made = browser.new_page()
    made.add_init_script(FIRST)
    made.goto(address)
    taken = made.evaluate("window.stepped")
    made.close()
    return float(taken)


def steps(browser: Browser, address: str, size: int, operands: dict[str, str]) -> list[float]:
    """Milliseconds of many steps."""
    made = browser.new_page()
    made.goto(address)
    taken = made.evaluate(STEPS, [size, operands])
    made.close()
    return [float(one) for one in taken]


def measured(browser: Browser, folder: Path) -> dict[str, float]:
    """Every figure that has a budget; the largest packed size is stepped through too."""
    built = page(folder)
    address = built.as_uri()
    own = steps(browser, address, 0, {"a": "22", "b": "43"})
    large = steps(browser, address, 4, {"a": str(2**32 - 1), "b": "1"})
    return {
        "kB": len(gzip.compress(built.read_bytes(), 9)) / 1000,
        "first step, ms": min(first_step(browser, address) for _ in range(5)),
        "a step, ms": statistics.median(own),
        "a step, 95th of 100": sorted(own)[int(0.95 * len(own))],
        "a step at n = 32, ms": statistics.median(large),
    }


def main() -> None:
    """Print the figures beside their budgets."""
    from playwright.sync_api import sync_playwright

    arguments = ["--headless=new", "--no-sandbox", "--disable-gpu", "--no-first-run"]
    with sync_playwright() as playwright, tempfile.TemporaryDirectory() as folder:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=arguments)
        found = measured(browser, Path(folder))
        browser.close()
    print("The page of the demo lesson, in Chromium")
    width = max(map(len, found))
    for name, value in found.items():
        budget = f"  budget {BUDGETS[name]:g}" if name in BUDGETS else ""
        print(f"{name:{width}}  {value:8.1f}{budget}")


if __name__ == "__main__":
    main()
