# cmake -P tools/check_literals.cmake   (from the repository root)
#
# Sentences that people read stand in src/wording, once per language: elsewhere a text with two words
# side by side is found here, unless its file is listed below with the reason.
get_filename_component(root ${CMAKE_CURRENT_LIST_DIR}/.. ABSOLUTE)

set(allowed
    # names of commands
    src/cli/commands.c
    # what a field means, and its default, for the tables of docs/formats: the manual is in English
    src/documents/case_fields.c src/documents/catalogue_fields.c src/documents/survey_fields.*.c src/documents/read_costs.c
    # spellings of units, and what a kind of quantity is called in the manual and in calc's JSON
    src/base/kind.h src/base/units_table.c src/base/units.c src/base/units_write.c
    # words of a survey, names of standards, and sources that tests and the manual read
    src/physics/.*.c src/station/site.c src/demand/end_uses.c src/demand/scenario.h src/demand/usual.h src/demand/flow_run.h
    # markup, and names in files that are not read by people
    src/report/html.c src/report/svg.c src/paper/.*
    # what the system or a library says
    src/host/.*
    # the manual's sentences of the codes and of what is mended in a log
    include/.* src/signals/flow_log.h
    # words of machine documents
    src/documents/write_station.c src/documents/write_common.c
    # names that a catalogue gets where it has none
    src/engine/ask_fit.c src/engine/prepare.c src/documents/import_catalogue.c
    # an assertion
    src/base/document.c
    # how a valve's kind is written: words of a survey, and keys
    src/documents/valve_by_size.c src/documents/read_supply.c)

file(GLOB_RECURSE files RELATIVE ${root} ${root}/src/*.[ch])
set(found 0)
foreach(file IN LISTS files)
    if(file MATCHES "^src/wording/")
        continue()
    endif()
    set(is_allowed FALSE)
    foreach(pattern IN LISTS allowed)
        if(file MATCHES "^${pattern}$")
            set(is_allowed TRUE)
        endif()
    endforeach()
    file(STRINGS ${root}/${file} lines REGEX "\"[^\"]*[a-z][a-z]+ [a-z][a-z]+")
    foreach(line IN LISTS lines)
        # A comment's line, an include, and what stands behind a comment on a line of code.
        string(REGEX REPLACE "/\\*.*" "" code "${line}")
        if(code STREQUAL line AND line MATCHES "\\*/ *$")
            continue()
        endif()
        # What the compiler checks, and tells whoever works on quell.
        if(code MATCHES "^static_assert")
            continue()
        endif()
        # A calculation's formula, and a step's numbers in JSON.
        if(file MATCHES "^src/handbook/calc_" AND code MATCHES "\\.formula = |%\\.[0-9]+g")
            continue()
        endif()
        if(is_allowed OR code MATCHES "^ *\\*" OR NOT code MATCHES "^[^\"]*(\"[^\"]*\"[^\"]*)*\"[^\"]*[a-z][a-z]+ [a-z][a-z]+[^\"]*\"")
            continue()
        endif()
        message("${file}: ${code}")
        math(EXPR found "${found} + 1")
    endforeach()
endforeach()
if(found GREATER 0)
    message(FATAL_ERROR "${found} sentences outside src/wording")
endif()
