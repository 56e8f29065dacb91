# Tables of data/ become string constants of the program at build time, so that
# it reads no file. The generated source has one array per table.
function(maslin_embed target)
  cmake_parse_arguments(ARG "" "NAMESPACE;HEADER" "FILES" ${ARGN})
  get_filename_component(stem ${ARG_HEADER} NAME_WE)
  set(out ${CMAKE_CURRENT_BINARY_DIR}/${target}_${stem}.cpp)
  add_custom_command(
    OUTPUT ${out}
    COMMAND ${CMAKE_COMMAND} -DOUT=${out} -DNAMESPACE=${ARG_NAMESPACE} -DHEADER=${ARG_HEADER}
      "-DFILES=${ARG_FILES}" -P ${PROJECT_SOURCE_DIR}/cmake/write_tables.cmake
    DEPENDS ${ARG_FILES} ${PROJECT_SOURCE_DIR}/cmake/write_tables.cmake
    VERBATIM)
  target_sources(${target} PRIVATE ${out})
endfunction()
