"""The preview, run as a user runs it: a real server on loopback, files saved under it."""

import asyncio
import json
import shutil
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from urllib.error import URLError
from urllib.request import urlopen

import pytest
from tornado.websocket import websocket_connect

STARTER = Path(__file__).parents[2] / "sitegen" / "data" / "start"
RECIPE = "recipes/first-blue.yaml"
PAGE = "recipes/first-blue/index.html"


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
        return port


class Preview:
    """A running preview of a starter archive."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        shutil.copytree(STARTER, folder)
        self.port = free_port()
        command = [sys.executable, "-m", "sitegen", "preview", "--archive", str(folder), "--port", str(self.port)]
        self.process = subprocess.Popen(command, stderr=subprocess.PIPE, text=True)
        self.until(lambda: "Iron-blue sensitiser" in self.get("index.html"), seconds=90)

    def get(self, path: str) -> str:
        try:
            with urlopen(f"http://127.0.0.1:{self.port}/{path}", timeout=30) as answer:  # loopback
                text: str = answer.read().decode()
                return text
        except (URLError, TimeoutError):
            return ""

    def save(self, path: str, old: str, new: str) -> None:
        file = self.folder / path
        text = file.read_text(encoding="utf-8")
        assert old in text
        file.write_text(text.replace(old, new), encoding="utf-8")

    def until(self, holds: object, *, seconds: float) -> float:
        """Wait until it holds; how long that took."""
        assert callable(holds)
        start = time.monotonic()
        while time.monotonic() - start < seconds:
            if holds():
                return time.monotonic() - start
            time.sleep(0.05)
        raise AssertionError(f"not within {seconds} s; exit status {self.process.poll()}")


@pytest.fixture
def preview(tmp_path: Path) -> Iterator[Preview]:
    running = Preview(tmp_path / "mine")
    yield running
    running.process.terminate()
    running.process.communicate(timeout=10)


def test_a_saved_recipe_is_served_and_the_open_page_is_told_to_reload(preview: Preview) -> None:
    async def told() -> float:
        connection = await websocket_connect(f"ws://127.0.0.1:{preview.port}/livereload")
        await connection.write_message(json.dumps({"command": "hello"}))
        await connection.write_message(json.dumps({"command": "info", "url": "http://127.0.0.1/"}))
        time.sleep(0.5)  # file times count in ticks: a save in the tick of the first look would be missed
        preview.save(RECIPE, "Two stable solutions", "Two patient solutions")
        saved = time.monotonic()
        while "Two patient solutions" not in preview.get(PAGE):  # the server's own start reloads once, too
            while json.loads(str(await connection.read_message()))["command"] != "reload":
                pass
        took = time.monotonic() - saved
        connection.close()
        await connection.read_message()  # None once it is closed
        return took

    with ThreadPoolExecutor(1) as apart:  # a loop of its own: a browser's driver may hold this thread's
        assert apart.submit(asyncio.run, told()).result(timeout=60) < 60


def test_an_error_shows_its_list_and_the_last_good_build_comes_back(preview: Preview) -> None:
    preview.save(RECIPE, "25 g", "25 %")
    preview.until(lambda: "percent-without-basis" in preview.get(PAGE), seconds=60)
    assert "recipes/first-blue.yaml:19" in preview.get("index.html")
    assert preview.get("archive.json"), "what is not a page is still the last good build"
    preview.save(RECIPE, "25 %", "26 g")
    preview.until(lambda: "26 g" in preview.get(PAGE), seconds=60)


def test_a_port_that_is_in_use_is_said_without_a_traceback(preview: Preview) -> None:
    again = [sys.executable, "-m", "sitegen", "preview", "--archive", str(preview.folder), "--port", str(preview.port)]
    answer = subprocess.run(again, capture_output=True, text=True, timeout=60, check=False)
    assert answer.returncode == 2
    assert "error[port-not-free]" in answer.stderr
    assert f"`--port {preview.port + 1}`" in answer.stderr
    assert "Traceback" not in answer.stderr


def test_the_page_carries_the_reload_script_and_only_then_no_policy(preview: Preview) -> None:
    page = preview.get(PAGE)
    assert "livereload.js" in page
    assert 'http-equiv="Content-Security-Policy"' not in page


def test_nothing_outside_the_build_is_served(preview: Preview) -> None:
    assert preview.get("../../../../etc/hostname") == ""
    assert preview.get("%2e%2e/%2e%2e/etc/hostname") == ""
