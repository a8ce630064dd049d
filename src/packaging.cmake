# What "cmake --install" puts where, and the .deb: cpack -G DEB in the build folder (needs dpkg-dev and file).
include(GNUInstallDirs)

install(TARGETS huewright RUNTIME DESTINATION "${CMAKE_INSTALL_BINDIR}")
if(TARGET huewright-desk)
  install(TARGETS huewright-desk RUNTIME DESTINATION "${CMAKE_INSTALL_BINDIR}")
  # Source: Desktop Entry Specification 1.5.
  file(CONFIGURE OUTPUT "${PROJECT_BINARY_DIR}/huewright-desk.desktop" @ONLY CONTENT
"[Desktop Entry]
Type=Application
Version=1.5
Name=Huewright
Comment=${PROJECT_DESCRIPTION}
Exec=huewright-desk %F
MimeType=image/jpeg;image/png;image/tiff;image/heif;
Categories=Graphics;Photography;
Terminal=false
")
  install(FILES "${PROJECT_BINARY_DIR}/huewright-desk.desktop" DESTINATION "${CMAKE_INSTALL_DATADIR}/applications")
endif()
# Not CMAKE_INSTALL_LIBDIR: the program looks in ../lib/huewright, seen from its own folder.
if(TARGET frames)
  install(TARGETS frames LIBRARY DESTINATION lib/huewright)
endif()
# Not CMAKE_INSTALL_DATADIR: the program looks in ../share, seen from its own folder.
install(DIRECTORY calib DESTINATION share/huewright)
# The sample job; in the build tree at the same place, as calib is (src/session/CMakeLists.txt).
foreach(sample on-the-mat.jpg with-chart.jpg teal-series.json)
  set(file "${PROJECT_SOURCE_DIR}/sample-images/${sample}")
  if(EXISTS "${file}")
    install(FILES "${file}" DESTINATION share/huewright/samples)
    file(MAKE_DIRECTORY "${PROJECT_BINARY_DIR}/share/huewright/samples")
    file(CREATE_LINK "${file}" "${PROJECT_BINARY_DIR}/share/huewright/samples/${sample}" SYMBOLIC)
  endif()
endforeach()

# The pages come compressed, without name and time, so that the same source makes the same package.
set(pages "${PROJECT_BINARY_DIR}/pages")
find_program(HUEWRIGHT_GZIP gzip REQUIRED)
add_custom_command(
  OUTPUT "${pages}/huewright.1.gz"
  COMMAND "${HUEWRIGHT_GZIP}" -9nkf "${pages}/huewright.1"
  DEPENDS "${pages}/huewright.1" VERBATIM)
add_custom_target(man_page ALL DEPENDS "${pages}/huewright.1.gz")
add_dependencies(man_page pages)
install(FILES "${pages}/huewright.1.gz" DESTINATION "${CMAKE_INSTALL_MANDIR}/man1")
install(FILES "${pages}/huewright.bash" DESTINATION "${CMAKE_INSTALL_DATADIR}/bash-completion/completions" RENAME huewright)

file(CONFIGURE OUTPUT "${PROJECT_BINARY_DIR}/copyright" @ONLY CONTENT
"Format: https://www.debian.org/doc/packaging-manuals/copyright-format/1.0/
Upstream-Name: Huewright

Files: *
Copyright: The Huewright authors
License: Apache-2.0
Comment: The tables in calib/ are published measurements and standards; each
 file names its source in its first lines.

License: Apache-2.0
 Licensed under the Apache License, Version 2.0. On Debian systems, its full
 text is in /usr/share/common-licenses/Apache-2.0.
")

# Laid out as in the source, so that the links between the documents hold.
set(documents "${CMAKE_INSTALL_DATADIR}/doc/huewright")
install(FILES README.md LICENSE "${PROJECT_BINARY_DIR}/copyright" DESTINATION "${documents}")
install(DIRECTORY docs DESTINATION "${documents}")
install(DIRECTORY sample-images DESTINATION "${documents}" PATTERN "*.sh" EXCLUDE)

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME huewright)
set(CPACK_PACKAGE_VENDOR "Huewright maintainers")
set(CPACK_PACKAGE_CONTACT "Huewright maintainers <maintainers@example.org>")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "judges a sprayed tint panel against a wanted colour from one photo")
set(CPACK_PACKAGE_DESCRIPTION
"Huewright helps people who spray transparent tint coats over a ground coat
to hit a wanted colour. From one photograph of the panel beside the wanted
colour and a grey patch, it tells how far off the panel is, how sure that is,
and what to change.")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE WORLD_READ WORLD_EXECUTE)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION graphics)
# Not CPACK_DEBIAN_PACKAGE_SHLIBDEPS: what only the module for cameras is linked with is recommended, and not needed.
set(CPACK_PRE_BUILD_SCRIPTS "${PROJECT_SOURCE_DIR}/src/packaging_libraries.cmake")
set(CPACK_DEBIAN_PACKAGE_RECOMMENDS fonts-dejavu-core)  # the window's type
include(CPack)
