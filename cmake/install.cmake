# What `cmake --install` puts where: the program, and the library with all that another program needs to be built on it.
include(CMakePackageConfigHelpers)
set(package_folder ${CMAKE_INSTALL_LIBDIR}/cmake/quell)

install(TARGETS quell RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR} COMPONENT program)
install(FILES ${PROJECT_SOURCE_DIR}/man/quell.1 DESTINATION ${CMAKE_INSTALL_MANDIR}/man1 COMPONENT program)
# The page for browsers, where ./dev web has made it.
install(DIRECTORY ${PROJECT_SOURCE_DIR}/build/web/page DESTINATION ${CMAKE_INSTALL_DATADIR}/quell OPTIONAL COMPONENT program)
install(FILES ${PROJECT_SOURCE_DIR}/build/web/quell.html DESTINATION ${CMAKE_INSTALL_DATADIR}/quell OPTIONAL COMPONENT program)
install(FILES ${PROJECT_SOURCE_DIR}/LICENSE ${PROJECT_SOURCE_DIR}/THIRD_PARTY.md DESTINATION ${CMAKE_INSTALL_DOCDIR}
        COMPONENT program)

# What the program is made of, as other tools read it.
find_program(QUELL_READELF readelf)
if(CMAKE_SYSTEM_NAME STREQUAL Linux AND QUELL_READELF AND NOT QUELL_SANITIZE AND NOT QUELL_SHARED_CORE)
    add_custom_command(OUTPUT ${CMAKE_BINARY_DIR}/quell.spdx.json
        COMMAND sh ${PROJECT_SOURCE_DIR}/tools/sbom.sh $<TARGET_FILE:quell> ${PROJECT_SOURCE_DIR}/THIRD_PARTY.md ${PROJECT_VERSION}
                > ${CMAKE_BINARY_DIR}/quell.spdx.json
        DEPENDS quell ${PROJECT_SOURCE_DIR}/tools/sbom.sh ${PROJECT_SOURCE_DIR}/THIRD_PARTY.md)
    add_custom_target(quell_sbom ALL DEPENDS ${CMAKE_BINARY_DIR}/quell.spdx.json)
    install(FILES ${CMAKE_BINARY_DIR}/quell.spdx.json DESTINATION ${CMAKE_INSTALL_DOCDIR} COMPONENT program)
endif()

install(TARGETS quell_shared EXPORT quell
        LIBRARY DESTINATION ${CMAKE_INSTALL_LIBDIR} COMPONENT library NAMELINK_COMPONENT development)
install(TARGETS quell_core EXPORT quell
        ARCHIVE DESTINATION ${CMAKE_INSTALL_LIBDIR} COMPONENT development)
install(DIRECTORY ${PROJECT_SOURCE_DIR}/include/quell DESTINATION ${CMAKE_INSTALL_INCLUDEDIR}
        COMPONENT development FILES_MATCHING PATTERN "*.h")

# find_package(quell): quell::quell is shared, quell::static is not.
install(EXPORT quell NAMESPACE quell:: FILE quell-config.cmake DESTINATION ${package_folder}
        COMPONENT development)
write_basic_package_version_file(${CMAKE_BINARY_DIR}/quell-config-version.cmake
                                 VERSION ${PROJECT_VERSION} COMPATIBILITY SameMinorVersion)
install(FILES ${CMAKE_BINARY_DIR}/quell-config-version.cmake DESTINATION ${package_folder}
        COMPONENT development)

file(CONFIGURE OUTPUT ${CMAKE_BINARY_DIR}/quell.pc @ONLY CONTENT [[
prefix=${pcfiledir}/../..
includedir=${prefix}/@CMAKE_INSTALL_INCLUDEDIR@
libdir=${pcfiledir}/..

Name: quell
Description: @PROJECT_DESCRIPTION@
Version: @PROJECT_VERSION@
Cflags: -I${includedir}
Libs: -L${libdir} -lquell
Libs.private: -lm
]])
install(FILES ${CMAKE_BINARY_DIR}/quell.pc DESTINATION ${CMAKE_INSTALL_LIBDIR}/pkgconfig COMPONENT development)

# `cpack -G DEB`: one package for each of the three.
set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME quell)
set(CPACK_PACKAGE_VERSION ${PROJECT_VERSION})
set(CPACK_PACKAGE_CONTACT "the makers of quell <quell@localhost>")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY ${PROJECT_DESCRIPTION})
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_NAME quell)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_DEPENDS fonts-inter)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_LIBRARY_PACKAGE_NAME libquell${PROJECT_VERSION_MAJOR})
set(CPACK_DEBIAN_LIBRARY_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_NAME libquell-dev)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_DEPENDS "libquell${PROJECT_VERSION_MAJOR} (= ${PROJECT_VERSION})")
include(CPack)
