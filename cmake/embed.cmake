# quell_embed(target file...): each data file becomes a byte array in the target.
#
# The array is `const unsigned char qll_file_<symbol>[]`, its length without the closing zero byte
# `const size_t qll_file_<symbol>_size`. base/files.h declares them, or the header that QUELL_EMBED_HEADER names.
set(QUELL_EMBED_SCRIPT ${CMAKE_CURRENT_LIST_DIR}/embed_file.cmake)

function(quell_embed target)
    set(header base/files.h)
    if(DEFINED QUELL_EMBED_HEADER)
        set(header ${QUELL_EMBED_HEADER})
    endif()
    foreach(file IN LISTS ARGN)
        get_filename_component(name ${file} NAME_WE)
        string(MAKE_C_IDENTIFIER ${name} symbol)
        set(output ${CMAKE_BINARY_DIR}/embedded/${symbol}.c)
        add_custom_command(
            OUTPUT ${output}
            COMMAND ${CMAKE_COMMAND} -DINPUT=${file} -DOUTPUT=${output} -DSYMBOL=${symbol} -DHEADER=${header}
                    -P ${QUELL_EMBED_SCRIPT}
            DEPENDS ${file} ${QUELL_EMBED_SCRIPT}
            VERBATIM)
        target_sources(${target} PRIVATE ${output})
    endforeach()
endfunction()
