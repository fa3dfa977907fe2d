# Every compiler flag of the project, on one interface target.
add_library(quell_flags INTERFACE)

set(both -Wall -Wextra -Wpedantic -Wconversion -Wsign-conversion
         -Wfloat-conversion -Wshadow -Wcast-qual -Wcast-align -Wpointer-arith -Wwrite-strings
         -Wstrict-prototypes -Wmissing-prototypes -Wformat=2 -Wundef -Wvla -Wswitch-enum
         -Wimplicit-fallthrough -Wnull-dereference -Wframe-larger-than=16384)
# clang sees a promotion in every NAN of the C library, so -Wdouble-promotion is gcc's alone.
set(gcc -Wdouble-promotion -Wduplicated-cond -Wduplicated-branches -Wlogical-op
        -Wjump-misses-init -Walloc-zero -Wtrampolines -Wformat-signedness)
set(clang -Wmissing-variable-declarations -Wcomma -Wassign-enum -Wconditional-uninitialized
          -Wunreachable-code -Wloop-analysis -Wshorten-64-to-32 -Wextra-semi-stmt)

# Nothing reads errno after mathematics, so a root need be no more than one instruction.
target_compile_options(quell_flags INTERFACE
    ${both}
    $<$<C_COMPILER_ID:GNU>:${gcc}>
    $<$<C_COMPILER_ID:Clang>:${clang}>
    -ffp-contract=off -fno-math-errno -fno-common
    -fvisibility=$<IF:$<BOOL:${QUELL_SHARED_CORE}>,default,hidden>
    $<$<BOOL:${QUELL_WERROR}>:-Werror>
    $<$<CONFIG:Release>:-U_FORTIFY_SOURCE -D_FORTIFY_SOURCE=2>)
if(QUELL_DOOR_ONLY)
    # The tokeniser is a header alone, in a folder of the system's that must not be searched for another one; the same bytes
    # wherever it is built.
    find_file(QUELL_JSMN jsmn.h PATHS /usr/include NO_CMAKE_FIND_ROOT_PATH REQUIRED)
    configure_file(${QUELL_JSMN} ${CMAKE_BINARY_DIR}/borrowed/jsmn.h COPYONLY)
    target_include_directories(quell_flags SYSTEM INTERFACE ${CMAKE_BINARY_DIR}/borrowed)
    target_compile_options(quell_flags INTERFACE -ffile-prefix-map=${PROJECT_SOURCE_DIR}/=
                           -ffile-prefix-map=${CMAKE_BINARY_DIR}/=)
    if(CMAKE_SYSTEM_PROCESSOR STREQUAL wasm32)
        target_include_directories(quell_flags SYSTEM INTERFACE ${PROJECT_SOURCE_DIR}/web/engine/traps)
    endif()
else()
    target_compile_options(quell_flags INTERFACE -fstack-protector-strong)
endif()
# What turns an overrun into a stop: addresses that nobody knows, tables that cannot be written, calls that lead where they
# may (tests/shape/check_hardening.sh).
if(CMAKE_SYSTEM_NAME STREQUAL Linux)
    target_link_options(quell_flags INTERFACE -Wl,--as-needed,-z,relro,-z,now,-z,noexecstack)
    if(CMAKE_SYSTEM_PROCESSOR MATCHES "x86_64|AMD64")
        target_compile_options(quell_flags INTERFACE -fcf-protection)
    endif()
endif()
target_include_directories(quell_flags INTERFACE
    ${PROJECT_SOURCE_DIR}/include ${PROJECT_SOURCE_DIR}/src)
target_link_libraries(quell_flags INTERFACE m)

if(QUELL_SANITIZE)
    # Red zones and slots never shared swell a frame; the limit is held by the plain builds.
    set(sanitize -fsanitize=${QUELL_SANITIZE} -fno-sanitize-recover=all -fno-omit-frame-pointer
                 -Wno-frame-larger-than)
    target_compile_options(quell_flags INTERFACE ${sanitize})
    string(REPLACE "fuzzer-no-link" "" link_sanitize "${QUELL_SANITIZE}")
    string(REGEX REPLACE ",$" "" link_sanitize "${link_sanitize}")
    target_link_options(quell_flags INTERFACE -fsanitize=${link_sanitize})
endif()
