#include "export/drawing/text_measure.h"

#include <cairo.h>

#include <cmath>
#include <memory>
#include <numbers>

namespace dryfit::exporting {
namespace {

// Capital height of DejaVu Sans in ems: 1493 of 2048 units.
constexpr double kCapitalShare = 1493.0 / 2048.0;
// How far descenders reach under the base line, in capital heights (483 of 1493 units).
constexpr double kDescent = 0.33;

struct FontDeleter {
  void operator()(cairo_scaled_font_t* font) const { cairo_scaled_font_destroy(font); }
};
using ScaledFont = std::unique_ptr<cairo_scaled_font_t, FontDeleter>;

/// The font at 1000 mm an em without hinting, so that widths grow in proportion.
ScaledFont makeFont(TextStyle style) {
  cairo_font_face_t* face = cairo_toy_font_face_create(
      std::string(kFontFamily).c_str(), CAIRO_FONT_SLANT_NORMAL,
      style == TextStyle::bold ? CAIRO_FONT_WEIGHT_BOLD : CAIRO_FONT_WEIGHT_NORMAL);
  cairo_font_options_t* options = cairo_font_options_create();
  cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
  cairo_matrix_t size;
  cairo_matrix_t identity;
  cairo_matrix_init_scale(&size, 1000, 1000);
  cairo_matrix_init_identity(&identity);
  ScaledFont font(cairo_scaled_font_create(face, &size, &identity, options));
  cairo_font_options_destroy(options);
  cairo_font_face_destroy(face);
  return font;
}

const ScaledFont& fontFor(TextStyle style) {
  static const ScaledFont regular = makeFont(TextStyle::regular);
  static const ScaledFont bold = makeFont(TextStyle::bold);
  return style == TextStyle::bold ? bold : regular;
}

bool startsLetter(char c) {
  return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
}

/// The longest beginning of `word`, in whole letters and at least one, that fits.
std::size_t lettersThatFit(std::string_view word, double width, double height, TextStyle style) {
  std::size_t fits = word.size();
  for (std::size_t i = 1; i <= word.size(); ++i) {
    if (i < word.size() && !startsLetter(word[i])) continue;
    if (textWidth(word.substr(0, i), height, style) > width) break;
    fits = i;
  }
  if (textWidth(word.substr(0, fits), height, style) <= width) return fits;
  std::size_t one = 1;
  while (one < word.size() && !startsLetter(word[one])) ++one;
  return one;
}

}  // namespace

double emSize(double capitalHeight) {
  return capitalHeight / kCapitalShare;
}

double textWidth(std::string_view text, double height, TextStyle style) {
  cairo_text_extents_t extents;
  cairo_scaled_font_text_extents(fontFor(style).get(), std::string(text).c_str(), &extents);
  return extents.x_advance / 1000 * emSize(height);
}

Box2 textBox(const Text& text) {
  const double width = textWidth(text.text, text.height, text.style);
  const double left = text.anchor == TextAnchor::left     ? 0
                      : text.anchor == TextAnchor::middle ? -width / 2
                                                          : -width;
  const double a = text.rotation * std::numbers::pi / 180;
  const double c = std::cos(a);
  const double s = std::sin(a);
  Box2 box;
  for (const double x : {left, left + width}) {
    for (const double y : {-kDescent * text.height, text.height}) {
      box.add(Point2{text.at.x + c * x - s * y, text.at.y + s * x + c * y});
    }
  }
  return box;
}

std::vector<std::string> wrapText(std::string_view text, double width, double height,
                                  TextStyle style) {
  std::vector<std::string> lines(1);
  std::size_t start = 0;
  while (start < text.size()) {
    std::size_t end = text.find(' ', start);
    if (end == std::string_view::npos) end = text.size();
    std::string_view word = text.substr(start, end - start);
    start = end + 1;
    const std::string joined =
        lines.back().empty() ? std::string(word) : lines.back() + " " + std::string(word);
    if (textWidth(joined, height, style) <= width) {
      lines.back() = joined;
      continue;
    }
    if (!lines.back().empty()) lines.emplace_back();
    while (textWidth(word, height, style) > width) {
      const std::size_t fits = lettersThatFit(word, width, height, style);
      lines.back() = word.substr(0, fits);
      word.remove_prefix(fits);
      if (word.empty()) break;
      lines.emplace_back();
    }
    if (!word.empty()) lines.back() = word;
  }
  return lines;
}

}  // namespace dryfit::exporting
