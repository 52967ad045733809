#include "export/drawing/svg_writer.h"

#include <fmt/format.h>

#include <cmath>
#include <map>
#include <numbers>
#include <pugixml.hpp>
#include <sstream>

#include "export/drawing/text_measure.h"
#include "export/files/atomic_file.h"

namespace dryfit::exporting {
namespace {

/// A number in mm to a micrometre, without trailing zeros.
std::string number(double value) {
  std::string text = fmt::format("{:.3f}", value);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.ends_with('.')) text.pop_back();
  return text == "-0" ? "0" : text;
}

/// Writes marks under the group of their layer, with y turned downward.
class SvgPen {
 public:
  SvgPen(pugi::xml_node root, double height) : root_(root), height_(height) {
    for (const Layer layer : kLayers) {
      pugi::xml_node group = root_.append_child("g");
      group.append_attribute("id") = std::string(nameOf(layer)).c_str();
      groups_[layer] = group;
    }
  }

  void operator()(const Stroke& s) {
    pugi::xml_node node = groups_[s.layer].append_child(s.closed ? "polygon" : "polyline");
    set(node, "class", std::string(nameOf(s.line)));
    set(node, "points", points(s.points));
  }
  void operator()(const Arc& arc) {
    if (arc.to - arc.from >= 360) {
      pugi::xml_node node = groups_[arc.layer].append_child("circle");
      set(node, "class", std::string(nameOf(arc.line)));
      set(node, "cx", number(arc.centre.x));
      set(node, "cy", number(height_ - arc.centre.y));
      set(node, "r", number(arc.radius));
      return;
    }
    const auto at = [&](double degrees) {
      const double a = degrees * std::numbers::pi / 180;
      return number(arc.centre.x + arc.radius * std::cos(a)) + " " +
             number(height_ - arc.centre.y - arc.radius * std::sin(a));
    };
    pugi::xml_node node = groups_[arc.layer].append_child("path");
    set(node, "class", std::string(nameOf(arc.line)));
    set(node, "d",
        fmt::format("M {} A {r} {r} 0 {} 0 {}", at(arc.from), arc.to - arc.from > 180 ? 1 : 0,
                    at(arc.to), fmt::arg("r", number(arc.radius))));
  }
  void operator()(const Fill& fill) {
    pugi::xml_node node = groups_[fill.layer].append_child("polygon");
    set(node, "class", "fill");
    set(node, "points", points(fill.points));
  }
  void operator()(const Text& t) {
    pugi::xml_node node = groups_[t.layer].append_child("text");
    const double y = height_ - t.at.y;
    set(node, "x", number(t.at.x));
    set(node, "y", number(y));
    set(node, "font-size", number(emSize(t.height)));
    // A reader without the font still keeps every text in the room measured for it.
    set(node, "textLength", number(textWidth(t.text, t.height, t.style)));
    set(node, "lengthAdjust", "spacingAndGlyphs");
    if (t.anchor != TextAnchor::left) {
      set(node, "text-anchor", t.anchor == TextAnchor::middle ? "middle" : "end");
    }
    if (t.style == TextStyle::bold) set(node, "font-weight", "bold");
    if (t.rotation != 0) {
      set(node, "transform",
          fmt::format("rotate({} {} {})", number(-t.rotation), number(t.at.x), number(y)));
    }
    node.text().set(t.text.c_str());
  }

 private:
  static void set(pugi::xml_node node, const char* name, const std::string& value) {
    node.append_attribute(name) = value.c_str();
  }
  std::string points(const std::vector<Point2>& list) const {
    std::string text;
    for (const Point2& p : list) {
      if (!text.empty()) text += ' ';
      text += number(p.x) + "," + number(height_ - p.y);
    }
    return text;
  }

  pugi::xml_node root_;
  double height_;
  std::map<Layer, pugi::xml_node> groups_;
};

std::string styleSheet() {
  std::string css = "polyline,polygon,circle,path{fill:none;stroke:#000;stroke-linejoin:round}";
  for (const LineClass line : {LineClass::visible, LineClass::hidden, LineClass::centre,
                               LineClass::dimension, LineClass::mark, LineClass::frame}) {
    const LineStyle style = styleOf(line);
    css += fmt::format(" .{}{{stroke-width:{}", nameOf(line), number(style.width));
    for (std::size_t i = 0; i < style.dashes.size(); ++i) {
      css += (i == 0 ? ";stroke-dasharray:" : " ") + number(style.dashes[i]);
    }
    css += "}";
  }
  css += " polygon.fill{fill:#000;stroke:none}";
  css += fmt::format(" text{{font-family:\"{}\",\"DejaVu Sans\",sans-serif}}", kFontFamily);
  return css;
}

}  // namespace

std::string svgText(const Sheet& sheet) {
  pugi::xml_document document;
  pugi::xml_node declaration = document.append_child(pugi::node_declaration);
  declaration.append_attribute("version") = "1.0";
  declaration.append_attribute("encoding") = "UTF-8";
  pugi::xml_node root = document.append_child("svg");
  root.append_attribute("xmlns") = "http://www.w3.org/2000/svg";
  root.append_attribute("version") = "1.1";
  root.append_attribute("width") = (number(sheet.width) + "mm").c_str();
  root.append_attribute("height") = (number(sheet.height) + "mm").c_str();
  root.append_attribute("viewBox") =
      ("0 0 " + number(sheet.width) + " " + number(sheet.height)).c_str();
  root.append_child("title").text().set(sheet.title.c_str());
  root.append_child("style").text().set(styleSheet().c_str());
  pugi::xml_node paper = root.append_child("rect");
  paper.append_attribute("width") = number(sheet.width).c_str();
  paper.append_attribute("height") = number(sheet.height).c_str();
  paper.append_attribute("fill") = "#fff";
  SvgPen pen(root, sheet.height);
  for (const Mark& mark : sheet.ink.marks) std::visit(pen, mark);
  std::ostringstream out;
  document.save(out, "  ");
  return out.str();
}

Result<void> writeSvg(const std::filesystem::path& path, const Sheet& sheet) {
  return writeFileAtomically(path, svgText(sheet));
}

}  // namespace dryfit::exporting
