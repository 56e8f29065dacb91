# cmake -P: writes each of FILES as a string constant and a function
# `embedded_table(name)` that finds it by its file name. FILES may be anything
# that is text and does not hold the delimiter below.
set(text "#include \"${HEADER}\"\n\nnamespace ${NAMESPACE} {\nnamespace {\nusing namespace std::string_view_literals;\n")
set(cases "")
foreach(file IN LISTS FILES)
  get_filename_component(name ${file} NAME)
  string(MAKE_C_IDENTIFIER "k_${name}" id)
  file(READ ${file} body)
  # Bracket and semicolon characters pass through a CMake variable unharmed; a
  # string literal over 64 kB is fine for both compilers, if nothing has to count it
  # at compile time: the suffix brings its length.
  string(APPEND text "constexpr std::string_view ${id} = R\"maslin_text(${body})maslin_text\"sv;\n")
  string(APPEND cases "  if (name == \"${name}\") {\n    return ${id};\n  }\n")
endforeach()
string(APPEND text "}  // namespace\n\nstd::string_view embedded_table([[maybe_unused]] std::string_view name) {\n${cases}  return {};\n}\n\n}  // namespace ${NAMESPACE}\n")
file(WRITE ${OUT} "${text}")
