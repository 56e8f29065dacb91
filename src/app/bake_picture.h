// bake_picture: the inside of a piece through its bake, drawn and written to a file.
#pragma once

#include <string>
#include <string_view>

#include "app/app.h"
#include "bake/drawing.h"

namespace maslin {

/// The drawing for a recipe in the request's kitchen.
Result<Drawing> draw_bake(const Tools& tools, const Recipe& recipe, const ForecastRequest& request);

/// {"title", "description", "svg"}.
std::string drawing_to_json(const Drawing& drawing);

/// Writes it to a file named *.svg or *.png; empty, or the sentence why not.
std::string save_bake_picture(const Tools& tools, const Recipe& recipe,
                              const ForecastRequest& request, const std::string& file);

}  // namespace maslin
