#include "app/bake_picture.h"

#include <doctest/doctest.h>

#include "store/scratch_folder.h"

using namespace maslin;

namespace {

constexpr const char* k_buns =
    "Milk buns\n\n500 g bread flour\n300 ml milk\n40 g butter\n7 g instant yeast\n9 g salt\n\n"
    "Knead. Leave to double, shape into 12 buns. Bake at 200 C for 15 minutes until golden.\n";

}  // namespace

TEST_CASE("The inside of a bake goes to a file of either kind") {
  const Tools tools;
  const Result<Recipe> recipe = read_recipe(tools, {k_buns, "", ""});
  REQUIRE(recipe.value.has_value());
  const ScratchFolder folder;
  const std::string svg = folder.file("inside.svg"), png = folder.file("inside.png");
  CHECK(save_bake_picture(tools, *recipe.value, {}, svg).empty());
  CHECK(bytes_of(svg).starts_with("<svg "));
  const std::string problem = save_bake_picture(tools, *recipe.value, {}, png);
  // Without cairo there is no PNG, and the sentence names the way out.
  CHECK((problem.empty() ? bytes_of(png).starts_with("\x89PNG")
                         : problem.find(".svg") != std::string::npos));
}

TEST_CASE("A picture that cannot be had says why in a sentence") {
  const Tools tools;
  const Result<Recipe> recipe = read_recipe(tools, {k_buns, "", ""});
  REQUIRE(recipe.value.has_value());
  CHECK(save_bake_picture(tools, *recipe.value, {}, "inside.gif").find(".svg or .png") !=
        std::string::npos);
  CHECK(!save_bake_picture(tools, *recipe.value, {}, "/no/such/folder/inside.svg").empty());
}
