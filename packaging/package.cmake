# What is installed, and the .deb made of it (`./workshop package`).
include(GNUInstallDirs)
set(here ${CMAKE_CURRENT_LIST_DIR})

install(TARGETS dryfit dryfit-bench)
install(DIRECTORY models/ DESTINATION ${CMAKE_INSTALL_DATADIR}/dryfit/models
        FILES_MATCHING PATTERN *.dryfit PATTERN *.json PATTERN *.md PATTERN pictures EXCLUDE)
install(FILES README.md ${here}/copyright DESTINATION ${CMAKE_INSTALL_DOCDIR})

# The bench on the desktop: its entry, its icon, its kind of file.
install(FILES ${here}/dryfit-bench.desktop DESTINATION ${CMAKE_INSTALL_DATADIR}/applications)
install(FILES ${here}/dryfit-bench.svg
        DESTINATION ${CMAKE_INSTALL_DATADIR}/icons/hicolor/scalable/apps)
install(FILES ${here}/dryfit.xml DESTINATION ${CMAKE_INSTALL_DATADIR}/mime/packages)

# Debian wants its manual pages packed.
find_program(GZIP gzip)
foreach(page dryfit dryfit-bench)
  set(manual ${PROJECT_BINARY_DIR}/man/${page}.1)
  configure_file(${here}/man/${page}.1.in ${manual} @ONLY)
  if(GZIP)
    execute_process(COMMAND ${GZIP} -9nkf ${manual} COMMAND_ERROR_IS_FATAL ANY)
    string(APPEND manual .gz)
  endif()
  install(FILES ${manual} DESTINATION ${CMAKE_INSTALL_MANDIR}/man1)
endforeach()

# Beside the libraries that the programs are linked with, the packages of the list's [run].
set_property(DIRECTORY ${PROJECT_SOURCE_DIR} APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${here}/packages.txt)
file(STRINGS ${here}/packages.txt lines REGEX "^[a-z[]")
foreach(line IN LISTS lines)
  string(REGEX MATCH "^[^ ]+" word "${line}")
  if(word MATCHES "^\\[")
    set(heading ${word})
  elseif(heading STREQUAL "[run]")
    list(APPEND run ${word})
  endif()
endforeach()
list(JOIN run ", " CPACK_DEBIAN_PACKAGE_DEPENDS)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
# Whatever the builder's umask, everybody may read what is installed.
set(CPACK_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS
    OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE WORLD_READ WORLD_EXECUTE)

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME dryfit)
set(CPACK_PACKAGE_CONTACT "The makers of Dryfit <dryfit@example.invalid>")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "solid modelling of joinery, with a dry fit before the first cut")
set(CPACK_PACKAGE_DESCRIPTION
    "Dryfit models every part of a piece of furniture as a true solid, cuts both halves of every joint
from one set of numbers and tries the whole piece together. It makes cut lists, drawings, layouts of
boards and sheets, and STEP files. The package holds the command dryfit and the bench window.")
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION graphics)
set(CPACK_DEBIAN_PACKAGE_PRIORITY optional)
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
include(CPack)
