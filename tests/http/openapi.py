"""The description of the API: sound, whole, and true of what is taken and refused.

    openapi.py QUELL ROOT
"""
import json
import os
import re
import sys

from served import Server, check, end, text_of

try:
    import jsonschema
except ImportError:
    print("skipped: there is no python3-jsonschema")
    sys.exit(77)

quell, root = map(os.path.abspath, sys.argv[1:])
os.chdir(root)
server = Server(quell)
status, head, body = server.ask("GET", "/api/openapi.json")
check(status == 200 and head["Content-Type"] == "application/json", status)
api = json.loads(body)
check(api["openapi"] == "3.1.0" and api["info"]["title"] == "quell", api["info"])
schemas = api["components"]["schemas"]
store = {schema["$id"]: schema for schema in schemas.values() if "$id" in schema}
check(set(store) == {"/api/schemas/survey", "/api/schemas/case", "/api/schemas/catalogue", "/api/schemas/record"}, sorted(store))


def validator(schema):
    whole = {"components": api["components"], **schema}
    jsonschema.Draft202012Validator.check_schema(schema)
    return jsonschema.Draft202012Validator(whole, resolver=jsonschema.RefResolver("", whole, store=store))


def takes(verb, question):
    schema = api["paths"][f"/api/{verb}"]["post"]["requestBody"]["content"]["application/json"]["schema"]
    return not list(validator(schema).iter_errors(question))


# What the schema takes the server answers or refuses for what stands in it; what it does not take is refused as a question.
house = text_of("examples/house/survey.json")
questions = [
    ("design", {"document": house}, True),
    ("design", json.loads(house["text"]), True),
    ("design", {"document": house, "language": "es", "units": "si", "parts": "points", "form": "json"}, True),
    ("design", {"document": house, "flow": "1 gpm"}, False),
    ("design", {"document": house["text"]}, False),
    ("design", {}, False),
    ("design", {"document": {**house, "path": "/etc/passwd"}}, False),
    ("design", {"document": house, "form": "pdf"}, False),
    ("design", {"document": house, "units": 1}, False),
    ("report", {"document": house, "form": "pdf"}, True),
    ("demand", {"document": house, "attachments": [text_of("examples/metered/last-tenant.csv")]}, True),
    ("demand", {"document": house, "attachments": text_of("examples/metered/last-tenant.csv")}, False),
    ("demand", {"document": house, "catalogue": house}, False),
    ("calc", {"calc": "velocity", "arguments": ["flow=1 gpm", "bore=1 in"]}, True),
    ("calc", {"calc": "velocity", "arguments": "flow=1 gpm"}, False),
    ("calc", {"calc": "velocity", "help": 1}, False),
    ("list", {}, True),
    ("list", {"document": house}, False),
]
for verb, question, wanted in questions:
    check(takes(verb, question) == wanted, verb, question, "by the schema")
    code = server.answer(verb, question)[0]
    check((code != 400) == wanted, verb, question, code)

# Every path that the program knows is described, and the other way round: what is not described is not there.
words = re.findall(r'X\([A-Z]+, "([a-z]+)"\)', open("include/quell/quell.h").read().split("QLL_PART_LIST")[0])
check(len(words) >= 14 and all(f"/api/{word}" in api["paths"] for word in words), words)
for path, methods in api["paths"].items():
    for method, operation in methods.items():
        check(operation["summary"] and "default" in operation["responses"], path, method)
        asked = path.replace("{id}", "0" * 32)
        body = "{}" if "requestBody" in operation else None
        code = server.ask(method.upper(), asked, body, {"Content-Type": next(iter(operation["requestBody"]["content"]))} if body else None)[0]
        check(code not in (405, 413, 415) and (code != 404 or "{id}" in path or path in ("/api/session",) or "store" in json.dumps(operation) or server.ask("GET", "/api/changes")[0] == 404), path, method, code)
        other = "PUT" if "put" not in methods else "POST"
        check(server.ask(other, asked, "{}")[0] == 405, path, other)
    text = json.dumps(methods)
    for reference in re.findall(r'"\$ref": "([^"]+)"', text):
        check(reference in store or reference.rsplit("/", 1)[1] in schemas, reference)
# Records: what the schema takes is kept, what it does not take is refused; each status that comes is described.
site, parent = "0b8c9f3e-5a51-4d5e-9d0e-2f6f1c7a8b90", "5f2b8c1e-0d34-4a77-9b0c-7e2f4d6a8c10"
put = api["paths"]["/api/records/{id}"]["put"]
record = validator(put["requestBody"]["content"]["application/json"]["schema"])
check({"If-Match", "id", "mark"} == {one["name"] for one in put["parameters"]}, put["parameters"])


def kept(number, kind, body, **more):
    one = {"record": 1, "id": f"5f2b8c1e-0d34-4a77-9b0c-7e2f4d6a8c{number}", "kind": kind, "site": site, **more, "who": "ana", "at": "2026-11-20T21:40:00-07:00", "body": body}
    match = {"If-Match": ", ".join(f'"{each}"' for each in more["parents"])} if more.get("parents") else {}
    code = server.ask("PUT", f"/api/records/{one['id']}", one, match)[0]
    check(str(code) in put["responses"] or code == 422, "a status that is not described", code)
    check((code in (200, 201, 412)) == record.is_valid(one), kind, body, code)
    return code


check(kept(10, "site", {"name": "Cedar Court"}, document=site) == 201, "a site")
check(kept(10, "site", {"name": "Cedar Court"}, document=site) == 200, "again")
check(kept(11, "site", {"name": "Cedar"}, document=site, parents=[parent]) == 201, "a version")
check(kept(12, "site", {"name": "Court"}, document=site, parents=[parent]) == 412, "a conflict")
check(kept(13, "visit", {"purpose": "lunch"}) == 422, "no visit")
check(kept(14, "visit", {"purpose": "service"}, document=site) == 422, "a fact of a document")
check(kept(15, "plan", {"every_months": 0}, document=site) == 422, "no plan")
server.stop()
end()
