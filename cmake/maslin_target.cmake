include(layers)

# Flags every target shares. Contraction is off so that the same draws give the
# same figures on every machine and in WebAssembly.
add_library(maslin_flags INTERFACE)
target_compile_options(maslin_flags INTERFACE
  -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wsign-conversion -Wdouble-promotion
  -Wnon-virtual-dtor -Wold-style-cast -Wimplicit-fallthrough -Wno-psabi -Werror
  -ffp-contract=off)
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
  # g++ 12 sees overlaps in std::string that are not there (GCC bug 105651), and takes lanes
  # that are set half by half for not set.
  target_compile_options(maslin_flags INTERFACE -Wno-restrict -Wno-maybe-uninitialized)
else()
  # Embedded tables are longer than the least a compiler must take; clang takes them.
  target_compile_options(maslin_flags INTERFACE -Wno-overlength-strings)
  if(NOT CMAKE_SYSTEM_NAME STREQUAL "WASI")
    # libstdc++'s own stable_sort uses what it deprecates, where clang can see it.
    target_compile_options(maslin_flags INTERFACE -Wno-deprecated-declarations)
  endif()
endif()
target_include_directories(maslin_flags INTERFACE ${PROJECT_SOURCE_DIR}/src)
if(MASLIN_FUZZ)
  target_compile_options(maslin_flags INTERFACE -fsanitize=fuzzer-no-link,address,undefined,float-cast-overflow -fno-sanitize-recover=all -fno-omit-frame-pointer)
  target_link_options(maslin_flags INTERFACE -fsanitize=address,undefined)
endif()
if(MASLIN_SANITIZE)
  # Doubles that do not fit a whole number are not among g++'s "undefined"; they are here.
  target_compile_options(maslin_flags INTERFACE -fsanitize=address,undefined,float-cast-overflow -fno-sanitize-recover=all -fno-omit-frame-pointer)
  target_link_options(maslin_flags INTERFACE -fsanitize=address,undefined)
endif()
if(MASLIN_SANITIZE_THREADS)
  target_compile_options(maslin_flags INTERFACE -fsanitize=thread -fno-omit-frame-pointer)
  # The sanitizer does not see fences, and g++ refuses them; asio's own locks order what it hands on.
  target_compile_definitions(maslin_flags INTERFACE BOOST_ASIO_DISABLE_FENCED_BLOCK)
  target_link_options(maslin_flags INTERFACE -fsanitize=thread)
endif()
if(MASLIN_COVERAGE)
  target_compile_options(maslin_flags INTERFACE -fprofile-instr-generate -fcoverage-mapping)
  target_link_options(maslin_flags INTERFACE -fprofile-instr-generate)
endif()

# Three ways of compiling. Models are hot; what reads and writes words gains nothing from
# -O3 but waiting; below the line exceptions are allowed and little is computed.
set(MASLIN_OPTIONS_MODEL -fno-exceptions)
set(MASLIN_OPTIONS_WORDS -fno-exceptions)
set(MASLIN_OPTIONS_OPEN -pthread)
if(CMAKE_BUILD_TYPE STREQUAL "Release")
  list(APPEND MASLIN_OPTIONS_WORDS -O2)
  list(APPEND MASLIN_OPTIONS_OPEN -O1)
endif()

# Each way has its precompiled header; what reads and writes words has the JSON library in it
# as well. Not for clang on this machine, which builds the same tree for coverage and fuzzing
# and so proves that sources include what they use.
set(MASLIN_PRECOMPILE FALSE)
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU" OR CMAKE_SYSTEM_NAME STREQUAL "WASI")
  set(MASLIN_PRECOMPILE TRUE)
  if(NOT CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
    # Else clang writes the hour into it, and ccache finds nothing again.
    target_compile_options(maslin_flags INTERFACE "SHELL:-Xclang -fno-pch-timestamp")
  endif()
  foreach(way IN ITEMS MODEL WORDS OPEN)
    add_library(maslin_precompiled_${way} OBJECT ${PROJECT_SOURCE_DIR}/cmake/precompiled.cpp)
    target_link_libraries(maslin_precompiled_${way} PRIVATE maslin_flags)
    target_compile_options(maslin_precompiled_${way} PRIVATE ${MASLIN_OPTIONS_${way}})
    target_precompile_headers(maslin_precompiled_${way} PRIVATE ${PROJECT_SOURCE_DIR}/cmake/precompiled.h)
    if(NOT way STREQUAL MODEL)
      target_precompile_headers(maslin_precompiled_${way} PRIVATE <nlohmann/json.hpp>)
    endif()
  endforeach()
endif()

# The rows of the layer table for one folder, as a list.
function(maslin_layer_of folder out)
  foreach(row IN LISTS MASLIN_LAYERS)
    string(REGEX MATCH "^([a-z]+):(.*)$" _ "${row}")
    if(CMAKE_MATCH_1 STREQUAL folder)
      string(REPLACE " " ";" uses "${CMAKE_MATCH_2}")
      set(${out} ${uses} PARENT_SCOPE)
      return()
    endif()
  endforeach()
  message(FATAL_ERROR "src/${folder} has no row in cmake/layers.cmake: add one.")
endfunction()

# One folder = one static library of every .cpp in it but tests, linked to what
# the layer table allows; its *_test.cpp go to the test program of the folder.
function(maslin_folder folder)
  cmake_parse_arguments(ARG "" "" "LINK;EXCLUDE" ${ARGN})
  file(GLOB sources CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/*.cpp)
  list(FILTER sources EXCLUDE REGEX "_test\\.cpp$")
  foreach(name IN LISTS ARG_EXCLUDE)
    list(FILTER sources EXCLUDE REGEX "/${name}$")
  endforeach()
  if(sources)
    add_library(maslin_${folder} STATIC ${sources})
    set(scope PUBLIC)
  else()
    add_library(maslin_${folder} INTERFACE)
    set(scope INTERFACE)
  endif()
  maslin_layer_of(${folder} uses)
  foreach(use IN LISTS uses)
    if(TARGET maslin_${use})
      target_link_libraries(maslin_${folder} ${scope} maslin_${use})
    endif()
  endforeach()
  target_link_libraries(maslin_${folder} ${scope} maslin_flags ${ARG_LINK})
  if(NOT scope STREQUAL PUBLIC)
    return()
  endif()
  if(folder IN_LIST MASLIN_MODELS)
    set(way MODEL)
  elseif(folder IN_LIST MASLIN_PURE)
    set(way WORDS)
  else()
    set(way OPEN)
  endif()
  target_compile_options(maslin_${folder} PRIVATE ${MASLIN_OPTIONS_${way}})
  if(MASLIN_PRECOMPILE)
    target_precompile_headers(maslin_${folder} REUSE_FROM maslin_precompiled_${way})
  endif()
endfunction()

# Sums written as in the books would drown in conversion warnings in tests.
add_library(maslin_test_flags INTERFACE)
target_compile_options(maslin_test_flags INTERFACE
  -O1 -Wno-conversion -Wno-sign-conversion -Wno-double-promotion)
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
  # Nor are std::string's bounds crossed where g++ 12 says so at -O1 (GCC bug 105329).
  target_compile_options(maslin_test_flags INTERFACE -Wno-array-bounds -Wno-stringop-overflow)
endif()

# Tests of one folder or one file, run by ctest under that name.
function(maslin_test name)
  cmake_parse_arguments(ARG "" "" "SOURCES;LINK" ${ARGN})
  add_executable(${name} ${ARG_SOURCES})
  target_link_libraries(${name} PRIVATE maslin_flags maslin_test_flags maslin_test_main ${ARG_LINK})
  target_compile_definitions(${name} PRIVATE
    MASLIN_SOURCE_DIR="${PROJECT_SOURCE_DIR}" MASLIN_BINARY_DIR="${PROJECT_BINARY_DIR}")
  if(MASLIN_PRECOMPILE)
    target_precompile_headers(${name} REUSE_FROM maslin_test_main)
  endif()
  add_test(NAME ${name} COMMAND ${name})
  # The same random cases each time, so that a check says the same twice; run a program by
  # hand for others.
  set_tests_properties(${name} PROPERTIES ENVIRONMENT "RC_PARAMS=seed=2026")
endfunction()

# maslin_all_cases(program argument...): the same program with all its cases (tests/support/all_cases.h),
# of which the usual check takes a share; among the slow tests of ./check --all.
function(maslin_all_cases program)
  add_test(NAME ${program}_all_cases COMMAND ${program} ${ARGN})
  set_tests_properties(${program}_all_cases PROPERTIES
    LABELS slow ENVIRONMENT "MASLIN_ALL_CASES=1;RC_PARAMS=seed=2026" TIMEOUT 1500)
endfunction()
