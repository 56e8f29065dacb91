#include "reading/page.h"

#include <gumbo.h>

#include <algorithm>
#include <array>
#include <memory>
#include <optional>
#include <vector>

#include "reading/layout.h"
#include "reading/letters.h"
#include "reading/markup.h"
#include "reading/structured.h"

namespace maslin::reading {
namespace {

constexpr std::size_t k_deepest = 400;
constexpr std::size_t k_most_formatting = 60;

struct Closer {
  void operator()(GumboOutput* output) const {
    gumbo_destroy_output(&kGumboDefaultOptions, output);
  }
};

std::string_view attribute(const GumboNode& node, const char* name) {
  if (node.type != GUMBO_NODE_ELEMENT && node.type != GUMBO_NODE_TEMPLATE) {
    return {};
  }
  const GumboAttribute* found = gumbo_get_attribute(&node.v.element.attributes, name);
  return found == nullptr ? std::string_view() : std::string_view(found->value);
}

bool is_element(const GumboNode& node) {
  return node.type == GUMBO_NODE_ELEMENT;
}

template <std::size_t N>
bool is_one_of(GumboTag tag, const std::array<GumboTag, N>& tags) {
  return std::find(tags.begin(), tags.end(), tag) != tags.end();
}

/// Parts of a page that hold no recipe, whatever the site.
constexpr std::array<GumboTag, 14> k_dropped{
    GUMBO_TAG_SCRIPT, GUMBO_TAG_STYLE,  GUMBO_TAG_NAV,      GUMBO_TAG_FOOTER, GUMBO_TAG_ASIDE,
    GUMBO_TAG_FORM,   GUMBO_TAG_SELECT, GUMBO_TAG_NOSCRIPT, GUMBO_TAG_IFRAME, GUMBO_TAG_SVG,
    GUMBO_TAG_BUTTON, GUMBO_TAG_HEAD,   GUMBO_TAG_TEMPLATE, GUMBO_TAG_OPTION};
constexpr std::array<GumboTag, 18> k_blocks{
    GUMBO_TAG_P,       GUMBO_TAG_DIV,     GUMBO_TAG_LI,        GUMBO_TAG_UL, GUMBO_TAG_OL,
    GUMBO_TAG_TR,      GUMBO_TAG_TABLE,   GUMBO_TAG_H1,        GUMBO_TAG_H2, GUMBO_TAG_H3,
    GUMBO_TAG_H4,      GUMBO_TAG_H5,      GUMBO_TAG_H6,        GUMBO_TAG_DD, GUMBO_TAG_DT,
    GUMBO_TAG_SECTION, GUMBO_TAG_ARTICLE, GUMBO_TAG_BLOCKQUOTE};

/// Visits every node in order without recursion; `enter` says whether to go inside.
template <typename Enter, typename Leave>
void walk(const GumboNode& root, Enter enter, Leave leave) {
  struct Place {
    const GumboNode* node;
    unsigned next;
  };
  std::vector<Place> path;
  const auto go = [&](const GumboNode& node) {
    if (enter(node)) {
      path.push_back({&node, 0});
    }
  };
  go(root);
  while (!path.empty()) {
    Place& here = path.back();
    const bool inner = here.node->type == GUMBO_NODE_ELEMENT ||
                       here.node->type == GUMBO_NODE_TEMPLATE ||
                       here.node->type == GUMBO_NODE_DOCUMENT;
    const GumboVector* children = !inner ? nullptr
                                  : here.node->type == GUMBO_NODE_DOCUMENT
                                      ? &here.node->v.document.children
                                      : &here.node->v.element.children;
    if (children == nullptr || here.next >= children->length) {
      leave(*here.node);
      path.pop_back();
      continue;
    }
    go(*static_cast<const GumboNode*>(children->data[here.next++]));
  }
}

/// White space as HTML has it: runs are one blank.
void append_squeezed(std::string& out, std::string_view text) {
  for (const char c : text) {
    const bool space = c == ' ' || c == '\n' || c == '\t' || c == '\r';
    if (!space) {
      out += c;
    } else if (!out.empty() && out.back() != ' ' && out.back() != '\n' && out.back() != '\t') {
      out += ' ';
    }
  }
}

/// The words of a node with a newline between blocks and a tab between cells.
std::string text_of(const GumboNode& root) {
  std::string out;
  const auto newline = [&] {
    if (!out.empty() && out.back() != '\n') {
      out += '\n';
    }
  };
  walk(
      root,
      [&](const GumboNode& node) {
        if (node.type == GUMBO_NODE_TEXT || node.type == GUMBO_NODE_WHITESPACE) {
          append_squeezed(out, node.v.text.text);
          return false;
        }
        if (!is_element(node) || is_one_of(node.v.element.tag, k_dropped)) {
          return false;
        }
        if (node.v.element.tag == GUMBO_TAG_BR || is_one_of(node.v.element.tag, k_blocks)) {
          newline();
        }
        return true;
      },
      [&](const GumboNode& node) {
        const GumboTag tag = node.v.element.tag;
        if (tag == GUMBO_TAG_TD || tag == GUMBO_TAG_TH) {
          out += '\t';
        } else if (is_one_of(tag, k_blocks)) {
          newline();
        }
      });
  return std::string(trimmed(out));
}

/// Recipes that the page states in the schema.org vocabulary.
class Vocabulary {
 public:
  std::optional<StructuredRecipe> read(const GumboNode& root) {
    walk(
        root, [&](const GumboNode& node) { return enter(node); },
        [&](const GumboNode& node) { leave(node); });
    if (json_) {
      return json_;
    }
    return marked_.empty() ? std::nullopt : std::optional(marked_);
  }

 private:
  bool enter(const GumboNode& node) {
    if (!is_element(node)) {
      return node.type == GUMBO_NODE_DOCUMENT;
    }
    if (node.v.element.tag == GUMBO_TAG_SCRIPT) {
      if (attribute(node, "type") == "application/ld+json" && !json_) {
        json_ = recipe_in_json(script_text(node));
      }
      return false;
    }
    const bool recipe =
        attribute(node, "itemtype").find("schema.org/Recipe") != std::string_view::npos ||
        is_recipe_word(attribute(node, "typeof"));
    if (recipe && recipe_ == nullptr) {
      recipe_ = &node;
    }
    return recipe_ == nullptr || !take(node);
  }

  void leave(const GumboNode& node) { recipe_ = recipe_ == &node ? nullptr : recipe_; }

  static bool is_recipe_word(std::string_view types) {
    return types == "Recipe" || types.ends_with(":Recipe") || types.ends_with("/Recipe");
  }

  static std::string script_text(const GumboNode& node) {
    std::string out;
    const GumboVector& children = node.v.element.children;
    for (unsigned i = 0; i < children.length; ++i) {
      const auto* child = static_cast<const GumboNode*>(children.data[i]);
      if (child->type == GUMBO_NODE_TEXT || child->type == GUMBO_NODE_WHITESPACE ||
          child->type == GUMBO_NODE_CDATA) {
        out += child->v.text.text;
      }
    }
    return out;
  }

  /// Takes a property of the recipe; true when its inside is done with.
  bool take(const GumboNode& node) {
    std::string_view name = attribute(node, "itemprop");
    name = name.empty() ? attribute(node, "property") : name;
    if (const std::size_t colon = name.rfind(':'); colon != std::string_view::npos) {
      name.remove_prefix(colon + 1);
    }
    const std::string_view content = attribute(node, "content");
    const std::string words = content.empty() ? text_of(node) : std::string(content);
    if (name == "recipeIngredient" || name == "ingredients" || name == "ingredient") {
      add(words, marked_.ingredients);
      return true;
    }
    if (name == "recipeInstructions" || name == "instructions") {
      add(words, marked_.instructions);
      return true;
    }
    if (name == "recipeYield" || name == "yield") {
      marked_.yields.push_back(words);
    } else if (name == "name" && marked_.name.empty()) {
      marked_.name = words;
    }
    return false;
  }

  static void add(std::string_view words, std::vector<std::string>& out) {
    std::string line;
    for (const char c : std::string(words) + "\n") {
      if (c != '\n') {
        line += c == '\t' ? ' ' : c;
        continue;
      }
      if (!trimmed(line).empty()) {
        out.emplace_back(trimmed(line));
      }
      line.clear();
    }
  }

  std::optional<StructuredRecipe> json_;
  StructuredRecipe marked_;
  const GumboNode* recipe_ = nullptr;
};

bool starts_with_amount(std::string_view line) {
  if (line.empty()) {
    return false;
  }
  const auto c = static_cast<unsigned char>(line.front());
  // A digit, or a vulgar fraction of Latin-1 or of the number forms.
  return (c >= '0' && c <= '9') || line.starts_with("\xC2\xBC") || line.starts_with("\xC2\xBD") ||
         line.starts_with("\xC2\xBE") || line.starts_with("\xE2\x85");
}

struct Block {
  GumboTag tag = GUMBO_TAG_DIV;
  std::string text;
  std::size_t list = 0;  // which list or table it is of; 0 = none
};

/// The page's own blocks in order.
std::vector<Block> blocks_of(const GumboNode& root) {
  std::vector<Block> out;
  std::size_t lists = 0;
  std::vector<std::size_t> open{0};
  walk(
      root,
      [&](const GumboNode& node) {
        if (node.type == GUMBO_NODE_TEXT) {
          if (out.empty() || out.back().tag == GUMBO_TAG_LAST) {
            out.push_back({GUMBO_TAG_DIV, "", open.back()});
          }
          append_squeezed(out.back().text, node.v.text.text);
          return false;
        }
        if (node.type == GUMBO_NODE_WHITESPACE) {
          if (!out.empty()) {
            append_squeezed(out.back().text, " ");
          }
          return false;
        }
        if (!is_element(node) || is_one_of(node.v.element.tag, k_dropped)) {
          return node.type == GUMBO_NODE_DOCUMENT;
        }
        const GumboTag tag = node.v.element.tag;
        if (tag == GUMBO_TAG_UL || tag == GUMBO_TAG_OL || tag == GUMBO_TAG_TABLE) {
          open.push_back(++lists);
        }
        if (tag == GUMBO_TAG_DD && !out.empty() && out.back().tag == GUMBO_TAG_DT) {
          out.back().text += '\t';  // the amount of the name before it
        } else if (tag == GUMBO_TAG_BR || is_one_of(tag, k_blocks)) {
          out.push_back({tag, "", open.back()});
        }
        return true;
      },
      [&](const GumboNode& node) {
        if (!is_element(node)) {
          return;
        }
        const GumboTag tag = node.v.element.tag;
        if (tag == GUMBO_TAG_UL || tag == GUMBO_TAG_OL || tag == GUMBO_TAG_TABLE) {
          open.pop_back();
        }
        if ((tag == GUMBO_TAG_TD || tag == GUMBO_TAG_TH) && !out.empty()) {
          out.back().text += '\t';
        } else if (is_one_of(tag, k_blocks) && tag != GUMBO_TAG_DT) {
          out.push_back({GUMBO_TAG_DIV, "", open.back()});
        }
      });
  std::erase_if(out, [](const Block& block) { return trimmed(block.text).empty(); });
  return out;
}

bool is_heading(GumboTag tag) {
  return tag == GUMBO_TAG_H1 || tag == GUMBO_TAG_H2 || tag == GUMBO_TAG_H3 || tag == GUMBO_TAG_H4 ||
         tag == GUMBO_TAG_H5 || tag == GUMBO_TAG_H6;
}

/// The first block of the list with the most amounts, with the headings over it.
std::size_t first_of_recipe(const std::vector<Block>& blocks) {
  std::vector<std::size_t> amounts;
  for (const Block& block : blocks) {
    amounts.resize(std::max(amounts.size(), block.list + 1), 0);
    amounts[block.list] += block.list > 0 && starts_with_amount(trimmed(block.text)) ? 1U : 0U;
  }
  const auto most = std::max_element(amounts.begin(), amounts.end());
  if (most == amounts.end() || *most < 2) {
    return 0;
  }
  // The first list that has at least a third as many: the dough before the icing.
  std::size_t first = 0;
  while (first < blocks.size() && amounts[blocks[first].list] * 3 < *most) {
    ++first;
  }
  std::size_t headings = 0;
  while (first > 0 && headings < 3 &&
         (is_heading(blocks[first - 1].tag) || trimmed(blocks[first - 1].text).size() < 40)) {
    --first;
    ++headings;
  }
  return first;
}

std::string title_of(const GumboNode& root, const std::vector<Block>& blocks) {
  for (const Block& block : blocks) {
    if (block.tag == GUMBO_TAG_H1) {
      return std::string(trimmed(block.text));
    }
  }
  std::string title;
  walk(
      root,
      [&](const GumboNode& node) {
        if (is_element(node) && node.v.element.tag == GUMBO_TAG_TITLE && title.empty()) {
          title = text_of(node);
        }
        return title.empty() && (is_element(node) || node.type == GUMBO_NODE_DOCUMENT);
      },
      [](const GumboNode&) {});
  return title;
}

std::string structure_text(const GumboNode& root) {
  const std::vector<Block> blocks = blocks_of(root);
  const std::string title = title_of(root, blocks);
  std::string out = title.empty() ? "" : "Title: " + title + "\n\n";
  std::size_t list = 0;
  for (std::size_t i = first_of_recipe(blocks); i < blocks.size(); ++i) {
    const std::string_view text = trimmed(blocks[i].text);
    if (text == title) {
      continue;
    }
    const bool apart =
        is_heading(blocks[i].tag) || blocks[i].list != list || blocks[i].tag == GUMBO_TAG_P;
    list = blocks[i].list;
    out += apart ? "\n" : "";
    out += text;
    out += is_heading(blocks[i].tag) && !text.ends_with(':') ? ":\n" : "\n";
  }
  return out;
}

}  // namespace

std::string page_text(std::string_view page) {
  const Nesting nesting = nesting_of(page);
  if (page.size() > k_longest_page || nesting.depth > k_deepest ||
      nesting.formatting > k_most_formatting) {
    return without_markup(page.substr(0, k_longest_page));
  }
  const std::string valid = valid_utf8(page);
  const std::unique_ptr<GumboOutput, Closer> output(
      gumbo_parse_with_options(&kGumboDefaultOptions, valid.data(), valid.size()));
  if (output == nullptr) {
    return without_markup(page);
  }
  if (const auto recipe = Vocabulary().read(*output->document)) {
    return as_recipe_text(*recipe);
  }
  return structure_text(*output->document);
}

}  // namespace maslin::reading
