#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "app/app.h"
#include "app/bounded_child.h"

namespace maslin {

/// Whether the bytes begin as a PDF does; up to a kilobyte of anything may stand before it
/// (ISO 32000-1, annex H.3, note 13).
bool is_pdf(std::string_view bytes);

/// The words of a PDF as UTF-8, laid out each of the ways worth trying: in reading order,
/// column after column, and as it stands on the page with blanks for gaps (which keeps
/// tables). A problem for a file that is damaged, locked, too long, holds only pictures, or
/// when this program was built without a PDF library.
/// Done in a child process with bounds of time and memory (bounded_child.h).
Result<std::vector<std::string>> pdf_texts(std::string_view bytes, const ChildLimits& limits = {});

/// The same in this process and without bounds, for the fuzzer.
Result<std::vector<std::string>> pdf_texts_here(std::string_view bytes);

}  // namespace maslin
