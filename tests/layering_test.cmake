# Dependencies between layers point down only. Run as: cmake -DROOT=<source folder> -P this file.
#
# - joinery and the kernel's public headers know nothing of the geometry library; the one exception
#   is kernel/occt_bridge.h
# - kernel and joinery know neither Qt nor the layers above; joinery does not reach into kernel/src
# - export does not know the viewer

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

if(failures)
  list(JOIN failures "\n  " text)
  message(FATAL_ERROR "layering broken:\n  ${text}")
endif()
