#include "app/bake_picture.h"

#include <fstream>

#include "app/drawing_png.h"
#include "forecast/bake_picture.h"
#include "recipe/json.h"

namespace maslin {

Result<Drawing> draw_bake(const Tools& tools, const Recipe& recipe,
                          const ForecastRequest& request) {
  const ForecastSetup setup =
      set_up_forecast(recipe, request.kitchen, tools.pantry, request.options);
  if (!setup.problem.empty()) {
    return {std::nullopt, setup.problem};
  }
  BakePicture picture = picture_of_bake(setup, run_batch(setup, 0));
  if (!picture.problem.empty()) {
    return {std::nullopt, picture.problem};
  }
  return {std::move(picture.drawing), ""};
}

std::string drawing_to_json(const Drawing& drawing) {
  return json_text({{"title", drawing.title},
                    {"description", drawing.description},
                    {"svg", drawing_svg(drawing)}});
}

std::string save_bake_picture(const Tools& tools, const Recipe& recipe,
                              const ForecastRequest& request, const std::string& file) {
  const bool svg = file.ends_with(".svg");
  if (!svg && !file.ends_with(".png")) {
    return "A picture's file ends in .svg or .png: name it so.";
  }
  const Result<Drawing> drawing = draw_bake(tools, recipe, request);
  if (!drawing.value) {
    return drawing.problem;
  }
  Result<std::string> bytes =
      svg ? Result<std::string>{drawing_svg(*drawing.value), ""} : drawing_png(*drawing.value);
  if (!bytes.value) {
    return bytes.problem;
  }
  std::ofstream out(file, std::ios::binary);
  out << *bytes.value;
  out.close();
  return out ? "" : "The picture could not be written: check the folder and the space left.";
}

}  // namespace maslin
