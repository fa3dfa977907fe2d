#!/bin/sh
# sbom.sh PROGRAM PAGE VERSION: what PROGRAM is made of, as an SPDX 2.3 document in JSON: the shared libraries that it asks
# for, and what is compiled in, each by its row of PAGE (THIRD_PARTY.md). A library without a row is a failure.
set -eu
export LC_ALL=C
program=$1
page=$2
version=$3
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

# What sanitizers and the compiler add is not named, as on the page.
readelf -d "$program" | sed -n 's/.*(NEEDED).*\[\(.*\)\]/\1/p' | grep -vE '^lib(asan|ubsan|tsan|gcc_s|clang_rt.*)\.so|^ld-' >"$work/needed"
# The version of a file's package, where a package manager can tell.
while read -r library; do
    path=$(readlink -f "$(ldd "$program" | awk -v library="$library" '$1 == library { print $3 }')")
    # A package may know the file without /usr.
    package=$({ dpkg-query -S "$path" || dpkg-query -S "${path#/usr}"; } 2>/dev/null | sed 's/: .*//' | head -1 || true)
    number=$( [ -n "$package" ] && dpkg-query -W -f '${Version}' "$package" 2>/dev/null || echo NOASSERTION)
    printf '%s\t%s\n' "$library" "$number"
done <"$work/needed" >"$work/versions"

created=$(date -u -d "@${SOURCE_DATE_EPOCH:-$(date +%s)}" +%Y-%m-%dT%H:%M:%SZ)
sum=$(sha256sum "$program" | cut -c1-64)
awk -v versions="$work/versions" -v version="$version" -v created="$created" -v sum="$sum" '
    function text(s) { gsub(/\\/, "\\\\", s); gsub(/"/, "\\\"", s); return "\"" s "\"" }
    function trim(s) { gsub(/^ +| +$/, "", s); return s }
    function id(s) { gsub(/[^A-Za-z0-9.-]+/, "-", s); gsub(/^-|-$/, "", s); return "SPDXRef-" s }
    function package(name, number, license, where,    line) {
        # "MIT (notice 1)", "OFL-1.1, https://…": the expression stands first.
        sub(/ *[(,].*/, "", license)
        sub(/ https?:.*/, "", license)
        gsub(/CC BY-SA 4.0/, "CC-BY-SA-4.0", license)
        gsub(/CC BY 4.0/, "CC-BY-4.0", license)
        sub(/^public domain$/, "LicenseRef-public-domain", license)
        line = "    {\"SPDXID\": " text(id(name)) ", \"name\": " text(name) ", \"versionInfo\": " text(number) ",\n"
        line = line "     \"downloadLocation\": " text(where) ", \"filesAnalyzed\": false,\n"
        line = line "     \"licenseConcluded\": \"NOASSERTION\", \"licenseDeclared\": " text(license) ", \"copyrightText\": \"NOASSERTION\"}"
        packages = packages ",\n" line
    }
    function related(name, how) {
        relations = relations ",\n    {\"spdxElementId\": \"SPDXRef-quell\", \"relationshipType\": \"" how "\", \"relatedSpdxElement\": " text(id(name)) "}"
    }
    BEGIN {
        FS = "|"
        while ((getline line < versions) > 0) { split(line, part, "\t"); number[part[1]] = part[2] }
        packages = "    {\"SPDXID\": \"SPDXRef-quell\", \"name\": \"quell\", \"versionInfo\": " text(version) ",\n" \
            "     \"downloadLocation\": \"NOASSERTION\", \"filesAnalyzed\": false, \"checksums\": [{\"algorithm\": \"SHA256\", \"checksumValue\": \"" sum "\"}],\n" \
            "     \"licenseConcluded\": \"NOASSERTION\", \"licenseDeclared\": \"MIT AND CC-BY-SA-4.0\", \"copyrightText\": \"NOASSERTION\"}"
        relations = "    {\"spdxElementId\": \"SPDXRef-DOCUMENT\", \"relationshipType\": \"DESCRIBES\", \"relatedSpdxElement\": \"SPDXRef-quell\"}"
    }
    /^## / { section = substr($0, 4); rows = 0; next }
    !/^\| / { next }
    { rows++ }
    rows == 1 { next }
    section == "Linked" {
        name = trim($2)
        found = ""
        for (library in number) {
            stem = library
            sub(/\.so.*/, ".so", stem)
            if (index($3, "`" stem "`")) { found = number[library]; seen[library] = 1 }
        }
        if (found != "") { package(name, found, trim($5), trim($6)); related(name, "DYNAMIC_LINK") }
    }
    section == "Compiled in" { name = trim($2); package(name, trim($5), trim($6), trim($7)); related(name, "STATIC_LINK") }
    section == "Data" {
        name = trim($2)
        if (match($5, /https?:[^ ]+$/)) $5 = substr($5, 1, RSTART - 1)
        package(name, trim($4), trim($5), trim($6))
        related(name, "CONTAINS")
    }
    END {
        for (library in number) if (!(library in seen)) { print "no row of the page names " library | "cat >&2"; failed = 1 }
        print "{\n  \"spdxVersion\": \"SPDX-2.3\", \"dataLicense\": \"CC0-1.0\", \"SPDXID\": \"SPDXRef-DOCUMENT\", \"name\": \"quell-" version "\","
        print "  \"documentNamespace\": \"https://spdx.org/spdxdocs/quell-" version "-" sum "\","
        print "  \"creationInfo\": {\"created\": \"" created "\", \"creators\": [\"Tool: quell-sbom.sh\"]},"
        print "  \"hasExtractedLicensingInfos\": [{\"licenseId\": \"LicenseRef-public-domain\", \"extractedText\": \"work of the US government, in the public domain\"}],"
        print "  \"packages\": [\n" packages "\n  ],\n  \"relationships\": [\n" relations "\n  ]\n}"
        exit failed
    }' "$page"
