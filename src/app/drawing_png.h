// drawing_png: a drawing as pixels.
#pragma once

#include <string>

#include "app/app.h"
#include "bake/drawing.h"

namespace maslin {

/// The bytes of a PNG, two pixels for each of the drawing's; a sentence where the program
/// was built without cairo.
Result<std::string> drawing_png(const Drawing& drawing);

}  // namespace maslin
