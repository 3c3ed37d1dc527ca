# A room is a folder of sources, a library dullcast_NAME and a namespace dullcast::NAME, NAME being the folder's own.
# Each room has an include root of its own that holds nothing but itself, so a header is found only by rooms that link
# to it, and an include against the arrows fails to compile. The link lines are the only dependencies there are
# (tools/check-structure holds them against the includes).

# dullcast_room(FOLDER [USES room...] [LIBRARIES target...] [INTERNAL target...]): the library of FOLDER. USES are
# rooms that it may include; LIBRARIES are for whoever includes it too, INTERNAL only for its own sources.
function(dullcast_room folder)
  cmake_parse_arguments(room "" "" "USES;LIBRARIES;INTERNAL" ${ARGN})
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
  else()
    add_library(${target} INTERFACE)
    target_include_directories(${target} INTERFACE $<BUILD_INTERFACE:${root}>)
    target_link_libraries(${target} INTERFACE ${room_USES} ${room_LIBRARIES})
  endif()
  set_property(GLOBAL APPEND PROPERTY dullcast_rooms ${target})
endfunction()
