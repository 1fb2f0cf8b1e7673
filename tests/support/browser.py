"""Real Chromium under Playwright: launch flags, a phone's screen, profiles on disk, and being offline."""

import os
import shutil
from contextlib import contextmanager
from pathlib import Path

from support.waiting import until

FLAGS = [
    "--no-sandbox",  # the tests may run as root
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
AGENT = ("Mozilla/5.0 (Linux; Android 14; Phone) AppleWebKit/537.36 (KHTML, like Gecko) "
         "Chrome/130.0.0.0 Mobile Safari/537.36")  # fmt: skip
PHONE = {
    "viewport": {"width": 390, "height": 844},
    "screen": {"width": 390, "height": 844},
    "device_scale_factor": 3,
    "is_mobile": True,
    "has_touch": True,
    "user_agent": AGENT,
}
SCREEN = {"viewport": {"width": 1280, "height": 800}}


def chromium_path() -> str:
    """The browser to drive: EXERGUE_CHROMIUM or CHROME_PATH, or the system's own."""
    told = os.environ.get("EXERGUE_CHROMIUM") or os.environ.get("CHROME_PATH")
    found = told or next(filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))), None)
    if not found:
        raise RuntimeError("No Chromium: install it, or name it with EXERGUE_CHROMIUM.")
    return found


def launch(playwright, *flags: str, **more):
    """A browser; each of its contexts is a fresh profile, kept in memory."""
    return playwright.chromium.launch(executable_path=chromium_path(), headless=True, args=[*FLAGS, *flags], **more)


def on_disk(playwright, folder: Path, *flags: str, **more):
    """A phone whose profile lies in `folder` and outlives its browser (and its being killed)."""
    return playwright.chromium.launch_persistent_context(
        folder, executable_path=chromium_path(), headless=True, args=[*FLAGS, *flags], **(PHONE | more)
    )


def camera(video: Path) -> list[str]:
    """Flags that make a video file (.y4m or .mjpeg) what the camera sees."""
    return ["--use-fake-ui-for-media-stream", "--use-fake-device-for-media-stream",
            f"--use-file-for-fake-video-capture={video}"]  # fmt: skip


def worker_ready(page) -> None:
    """Wait until the app's service worker answers for this page; before that, offline is a different test."""
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    # Not wait_for_function: it polls with eval, which the app's own policy forbids.
    until(lambda: page.evaluate("navigator.serviceWorker.controller !== null"), what="the worker to take charge")


@contextmanager
def offline(context):
    """No network for the pages and the service worker alike. (CDP's page-level switch would miss the worker.)"""
    context.set_offline(True)
    try:
        yield
    finally:
        context.set_offline(False)


def throttle(page, rate: int) -> None:
    """Slow the page's main thread down `rate` times; workers are not slowed."""
    page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": rate})
