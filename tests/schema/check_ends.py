"""check_ends.py QUELL JUDGE ROOT: every key of the documents at the ends of its range, and without what it must have.

The ranges are those that `quell describe` and docs/formats state. The least and the most themselves are in range, a millionth
beyond is not, in whatever unit it is written. A needed key that is left out is missed by its name. Each key is set in an example
that has its object.
"""
import copy
import json
import pathlib
import re
import subprocess
import sys

QUELL, JUDGE, ROOT = sys.argv[1], sys.argv[2], pathlib.Path(sys.argv[3])
READ_AS = {"survey": "survey", "catalogue": "catalogue", "case": "diagnose", "record": "record"}
DESCRIPTION = json.loads(subprocess.run([QUELL, "describe", "--json"], capture_output=True, check=True).stdout)
judge = subprocess.Popen([JUDGE], stdin=subprocess.PIPE, stdout=subprocess.PIPE)


def refusals(kind, value, folder):
    """(code, path) of each refusal."""
    document = json.dumps(value).encode()
    judge.stdin.write(f"{kind} {len(document)} {folder}/\n".encode() + document)
    judge.stdin.flush()
    words = judge.stdout.readline().decode().rstrip("\n").split("\t")
    return list(zip(words[1::2], words[2::2]))


def nodes(value, path=()):
    yield path, value
    items = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, child in items:
        yield from nodes(child, path + (key,))


def written(path):
    """stages[2].branches, as problems name it: lists count from 0 in the path of a document."""
    return "".join(f"[{k}]" if isinstance(k, int) else ("." if i else "") + k for i, k in enumerate(path))


def general(path):
    return re.sub(r"\[\d+\]", "[]", written(path))


def at(value, path):
    for key in path:
        value = value[key]
    return value


def beyond(text, by):
    """The text of an end, moved by a millionth of it, or of one where it is 0; a whole number by one."""
    if isinstance(text, int):
        return text + (1 if by > 0 else -1)
    if not isinstance(text, str):
        return text + by * max(abs(text), 1.0)
    number, unit = re.fullmatch(r"(-?[\d.]+(?: ?[-/]? ?\d+/\d+|/\d+)?) ?(.*)", text).groups()
    whole = sum(eval(part) for part in re.split(r"[- ]", number) if part) if "/" in number else float(number)
    return f"{whole + by * max(abs(whole), 1.0):.9f} {unit}".strip()


def end_of(key, which):
    end = key[which]
    if end is None or key["kind"] != "number":
        return None if end is None else end["text"]
    return int(end["si"]) if key["value"] == "whole" else float(end["si"])


class Tally:
    ends = needed = 0
    seen = set()
    failed = []


def look(what, document, folder, path, key, value, is_in):
    other = copy.deepcopy(document)
    at(other, path)[key["key"]] = value
    said = refusals(READ_AS[what], other, folder)
    here = written(path + (key["key"],))
    out = [p for code, p in said if code == "out-of-range" and (p == here or p.startswith(here + "["))]
    Tally.ends += 1
    if bool(out) == is_in:
        Tally.failed.append(f"{what}: {here} = {json.dumps(value)} is {'refused' if out else 'taken'}: {said[:3]}")


def check_ends(what, document, folder, path, key):
    least, most = end_of(key, "least"), end_of(key, "most")
    if key["value"] == "pair":
        look(what, document, folder, path, key, [least, most], True)
        look(what, document, folder, path, key, [beyond(least, -1e-6), most], False)
        look(what, document, folder, path, key, [least, beyond(most, 1e-6)], False)
        return
    for end, by in ((least, -1e-6), (most, 1e-6)):
        if end is not None:
            look(what, document, folder, path, key, end, True)
            look(what, document, folder, path, key, beyond(end, by), False)


def check_needed(what, document, folder, path, key):
    other = copy.deepcopy(document)
    del at(other, path)[key["key"]]
    here = written(path + (key["key"],))
    Tally.needed += 1
    said = refusals(READ_AS[what], other, folder)
    # Where objects of several kinds stand, the key that tells them apart is missed by any kind's name.
    kinds = GROUPS[what, general(path)]
    meant = [here, written(path), *(written(path + (group["keys"][0]["key"],)) for group in kinds if len(kinds) > 1)]
    if not any(code == "missing-key" and p in meant for code, p in said):
        Tally.failed.append(f"{what}: without {here}: {said[:3]}")


GROUPS = {}
for described in DESCRIPTION["documents"]:
    for group in described["groups"]:
        GROUPS.setdefault((described["document"], group["path"]), []).append(group)

RANGED = ("quantity", "pair", "whole", "word_or_quantity")


def has_range(key):
    return (key["least"] or key["most"]) and key["value"] in RANGED


SURVEY = json.loads((ROOT / "examples/first-answer/survey.json").read_text())
documents = [("survey", {**SURVEY, "scenarios": [{"use": use, size: 100}]}, ROOT)
             for use, size in (("hotel", "rooms"), ("hospital", "beds"), ("school", "pupils"), ("restaurant", "seats"))]
documents += [("case", {"case": 1, "findings": [{"kind": "hum", "confidence": 0.5}]}, ROOT)]
documents += [("case", {"case": 1, "findings": [{"finding": "creep", "strength": 0.6}]}, ROOT)]
SITE = "0b8c9f3e-5a51-4d5e-9d0e-2f6f1c7a8b90"
HEAD = {"record": 1, "id": "5f2b8c1e-0d34-4a77-9b0c-7e2f4d6a8c10", "site": SITE, "who": "ana", "at": "2026-11-20T21:40:00-07:00"}
VISIT = {"purpose": "service", "day": "2026-11-19", "strainer": {"loss": "3 psi", "flow": "20 gpm"}}
PHOTO = {"sha256": "0" * 64, "size": 9, "type": "image/jpeg"}
documents += [("record", {**HEAD, **more}, ROOT) for more in (
    {"kind": "visit", "body": VISIT}, {"kind": "photo", "body": PHOTO}, {"kind": "log", "body": {**PHOTO, "survey": SITE, "name": "log.csv"}},
    {"kind": "site", "document": SITE, "parents": [], "body": {"name": "Cedar Court"}},
    {"kind": "plan", "document": SITE, "parents": [], "body": {"every_months": 12, "first": "2027-01-31"}})]
for source in [*sorted(ROOT.glob("examples/**/*.json")), *sorted(ROOT.glob("tests/refused/every*.json")),
               *sorted(ROOT.glob("tests/data/**/*.json"))]:
    try:
        document = json.loads(source.read_text(encoding="utf-8-sig"))
    except ValueError:
        continue
    what = next((w for w in READ_AS if isinstance(document, dict) and document.get(w) == 1), None)
    if what is not None and len(json.dumps(document)) <= 40000:
        documents.append((what, document, source.parent))

# Keys that stand somewhere, and then those that only could.
for is_there in (True, False):
    for what, document, folder in documents:
        for path, node in list(nodes(document)):
            for group in GROUPS.get((what, general(path)), []) if isinstance(node, dict) else []:
                if len(GROUPS[what, general(path)]) > 1 and group["keys"][0]["key"] not in node:
                    continue  # an object of another kind
                for key in group["keys"]:
                    if (key["key"] in node) != is_there:
                        continue
                    if is_there and key["needed"] is True and ("needed", what, key["path"]) not in Tally.seen:
                        Tally.seen.add(("needed", what, key["path"]))
                        check_needed(what, document, folder, path, key)
                    if has_range(key) and (what, key["path"]) not in Tally.seen:
                        Tally.seen.add((what, key["path"]))
                        check_ends(what, document, folder, path, key)

ranged = {(d["document"], key["path"]) for d in DESCRIPTION["documents"] for group in d["groups"] for key in group["keys"]
          if has_range(key)}
for missed in sorted(ranged - Tally.seen):
    Tally.failed.append(f"in no example: {missed}")
judge.stdin.close()
for line in Tally.failed[:60]:
    print(line)
print(f"{Tally.ends} ends and beyond, {Tally.needed} needed keys, {len(Tally.failed)} wrong")
sys.exit(1 if Tally.failed else 0)
