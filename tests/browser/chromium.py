"""A headless Chromium, spoken to in the DevTools protocol over two pipes: no driver, no port, no network."""
import base64
import json
import os
import select
import shutil
import subprocess
import tempfile
import time


class Fault(Exception):
    """The browser said no, or said nothing in time."""


def installed():
    return shutil.which("chromium")


class Browser:
    def __init__(self, patience=120.0):
        self.patience = patience
        self.folder = tempfile.mkdtemp(prefix="rackwright-browser-")
        to_read, self.to_browser = os.pipe()
        self.from_browser, to_write = os.pipe()
        words = [installed(), "--headless=new", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage",
                 "--no-first-run", "--no-default-browser-check", "--disable-extensions",
                 "--disable-background-networking", "--disable-component-update", "--disable-sync", "--no-proxy-server",
                 "--force-color-profile=srgb", "--user-data-dir=" + self.folder, "--remote-debugging-pipe",
                 "about:blank"]
        # The browser reads commands from descriptor 3 and answers on 4.
        self.process = subprocess.Popen(["sh", "-c", f'exec "$@" 3<&{to_read} 4>&{to_write}', "sh", *words],
                                        pass_fds=(to_read, to_write), stdin=subprocess.DEVNULL,
                                        stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        os.close(to_read), os.close(to_write)
        self.number, self.buffer, self.events = 0, b"", []

    def close(self):
        os.close(self.to_browser)  # it ends when nobody can command it any more
        try:
            self.process.wait(10)
        except subprocess.TimeoutExpired:
            self.process.kill()
            self.process.wait()
        os.close(self.from_browser)
        shutil.rmtree(self.folder, ignore_errors=True)

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.close()

    def _next(self, until):
        """The next message, or None at that time."""
        while b"\0" not in self.buffer:
            left = until - time.monotonic()
            if left <= 0 or not select.select([self.from_browser], [], [], left)[0]:
                return None
            chunk = os.read(self.from_browser, 1 << 20)
            if not chunk:
                raise Fault("the browser ended")
            self.buffer += chunk
        message, self.buffer = self.buffer.split(b"\0", 1)
        return json.loads(message)

    def ask(self, method, session=None, **parameters):
        self.number += 1
        command = {"id": self.number, "method": method, "params": parameters}
        if session:
            command["sessionId"] = session
        data = json.dumps(command).encode() + b"\0"
        while data:
            data = data[os.write(self.to_browser, data):]
        until = time.monotonic() + self.patience
        while (message := self._next(until)) is not None:
            if message.get("id") == self.number:
                if "error" in message:
                    raise Fault(f"{method}: {message['error']['message']}")
                return message["result"]
            if "method" in message:
                self.events.append(message)
        raise Fault(f"{method}: no answer in {self.patience:.0f} s")

    def await_event(self, session, method):
        until = time.monotonic() + self.patience
        while True:
            for i, event in enumerate(self.events):
                if event["method"] == method and event.get("sessionId") == session:
                    return self.events.pop(i)["params"]
            message = self._next(until)
            if message is None:
                raise Fault(f"{method}: did not happen in {self.patience:.0f} s")
            if "method" in message:
                self.events.append(message)

    def open(self, path, width=1440, dark=False):
        return Page(self, path, width, dark)


class Page:
    """One tab on one local file. `requests` and `complaints` hold what it asked for and what its console said."""

    def __init__(self, browser, path, width, dark):
        self.browser, self.path = browser, path
        target = browser.ask("Target.createTarget", url="about:blank")["targetId"]
        self.target = target
        self.session = browser.ask("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]
        for domain in ("Page", "Runtime", "Log", "Network"):
            self.ask(domain + ".enable")
        self.ask("Fetch.enable", patterns=[{"urlPattern": "*"}])  # every request stops here first
        self.look(width, dark)
        self.requests, self.complaints = [], []
        self.browser.number += 1
        # Navigation answers only once its own request was let through: it is sent without waiting.
        self._send("Page.navigate", url="file://" + os.path.abspath(path))
        self._let_through_until("Page.loadEventFired")

    def ask(self, method, **parameters):
        return self.browser.ask(method, self.session, **parameters)

    def _send(self, method, **parameters):
        os.write(self.browser.to_browser, json.dumps(
            {"id": self.browser.number, "method": method, "params": parameters, "sessionId": self.session}).encode() + b"\0")

    def _let_through_until(self, last):
        """Lets the page itself pass, refuses and notes everything else it asks for."""
        until = time.monotonic() + self.browser.patience
        while True:
            self._collect()
            for event in [e for e in self.browser.events if e.get("sessionId") == self.session]:
                if event["method"] == "Fetch.requestPaused":
                    self.browser.events.remove(event)
                    self._decide(event["params"])
                elif event["method"] == last:
                    self.browser.events.remove(event)
                    return self._collect()
            message = self.browser._next(until)
            if message is None:
                raise Fault(f"{self.path}: not loaded in {self.browser.patience:.0f} s")
            if "method" in message:
                self.browser.events.append(message)

    def _decide(self, paused):
        url = paused["request"]["url"]
        self.requests.append(url)
        if url == "file://" + os.path.abspath(self.path):
            self.ask("Fetch.continueRequest", requestId=paused["requestId"])
        else:
            self.ask("Fetch.failRequest", requestId=paused["requestId"], errorReason="BlockedByClient")

    def _collect(self):
        rest = []
        for event in self.browser.events:
            own = event.get("sessionId") == self.session
            if own and event["method"] == "Log.entryAdded":
                self.complaints.append(event["params"]["entry"]["text"])
            elif own and event["method"] == "Runtime.consoleAPICalled":
                self.complaints.append(" ".join(str(a.get("value")) for a in event["params"]["args"]))
            elif own and event["method"] == "Runtime.exceptionThrown":
                self.complaints.append(event["params"]["exceptionDetails"]["text"])
            elif own and event["method"] == "Network.requestWillBeSent":
                self.requests.append(event["params"]["request"]["url"])
            else:
                rest.append(event)
        self.browser.events = rest

    def look(self, width, dark=False, height=900):
        self.ask("Emulation.setDeviceMetricsOverride", width=width, height=height, deviceScaleFactor=1,
                 mobile=width < 600)
        self.ask("Emulation.setEmulatedMedia", media="",
                 features=[{"name": "prefers-color-scheme", "value": "dark" if dark else "light"}])

    def run(self, script):
        """The value of a script in the page; a promise is awaited."""
        answer = self.ask("Runtime.evaluate", expression=script, returnByValue=True, awaitPromise=True)
        if "exceptionDetails" in answer:
            details = answer["exceptionDetails"]
            raise Fault(details.get("exception", {}).get("description", details["text"]))
        self._collect()
        return answer["result"].get("value")

    def screenshot(self, target, **part):
        """The whole page, or the part that `clip` says."""
        data = self.ask("Page.captureScreenshot", format="png", captureBeyondViewport=True, **part)["data"]
        with open(target, "wb") as file:
            file.write(base64.b64decode(data))

    def pdf(self, target, width_in, height_in):
        data = self.ask("Page.printToPDF", paperWidth=width_in, paperHeight=height_in, preferCSSPageSize=False,
                        printBackground=False)["data"]
        with open(target, "wb") as file:
            file.write(base64.b64decode(data))

    def close(self):
        self.browser.ask("Target.closeTarget", targetId=self.target)
