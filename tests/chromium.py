"""The system's Chromium as the tests and the benchmarks start it: without a screen and without pages of its own."""

import os
import shutil

from playwright.sync_api import Browser, Playwright

OWN_PAGES = ("WebUIOmniboxPopup", "WebUIOmniboxAimPopup")
"""The lists under the address bar: every new window loads them as pages, which takes longer than loading ours."""
BY_THE_DRIVER = (
    "AvoidUnnecessaryBeforeUnloadCheckSync", "DestroyProfileOnBrowserClose", "HttpsUpgrades",
    "HttpsFirstBalancedModeAutoEnable", "LensOverlay", "MediaRouter", "PaintHolding", "ThirdPartyStoragePartitioning",
    "AvoidCorsURLLoaderRestartOnRedirect", "TcpPortRandomizationWin", "OptimizationHints", "NetworkTimeServiceQuerying",
    "AimEnabled", "PreconnectToSearch",
)  # fmt: skip
"""What the driver itself turns off. It is said again, since Chromium takes only the last of two such lists."""


def launch(playwright: Playwright) -> Browser:
    """A browser without contexts; where there is no Chromium, an error that says how to name one."""
    program = os.environ.get("TRAYSIDE_CHROMIUM") or shutil.which("chromium")
    assert program, "no Chromium found: install the system's, or name one in TRAYSIDE_CHROMIUM"
    off = f"--disable-features={','.join((*BY_THE_DRIVER, *OWN_PAGES))}"
    args = ["--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", off]
    return playwright.chromium.launch(executable_path=program, args=args)
