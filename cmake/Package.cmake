# What `cmake --install` puts where, and the Debian package (`cpack -G DEB` in the build folder).
# The app goes along where it is built into dist/ (./run app --build) before.
include(GNUInstallDirs)
add_custom_target(product DEPENDS fallwright fallwright-paper fallwright-serve)
install(TARGETS fallwright fallwright-paper fallwright-serve RUNTIME)
install(FILES ${CMAKE_SOURCE_DIR}/man/fallwright.1 DESTINATION ${CMAKE_INSTALL_MANDIR}/man1)
install(FILES ${CMAKE_SOURCE_DIR}/completions/fallwright DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions)
install(DIRECTORY ${CMAKE_SOURCE_DIR}/dist/ DESTINATION ${CMAKE_INSTALL_DATADIR}/fallwright/app OPTIONAL)
install(DIRECTORY ${CMAKE_SOURCE_DIR}/examples DESTINATION ${CMAKE_INSTALL_DOCDIR})
install(FILES ${CMAKE_SOURCE_DIR}/packaging/copyright ${CMAKE_SOURCE_DIR}/CHANGELOG.md DESTINATION ${CMAKE_INSTALL_DOCDIR})

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME fallwright)
set(CPACK_PACKAGE_CONTACT "Fallwright <fallwright@localhost>")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "levels and falls with staff, laser and receiver")
set(CPACK_PACKAGE_DESCRIPTION
    "The book of a job that is levelled, from the benchmark to what was laid: levels,
falls, the booked page, what to set on the laser, what the staff must read, and
whether what was laid is within its tolerance, each with its uncertainty.")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION science)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
# A PDF without a font would be empty.
set(CPACK_DEBIAN_PACKAGE_DEPENDS "fonts-liberation | fonts-dejavu-core")
set(CPACK_DEBIAN_PACKAGE_SUGGESTS "bash-completion")
include(CPack)
