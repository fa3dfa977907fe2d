"""Records and logins over the network, with a store and with TLS.

    records.py QUELL ROOT
"""
import hashlib
import json
import os
import pathlib
import random
import re
import shutil
import signal
import ssl
import subprocess
import sys
import tempfile
import uuid
import warnings

from served import Server, check, end

warnings.simplefilter("ignore", DeprecationWarning)  # TLS 1.1 is what is to be refused
quell, root = map(os.path.abspath, sys.argv[1:])
box = tempfile.TemporaryDirectory()
os.chdir(box.name)
STORE = "records.db"


def add(name, password):
    done = subprocess.run([quell, "serve", "--add", name, "--store", STORE], input=password + "\n", text=True, capture_output=True)
    check(done.returncode == 0, "add", name, done.stderr)


def refused(*words, said):
    done = subprocess.run([quell, "serve", *words], capture_output=True, text=True, timeout=30)
    check(done.returncode == 2 and said in done.stderr, words, done.returncode, done.stderr)


refused("--address", "0.0.0.0", said="--certificate")
check(subprocess.run([quell, "serve", "--add", "Ana", "--store", STORE], input="short\n", text=True, capture_output=True).returncode == 1, "a short password")
add("Ana Ruiz", "correct horse")
add("Ben", "battery staple")
with open(STORE, "rb") as file:
    check(b"correct horse" not in file.read(), "the store holds a password")
refused("--address", "0.0.0.0", "--store", STORE, said="--certificate")
refused("--certificate", "none.pem", said="--key")
server = Server(quell, "--store", STORE)


class Person:
    def __init__(self, name, password):
        self.name = name
        status, head, body = server.ask("POST", "/api/session", {"name": name, "password": password})
        check(status == 204, "log in", name, status, body)
        cookie = head["Set-Cookie"]
        check("HttpOnly" in cookie and "SameSite=Strict" in cookie, cookie)
        self.headers = {"Cookie": cookie.split(";")[0]}

    def ask(self, method, path, body=None, **headers):
        status, head, answer = server.ask(method, path, body, {**self.headers, **{key.replace("_", "-"): value for key, value in headers.items()}})
        if "json" in (head["Content-Type"] or ""):
            answer = json.loads(answer)
        return status, answer

    def put(self, record, *parents):
        match = {"If_Match": ", ".join(f'"{parent}"' for parent in parents)} if parents else {}
        return self.ask("PUT", f"/api/records/{record['id']}", record, **match)


def record(kind, who, body, site, **more):
    return {"record": 1, "id": str(uuid.uuid4()), "kind": kind, "site": site, **more, "who": who, "at": "2026-11-20T21:40:00-07:00", "body": body}


# ---- logging in ----
check(server.ask("GET", "/api/changes")[0] == 401, "records without a login")
check(server.ask("GET", "/api/session")[2] and json.loads(server.ask("GET", "/api/session")[2])["needs_login"], "it says that one has to log in")
ana, ben = Person("Ana Ruiz", "correct horse"), Person("Ben", "battery staple")
check(ana.ask("GET", "/api/session")[1]["who"] == "Ana Ruiz", "who")
check(server.ask("GET", "/api/changes", headers={"Cookie": "quell=" + "0" * 64})[0] == 401, "a token that is none")

# ---- a fact is kept once ----
site = str(uuid.uuid4())
made = record("site", "Ana Ruiz", {"name": "Cedar Court"}, site, document=site)
status, kept = ana.put(made)
check(status == 201 and kept["receipt"] == 1, "the first record", status, kept)
visit = record("visit", "Ana Ruiz", {"purpose": "service"}, site)
status, kept = ana.put(visit)
check(status == 201, "a visit", status, kept)
again = ana.put(visit)
check(again == (200, kept), "the same again", again)
check(ben.put(visit)[0] == 403, "somebody else's name")
check(ana.put({**visit, "body": {"purpose": "callback"}})[0] == 409, "another record of that id")
check(ana.ask("PUT", f"/api/records/{uuid.uuid4()}", visit)[0] == 400, "another address")
status, problem = ana.put(record("visit", "Ana Ruiz", {"purpose": "lunch"}, site))
check(status == 422 and problem["problems"][0]["code"] == "unknown-word", "what is no visit", status, problem)
check(ana.ask("GET", f"/api/records/{visit['id']}")[1] == {**visit, "receipt": kept["receipt"]}, "as it was sent")

# ---- the store is named by a mark, and another one is noticed ----
changes = ana.ask("GET", "/api/changes?since=0")[1]
check(changes["mark"] == kept["mark"] and re.fullmatch(r"2\.[0-9a-f]{32}", kept["mark"]), "the mark of a receipt", changes, kept)
first = ana.ask("GET", "/api/changes?since=0&most=1")[1]["mark"]
check(first.startswith("1.") and ana.ask("GET", f"/api/changes?since=2&mark={first}")[1]["mark"] == kept["mark"], "an earlier mark is one of the store too", first)
DIGITS = hashlib.sha256(b"").hexdigest()
for told in ("2." + "0" * 32, "3" + kept["mark"][1:], "1" + kept["mark"][1:], "", "2", "x", "9" * 40, "0." + str(uuid.uuid4()), kept["mark"] + "0", "0."):
    for method, path, body in (("GET", "/api/changes?since=0&", None), ("PUT", f"/api/records/{visit['id']}?", visit), ("GET", f"/api/held/{DIGITS}?", None)):
        status, problem = ana.ask(method, f"{path}mark={told}", body)
        check(status == 409 and problem["code"] == "other-store", "a mark of another store", told, path, status, problem)
check(ana.ask("GET", "/api/changes?since=3")[1]["code"] == "other-store", "a receipt that was never given")
check(ana.ask("PUT", f"/api/records/{visit['id']}?mark={kept['mark']}", visit) == (200, kept), "with the mark of this store")

# ---- versions ----
second = record("site", "Ana Ruiz", {"name": "Cedar Court", "phone": "1"}, site, document=site, parents=[made["id"]])
check(ana.put(second)[0] == 428, "without If-Match")
check(ana.put(second, str(uuid.uuid4()))[0] == 400, "If-Match of something else")
check(ana.put(second, made["id"])[0] == 201, "a version onto the one that stands")
other = record("site", "Ben", {"name": "Cedar Court", "phone": "2"}, site, document=site, parents=[made["id"]])
status, conflict = ben.put(other, made["id"])
check(status == 412 and conflict["code"] == "conflict" and set(conflict["versions"]) == {second["id"], other["id"]}, "a conflict", status, conflict)
check(ben.put(other, made["id"])[0] == 412, "a conflict whose answer was lost")
heads = ana.ask("GET", f"/api/documents/{site}")[1]["records"]
check({head["id"] for head in heads} == {second["id"], other["id"]}, "both are kept", heads)
check(ana.ask("GET", "/api/conflicts")[1]["sites"][0]["conflicts"] == 1, "conflicts are listed")
third = record("site", "Ana Ruiz", {"name": "Cedar Court", "phone": "1, 2"}, site, document=site, parents=[second["id"], other["id"]])
check(ana.put(third, other["id"], second["id"])[0] == 201, "settled")
check([head["id"] for head in ben.ask("GET", f"/api/documents/{site}")[1]["records"]] == [third["id"]], "one stands")

# ---- lists ----
sites = ben.ask("GET", "/api/sites")[1]["sites"]
check([one["name"] for one in sites] == ["Cedar Court"], sites)
check(ben.ask("GET", f"/api/sites?after={site}")[1]["sites"] == [], "behind the last")
check(len(ben.ask("GET", "/api/sites?words=cedar")[1]["sites"]) == 1, "a search")
check(ben.ask("GET", f"/api/sites/{site}")[1]["quell"] == "site/1", "one site")
check(ben.ask("GET", f"/api/trends/{site}")[1]["quell"] == "trend/1", "its trend")
status, head, page = server.ask("GET", f"/api/trends/{site}?form=html", headers=ben.headers)
drawn = subprocess.run([quell, "site", "trend", site, "-o", "trend.html", "--store", STORE], capture_output=True)
check(status == 200 and head["Content-Type"] == "text/html; charset=utf-8" and page == pathlib.Path("trend.html").read_bytes(), "its trend as a page", status, page[:80], drawn.stderr)
check(ben.ask("GET", f"/api/trends/{site}?form=pdf")[0] == 400, "a form that there is not")
check(ben.ask("GET", "/api/due")[1]["quell"] == "due/1", "what is due")
for path in ("/api/sites/none", "/api/trends/none", f"/api/records/{uuid.uuid4()}", f"/api/documents/{uuid.uuid4()}", "/api/sites?after=none"):
    check(ben.ask("GET", path)[0] == 404, path)
check(ben.ask("GET", "/api/changes?since=-1")[0] == 400, "a receipt that is none")

# ---- a photo in parts, through a kill ----
photo = random.Random(1).randbytes(2_500_000)
name = hashlib.sha256(photo).hexdigest()
PART = 1 << 20


def send(person, at, size=PART, of=photo, called=name):
    part = of[at : at + size]
    return person.ask("PUT", f"/api/files/{called}", part, Content_Type="application/octet-stream", Content_Range=f"bytes {at}-{at + len(part) - 1}/{len(of)}")


check(send(ana, 0)[1]["held"] == PART, "the first part")
server.process.send_signal(signal.SIGKILL)
server.process.wait()
server = Server(quell, "--store", STORE)
check(ana.ask("GET", "/api/changes")[0] == 401, "a session outlives the server")
ana, ben = Person("Ana Ruiz", "correct horse"), Person("Ben", "battery staple")
held = ana.ask("GET", f"/api/held/{name}")[1]
check((held["held"], held["whole"]) == (PART, False), "held after a kill", held)
check(ana.ask("GET", f"/api/files/{name}")[0] == 404, "not whole")
check(send(ana, 2 * PART)[0] == 409, "a part that leaves a gap")
check(send(ana, PART // 2)[1]["held"] == PART + PART // 2, "a part that is there in part")
check(ana.ask("PUT", f"/api/files/{name}", b"abc", Content_Type="application/octet-stream")[0] == 400, "a part without its place")
check(ana.ask("PUT", f"/api/files/{name}", b"abc", Content_Type="application/octet-stream", Content_Range="bytes 0-9/10")[0] == 400, "a part of another length")
at = PART + PART // 2
while at < len(photo):
    at = send(ana, at)[1]["held"]
check(ana.ask("GET", f"/api/held/{name}")[1]["whole"], "whole")


def pulled(person, called, size):
    got = b""
    while len(got) < size:
        status, part = person.ask("GET", f"/api/files/{called}", Range=f"bytes={len(got)}-")
        if not check(status == 206 and part, "a part", status):
            break
        got += part
    return got


check(pulled(ben, name, len(photo)) == photo, "the photo came back")
check(ben.ask("GET", f"/api/files/{name}")[0] == 416, "too much for one reply")
check(ben.ask("GET", f"/api/files/{name}", Range="bytes=9999999-")[0] == 416, "behind the end")
wrong = hashlib.sha256(b"other").hexdigest()
check(send(ana, 0, 9, b"something", wrong)[0] == 409, "a wrong hash")
check(ana.ask("GET", f"/api/held/{wrong}")[1]["held"] == 0, "what has a wrong hash is thrown away")
check(ana.ask("PUT", "/api/files/..%2f..%2fx", b"abc", Content_Type="application/octet-stream", Content_Range="bytes 0-2/3")[0] in (404, 409), "a name that is no hash")

# ---- a log goes with the survey that names it: the ranking reads it, as `quell check` does beside the file ----
metered = pathlib.Path(root, "examples/metered")
log = (metered / "last-tenant.csv").read_bytes()
logged = hashlib.sha256(log).hexdigest()
named = json.loads((metered / "survey.json").read_text())
pathlib.Path("last-tenant.csv").write_bytes(log)
pathlib.Path("survey.json").write_text(json.dumps(named))


def checked():
    done = subprocess.run([quell, "check", "survey.json", "--json", "--parts", "chance"], capture_output=True, text=True)
    cost = json.loads(done.stdout)["cost"]
    return cost["callback_share"], cost["callback"]


expected = checked()
dye = str(uuid.uuid4())
survey = record("survey", "Ana Ruiz", named, dye, document=str(uuid.uuid4()))
fact = record("log", "Ana Ruiz", {"survey": survey["document"], "name": "last-tenant.csv", "sha256": logged, "size": len(log), "type": "text/csv"}, dye)


def ranked():
    status, answer = server.answer("rank", {}, ana.headers)
    check(status == 200, "rank", status, answer)
    return [(one["callback_share"], one["callback"]) for one in json.loads(answer)["sites"] if one["site"] == dye]


check(ana.put(record("site", "Ana Ruiz", {"name": "The Dye House"}, dye, document=dye))[0] == 201, "a site")
check(ana.put(survey)[0] == 201 and ana.put(fact)[0] == 201, "a survey and its log")
check(ranked() == [], "a log whose bytes have not come is not there")
check(send(ana, 0, 100_000, log, logged)[1]["held"] == 100_000, "the first part of a log")
check(ranked() == [], "a log that is not whole is not there")
check(send(ben, 100_000, PART, log, logged)[1]["whole"], "all of a log, the rest by another")
check(ranked() == [expected], "ranked by its log", expected)
check(pulled(ben, logged, len(log)) == log, "the log came back")
check(ana.put({**fact, "id": str(uuid.uuid4()), "body": {**fact["body"], "survey": "none"}})[0] == 422, "a log of no survey")
longer = log.replace(b",0\n", b",1\n")
pathlib.Path("last-tenant.csv").write_bytes(longer)
check(checked() != expected, "another log makes another chance")
digits = hashlib.sha256(longer).hexdigest()
check(send(ben, 0, PART, longer, digits)[1]["whole"], "another log")
check(ben.put(record("log", "Ben", {**fact["body"], "sha256": digits, "size": len(longer)}, dye, corrects=fact["id"]))[0] == 201, "it takes the place of the first")
check(ranked() == [checked()], "worked out again by the log that stands now")

# ---- two phones with a bad line end with the same ----
rng = random.Random(7)
phones = [{"person": ana, "has": {}, "queue": [], "since": 0}, {"person": ben, "has": {}, "queue": [], "since": 0}]
acknowledged = {}
for step in range(300):
    phone = rng.choice(phones)
    who = phone["person"]
    action = rng.random()
    if action < 0.4:
        fact = record("visit", who.name, {"purpose": rng.choice(["service", "callback"])}, site)
        phone["queue"].append(fact)
        phone["has"][fact["id"]] = fact
    elif action < 0.7 and phone["queue"]:
        rng.shuffle(phone["queue"])
        fact = phone["queue"][0]
        status, kept = who.put(fact)
        check(status in (200, 201), "a fact", status, kept)
        if rng.random() < 0.7:  # else the answer is lost, and it comes again
            phone["queue"].pop(0)
            acknowledged[fact["id"]] = fact
    elif action < 0.98:
        page = who.ask("GET", f"/api/changes?since={phone['since']}&most={rng.choice([1, 3, 500])}")[1]
        receipts = [one["receipt"] for one in page["records"]]
        check(receipts == sorted(receipts) and all(receipt > phone["since"] for receipt in receipts), "receipts", receipts)
        phone["since"] = page["receipt"]
        for one in page["records"]:
            phone["has"][one["id"]] = {key: value for key, value in one.items() if key != "receipt"}
    else:
        server.process.send_signal(signal.SIGKILL)
        server.process.wait()
        server = Server(quell, "--store", STORE)
        ana, ben = Person("Ana Ruiz", "correct horse"), Person("Ben", "battery staple")
        phones[0]["person"], phones[1]["person"] = ana, ben
for phone in phones:
    for fact in phone["queue"]:
        phone["person"].put(fact)
sets = []
for phone in phones:
    more = True
    while more:
        page = phone["person"].ask("GET", f"/api/changes?since={phone['since']}&most=50")[1]
        phone["since"], more = page["receipt"], page["more"]
        for one in page["records"]:
            phone["has"][one["id"]] = {key: value for key, value in one.items() if key != "receipt"}
    sets.append(phone["has"])
check(sets[0] == sets[1], "the phones differ", len(sets[0]), len(sets[1]))
check(set(acknowledged) <= set(sets[0]), "what was acknowledged is gone")
check(len(sets[0]) > 80, "records", len(sets[0]))

# ---- a wrong password ten times ----
tried = [server.ask("POST", "/api/session", {"name": "Ana Ruiz", "password": f"wrong {i}..."})[0] for i in range(10)]
check(tried == [401] * 5 + [429] * 5, "ten tries", tried)
check(ana.ask("GET", "/api/changes")[0] == 200, "who is logged in stays so")
check(ana.ask("DELETE", "/api/session")[0] == 204 and ana.ask("GET", "/api/changes")[0] == 401, "log out")
check(server.lives(), "it lives")

# ---- a backup is put back: who got a mark after it is told, and who got none later is not ----
keeper = Person("Ben", "battery staple")
before = keeper.ask("GET", f"/api/changes?since={phones[1]['since']}")[1]["mark"]
subprocess.run([quell, "site", "backup", "-o", "copy.db", "--store", STORE], check=True, capture_output=True)
lost, found = [record("visit", "Ben", {"purpose": "service"}, site) for _ in range(2)]
after = keeper.ask("PUT", f"/api/records/{lost['id']}?mark={before}", lost)[1]["mark"]
server.stop()
for end_of_name in ("", "-wal", "-shm"):
    pathlib.Path(STORE + end_of_name).unlink(missing_ok=True)
shutil.copy("copy.db", STORE)
server = Server(quell, "--store", STORE)
keeper = Person("Ben", "battery staple")
check(keeper.put(found)[0] == 201, "the store goes on from the backup")
check(keeper.ask("GET", f"/api/changes?since={phones[1]['since']}&mark={before}")[0] == 200, "what was known before the backup still is")
for method, path, body in (("GET", f"/api/changes?since={phones[1]['since'] + 1}&mark={after}", None), ("PUT", f"/api/records/{found['id']}?mark={after}", found)):
    status, problem = keeper.ask(method, path, body)
    check(status == 409 and problem["code"] == "other-store", "a receipt of the same number, of another record", path, status, problem)
check(keeper.put(lost)[0] == 201, "what is lacking is taken again")
server.stop()

# ---- TLS ----
if shutil.which("openssl"):
    run = lambda words: subprocess.run(["openssl", *words.split()], check=True, capture_output=True)
    curve = "-newkey ec -pkeyopt ec_paramgen_curve:prime256v1 -nodes"
    with open("server.ext", "w") as file:
        file.write("subjectAltName=DNS:office.local,IP:127.0.0.1\nextendedKeyUsage=serverAuth\n")
    run(f"req -x509 {curve} -days 30 -keyout authority-key.pem -out authority.pem -subj /CN=house")
    run(f"req {curve} -keyout key.pem -out server.csr -subj /CN=office.local")
    run("x509 -req -in server.csr -CA authority.pem -CAkey authority-key.pem -CAcreateserial -days 30 -extfile server.ext -out server.pem")
    refused("--address", "0.0.0.0", "--store", STORE, "--certificate", "server.pem", "--key", "key.pem", said="--host")
    refused("--address", "0.0.0.0", "--host", "office.local", "--store", "nobody.db", "--certificate", "server.pem", "--key", "key.pem", said="--add NAME")
    bad = subprocess.run([quell, "serve", "--port", "0", "--certificate", "server.pem", "--key", "authority-key.pem"], capture_output=True, text=True, timeout=30)
    check(bad.returncode == 3 and "certificate" in bad.stderr, "a key of something else", bad.returncode, bad.stderr)
    server = Server(quell, "--address", "0.0.0.0", "--host", "office.local", "--store", STORE, "--certificate", "server.pem", "--key", "key.pem", name="office.local", authority="authority.pem")
    status, head, _ = server.ask("POST", "/api/session", {"name": "Ben", "password": "battery staple"}, {"Origin": f"https://office.local:{server.port}"})
    check(status == 204 and head["Set-Cookie"].startswith("__Host-quell=") and "; Secure" in head["Set-Cookie"], "log in", status, head["Set-Cookie"])
    cookie = {"Cookie": head["Set-Cookie"].split(";")[0]}
    check(server.ask("GET", "/api/changes", headers=cookie)[0] == 200, "over TLS")
    check(server.ask("POST", "/api/list", {}, {**cookie, "Origin": f"http://office.local:{server.port}"})[0] == 403, "an origin without TLS")
    old = ssl.SSLContext(ssl.PROTOCOL_TLS_CLIENT)
    old.check_hostname, old.verify_mode = False, ssl.CERT_NONE
    old.minimum_version, old.maximum_version = ssl.TLSVersion.TLSv1, ssl.TLSVersion.TLSv1_1
    tls, server.tls = server.tls, old
    try:
        server.connect(5).close()
        check(False, "TLS 1.1 was taken")
    except (ssl.SSLError, OSError):
        check(True)
    server.tls = None
    check(b"200" not in server.raw(b"GET /api/health HTTP/1.1\r\nHost: office.local\r\n\r\n", 3), "a request without TLS")
    server.tls = tls
    check(server.lives(), "it lives with TLS")
    server.stop()
end()
