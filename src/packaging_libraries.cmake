# Run by cpack when everything lies in its staging folder: the packages whose libraries the programs are linked with are what the .deb depends on;
# those that only the modules in lib/huewright need are recommended.
find_program(HUEWRIGHT_SHLIBDEPS dpkg-shlibdeps)
if(NOT CPACK_GENERATOR STREQUAL DEB OR NOT HUEWRIGHT_SHLIBDEPS)
  return()
endif()

# packages_of(VARIABLE FILE...): such as "libc6 (>= 2.36);libpng16-16 (>= 1.6.2)".
function(packages_of variable)
  set(control "${CPACK_TEMPORARY_DIRECTORY}-control")  # dpkg-shlibdeps wants to be called where a source package lies
  file(MAKE_DIRECTORY "${control}/debian")
  file(WRITE "${control}/debian/control" "Source: huewright\nPackage: huewright\nArchitecture: any\n")
  execute_process(COMMAND "${HUEWRIGHT_SHLIBDEPS}" --ignore-missing-info -O ${ARGN}
    WORKING_DIRECTORY "${control}" OUTPUT_VARIABLE told ERROR_VARIABLE said RESULT_VARIABLE status)
  file(REMOVE_RECURSE "${control}")
  if(NOT status EQUAL 0)
    message(FATAL_ERROR "dpkg-shlibdeps cannot tell what the .deb needs: ${said}")
  endif()
  string(REGEX REPLACE "^.*shlibs:Depends=([^\n]*).*$" "\\1" told "${told}")
  string(REPLACE ", " ";" told "${told}")
  set(${variable} "${told}" PARENT_SCOPE)
endfunction()

file(GLOB programs "${CPACK_TEMPORARY_DIRECTORY}${CPACK_PACKAGING_INSTALL_PREFIX}/bin/*")
file(GLOB modules "${CPACK_TEMPORARY_DIRECTORY}${CPACK_PACKAGING_INSTALL_PREFIX}/lib/huewright/*.so")
packages_of(needed ${programs})
string(REPLACE ";" ", " CPACK_DEBIAN_PACKAGE_DEPENDS "${needed}")
if(modules)
  packages_of(recommended ${programs} ${modules})
  list(TRANSFORM needed REPLACE " .*" "" OUTPUT_VARIABLE needed_names)
  foreach(package IN LISTS recommended)
    string(REGEX REPLACE " .*" "" name "${package}")
    list(FIND needed_names "${name}" at)
    if(at EQUAL -1)
      string(APPEND CPACK_DEBIAN_PACKAGE_RECOMMENDS ", ${package}")
    endif()
  endforeach()
endif()
