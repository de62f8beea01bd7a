"""The index page in a real browser: read as a visitor opens it, from the file system."""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
from collections.abc import Iterator
from html import unescape
from html.parser import HTMLParser
from pathlib import Path
from typing import Any
from urllib.parse import unquote, urlsplit

import pytest
from PIL import Image

from keyseats.build import Scope, make
from keyseats.load import Tables

pytestmark = pytest.mark.slow

NAMES = ("chromium", "chromium-browser", "google-chrome")
CHROMIUM = next((found for name in NAMES if (found := shutil.which(name))), None)
PHONE, DESKTOP = 390, 1280
OWN = "not an origin"
# Kept where a person can look.
SCREENS = Path(__file__).resolve().parent / "pictures" / "screens"
# A sheet of each kind that is made in a moment.
SHEETS = ("cards-id1", "key-gauge-metric", "wall-metric-half-moon", "wall-setting-up-metric")

MEASURE = """<script>
addEventListener("load", () => {
  const all = (what) => [...document.querySelectorAll(what)];
  const said = () => document.body.innerText.split(/\\s+/).filter((w) => w).join(" ");
  const found = {
    window: innerWidth,
    page: document.documentElement.scrollWidth,
    pictures: all("img").map((i) => [i.complete && i.naturalWidth > 0, i.width, i.alt]),
    links: all("a").map((a) => a.getBoundingClientRect().height),
    type: all("h1, h2, p, a, small").map((e) => parseFloat(getComputedStyle(e).fontSize)),
    loaded: performance.getEntriesByType("resource").map((r) => r.name),
    said: said(),
  };
  all("style, link[rel=stylesheet]").forEach((s) => s.remove());
  found.bare = said();
  found.order = all("h1, h2, h3, a").map((e) => e.tagName);
  parent.postMessage(JSON.stringify(found), "*");
});
</script>
"""
# A window is never as narrow as a phone; a frame in it is.
FRAME = """<!DOCTYPE html><meta charset="utf-8"><script>
addEventListener("message", (e) => { document.body.textContent = "found: " + e.data + " :found"; });
</script><body><iframe src="{name}" width="{width}" height="1600" style="border: 0"></iframe></body>
"""


@pytest.fixture(scope="module")
def site(tables: Tables, tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("site with a space")
    make(tables, folder, Scope(SHEETS), lambda done, count, name: None)
    return folder


@pytest.fixture(scope="module")
def browser() -> str:
    if CHROMIUM is None:
        if os.environ.get("CI") == "true":
            pytest.fail("CI must have Chromium: see .ci/run")
        pytest.skip("no Chromium here; CI installs it")
    return CHROMIUM


def browse(browser: str, page: Path, width: int, folder: Path, *more: str) -> str:
    """Open a page without a screen, a network or anything kept from before."""
    done = subprocess.run(
        [
            browser,
            "--headless",
            "--no-sandbox",
            "--disable-gpu",
            "--disable-dev-shm-usage",
            "--no-first-run",
            "--disable-background-networking",
            "--disable-component-update",
            "--disable-sync",
            "--hide-scrollbars",
            "--host-resolver-rules=MAP * ~NOTFOUND",
            f"--user-data-dir={folder / 'profile'}",
            f"--window-size={width},1600",
            *more,
            page.as_uri(),
        ],
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )
    assert done.returncode == 0, done.stderr[-2000:]
    return done.stdout


class Tags(HTMLParser):
    """Every start tag of a page with its attributes."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.found: list[tuple[str, dict[str, str]]] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found.append((tag, {k: v or "" for k, v in attrs}))

    def each(self, tag: str) -> Iterator[dict[str, str]]:
        return (attributes for name, attributes in self.found if name == tag)


@pytest.fixture(scope="module")
def tags(site: Path) -> Tags:
    return Tags((site / "index.html").read_text(encoding="utf-8"))


def test_links_and_pictures_are_files_beside_the_page(site: Path, tags: Tags) -> None:
    links = [a["href"] for a in tags.each("a")]
    within = [link[1:] for link in links if link.startswith("#")]
    assert within == [h["id"] for h in tags.each("h2")]
    links = [link for link in links if not link.startswith("#")]
    targets = links + [i["src"] for i in tags.each("img")]
    pdfs = {p.name for p in site.glob("*.pdf")}
    assert set(links) == pdfs
    assert len(pdfs) > len(SHEETS)
    for target in targets:
        split = urlsplit(target)
        assert not split.scheme, target
        assert not split.netloc, target
        path = Path(unquote(split.path))
        assert not path.is_absolute(), target
        assert ".." not in path.parts, target
        assert (site / path).is_file(), target


def test_nothing_of_the_page_is_elsewhere(site: Path, tags: Tags) -> None:
    text = (site / "index.html").read_text(encoding="utf-8")
    assert not re.search(r"https?:|//[a-z]|@import|url\(", text)
    assert not {tag for tag, _ in tags.found} & {"script", "iframe", "object", "embed", "link"}


def test_every_picture_is_told_in_words(tags: Tags) -> None:
    told = [image.get("alt", "").strip() for image in tags.each("img")]
    assert all(len(text) > 10 for text in told)
    assert len(set(told)) == len(told)
    (page,) = tags.each("html")
    assert page["lang"] == "en"


@pytest.fixture(scope="module", params=[PHONE, DESKTOP], ids=["phone", "desktop"])
def measured(
    request: pytest.FixtureRequest, browser: str, site: Path, tmp_path_factory: Any
) -> dict[str, Any]:
    """Return what the browser says of the page: a copy beside it, framed, measures itself."""
    width: int = request.param
    text = (site / "index.html").read_text(encoding="utf-8")
    probe, frame = site / f"measured-{width}.html", site / f"frame-{width}.html"
    probe.write_text(text.replace("</body>", MEASURE + "</body>"), encoding="utf-8")
    framed = FRAME.replace("{name}", probe.name).replace("{width}", str(width))
    frame.write_text(framed, encoding="utf-8")
    folder = tmp_path_factory.mktemp("browser")
    out = browse(browser, frame, width + 40, folder, "--virtual-time-budget=8000", "--dump-dom")
    probe.unlink()
    frame.unlink()
    told = re.search(r"found: (\{.*\}) :found", out, re.DOTALL)
    assert told, out[-2000:]
    found: dict[str, Any] = json.loads(unescape(told.group(1)))
    assert found["window"] == width
    return found


def test_the_page_fits_the_window(measured: dict[str, Any]) -> None:
    assert measured["page"] <= measured["window"]
    assert min(measured["type"]) >= 12
    # A link is as large as its picture: a thumb finds it.
    assert min(measured["links"]) >= 44
    wide = {width for _, width, _ in measured["pictures"]}
    assert min(wide) >= 120
    assert max(wide) < measured["window"]


def test_every_picture_loads_and_nothing_leaves_the_page(measured: dict[str, Any]) -> None:
    assert measured["pictures"]
    assert all(loaded for loaded, _, _ in measured["pictures"])
    assert all(name.startswith("file:") for name in measured["loaded"])


def test_it_reads_the_same_without_its_styles(measured: dict[str, Any]) -> None:
    assert measured["said"].startswith("Keyseat references Edition ")
    assert measured["bare"] == measured["said"]
    order = [name for name in measured["order"] if name != "A"]
    assert order[:3] == ["H1", "H2", "H3"]
    assert measured["order"][:2] == ["H1", "A"]


def asked_for(browser: str, page: Path, folder: Path) -> set[str]:
    """Return the hosts that a page asked for, from the browser's own log of its network.

    What the browser asks for by itself has no page for its origin.
    """
    log = folder / "net.json"
    browse(browser, page, DESKTOP, folder, f"--log-net-log={log}", "--dump-dom")
    events = json.loads(log.read_text(encoding="utf-8"))["events"]
    told = [e.get("params", {}) for e in events]
    urls = [p["url"] for p in told if "url" in p and p.get("initiator", OWN) != OWN]
    return {str(urlsplit(url).hostname) for url in urls if not url.startswith("file:")}


def test_no_request_leaves_the_machine(browser: str, site: Path, tmp_path: Path) -> None:
    assert asked_for(browser, site / "index.html", tmp_path) == set()


def test_a_request_that_left_would_be_seen(browser: str, tmp_path: Path) -> None:
    page = tmp_path / "page.html"
    page.write_text('<img src="http://elsewhere.invalid/x.png" alt="">', encoding="utf-8")
    assert asked_for(browser, page, tmp_path) == {"elsewhere.invalid"}


@pytest.mark.parametrize("width", [PHONE, DESKTOP], ids=["phone", "desktop"])
def test_screenshots(browser: str, site: Path, tmp_path: Path, width: int) -> None:
    SCREENS.mkdir(parents=True, exist_ok=True)
    kept = SCREENS / f"index-{width}.png"
    kept.unlink(missing_ok=True)
    browse(browser, site / "index.html", width, tmp_path, f"--screenshot={kept}")
    with Image.open(kept) as image:
        assert image.width == width
        grey = image.convert("L")
        # Black type and outlines on white: neither blank nor filled.
        shares = grey.histogram()
        assert shares[255] > 0.5 * grey.width * grey.height
        assert sum(shares[:64]) > 0.01 * grey.width * grey.height
        # The title stands at the head, in from the edge.
        head = grey.crop((0, 0, width, 120)).point(lambda v: 255 * (v < 128)).getbbox()
        assert head is not None
        assert head[0] >= 8
