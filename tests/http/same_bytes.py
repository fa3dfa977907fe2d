"""The server answers with the bytes of the command line: every verb, every example, refusals too.

    same_bytes.py QUELL ROOT
"""
import concurrent.futures
import glob
import json
import os
import subprocess
import sys
import tempfile

from served import Server, bytes_of, check, end, text_of

quell, root = map(os.path.abspath, sys.argv[1:])
os.chdir(root)
# When a PDF was made: the same for both.
os.environ["SOURCE_DATE_EPOCH"] = "1769860800"
server = Server(quell)


def command(*words, stdin=None):
    done = subprocess.run([quell, *words], capture_output=True, stdin=subprocess.DEVNULL)
    return done.returncode, done.stdout


def compare(verb, question, *words, **options):
    code, wanted = command(*(verb if isinstance(verb, tuple) else (verb,)), *words, "--json")
    status, got = server.answer(verb[1] if isinstance(verb, tuple) else verb, question)
    what = (verb, words)
    check(status == {0: 200, 1: 422}.get(code), what, "exit status", code, "became", status, got[:300])
    check(got == wanted, what, "other bytes:", got[:300], wanted[:300])


def survey(path):
    """The question about a survey, with the logs that it names."""
    with open(path) as file:
        scenarios = json.load(file)["scenarios"]
    logs = [scenario["log"] for scenario in scenarios if "log" in scenario]
    folder = os.path.dirname(path)
    attachments = [{**text_of(f"{folder}/{log}"), "name": log} for log in logs]
    return {"document": text_of(path), **({"attachments": attachments} if attachments else {})}


for path in sorted(glob.glob("examples/*/survey.json")):
    question = survey(path)
    for verb in ("demand", "design", "check"):
        compare(verb, question, path)
    compare("demand", {**question, "language": "es", "units": "si", "parts": "estimates,hours"}, path, "--language", "es", "--units", "si", "--parts", "estimates,hours")
    if "existing" in json.loads(question["document"]["text"]):
        compare("simulate", question, path)
        compare("check", {**question, "flow": "5 gpm", "parts": "points,verdicts", "figures": "falloff"}, path, "--flow", "5 gpm", "--parts", "points,verdicts", "--figures", "falloff")
compare("design", {**survey("examples/house/survey.json"), "catalogue": text_of("examples/own-catalogue/valves.json")}, "examples/house/survey.json", "--catalogue", "examples/own-catalogue/valves.json")
compare("calc", {}, )
compare("calc", {"calc": "velocity", "arguments": ["flow=12 gpm", "pipe=copper L", "nominal=3/4 in"]}, "velocity", "flow=12 gpm", "pipe=copper L", "nominal=3/4 in")
compare("calc", {"calc": "velocity", "arguments": ["flow=12"]}, "velocity", "flow=12")
compare(("catalogue", "import"), {"document": text_of("examples/own-catalogue/valves.csv")}, "examples/own-catalogue/valves.csv")
compare(("catalogue", "fit"), {"document": text_of("examples/own-catalogue/capacity.csv")}, "examples/own-catalogue/capacity.csv")
compare(("catalogue", "list"), {})
compare(("catalogue", "list"), {"catalogue": text_of("examples/own-catalogue/valves.json"), "language": "es"}, "--catalogue", "examples/own-catalogue/valves.json", "--language", "es")
compare("diagnose", {"document": text_of("examples/night-creep/case.json")}, "examples/night-creep/case.json")
compare("diagnose", {"document": text_of("examples/night-creep/case.json"), "arguments": ["sound_kind=squeal"]}, "examples/night-creep/case.json", "sound_kind=squeal")
compare("log", {"log": text_of("examples/pressure-log/night-rise.csv")}, "examples/pressure-log/night-rise.csv")
compare("log", {"log": text_of("tests/cli/same_minute.csv")}, "tests/cli/same_minute.csv")
compare("listen", {"recording": bytes_of("examples/recordings/squeal.flac")}, "examples/recordings/squeal.flac")
for words in ((), ("survey",), ("case",), ("words",), ("survey", "supply.static_high")):
    question = dict(zip(("about", "key"), words))
    compare("describe", question, *words)
# Of learn, which is an option of the command.
CASES = json.dumps({"cases": 1, "closed": [{"case": 1, "symptoms": {"where_heard": "one"}, "cause": "fixture_noise"}]})
with tempfile.TemporaryDirectory() as box:
    for cases in (text_of("examples/night-creep/closed.json")["text"], CASES):
        with open(f"{box}/cases.json", "w") as file:
            file.write(cases)
        done = subprocess.run([quell, "diagnose", "cases.json", "--learn", "--json"], capture_output=True, cwd=box)
        status, got = server.answer("learn", {"document": {"name": "cases.json", "text": cases}})
        check((status, got) == ({0: 200, 1: 422}[done.returncode], done.stdout), "learn", status, got[:300])
# Forms that are not JSON: what is printed, a schema, a page.
code, wanted = command("describe", "case", "--schema")
check(server.answer("describe", {"about": "case", "form": "schema"}) == (200, wanted), "a schema")
code, wanted = command("calc", "velocity", "--help")
check(server.answer("calc", {"calc": "velocity", "help": True, "form": "text"}) == (200, wanted), "help")
code, wanted = command("design", "examples/house/survey.json")
check(server.answer("design", {**survey("examples/house/survey.json"), "form": "text"}) == (200, wanted), "text")
with tempfile.TemporaryDirectory() as box:
    for form in ("html", "svg"):
        command("report", "examples/house/survey.json", "-o", f"{box}/sheets.{form}")
        with open(f"{box}/sheets.{form}", "rb") as file:
            wanted = file.read()
        check(server.answer("report", {**survey("examples/house/survey.json"), "form": form}) == (200, wanted), form)
    # On paper, of all that has sheets; several at once, as each is drawn by itself.
    metered = survey("examples/metered/survey.json")
    night = text_of("examples/pressure-log/night-rise.csv")
    squeal = bytes_of("examples/recordings/squeal.flac")
    slam = survey("examples/slam/survey.json")
    on_paper = [
        ("report", {**survey("examples/house/survey.json"), "date": "2026-11-30"}, "examples/house/survey.json", "--date", "2026-11-30"),
        ("report", {**metered, "language": "es", "units": "si", "sections": "cover,demand"}, "examples/metered/survey.json", "--language", "es", "--units", "si", "--sections", "cover,demand"),
        ("report", {"document": text_of("examples/night-creep/case.json"), "of": "diagnose"}, "examples/night-creep/case.json", "--of", "diagnose"),
        ("log", {"log": night}, "examples/pressure-log/night-rise.csv"),
        ("listen", {"recording": squeal}, "examples/recordings/squeal.flac"),
        ("simulate", slam, "examples/slam/survey.json"),
    ]
    wanted = []
    for verb, question, *words in on_paper:
        code, said = command(verb, *words, "-o", f"{box}/sheets.pdf")
        check(code == 0, verb, words, said)
        with open(f"{box}/sheets.pdf", "rb") as file:
            wanted.append(file.read())
        check(wanted[-1].startswith(b"%PDF-1."), verb, wanted[-1][:8])
    with concurrent.futures.ThreadPoolExecutor(4) as several:
        twice = on_paper + on_paper[::-1]
        for (verb, _, *words), should, got in zip(twice, wanted + wanted[::-1], several.map(lambda one: server.answer(one[0], {**one[1], "form": "pdf"}), twice)):
            check(got == (200, should), "on paper", verb, words, got[0], got[1][:200])
    status, head, got = server.ask("POST", "/api/report", {**on_paper[0][1], "form": "pdf"})
    check(status == 202 or head["Content-Type"] == "application/pdf", status, head["Content-Type"])
    # What is refused on paper is refused as JSON.
    code, refused = command("report", "tests/refused/survey/" + sorted(os.listdir("tests/refused/survey"))[0], "--json", "-o", f"{box}/none.pdf")
    got = server.answer("report", {"document": bytes_of("tests/refused/survey/" + sorted(os.listdir("tests/refused/survey"))[0]), "form": "pdf"})
    check((code, got) == (1, (422, refused)), "refused on paper", got[1][:300], refused[:300])
    check(server.answer("design", {**on_paper[0][1], "form": "pdf"})[0] == 400, "a design has no sheets")
# A survey or a case itself, with nothing round it: as if it were called survey.json.
with tempfile.TemporaryDirectory() as box:
    for name, verb, path in (("survey", "design", "examples/hillside/survey.json"), ("case", "diagnose", "examples/night-creep/case.json")):
        with open(path, "rb") as file:
            bare = file.read()
        with open(f"{box}/{name}.json", "wb") as file:
            file.write(bare)
        done = subprocess.run([quell, verb, f"{name}.json", "--json"], capture_output=True, cwd=box)
        check(server.answer(verb, bare) == (200, done.stdout), "bare", name)
# Whatever is refused is refused alike.
refused = sorted(glob.glob("tests/refused/survey/*.json"))
check(len(refused) > 50, "documents that are refused", len(refused))
for path in refused:
    with open(path, "rb") as file:
        bytes_ = file.read()
    code, wanted = command("demand", path, "--json")
    if code != 1 or b"no-file" in wanted:
        continue
    status, got = server.answer("demand", {"document": bytes_of(path)})
    check((status, got) == (422, wanted), path, status, got[:300], wanted[:300])
check(server.lives(), "it lives")
server.stop()
end()
