# One place for warnings, sanitizers and the way a test is declared.
add_library(dryfit_options INTERFACE)
target_compile_options(dryfit_options INTERFACE -Wall -Wextra -Wpedantic -Wshadow -Wconversion
                       -Wno-sign-conversion -ffp-contract=off)
# GCC 12 sees overlapping copies in "words" + text once it optimises; there are none (GCC bug 105651).
if(CMAKE_CXX_COMPILER_ID STREQUAL GNU AND CMAKE_CXX_COMPILER_VERSION VERSION_LESS 13)
  target_compile_options(dryfit_options INTERFACE -Wno-restrict)
endif()
if(DRYFIT_SANITIZE AND NOT DRYFIT_SANITIZE MATCHES "^(address,undefined|thread)$")
  message(FATAL_ERROR "DRYFIT_SANITIZE is ${DRYFIT_SANITIZE}; give address,undefined or thread")
endif()
if(DRYFIT_SANITIZE)
  # Optimisation makes GCC's own warnings unreliable under sanitizers, so -Werror stays off there.
  add_compile_options(-fsanitize=${DRYFIT_SANITIZE} -fno-omit-frame-pointer)
  add_link_options(-fsanitize=${DRYFIT_SANITIZE})
  if(DRYFIT_SANITIZE MATCHES undefined)
    add_compile_options(-fno-sanitize-recover=undefined)
  endif()
else()
  # The same holds for -O3, where GCC 12 warns of its own strings; development builds see to it that
  # the code is clean, and who builds the programs is not troubled by false alarms.
  target_compile_options(dryfit_options INTERFACE $<IF:$<CONFIG:Release>,-w,-Werror>)
endif()

find_program(CCACHE ccache)
if(CCACHE)
  set(CMAKE_CXX_COMPILER_LAUNCHER ${CCACHE})
endif()

# dryfit_precompile(TARGET HEADER): the target's files are compiled with that header read beforehand.
function(dryfit_precompile target header)
  target_precompile_headers(${target} PRIVATE ${header})
  # Lets ccache keep objects that were made with the precompiled header.
  target_compile_options(${target} PRIVATE -fpch-preprocess)
endfunction()

# dryfit_add_test(NAME [SHARDS N] SOURCES... LIBS...): one test program. ctest runs it as a whole, or
# in N shards of every N-th test, which keep all cores busy.
function(dryfit_add_test name)
  cmake_parse_arguments(ARG "" "SHARDS" "SOURCES;LIBS" ${ARGN})
  add_executable(${name} ${ARG_SOURCES})
  target_link_libraries(${name} PRIVATE dryfit_options ${ARG_LIBS} GTest::gmock GTest::gtest_main)
  target_include_directories(${name} PRIVATE ${PROJECT_SOURCE_DIR})
  target_compile_definitions(${name} PRIVATE DRYFIT_MODELS="${PROJECT_SOURCE_DIR}/models")
  if(NOT ARG_SHARDS)
    add_test(NAME ${name} COMMAND ${name})
    return()
  endif()
  foreach(shard RANGE 1 ${ARG_SHARDS})
    math(EXPR index "${shard} - 1")
    add_test(NAME ${name}.${shard} COMMAND ${name})
    # The programs in shards take longest: they go first.
    set_tests_properties(${name}.${shard} PROPERTIES COST 10
      ENVIRONMENT "GTEST_TOTAL_SHARDS=${ARG_SHARDS};GTEST_SHARD_INDEX=${index}")
  endforeach()
endfunction()
