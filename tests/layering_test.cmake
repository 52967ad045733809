# Dependencies between layers point down only. Run as: cmake -DROOT=<source folder> -P this file.
#
# - joinery and the kernel's public headers know nothing of the geometry library; the one exception
#   is kernel/occt_bridge.h
# - kernel and joinery know neither Qt nor the layers above; joinery does not reach into kernel/src
# - export does not know the viewer
# - within joinery, export and viewer each room (folder) knows only itself and the rooms before it in
#   the lists below; a new room is put into its list

set(failures "")

# Adds a failure for each of the given files' lines that match `pattern` outside // comments.
function(forbid pattern why)
  foreach(file ${ARGN})
    file(READ ${file} text)
    # These three would make CMake split or join the lines of a list elsewhere than at line ends.
    string(REGEX REPLACE "[][;]" " " text "${text}")
    string(REPLACE "\n" ";" lines "${text}")
    foreach(line IN LISTS lines)
      string(REGEX REPLACE "//.*$" "" code "${line}")
      if(code MATCHES "${pattern}")
        file(RELATIVE_PATH name ${ROOT} ${file})
        list(APPEND failures "${name}: ${why}: ${line}")
      endif()
    endforeach()
  endforeach()
  set(failures "${failures}" PARENT_SCOPE)
endfunction()

file(GLOB kernel_headers ${ROOT}/kernel/*.h)
list(LENGTH kernel_headers count)
if(count LESS 5)
  message(FATAL_ERROR "found only ${count} headers in ${ROOT}/kernel: wrong folder?")
endif()
list(REMOVE_ITEM kernel_headers ${ROOT}/kernel/occt_bridge.h)
file(GLOB_RECURSE kernel ${ROOT}/kernel/*.h ${ROOT}/kernel/*.cpp)
file(GLOB_RECURSE joinery ${ROOT}/joinery/*.h ${ROOT}/joinery/*.cpp)
file(GLOB_RECURSE export ${ROOT}/export/*.h ${ROOT}/export/*.cpp)

set(library "gp_|TopoDS|Standard_|opencascade|\\.hxx|occt_bridge")
forbid("${library}" "names the geometry library" ${kernel_headers} ${joinery})
forbid("#include *[\"<]kernel/src/" "reaches into the kernel" ${joinery})
forbid("#include *[\"<]Q" "includes Qt" ${kernel} ${joinery})
forbid("#include *[\"<](viewer|export)/" "includes a layer above" ${kernel} ${joinery})
forbid("#include *[\"<]joinery/" "includes a layer above" ${kernel})
forbid("#include *[\"<]viewer/" "includes a layer above" ${export})

# Adds a failure for each include that goes from a room of `layer` to one later in the list, and for
# each file in a room that the list lacks. What lies in no room stands above all of them.
function(rooms_point_down layer)
  set(rooms ${ARGN})
  file(GLOB_RECURSE files ${ROOT}/${layer}/*.h ${ROOT}/${layer}/*.cpp)
  foreach(file IN LISTS files)
    file(RELATIVE_PATH name ${ROOT}/${layer} ${file})
    if(NOT name MATCHES "^([a-z]+)/")
      continue()
    endif()
    set(room ${CMAKE_MATCH_1})
    list(FIND rooms ${room} floor)
    if(floor EQUAL -1)
      list(APPEND failures "${layer}/${name}: the room ${room} is in no list of this test")
      continue()
    endif()
    file(STRINGS ${file} includes REGEX "^#include \"${layer}/")
    foreach(include IN LISTS includes)
      string(REGEX REPLACE "^#include \"${layer}/([^/\"]+).*$" "\\1" target "${include}")
      list(FIND rooms ${target} below)
      if(below EQUAL -1 OR below GREATER floor)
        list(APPEND failures "${layer}/${name}: ${room} reaches up: ${include}")
      endif()
    endforeach()
  endforeach()
  set(failures "${failures}" PARENT_SCOPE)
endfunction()

rooms_point_down(joinery base formula trade model piece joints making checks fit file building stock layout)
rooms_point_down(export files words lists report drawing layout step packet verbs)
rooms_point_down(viewer look view document tables pages building window)

if(failures)
  list(JOIN failures "\n  " text)
  message(FATAL_ERROR "layering broken:\n  ${text}")
endif()
