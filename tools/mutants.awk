# awk -v seed=N -f tools/mutants.awk FILE...: what tools/mutate.sh may change in these C files, in an order that depends on
# the seed alone. A line each, tabs between: kind, file, line, column, length, what stands there, what is put there. The kinds
# take turns, so that constants, which are many, do not crowd the rest out.

# Park and Miller's generator, exact in doubles; the same in every awk.
function random() {
    state = (state * 16807) % 2147483647
    return state / 2147483647
}

function candidate(kind, at, old, new) {
    if (kind in count) count[kind]++; else count[kind] = 1
    found[kind, count[kind]] = kind "\t" FILENAME "\t" FNR "\t" at "\t" length(old) "\t" substr($0, at, length(old)) "\t" new
}

# The line with comments, texts and characters blanked, as long as it was.
function blanked(line,    out, i, c, quote) {
    out = ""
    quote = ""
    for (i = 1; i <= length(line); i++) {
        c = substr(line, i, 1)
        if (in_comment) {
            if (substr(line, i, 2) == "*/") { in_comment = 0; out = out "~"; i++ }
            out = out "~"
        } else if (quote != "") {
            out = out "~"
            if (c == "\\") { out = out "~"; i++ }
            else if (c == quote) quote = ""
        } else if (substr(line, i, 2) == "/*") {
            in_comment = 1
            out = out "~~"
            i++
        } else if (c == "\"" || c == "'") {
            quote = c
            out = out "~"
        } else out = out c
    }
    return out
}

# Whether the comparison at a place only picks the greater or the less of what it compares, "a > b ? a : b": it does so at
# equality too.
function picks(code, at, old,    left, right, rest, one, other) {
    left = substr(code, 1, at - 1)
    sub(/.*[ (!]/, "", left)
    rest = substr(code, at + length(old))
    if (!match(rest, /^[^ ]+ \? /)) return 0
    right = substr(rest, 1, RLENGTH - 3)
    rest = substr(rest, RLENGTH + 1)
    if (!match(rest, /^[^ ]+ : /)) return 0
    one = substr(rest, 1, RLENGTH - 3)
    other = substr(rest, RLENGTH + 1)
    sub(/[;,) ].*/, "", other)
    return one == left && other == right || one == right && other == left
}

# Every place of a text in the line.
function every(kind, code, old, new,    from, at) {
    from = 1
    while ((at = index(substr(code, from), old)) > 0) {
        if (kind != "comparison" || !picks(code, from + at - 1, old)) candidate(kind, from + at - 1, old, new)
        from += at + length(old) - 1
    }
}

function numbers(code,    from, at, text, before, after) {
    from = 1
    while (match(substr(code, from), /[0-9]+(\.[0-9]+)?(e[-+]?[0-9]+)?/)) {
        at = from + RSTART - 1
        text = substr(code, at, RLENGTH)
        before = at > 1 ? substr(code, at - 1, 1) : " "
        after = substr(code, at + RLENGTH, 1)
        from = at + RLENGTH
        if (before ~ /[A-Za-z0-9_.]/ || after ~ /[A-Za-z0-9_.]/) continue
        if (text ~ /[.e]/) candidate("constant", at, text, text + 0 == 0 ? "1.0" : sprintf("(1.1 * %s)", text))
        else if (before == "{" && text == "0" && after == "}") continue
        else candidate("constant", at, text, random() < 0.5 && text > 0 ? text - 1 : text + 1)
    }
}

function arguments(code,    from, at, text, inner, comma) {
    from = 1
    while (match(substr(code, from), /[a-z0-9_]\([a-z][a-zA-Z0-9_.>-]*, [a-z][a-zA-Z0-9_.>-]*[,)]/)) {
        at = from + RSTART + 1
        text = substr(code, at, RLENGTH - 3)
        comma = index(text, ", ")
        candidate("arguments", at, text, substr(text, comma + 2) ", " substr(text, 1, comma - 1))
        from = at + RLENGTH - 3
    }
}

function statement(code,    at, text) {
    at = match(code, /[^ ]/)
    text = substr(code, at)
    if (text ~ /^(continue|break);$/ || text ~ /^[a-z_]+[a-z0-9_]*\(.*\);$/ || text ~ /^[a-z_][^ ]*(\+\+|--);$/ ||
        text ~ /^\*?[a-z_][a-z0-9_.>\[\]-]* [-+*\/|&]?= .*;$/) candidate("statement", at, text, ";")
}

BEGIN {
    state = seed * 7919 % 2147483646 + 1
    for (i = 0; i < 10; i++) random()
}

FNR == 1 {
    in_comment = 0
    ended = 1
    preprocessor = 0
}

{
    code = blanked($0)
    if (preprocessor || code ~ /^ *#/) {
        preprocessor = code ~ /\\$/
        next
    }
    # Only what is in a function or a table: a declaration stands at the margin.
    if (code !~ /^ / || code ~ /(^|[^a-z_])(assert|_Static_assert)\(/) {
        ended = code ~ /[;{}:~]$/ || code == ""
        next
    }
    every("comparison", code, " < ", " <= ")
    every("comparison", code, " <= ", " < ")
    every("comparison", code, " > ", " >= ")
    every("comparison", code, " >= ", " > ")
    every("comparison", code, " == ", " != ")
    every("comparison", code, " != ", " == ")
    every("operator", code, " + ", " - ")
    every("operator", code, " - ", " + ")
    every("operator", code, " * ", " / ")
    every("operator", code, " / ", " * ")
    every("operator", code, " += ", " -= ")
    every("operator", code, " && ", " || ")
    every("operator", code, " || ", " && ")
    every("operator", code, "fmin(", "fmax(")
    every("operator", code, "fmax(", "fmin(")
    every("operator", code, "(!", "(")
    every("operator", code, " !", " ")
    every("constant", code, "true", "false")
    every("constant", code, "false", "true")
    numbers(code)
    arguments(code)
    if (ended) statement(code)
    if (code !~ /^[ ~]*$/) ended = code ~ /[;{}:~] *$/
}

# Fisher and Yates within a kind, then the kinds in turn.
END {
    kinds = split("comparison operator constant statement arguments", kind, " ")
    most = 0
    for (k = 1; k <= kinds; k++) {
        n = count[kind[k]] + 0
        if (n > most) most = n
        for (i = n; i > 1; i--) {
            j = 1 + int(random() * i)
            text = found[kind[k], i]
            found[kind[k], i] = found[kind[k], j]
            found[kind[k], j] = text
        }
    }
    for (i = 1; i <= most; i++)
        for (k = 1; k <= kinds; k++)
            if (i <= count[kind[k]] + 0) print found[kind[k], i]
}
