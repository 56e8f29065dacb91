# CMake 3.25 does not know this system; little of its own is needed.
set(CMAKE_EXECUTABLE_SUFFIX ".wasm")
