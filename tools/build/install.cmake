# What `cmake --install` lays down, what find_package(dullcast) finds of it, and the Debian packages that cpack makes of
# it: `dullcast`, the program with all that it reads, and `dullcast-dev`, headers and libraries to build on.
if(DULLCAST_SANITIZE)
  return()
endif()
include(CMakePackageConfigHelpers)
set(data ${CMAKE_INSTALL_DATADIR}/dullcast)
set(libraries ${CMAKE_INSTALL_LIBDIR}/dullcast)
set(package ${CMAKE_INSTALL_LIBDIR}/cmake/dullcast)

# --- the program
install(TARGETS dullcast RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR} COMPONENT program)
# Scenarios stand beside the library, where those who copy one to their own folder may look; machines that keep no
# documentation have them all the same.
install(DIRECTORY scenarios/ DESTINATION ${data}/scenarios COMPONENT program
        FILES_MATCHING PATTERN "*.yaml" PATTERN "*.csv" PATTERN "library" EXCLUDE)
install(DIRECTORY scenarios/schemas DESTINATION ${data}/scenarios COMPONENT program FILES_MATCHING PATTERN "*.json")
install(DIRECTORY scenarios/library DESTINATION ${data} COMPONENT program FILES_MATCHING PATTERN "*.yaml")
install(FILES README.md DESTINATION ${CMAKE_INSTALL_DOCDIR} COMPONENT program)
foreach(page results models)
  install(FILES ${page}/README.md DESTINATION ${CMAKE_INSTALL_DOCDIR}/${page} COMPONENT program)
endforeach()
# The page on scenarios leads to the files beside it.
install(FILES scenarios/README.md DESTINATION ${data}/scenarios COMPONENT program)
file(RELATIVE_PATH there ${CMAKE_INSTALL_FULL_DOCDIR} ${CMAKE_INSTALL_FULL_DATADIR}/dullcast/scenarios)
install(CODE "
  set(place \"\$ENV{DESTDIR}\${CMAKE_INSTALL_PREFIX}/${CMAKE_INSTALL_DOCDIR}/scenarios\")
  if(NOT IS_DIRECTORY \"\${place}\" OR IS_SYMLINK \"\${place}\")
    file(CREATE_LINK ${there} \"\${place}\" SYMBOLIC)
  endif()" COMPONENT program)
# What the program says of itself: a page for man, names and options for the shell's Tab key.
set(pages ${CMAKE_BINARY_DIR}/package)
install(CODE "
  file(MAKE_DIRECTORY ${pages})
  # Two who install out of one build folder at once wait for each other, to the end: gzip takes away what it packs.
  file(LOCK ${pages} DIRECTORY GUARD PROCESS TIMEOUT 300)
  foreach(page \"--manual dullcast.1\" \"--completion bash dullcast\" \"--completion zsh _dullcast\")
    separate_arguments(page)
    list(POP_BACK page name)
    execute_process(COMMAND $<TARGET_FILE:dullcast> help \${page} OUTPUT_FILE ${pages}/\${name}
                    COMMAND_ERROR_IS_FATAL ANY)
  endforeach()
  execute_process(COMMAND gzip -9nf ${pages}/dullcast.1 COMMAND_ERROR_IS_FATAL ANY)" COMPONENT program)
install(FILES ${pages}/dullcast.1.gz DESTINATION ${CMAKE_INSTALL_MANDIR}/man1 COMPONENT program)
install(FILES ${pages}/dullcast DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions COMPONENT program)
install(FILES ${pages}/_dullcast DESTINATION ${CMAKE_INSTALL_DATADIR}/zsh/vendor-completions COMPONENT program)
# Terms of what the program carries of others: the charts of its pages, and mathematical functions.
install(FILES tools/pages/third_party/d3/LICENSE DESTINATION ${CMAKE_INSTALL_DOCDIR}/third_party/d3 COMPONENT program)
if(DULLCAST_MUSL AND EXISTS /usr/share/doc/musl-dev/copyright)
  install(FILES /usr/share/doc/musl-dev/copyright DESTINATION ${CMAKE_INSTALL_DOCDIR}/third_party/musl COMPONENT program)
endif()

# --- headers and libraries
add_library(dullcast_engine INTERFACE)
get_property(rooms GLOBAL PROPERTY dullcast_installed_rooms)
target_link_libraries(dullcast_engine INTERFACE ${rooms})
set_target_properties(dullcast_engine PROPERTIES EXPORT_NAME engine)
# What was compiled in this way does not fit what is compiled in another. Everything rests on dullcast_common.
target_compile_features(dullcast_common INTERFACE cxx_std_20)
target_compile_definitions(dullcast_common INTERFACE $<INSTALL_INTERFACE:EIGEN_DONT_VECTORIZE>
                           $<INSTALL_INTERFACE:BOOST_MATH_PROMOTE_DOUBLE_POLICY=false>)
target_compile_options(dullcast_common INTERFACE $<INSTALL_INTERFACE:-ffp-contract=off>)
if(same_functions)
  # The same numbers as the program's, to the last bit.
  install(FILES ${same_functions} DESTINATION ${libraries} COMPONENT development)
  target_link_options(dullcast_common INTERFACE
    "$<INSTALL_INTERFACE:SHELL:-Wl,--whole-archive $<INSTALL_PREFIX>/${libraries}/libsame_functions.a -Wl,--no-whole-archive>")
endif()
install(TARGETS ${rooms} dullcast_engine EXPORT dullcast ARCHIVE DESTINATION ${libraries} COMPONENT development)
foreach(top models engine)
  install(DIRECTORY ${top} DESTINATION ${CMAKE_INSTALL_INCLUDEDIR}/dullcast COMPONENT development
          FILES_MATCHING PATTERN "*.hpp")
endforeach()
install(EXPORT dullcast NAMESPACE dullcast:: FILE dullcastTargets.cmake DESTINATION ${package} COMPONENT development)
get_target_property(with_ranks dullcast_sweep LINK_LIBRARIES)
string(FIND "${with_ranks}" MPI:: with_ranks)
configure_package_config_file(tools/build/dullcastConfig.cmake.in ${CMAKE_BINARY_DIR}/package/dullcastConfig.cmake
  INSTALL_DESTINATION ${package} PATH_VARS data)
write_basic_package_version_file(${CMAKE_BINARY_DIR}/package/dullcastConfigVersion.cmake COMPATIBILITY SameMinorVersion)
install(FILES ${CMAKE_BINARY_DIR}/package/dullcastConfig.cmake ${CMAKE_BINARY_DIR}/package/dullcastConfigVersion.cmake
        DESTINATION ${package} COMPONENT development)
install(DIRECTORY tools/examples DESTINATION ${data} COMPONENT development)

# --- Debian packages: `cpack -G DEB` in the build folder
set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME dullcast)
set(CPACK_PACKAGE_VENDOR dullcast)
set(DULLCAST_PACKAGER "dullcast <dullcast@example.org>" CACHE STRING "Who makes packages: a name and an address")
set(CPACK_PACKAGE_CONTACT "${DULLCAST_PACKAGER}")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_COMPONENTS_ALL program development)
set(CPACK_COMPONENTS_GROUPING IGNORE)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION science)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_NAME dullcast)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SHLIBDEPS ON)
# Days and zones of a shop's plan are read from the machine's zone files.
set(CPACK_DEBIAN_PROGRAM_PACKAGE_DEPENDS tzdata)
# The first lines of the README say what it is for.
set(CPACK_COMPONENT_PROGRAM_DESCRIPTION "forecasts heat, wear and rework of PDC drill bits
dullcast computes how hot each cutter of a PDC drill bit runs, how fast it
wears, how likely it chips, and when the bit is due for rework, in a given
formation, at a given weight, speed and flow. It is for small makers of PDC
bits who sell to water-well and geothermal drillers, advise and train them,
and rebuild what comes back. YAML scenarios go in; HDF5 files and a plain
forecast come out: when rework falls due, by which rule, and how sure that is.
Results are estimates.")
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_NAME dullcast-dev)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_SECTION libdevel)
set(needed "dullcast (= ${PROJECT_VERSION})" cmake g++ make libboost-dev libeigen3-dev libhdf5-dev libhowardhinnant-date-dev
    libnlopt-dev libudunits2-dev libyaml-cpp-dev nlohmann-json3-dev)
if(NOT with_ranks EQUAL -1)
  list(APPEND needed libopenmpi-dev)
endif()
list(JOIN needed ", " CPACK_DEBIAN_DEVELOPMENT_PACKAGE_DEPENDS)
set(CPACK_COMPONENT_DEVELOPMENT_DESCRIPTION "forecasts heat, wear and rework of PDC drill bits: libraries to build on
Headers and static libraries of the engine behind dullcast, to drill
scenarios and read results from programs of one's own, and a small example
that does.")
include(CPack)
