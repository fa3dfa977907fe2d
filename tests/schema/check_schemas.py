"""check_schemas.py QUELL JUDGE ROOT [CHANGES]: the schemas of `quell describe` against the readers.

What a schema refuses, the readers refuse. What it accepts and they refuse breaks a rule of "not_in_schema", and every rule
there is broken by some document. Documents: all of tests/refused, the examples, the panel, and CHANGES of these, each with one
value changed at random (seed 1). Ends with 77, skipped, where python3-jsonschema is missing.
"""
import copy
import json
import pathlib
import random
import re
import subprocess
import sys

try:
    from jsonschema import Draft202012Validator
except ImportError:
    print("skipped: there is no python3-jsonschema; ./dev test installs it")
    sys.exit(77)

QUELL, JUDGE, ROOT = sys.argv[1], sys.argv[2], pathlib.Path(sys.argv[3])
CHANGES = int(sys.argv[4]) if len(sys.argv) > 4 else 600

# Verb of a case of tests/refused -> the document that it is about.
ABOUT = {"survey": "survey", "demand": "survey", "design": "survey", "check": "survey", "catalogue": "catalogue",
         "diagnose": "case"}
READ_AS = {"survey": "survey", "catalogue": "catalogue", "case": "diagnose", "record": "record"}


def described(*words):
    return json.loads(subprocess.run([QUELL, "describe", *words], capture_output=True, check=True).stdout)


SCHEMAS = {what: described(what, "--schema") for what in READ_AS}
DESCRIPTION = described("--json")
VALIDATORS = {}
for what, schema in SCHEMAS.items():
    Draft202012Validator.check_schema(schema)
    VALIDATORS[what] = Draft202012Validator(schema)
RULES = {rule["rule"]: rule for rule in DESCRIPTION["not_in_schema"]}

judge = subprocess.Popen([JUDGE], stdin=subprocess.PIPE, stdout=subprocess.PIPE)


def judged(kind, document, folder):
    """None where it is accepted, else its refusals as (code, last key)."""
    judge.stdin.write(f"{kind} {len(document)} {folder}/\n".encode() + document)
    judge.stdin.flush()
    words = judge.stdout.readline().decode().rstrip("\n").split("\t")
    if words[0] == "ok":
        return None
    return [(code, re.split(r"[.\]]", re.sub(r"\[\d+\]", "", path))[-1]) for code, path in zip(words[1::2], words[2::2])]


class Tally:
    documents = 0
    failed = []
    met = {name: None for name in RULES}
    both = {True: 0, False: 0}


# Where a schema says which units there are, only these get past it.
ODD = re.compile("[()*^\t\u007f-\uffff]")


def explained(code, key):
    return [name for name, rule in RULES.items() if rule["code"] == code and (not rule["keys"] or key in rule["keys"])]


def compare(what, kind, value, name, folder=ROOT):
    refusals = judged(kind, json.dumps(value).encode(), folder)
    errors = [] if VALIDATORS[what].is_valid(value) else list(VALIDATORS[what].iter_errors(value))
    Tally.documents += 1
    if not errors and refusals is None or errors and refusals is not None:
        Tally.both[not errors] += 1
    elif errors:
        Tally.failed.append(f"{name}: the schema refuses what is read: {errors[0].json_path}: {errors[0].message[:200]}")
    else:
        for code, key in refusals:
            rules = explained(code, key)
            if code in ("unknown-unit", "wrong-unit") and key not in ("unit", "measured") and not ODD.search(
                    json.dumps(value, ensure_ascii=False)):
                rules = []
            for rule in rules:
                Tally.met[rule] = Tally.met[rule] or name
            if not rules:
                Tally.failed.append(f"{name}: no rule says that the schema accepts {code} at {key!r}")


def pairs_once(pairs):
    value = dict(pairs)
    if len(value) != len(pairs):
        raise ValueError("a key stands twice")
    return value


def loads(text):
    return json.loads(text, object_pairs_hook=pairs_once)


# ---- documents as they are ----

accepted = []
for expect in sorted((ROOT / "tests/refused").rglob("*.expect")):
    verb = expect.read_text().splitlines()[0]
    source = expect.with_suffix(".json")
    if verb not in ABOUT or not source.exists():
        continue
    what = ABOUT[verb]
    value = loads(source.read_text(encoding="utf-8-sig"))
    kind = READ_AS[what] if verb in READ_AS or verb == "diagnose" else verb
    if kind == "check" and "existing" not in value:
        kind = "demand"  # there is nothing to check, which is no fault of the survey
    compare(what, kind, value, str(source.relative_to(ROOT)), source.parent)

for pattern in ("examples/**/*.json", "tests/panel/**/*.json", "tests/refused/every*.json", "tests/data/**/*.json"):
    for source in sorted(ROOT.glob(pattern)):
        try:
            value = loads(source.read_text(encoding="utf-8-sig"))
        except ValueError:
            continue
        what = next((w for w in READ_AS if isinstance(value, dict) and value.get(w) == 1), None)
        if what is not None:
            accepted.append((what, value, str(source.relative_to(ROOT)), source.parent))
            compare(what, READ_AS[what], value, str(source.relative_to(ROOT)), source.parent)
RECORDS = "examples/records/firm.json"
# Readings, tests and what has no day of its own stand in no example.
SITE = "0b8c9f3e-5a51-4d5e-9d0e-2f6f1c7a8b90"
HEAD = {"record": 1, "id": "5f2b8c1e-0d34-4a77-9b0c-7e2f4d6a8c10", "site": SITE, "who": "ana", "at": "2026-11-20T21:40:00-07:00"}
VISITED = {"purpose": "service", "day": "2026-11-19", "strainer": {"loss": "3 psi", "flow": "20 gpm", "cleaned": True},
           "case": {"case": 1, "readings": [{"gauge": "outlet", "pressure": "61 psi", "flow": "5 gpm", "as": "found"}]}}
MADE = [{**HEAD, "kind": "visit", "corrects": SITE, "body": VISITED},
        {**HEAD, "kind": "reading", "body": {"gauge": "outlet", "pressure": "61 psi"}},
        {**HEAD, "kind": "test", "body": {"test": "creep_10min", "outcome": "gt_5psi"}},
        {**HEAD, "kind": "photo", "body": {"sha256": "0" * 64, "size": 9, "type": "image/jpeg", "caption": "the strainer"}},
        {**HEAD, "kind": "log", "body": {"survey": SITE, "name": "log.csv", "sha256": "0" * 64, "size": 9, "type": "text/csv"}},
        {**HEAD, "kind": "site", "document": SITE, "parents": [SITE], "body": {"name": "Cedar Court", "phone": "1"}},
        {**HEAD, "kind": "plan", "document": SITE, "parents": [], "body": {"every_months": 12, "first": "2027-01-31"}},
        {**HEAD, "kind": "survey", "document": SITE, "body": {"survey": 1, "half": "filled in"}},
        {**{key: HEAD[key] for key in HEAD if key != "site"}, "kind": "likelihood", "document": SITE, "body": {"likelihood": 1}}]
for number, value in enumerate(json.loads((ROOT / RECORDS).read_text())["list"] + MADE):
    accepted.append(("record", value, f"{RECORDS} ({number})", ROOT))
    compare("record", "record", value, f"{RECORDS} ({number})")
    assert judged("record", json.dumps(value).encode(), ROOT) is None, value

assert len(accepted) > 20, "examples and panel are there"

CASE = {"case": 1, "tests": [{"test": "creep_10min", "outcome": "yes"}]}
SURVEY = json.loads((ROOT / "examples/first-answer/survey.json").read_text())
compare("case", "diagnose", CASE, "an answer of another question")
compare("case", "diagnose", {**CASE, "tests": [{"test": "creep_10min", "measured": 7}]}, "a pressure without its unit")
compare("case", "diagnose", {**CASE, "tests": [{"test": "pressure_ratio", "measured": "6 psi"}]}, "a ratio with a unit")
compare("survey", "survey", {**SURVEY, "supply": {"static_high": "120/60 psi"}}, "two readings")
compare("record", "record", {**MADE[0], "at": "2026-11-20T25:40:00Z"}, "an hour of no day")
compare("record", "record", {**MADE[0], "body": {**VISITED, "day": "2026-02-31"}}, "a day of no calendar")
compare("record", "record", {**MADE[0], "document": SITE}, "a fact of a document")
compare("record", "record", {**MADE[4], "corrects": SITE}, "a version that corrects")
compare("record", "record", {**MADE[1], "body": MADE[2]["body"]}, "a reading that is a test")

# ---- documents with one value changed ----

random.seed(1)
GROUPS = {}
for document in DESCRIPTION["documents"]:
    for group in document["groups"]:
        GROUPS.setdefault((document["document"], group["path"]), []).append(group)
VALUES = [None, True, 0, 1, -1, 2.5, 1e9, "", " ", "x", "12", "12 psi", "12 gpm", "60 psi", "2 in", "1-1/2 in", "1½ in", "DN 50",
          "5/8 x 3/4 in", "6'-4\"", "120/60 psi", "1,200 gpm", "4 bar", "4 bara", "-3 psi", "1e3 kPa", "55 degF", "10 °C", "3 ft/s",
          "119 gal", "0.35 L/s", "21 Cv", "Kv 18", "18 m³/h", "30 min", "12 parsec", "3/2 in", "1-3/2 in", "shower", "SHOWER",
          " shower ", "copper L", "elbow", "peak", "none", "house", "always", "40 mesh", 40, "09:00-17:00", "24:00-25:00", "EUR",
          "us", "2026-02-31", "2026-11-20", "2026-11-20T25:40:00Z", SITE, SITE.upper(), "service", [SITE], [SITE] * 9, [], {}, [1], ["3 ft/s", "6 ft/s"], ["6 ft/s", "3 ft/s"], {"elbow 90": 4}, {"elbow 90": 4.5}, [1] * 24, [0] * 24,
          "x" * 201, "two\nlines", "America/Denver", "no zone", "found", "inlet", "direct", "log.csv"]


def nodes(value, path=()):
    yield path, value
    items = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, child in items:
        yield from nodes(child, path + (key,))


def at(value, path):
    for key in path:
        value = value[key]
    return value


def group_path(path):
    return ".".join(str(k) for k in path if not isinstance(k, int)) and "".join(
        "[]" if isinstance(k, int) else ("." if i else "") + k for i, k in enumerate(path))


def other_quantity(text):
    kinds = [kind for kind in DESCRIPTION["kinds"] if kind["units"]]
    unit = random.choice(random.choice(kinds)["units"])
    number = re.match(r"[-0-9./ ]+", text)
    spelling = random.choice([unit["unit"], *unit["also"]])
    return (number.group(0).strip() if number else "7") + random.choice([" ", ""]) + random.choice([spelling, spelling.upper()])


def changed(what, value):
    value = copy.deepcopy(value)
    path, node = random.choice(list(nodes(value)))
    how = random.randrange(6)
    if how == 0 and path:
        del at(value, path[:-1])[path[-1]]
    elif how == 1 and path and isinstance(path[-1], str):
        parent = at(value, path[:-1])
        parent[path[-1] + "x"] = parent.pop(path[-1])
    elif how == 2 and path and isinstance(node, str):
        at(value, path[:-1])[path[-1]] = other_quantity(node)
    elif how == 3 and isinstance(node, dict) and (what, group_path(path)) in GROUPS:
        key = random.choice(random.choice(GROUPS[what, group_path(path)])["keys"])
        example = json.loads(key["example"]) if key["example"] and key["example"][0] in "\"[0123456789-tf" else None
        node[key["key"]] = random.choice([example, random.choice(VALUES)])
    elif path:
        at(value, path[:-1])[path[-1]] = copy.deepcopy(random.choice(VALUES))
    return value


# Every key that could stand in an example is looked at, wherever it counts for nothing.
for what, value, name, folder in accepted:
    if not name.startswith("examples/"):
        continue
    for path, node in nodes(value):
        for group in GROUPS.get((what, group_path(path)), []) if isinstance(node, dict) else []:
            for key in group["keys"]:
                if key["key"] not in node and (len(GROUPS[what, group_path(path)]) == 1 or group["keys"][0]["key"] in node):
                    other = copy.deepcopy(value)
                    at(other, path)[key["key"]] = False if key["value"] != "flag" else 0
                    compare(what, READ_AS[what], other, f"{name} with {key['path']}", folder)

small = [entry for entry in accepted if len(json.dumps(entry[1])) < 20000]
for turn in range(CHANGES):
    what, value, name, folder = random.choice(small)
    compare(what, READ_AS[what], changed(what, value), f"{name} changed ({turn})", folder)

# ---- what came of it ----

judge.stdin.close()
for name, document in Tally.met.items():
    if document is None:
        Tally.failed.append(f"rule {name}: no document breaks it")
for line in Tally.failed[:40]:
    print(line)
print(f"{Tally.documents} documents: both accept {Tally.both[True]}, both refuse {Tally.both[False]}, {len(Tally.failed)} at odds")
sys.exit(1 if Tally.failed else 0)
