"""A small client of a YAML language server: what an editor would ask, over standard input and output."""

import json
import queue
import shutil
import subprocess
import tempfile
import threading
from pathlib import Path

PACKAGE = "yaml-language-server@1.25.0"
TOOLS = Path(tempfile.gettempdir()) / "holdwater-language-server-1.25.0"
PROGRAM = TOOLS / "node_modules" / "yaml-language-server" / "bin" / "yaml-language-server"
PATIENCE = 60  # s for one answer on a busy machine
SETTINGS = {
    "validate": True,
    "completion": True,
    "hover": True,
    "yamlVersion": "1.2",
    "schemaStore": {"enable": False},  # it would ask outside
}


class NotToBeHadError(Exception):
    """The language server cannot be installed here; the text says what would put it right."""


def installed():
    """The program, installed by npm into a temporary folder where it is not there yet."""
    node, npm = shutil.which("node"), shutil.which("npm")
    if not node or not npm:
        raise NotToBeHadError("Node and npm are needed. This puts it right: apt-get install nodejs npm")
    if not PROGRAM.is_file():
        quietly = ["--no-audit", "--no-fund", "--ignore-scripts", "--prefix", str(TOOLS)]
        install = [npm, "install", *quietly, PACKAGE]
        ran = subprocess.run(install, capture_output=True, text=True, timeout=600, check=False)
        if ran.returncode or not PROGRAM.is_file():
            raise NotToBeHadError(f"npm could not install {PACKAGE}: {ran.stderr[-400:]}")
    return [node, str(PROGRAM), "--stdio"]


class Editor:
    """An editor with one folder open. Used as a context, it ends the server at its end."""

    def __init__(self, folder):
        self.folder = Path(folder)
        self._number = 0
        self._diagnostics = {}
        self._told = queue.Queue()

    def __enter__(self):
        pipes = {"stdin": subprocess.PIPE, "stdout": subprocess.PIPE, "stderr": subprocess.DEVNULL}
        self._server = subprocess.Popen(installed(), cwd=self.folder, **pipes)
        threading.Thread(target=self._listen, daemon=True).start()
        can = {"workspace": {"configuration": True}, "textDocument": {"completion": {"completionItem": {}}}}
        where = {"uri": self.folder.as_uri(), "name": "case"}
        self.ask("initialize", {"processId": None, "rootUri": self.folder.as_uri(), "capabilities": can,
                                "workspaceFolders": [where]})  # fmt: skip
        self._say("initialized", {})
        self._say("workspace/didChangeConfiguration", {"settings": {"yaml": SETTINGS}})
        return self

    def __exit__(self, *_):
        self._server.terminate()
        self._server.wait(10)

    def open(self, name, text):
        """Opens a file with this text, and gives what is told about it: line (from 1) and words."""
        document = {"uri": self._uri(name), "languageId": "yaml", "version": 1, "text": text}
        self._say("textDocument/didOpen", {"textDocument": document})
        return self._diagnosed(name)

    def complete(self, name, line, column):
        """What is offered at a place, line and column from 1."""
        found = self.ask("textDocument/completion", self._at(name, line, column))
        items = found["items"] if isinstance(found, dict) else found or []
        return {item["label"]: item for item in items}

    def hover(self, name, line, column):
        """What is shown over a place."""
        found = self.ask("textDocument/hover", self._at(name, line, column))
        contents = found["contents"] if found else ""
        return contents["value"] if isinstance(contents, dict) else str(contents)

    def ask(self, method, params):
        """Sends a request and gives its result."""
        self._number += 1
        number = self._number
        self._send({"id": number, "method": method, "params": params})
        return self._wait(lambda told: told.get("id") == number and "method" not in told)["result"]

    def _diagnosed(self, name):
        told = self._wait(lambda one: one.get("method") == "textDocument/publishDiagnostics"
                          and one["params"]["uri"] == self._uri(name))  # fmt: skip
        return [(one["range"]["start"]["line"] + 1, one["message"]) for one in told["params"]["diagnostics"]]

    def _wait(self, wanted):
        """The next message that is wanted; questions of the server are answered on the way."""
        while True:
            told = self._told.get(timeout=PATIENCE)
            if "id" in told and "method" in told:
                self._send({"id": told["id"], "result": self._answer(told)})
            elif wanted(told):
                return told

    def _answer(self, asked):
        if asked["method"] != "workspace/configuration":
            return None
        return [SETTINGS if item.get("section") == "yaml" else {} for item in asked["params"]["items"]]

    def _at(self, name, line, column):
        position = {"line": line - 1, "character": column - 1}
        return {"textDocument": {"uri": self._uri(name)}, "position": position}

    def _uri(self, name):
        return (self.folder / name).as_uri()

    def _say(self, method, params):
        self._send({"method": method, "params": params})

    def _send(self, message):
        body = json.dumps({"jsonrpc": "2.0", **message}).encode()
        self._server.stdin.write(b"Content-Length: %d\r\n\r\n" % len(body) + body)
        self._server.stdin.flush()

    def _listen(self):
        while head := self._server.stdout.readline():
            length = int(head.partition(b":")[2])
            while self._server.stdout.readline().strip():
                pass
            self._told.put(json.loads(self._server.stdout.read(length)))
