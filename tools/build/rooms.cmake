# A room is a folder of sources, a library dullcast_NAME and a namespace dullcast::NAME, NAME being the folder's own.
# Each room has an include root of its own that holds nothing but itself, so a header is found only by rooms that link
# to it, and an include against the arrows fails to compile. The link lines are the only dependencies there are
# (tools/check-structure holds them against the includes).

# dullcast_together(TARGET SOURCE...): with DULLCAST_TOGETHER, the target's sources are compiled in groups.
function(dullcast_together target)
  if(NOT DULLCAST_TOGETHER)
    return()
  endif()
  find_program(DULLCAST_PYTHON python3 HINTS /usr/bin NO_CMAKE_PATH REQUIRED)
  execute_process(COMMAND ${DULLCAST_PYTHON} -B ${PROJECT_SOURCE_DIR}/tools/build/together.py 30 ${ARGN}
                  OUTPUT_VARIABLE lines OUTPUT_STRIP_TRAILING_WHITESPACE COMMAND_ERROR_IS_FATAL ANY)
  # Names may change with any of them.
  set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${ARGN})
  string(REPLACE "\n" ";" lines "${lines}")
  foreach(line ${lines})
    string(REGEX MATCH "^([0-9]+) (.*)$" found "${line}")
    set_source_files_properties(${CMAKE_MATCH_2} PROPERTIES UNITY_GROUP ${target}_${CMAKE_MATCH_1})
  endforeach()
  set_target_properties(${target} PROPERTIES UNITY_BUILD ON UNITY_BUILD_MODE GROUP)
  # g++ takes sources that another one includes for headers, in which types with parts of no name would be a mistake.
  target_compile_options(${target} PRIVATE -Wno-subobject-linkage)
endfunction()

# dullcast_room(FOLDER HOLDS "words" [NEVER_WAITED_FOR] [USES room...] [LIBRARIES target...] [INTERNAL target...]): the
# library of FOLDER. HOLDS is for readers; USES are rooms that it may include; LIBRARIES are for whoever includes it too,
# INTERNAL only for its own sources. What nobody ever waits for is optimized less, which compiles in two thirds of the time.
function(dullcast_room folder)
  cmake_parse_arguments(room "NEVER_WAITED_FOR" "HOLDS" "USES;LIBRARIES;INTERNAL" ${ARGN})
  get_filename_component(name ${folder} NAME)
  set(target dullcast_${name})
  set(root ${CMAKE_BINARY_DIR}/roots/${name})
  get_filename_component(parent ${root}/${folder} DIRECTORY)
  file(MAKE_DIRECTORY ${parent})
  file(CREATE_LINK ${PROJECT_SOURCE_DIR}/${folder} ${root}/${folder} SYMBOLIC)
  # A new .cpp in a room is picked up by itself.
  file(GLOB sources CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/${folder}/*.cpp)
  list(FILTER sources EXCLUDE REGEX "/main\\.cpp$")
  list(TRANSFORM room_USES PREPEND dullcast_)
  if(sources)
    add_library(${target} STATIC ${sources})
    target_include_directories(${target} PUBLIC $<BUILD_INTERFACE:${root}>)
    target_link_libraries(${target} PUBLIC ${room_USES} ${room_LIBRARIES} PRIVATE ${room_INTERNAL})
    target_precompile_headers(${target} REUSE_FROM dullcast_usual_headers)
    if(room_NEVER_WAITED_FOR)
      target_compile_options(${target} PRIVATE $<$<CONFIG:Release>:-O1>)
    endif()
    dullcast_together(${target} ${sources})
  else()
    add_library(${target} INTERFACE)
    target_include_directories(${target} INTERFACE $<BUILD_INTERFACE:${root}>)
    target_link_libraries(${target} INTERFACE ${room_USES} ${room_LIBRARIES})
  endif()
  set_property(GLOBAL APPEND PROPERTY dullcast_rooms ${target})
  # What programs of others may build on (install.cmake); headers keep their paths from the tree's root.
  if(folder MATCHES "^(models|engine)/")
    set_property(GLOBAL APPEND PROPERTY dullcast_installed_rooms ${target})
    set_target_properties(${target} PROPERTIES EXPORT_NAME ${name})
    target_include_directories(${target} INTERFACE $<INSTALL_INTERFACE:${CMAKE_INSTALL_INCLUDEDIR}/dullcast>)
  endif()
endfunction()
