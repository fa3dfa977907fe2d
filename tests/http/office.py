"""The office's questions over the network: where to go first, by the bytes of the command line; ten thousand sites, page by page.

    office.py QUELL ROOT
"""
import json
import os
import shutil
import subprocess
import sys
import tempfile
import uuid

from served import Server, check, end, text_of

quell, root = map(os.path.abspath, sys.argv[1:])
box = tempfile.TemporaryDirectory()
os.chdir(root)
OWN, SERVED = box.name + "/own.db", box.name + "/served.db"
AT = "2026-11-20T21:40:00-07:00"


def command(*words):
    return subprocess.run([quell, "site", *words], capture_output=True, stdin=subprocess.DEVNULL)


def record(kind, body, site, **more):
    return {"record": 1, "id": str(uuid.uuid4()), "kind": kind, "site": site, **more, "who": "ana", "at": AT, "body": body}


def take_in(store, records):
    path = box.name + "/records.json"
    with open(path, "w") as file:
        file.write('{"records":1,"list":[\n' + ",\n".join(json.dumps(one) for one in records) + "\n]}\n")
    done = command("import", path, "--store", store)
    check(done.returncode == 0, "import", done.stderr)


# ---- where to go first ----
check(command("import", "examples/records/firm.json", "--store", OWN).returncode == 0, "import")
survey = next(one["body"] for one in json.loads(text_of("examples/records/firm.json")["text"])["list"] if one["kind"] == "survey" and "existing" in one["body"])
made = []
for number in range(6):
    site = str(uuid.uuid4())
    made.append(record("site", {"name": f"Tower {number}"}, site, document=site))
    made.append(record("survey", {**survey, "name": f"Tower {number}"}, site, document=str(uuid.uuid4())))
take_in(OWN, made)
shutil.copy(OWN, SERVED)
server = Server(quell, "--store", SERVED)
status, head, body = server.ask("POST", "/api/rank", {"date": "2026-11-30"})
late = status == 202
code, got = server.answer("rank", {"date": "2026-11-30"})
wanted = command("rank", "--json", "--today", "2026-11-30", "--store", OWN)
check((code, got) == (200, wanted.stdout), "rank", code, got[:300], wanted.stdout[:300], wanted.stderr)
told = json.loads(got)
check(told["quell"] == "rank/1" and len(told["sites"]) >= 6, "sites are ranked", len(told["sites"]))
check([one["expected"] for one in told["sites"]] == sorted((one["expected"] for one in told["sites"]), reverse=True), "the dearest first")
for question, words in (({"date": "2026-11-30", "form": "text", "language": "es"}, ("--language", "es")),
                        ({"date": "2027-12-30"}, ("--json", "--today", "2027-12-30")),
                        ({"date": "2026-11-30", "catalogue": text_of("examples/own-catalogue/valves.json")}, ("--json", "--catalogue", "examples/own-catalogue/valves.json"))):
    day = () if "--today" in words else ("--today", "2026-11-30")
    code, got = server.answer("rank", question)
    wanted = command("rank", *words, *day, "--store", OWN)
    check((code, got) == (200, wanted.stdout), "rank", words, code, got[:300], wanted.stdout[:300])
code, got = server.answer("rank", {})
check(code == 200 and json.loads(got)["quell"] == "rank/1", "today without a day", code)
for question in ({"date": "2026-02-31"}, {"document": text_of("examples/house/survey.json")}, {"today": "2026-11-30"}):
    check(server.answer("rank", question)[0] == 400, "what rank does not take", question)

# ---- one that takes long: it is stopped, and nothing of it stays ----
made = []
for number in range(200):
    site = str(uuid.uuid4())
    made.append(record("site", {"name": f"Wharf {number}"}, site, document=site))
    made.append(record("survey", {**survey, "name": f"Wharf {number}"}, site, document=str(uuid.uuid4())))
take_in(SERVED, made)
status, head, body = server.ask("POST", "/api/rank", {"date": "2026-11-30"})
check(status == 202 and json.loads(body)["quell"] == "run/1", "a long one", status)
check(server.ask("GET", head["Location"])[0] == 202, "it is on its way")
check(server.ask("GET", "/api/sites?most=1")[0] == 200, "the records are there meanwhile")
check(server.ask("DELETE", head["Location"])[0] == 204 and server.ask("GET", head["Location"])[0] == 404, "stopped")
check(server.lives(), "it lives")
server.stop()

# ---- ten thousand sites, by key ----
MANY = box.name + "/many.db"
sites = [str(uuid.uuid4()) for _ in range(10_000)]
take_in(MANY, [record("site", {"name": f"Building {number * 7919 % 10_000}", "address": f"{number} Mill Lane"}, site, document=site) for number, site in enumerate(sites)])
server = Server(quell, "--store", MANY)
seen, after, pages = [], None, 0
while True:
    status, _, body = server.ask("GET", "/api/sites?most=200" + (f"&after={after}" if after else ""))
    page = json.loads(body)["sites"] if check(status == 200, "a page", status) else []
    check(len(page) <= 200, "a page is short")
    pages += 1
    if not page:
        break
    seen += page
    after = page[-1]["site"]
check(pages >= 51 and {one["site"] for one in seen} == set(sites) and len(seen) == 10_000, "every site once", pages, len(seen))
check([(one["name"].lower(), one["site"]) for one in seen] == sorted((one["name"].lower(), one["site"]) for one in seen), "by name")
# One that comes meanwhile moves nobody off a page.
site = str(uuid.uuid4())
before = seen[199]["site"]
check(server.ask("PUT", f"/api/records/{made[0]['id']}", record("site", {"name": "A"}, site, document=site) | {"id": made[0]["id"]})[0] == 201, "one more")
check([one["site"] for one in json.loads(server.ask("GET", f"/api/sites?most=200&after={before}")[2])["sites"]] == [one["site"] for one in seen[200:400]], "the next page is as it was")
found = json.loads(server.ask("GET", "/api/sites?words=mill%2077")[2])["sites"]
check(found and all("Building" in one["name"] for one in found), "a search", len(found))
server.stop()
end()
