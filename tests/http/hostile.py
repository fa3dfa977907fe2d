"""What no client of ours sends: refused, and the server lives.

    hostile.py QUELL ROOT
"""
import json
import os
import socket
import sys
import threading
import time

from served import Server, check, end

quell, root = map(os.path.abspath, sys.argv[1:])
os.chdir(root)
server = Server(quell)
host = f"localhost:{server.port}"
with open("examples/house/survey.json") as file:
    SURVEY = file.read()


def status(answer):
    return int(answer.split(b" ", 2)[1]) if answer.startswith(b"HTTP/1.1 ") else 0


def request(line, headers, body=b"", host_line=True):
    head = ([f"Host: {host}"] if host_line else []) + headers
    return (line + "\r\n" + "".join(header + "\r\n" for header in head) + "\r\n").encode("latin-1") + body


# ---- headers ----
body = json.dumps({"form": "json"}).encode()
JSON = "Content-Type: application/json"
cases = [
    ("two lengths", request("POST /api/list HTTP/1.1", [JSON, f"Content-Length: {len(body)}", "Content-Length: 3"], body), 400),
    ("two equal lengths", request("POST /api/list HTTP/1.1", [JSON, f"Content-Length: {len(body)}", f"Content-Length: {len(body)}"], body), 400),
    ("a length and pieces", request("POST /api/list HTTP/1.1", [JSON, f"Content-Length: {len(body)}", "Transfer-Encoding: chunked"], b"0\r\n\r\n"), 400),
    ("pieces", request("POST /api/list HTTP/1.1", [JSON, "Transfer-Encoding: chunked"], b"2\r\n{}\r\n0\r\n\r\n"), 400),
    ("an odd coding", request("POST /api/list HTTP/1.1", [JSON, "Transfer-Encoding: x"], body), 400),
    ("two hosts", request("GET /api/health HTTP/1.1", [f"Host: {host}"]), 400),
    ("no host", request("GET /api/health HTTP/1.1", [], host_line=False), 400),
    ("a foreign host", request("GET /api/health HTTP/1.1", ["Host: evil.example"], host_line=False), 421),
    ("a foreign host with our port", request("GET / HTTP/1.1", [f"Host: evil.example:{server.port}"], host_line=False), 421),
    ("a foreign origin", request("POST /api/list HTTP/1.1", [JSON, "Origin: http://evil.example", "Content-Length: 2"], b"{}"), 403),
    ("no origin that anybody has", request("POST /api/list HTTP/1.1", [JSON, "Origin: null", "Content-Length: 2"], b"{}"), 403),
    ("from another site", request("GET /api/health HTTP/1.1", ["Sec-Fetch-Site: cross-site"]), 403),
    ("a form", request("POST /api/list HTTP/1.1", ["Content-Type: application/x-www-form-urlencoded", "Content-Length: 2"], b"{}"), 415),
    ("text", request("POST /api/list HTTP/1.1", ["Content-Type: text/plain", "Content-Length: 2"], b"{}"), 415),
    ("a length of words", request("POST /api/list HTTP/1.1", [JSON, "Content-Length: ten"], b"{}"), 400),
    ("a negative length", request("POST /api/list HTTP/1.1", [JSON, "Content-Length: -2"], b"{}"), 400),
    ("a length with a sign", request("POST /api/list HTTP/1.1", [JSON, "Content-Length: +2"], b"{}"), 400),
    ("no length", request("POST /api/list HTTP/1.1", [JSON]), 411),
    ("too long a body", request("POST /api/design HTTP/1.1", [JSON, f"Content-Length: {17 << 20}"]), 413),
    ("far too long a body", request("POST /api/design HTTP/1.1", [JSON, "Content-Length: 99999999999999"]), 413),
    ("a body that GET has", request("GET /api/health HTTP/1.1", ["Content-Length: 2"], b"{}"), 400),
    ("a long address", request("GET /" + "a" * 100000 + " HTTP/1.1", []), 414),
    ("a long header", request("GET / HTTP/1.1", ["X: " + "a" * 1000000]), 431),
    ("many headers", request("GET / HTTP/1.1", [f"X{i}: {i}" for i in range(20000)]), 431),
    ("a method nobody knows", request("BREW /api/health HTTP/1.1", []), 405),
    ("no request", b"\x00\x01\x02\x03\r\n\r\n", 400),
    ("no version", b"GET /\r\n\r\n", 400),
    ("TLS", bytes.fromhex("16030100a5010000a10303") + b"\0" * 160, 0),
]
for what, data, wanted in cases:
    answer = server.raw(data, 3)
    got = status(answer)
    # The library closes some that it cannot read without a word.
    check(got == wanted or (wanted in (0, 400, 414, 431) and not answer), what, got, answer[:200])
check(server.lives(), "it lives after headers")

# ---- what stands in a refused connection behind a request is no request ----
smuggled = request("POST /api/list HTTP/1.1", [JSON, "Content-Length: 2", "Content-Length: 60"], b"{}" + request("GET /api/health HTTP/1.1", []))
check(server.raw(smuggled, 3).count(b"HTTP/1.1 ") <= 1, "a request was smuggled in")

# ---- paths ----
for path in ("/../../etc/passwd", "/%2e%2e/%2e%2e/etc/passwd", "/..%2f..%2fetc/passwd", "//etc/passwd", "/etc/passwd", "/page/../../../etc/passwd",
             "/%00", "/index.html%00.js", "/.%2e/", "/%c0%ae%c0%ae/", "/api/../etc/passwd", "/api/runs/../../etc/passwd", "/\\..\\..\\etc\\passwd"):
    answer = server.raw(request(f"GET {path} HTTP/1.1", ["Connection: close"]), 3)
    check(status(answer) in (400, 404) and b"root:" not in answer, path, answer[:300])

# ---- JSON ----
for body in (b"", b"{", b"[" * 100000, b'{"a":' * 1000, b"\xff\xfe", b"null", b"1e999", b'{"document":{"text":"' + b"\\u0000" + b'"}}', b"{}" * 3,
             b'{"document": 3}', b'{"document": {"name": "/etc/passwd"}}', b'{"attachments": [{"name": "/etc/passwd"}]}', b'{"form": "pdf"}'):
    code, head, answer = server.ask("POST", "/api/design", body)
    check(code == 400 and head["Content-Type"] == "application/problem+json", body[:50], code, answer[:200])
    check(set(json.loads(answer)) >= {"type", "title", "status", "detail"}, "the members of RFC 9457", answer[:200])
# No file of this machine is opened for a survey that names one.
named = json.loads(SURVEY)
named["scenarios"] = [{"name": "x", "log": "/etc/passwd"}]
code, _, answer = server.ask("POST", "/api/demand", {"document": {"text": json.dumps(named)}})
check(code == 422 and b"no-file" in answer and b"root:" not in answer, "a file was opened", code, answer[:300])
check(server.lives(), "it lives after bodies")

# ---- headers that every reply has ----
for path in ("/", "/api/health", "/api/nothing"):
    head = server.ask("GET", path)[1]
    policy = head["Content-Security-Policy"]
    script = next(part for part in policy.split(";") if part.strip().startswith("script-src"))
    check("default-src 'none'" in policy and "unsafe-inline" not in script and "unsafe-eval" not in script.replace("wasm-unsafe-eval", ""), policy)
    check(head["X-Content-Type-Options"] == "nosniff" and head["Access-Control-Allow-Origin"] is None, path, head)

# ---- slow clients ----
slow = []
for data in (b"", b"GET / HT", request("POST /api/list HTTP/1.1", [JSON, "Content-Length: 1000"], b"{"), b"GET /api/health HTTP/1.1\r\nHost: "):
    connection = server.connect(60)
    connection.sendall(data)
    slow.append(connection)
began = time.monotonic()
trickling = server.connect(60)


def trickle():
    try:
        trickling.sendall(f"GET /api/health HTTP/1.1\r\nHost: {host}\r\n".encode())
        for i in range(100):
            trickling.sendall(f"X{i}: 1\r\n".encode())
            time.sleep(1)
    except OSError:
        pass


thread = threading.Thread(target=trickle, daemon=True)
thread.start()
check(server.lives(), "slow clients hold nobody up")
for connection in slow:
    try:
        rest = connection.recv(65536)
        check(rest == b"" or status(rest) in (400, 408), "a slow client got", rest[:100])
    except ConnectionError:
        pass
    except socket.timeout:
        check(False, "a slow client is still connected after", time.monotonic() - began)
thread.join(60)
check(time.monotonic() - began < 45, "who trickles is closed after", time.monotonic() - began)

# ---- more at once than are taken ----
crowd = []
for _ in range(600):
    try:
        connection = server.connect(5)
        connection.sendall(request("GET /api/health HTTP/1.1", []))
        crowd.append(connection)
    except OSError:
        break
for connection in crowd:
    connection.close()
time.sleep(0.5)
check(server.lives(), "it lives after a crowd")

# ---- bodies that take all the room there is for bodies are refused, and the room comes back ----
big = []
for _ in range(12):
    connection = server.connect(5)
    connection.sendall(request("POST /api/design HTTP/1.1", [JSON, f"Content-Length: {16 << 20}"], b"{"))
    big.append(connection)
time.sleep(0.5)
check(server.ask("POST", "/api/list", {})[0] == 503, "no room is left for a body")
for connection in big:
    connection.close()
time.sleep(0.5)
check(server.ask("POST", "/api/list", {})[0] == 200, "room came back")

# ---- clients that go while they wait ----
for _ in range(3):
    gone = []
    for path in ["/api/sites"] * 150 + ["/api/changes"] * 50:
        connection = server.connect(5)
        connection.sendall(request(f"GET {path} HTTP/1.1", []))
        gone.append(connection)
    for _ in range(4):
        connection = server.connect(5)
        asked = SURVEY.encode()
        connection.sendall(request("POST /api/design HTTP/1.1", [JSON, f"Content-Length: {len(asked)}"], asked))
        gone.append(connection)
    for connection in gone:
        connection.close()
time.sleep(3)
check(server.lives(), "it lives after clients that went")

# ---- it stops cleanly while much is under way ----
waiting = []
for _ in range(6):
    connection = server.connect(30)
    asked = SURVEY.encode()
    connection.sendall(request("POST /api/design HTTP/1.1", [JSON, f"Content-Length: {len(asked)}"], asked))
    waiting.append(connection)
took = server.stop()
check(took < 10, "stopping took", took)
told = [json.loads(line) for line in server.said if line.startswith("{")]
check(told and all(set(entry) <= {"at", "event", "method", "route", "status", "taken", "given", "ms", "peer"} for entry in told), "the journal")
check(not any("passwd" in line or "evil" in line for line in server.said), "the journal holds what was sent")
end()
