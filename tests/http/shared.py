"""Two servers on one PostgreSQL: what both write and pull, and connections that are lost and regained.

    shared.py QUELL ADDRESS

Run by tests/store/postgres.sh, whose PG_BEGIN and PG_HALT start and stop the database.
"""
import json
import os
import random
import subprocess
import sys
import threading
import time
import uuid

from served import Server, check, end

quell, address = os.path.abspath(sys.argv[1]), sys.argv[2]
SITE = str(uuid.uuid4())
AT = "2026-11-20T21:40:00-07:00"


def sql(text):
    return subprocess.run(["psql", "-qAt", address, "-c", text], capture_output=True, text=True, check=True).stdout.strip()


def record(kind, body, **more):
    return {"record": 1, "id": str(uuid.uuid4()), "kind": kind, "site": SITE, **more, "who": "ana", "at": AT, "body": body}


def ask(server, method, path, body=None, parents=()):
    match = {"If-Match": ", ".join(f'"{parent}"' for parent in parents)} if parents else {}
    status, head, answer = server.ask(method, path, body, match)
    return status, json.loads(answer)


def put(server, made, parents=()):
    return ask(server, "PUT", f"/api/records/{made['id']}", made, parents)


class Puller(threading.Thread):
    """Pulls from one server, over and over, and keeps what came in which order."""

    def __init__(self, server):
        super().__init__(daemon=True)
        self.server, self.since, self.has, self.stopped, self.refused = server, 0, {}, False, 0
        self.start()

    def pull(self):
        status, page = ask(self.server, "GET", f"/api/changes?since={self.since}&most={random.choice([1, 7, 500])}")
        if status != 200:
            self.refused += 1
            check(status == 503 or status == 507 and "canceling statement" in page["detail"], "a pull ends with", status, page)
            return True
        for one in page["records"]:
            check(one["receipt"] == self.since + 1, "a receipt was skipped", self.since, one["receipt"])
            self.since = one["receipt"]
            self.has[one["id"]] = {key: value for key, value in one.items() if key != "receipt"}
        return page["more"]

    def run(self):
        while not self.stopped:
            self.pull()

    def finish(self):
        self.stopped = True
        self.join()
        while self.pull():
            pass
        return self.has


class Writer(threading.Thread):
    """Puts facts to one server; what gets no answer that it was kept is put again, until it is."""

    def __init__(self, server, count, seed):
        super().__init__(daemon=True)
        self.server, self.count, self.random, self.kept, self.refused = server, count, random.Random(seed), {}, {}
        self.start()

    def run(self):
        for _ in range(self.count):
            made = record("visit", {"purpose": self.random.choice(["service", "callback"])})
            while True:
                status, answer = put(self.server, made)
                if status in (200, 201):
                    self.kept[made["id"]] = (made, answer["receipt"])
                    break
                self.refused[answer["code"]] = self.refused.get(answer["code"], 0) + 1
                check(status == 503 or status == 507 and "canceling statement" in answer["detail"], "a record ends with", status, answer)
                time.sleep(0.02)


def run_all(servers, count, seed, disturb=None):
    """Writers and a puller at either server; the pullers end with the same, and all that was kept is in it."""
    pullers = [Puller(server) for server in servers]
    writers = [Writer(server, count, seed + i) for i, server in enumerate(servers * 2)]
    while any(writer.is_alive() for writer in writers):
        if disturb:
            disturb()
        time.sleep(0.03)
    sets = [puller.finish() for puller in pullers]
    check(sets[0] == sets[1], "the servers hand out different sets")
    kept = {key: value for writer in writers for key, value in writer.kept.items()}
    receipts = [receipt for _, receipt in kept.values()]
    check(len(kept) == 4 * count and len(set(receipts)) == len(receipts), "every record has a receipt of its own")
    check(all(sets[0].get(key) == made for key, (made, _) in kept.items()), "what was kept is not handed out")
    check(int(sql("SELECT value FROM counter WHERE name = 'receipt'")) == int(sql("SELECT count(*) FROM records")), "receipts are counted on")
    refused = {}
    for writer in writers:
        for code, times in writer.refused.items():
            refused[code] = refused.get(code, 0) + times
    return refused, sum(puller.refused for puller in pullers)


servers = [Server(quell, "--store", address), Server(quell, "--store", address)]
one, other = servers
site = record("site", {"name": "Cedar Court"}, document=SITE)
check(put(one, site)[0] == 201 and put(other, site)[0] == 200, "what one has kept the other knows")

# ---- both write and both pull ----
check(run_all(servers, 60, 1) == ({}, 0), "nothing is refused in quiet")

# ---- every kind of document, changed at both at once ----
BODIES = {
    "site": [{"name": "Cedar Court", "phone": "1"}, {"name": "Cedar Court", "phone": "2"}, {"name": "Cedar Court", "phone": "1, 2"}],
    "plan": [{"every_months": 6}, {"every_months": 12}, {"every_months": 9}],
    "survey": [{"survey": 1, "name": "a"}, {"survey": 1, "name": "b"}, {"survey": 1, "name": "c"}],
    "station": [{"stages": []}, {"stages": [{}]}, {"stages": [{}, {}]}],
    "likelihood": [{"likelihood": 1}, {"likelihood": 1, "rows": []}, {"likelihood": 1, "cases": 2}],
}
for kind, bodies in BODIES.items():
    first = site if kind == "site" else record(kind, bodies[2], document=str(uuid.uuid4()))
    put(one, first)
    versions = [record(kind, body, document=first["document"], parents=[first["id"]]) for body in bodies[:2]]
    ends = [None, None]

    def change(i):
        ends[i] = put(servers[i], versions[i], [first["id"]])

    both = [threading.Thread(target=change, args=(i,)) for i in (0, 1)]
    [thread.start() for thread in both]
    [thread.join() for thread in both]
    check(sorted(status for status, _ in ends) == [201, 412], kind, "one is onto what stands, the other a conflict", ends)
    ids = {version["id"] for version in versions}
    check(all({head["id"] for head in ask(server, "GET", f"/api/documents/{first['document']}")[1]["records"]} == ids for server in servers), kind, "both see both")
    shown = [ask(server, "GET", "/api/conflicts")[1]["sites"] for server in servers]
    check(shown[0] == shown[1] and (kind == "likelihood" or (len(shown[0]) == 1 and shown[0][0]["conflicts"] == 1)), kind, "a conflict is listed", shown)
    third = record(kind, bodies[2], document=first["document"], parents=sorted(ids))
    check(put(other, third, sorted(ids))[0] == 201, kind, "settled")
    check([head["id"] for head in ask(one, "GET", f"/api/documents/{first['document']}")[1]["records"]] == [third["id"]], kind, "one stands, seen by the other server")
check(ask(one, "GET", "/api/conflicts")[1]["sites"] == [], "nothing is in conflict")

# ---- connections that are cut, and statements that are stopped, wherever they happen to be ----
mine = "FROM pg_stat_activity WHERE application_name = 'quell'"
cut = {"pg_terminate_backend": 0, "pg_cancel_backend": 0}


def disturb():
    what = min(cut, key=cut.get)  # the two in turn, however fast the machine is
    cut[what] += int(sql(f"SELECT count({what}(pid)) {mine}"))


refused, unread = run_all(servers, 80, 2, disturb)
print(f"     {cut}, refused {refused}, {unread} pulls refused")
check(min(cut.values()) > 10, "few were cut", cut)
check(all(server.lives() for server in servers), "both live")
check(run_all(servers, 20, 3) == ({}, 0), "as before, once it is quiet")

# ---- the database goes away, in the middle of all, and comes back ----
writers = [Writer(server, 60, 20 + i) for i, server in enumerate(servers)]
time.sleep(0.2)
subprocess.run(os.environ["PG_HALT"], shell=True, check=True)
for server in servers:
    status, answer = ask(server, "GET", "/api/changes")
    check(status == 503 and answer["code"] == "store-away" and "database" in answer["detail"], "without a database", status, answer)
    check(ask(server, "GET", "/api/health")[0] == 200 and ask(server, "POST", "/api/list", {})[0] == 200, "what needs no records is answered")
subprocess.run(os.environ["PG_BEGIN"], shell=True, check=True)
[writer.join(60) for writer in writers]
check(not any(writer.is_alive() for writer in writers), "writers end once it is back")
check(all(writer.refused.get("store-away") for writer in writers), "they saw that it was away", [writer.refused for writer in writers])
pullers = [Puller(server) for server in servers]
sets = [puller.finish() for puller in pullers]
check(sets[0] == sets[1] and all(sets[0].get(key) == made for writer in writers for key, (made, _) in writer.kept.items()), "all that was kept is there")

# ---- somebody holds on to the turn to write ----
hold = subprocess.Popen(["psql", "-qAt", address, "-c", "BEGIN; SELECT pg_advisory_xact_lock(1366648172); SELECT pg_sleep(14)"], stdout=subprocess.DEVNULL)
time.sleep(0.5)
began = time.monotonic()
status, answer = put(one, record("visit", {"purpose": "service"}))
check(status == 503 and answer["code"] == "store-busy" and 9 < time.monotonic() - began < 13, "a turn that does not come", status, answer)
check(ask(other, "GET", "/api/changes?most=1")[0] == 200, "who reads waits for nobody")
hold.wait(60)
check(put(one, record("visit", {"purpose": "service"}))[0] == 201, "the turn comes again")

checked = subprocess.run([quell, "site", "list", "--store", address], capture_output=True, text=True)
check(checked.returncode == 0 and "Cedar Court" in checked.stdout, "the command line on the same database", checked.stderr)
backup = subprocess.run([quell, "site", "backup", "--store", address, "-o", "/nonexistent/x.db"], capture_output=True, text=True)
check(backup.returncode != 0 and "its own tools" in backup.stderr, "a backup", backup.stderr)
for server in servers:
    server.stop()
end()
