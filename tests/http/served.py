"""A quell server for a test: started on a free port of this machine, stopped at the end, whatever it was told meanwhile."""
import atexit
import base64
import http.client
import json
import os
import re
import signal
import socket
import ssl
import subprocess
import sys
import tempfile
import threading
import time

# Whoever names no store gets one of his own.
home = tempfile.TemporaryDirectory()
os.environ["QUELL_STORE"] = home.name + "/records.db"
failures = 0
checks = 0


def check(holds, *what):
    global failures, checks
    checks += 1
    if not holds:
        failures += 1
        print("failed:", *[str(part)[:2000] for part in what])
    return holds


def end():
    print(f"{checks} checks, {failures} failed")
    sys.exit(1 if failures or not checks else 0)


class Server:
    def __init__(self, quell, *options, name="localhost", authority=None):
        self.process = subprocess.Popen([quell, "serve", "--port", "0", *options], stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE)
        atexit.register(self.process.kill)
        self.said = []
        self.name = name
        self.tls = ssl.create_default_context(cafile=authority) if authority else None
        while True:
            line = self.process.stderr.readline().decode()
            self.said.append(line)
            ready = re.search(r"ready at https?://\S+:(\d+)/", line)
            if ready:
                self.port = int(ready[1])
                break
            if not line:
                raise SystemExit("the server did not start: " + "".join(self.said))
        # What it tells must not fill the pipe.
        self.reader = threading.Thread(target=lambda: self.said.extend(line.decode() for line in self.process.stderr), daemon=True)
        self.reader.start()

    def connect(self, timeout=60):
        plain = socket.create_connection(("127.0.0.1", self.port), timeout=timeout)
        return self.tls.wrap_socket(plain, server_hostname=self.name) if self.tls else plain

    def ask(self, method, path, body=None, headers=None, timeout=120):
        """status, headers, body"""
        connection = http.client.HTTPConnection(self.name, self.port, timeout=timeout)
        connection.sock = self.connect(timeout)
        sent = {"Host": f"{self.name}:{self.port}"}
        if body is not None:
            sent["Content-Type"] = "application/json"
            body = body if isinstance(body, (bytes, str)) else json.dumps(body, ensure_ascii=False)
            body = body.encode() if isinstance(body, str) else body
        connection.request(method, path, body, {**sent, **(headers or {})})
        response = connection.getresponse()
        answer = response.read()
        connection.close()
        return response.status, response.headers, answer

    def answer(self, verb, question, headers=None):
        """The same, waited for where it takes longer: status and body."""
        status, head, body = self.ask("POST", f"/api/{verb}", question, headers)
        if status != 202:
            return status, body
        check(head["Retry-After"] == "1", "a late answer says when to ask again")
        where = head["Location"]
        shares = []
        while status == 202:
            time.sleep(0.2)
            status, head, body = self.ask("GET", where, headers=headers)
            if status == 202:
                shares.append(json.loads(body)["share"])
        check(shares == sorted(shares), "progress falls", shares)
        return status, body

    def raw(self, data, wait=5):
        """Sends bytes as they are; all that comes back until the other side closes, or for so long."""
        connection = self.connect(wait)
        got = b""
        try:
            connection.sendall(data)
            while True:
                part = connection.recv(65536)
                if not part:
                    break
                got += part
        except (socket.timeout, ConnectionError, ssl.SSLError):
            pass
        connection.close()
        return got

    def lives(self):
        return self.process.poll() is None and self.ask("GET", "/api/health")[0] == 200

    def memory_kib(self):
        with open(f"/proc/{self.process.pid}/status") as file:
            return int(re.search(r"VmRSS:\s+(\d+)", file.read())[1])

    def stop(self, how=signal.SIGTERM):
        began = time.monotonic()
        self.process.send_signal(how)
        status = self.process.wait(30)
        self.reader.join(10)
        check(status == 0, "it ended with", status, "".join(self.said[-5:]))
        check(self.said[-1].startswith("quell: stopped"), "the last word", self.said[-1])
        return time.monotonic() - began


def text_of(path, root="."):
    with open(f"{root}/{path}", "rb") as file:
        return {"name": path, "text": file.read().decode()}


def bytes_of(path, root="."):
    with open(f"{root}/{path}", "rb") as file:
        return {"name": path, "base64": base64.b64encode(file.read()).decode()}
