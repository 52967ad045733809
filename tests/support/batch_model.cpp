#include "tests/support/batch_model.h"

#include <cmath>
#include <random>
#include <string>

namespace dryfit::test {
namespace {

using joinery::Axis;
using joinery::Expression;
using joinery::Part;
using joinery::Span;

Expression number(double value) {
  return {std::to_string(value), true};
}
Expression text(std::string words) {
  return {std::move(words), false};
}
Span fromTo(Axis along, Expression from, Expression to) {
  return {along, std::move(from), std::move(to), {}, {}};
}
Span fromSize(Axis along, Expression from, Expression size) {
  return {along, std::move(from), {}, std::move(size), {}};
}
Span toSize(Axis along, Expression to, Expression size) {
  return {along, {}, std::move(to), std::move(size), {}};
}
Part part(std::string name, std::string material, Span length, Span width, Span thickness) {
  Part made;
  made.name = std::move(name);
  made.material = std::move(material);
  made.length = std::move(length);
  made.width = std::move(width);
  made.thickness = std::move(thickness);
  return made;
}

joinery::Material material(std::string name, joinery::MaterialKind kind, std::string species,
                           Expression thickness) {
  joinery::Material made;
  made.name = std::move(name);
  made.kind = kind;
  made.species = std::move(species);
  made.thickness = std::move(thickness);
  return made;
}

struct Door {
  std::string name;
  double x, y, width, height, stile, rail;
};

void addDoor(joinery::Model& model, const Door& d) {
  const std::string left = d.name + "_left";
  const std::string right = d.name + "_right";
  const std::string top = d.name + "_top";
  const std::string bottom = d.name + "_bottom";
  const std::string panel = d.name + "_panel";
  const Span stock{Axis::y, number(d.y), {}, {}, {}};
  const Span between = fromTo(Axis::x, text(left + ".right"), text(right + ".left"));
  const Span upright = fromSize(Axis::z, number(0), number(d.height));
  model.parts.push_back(
      part(left, "oak", upright, fromSize(Axis::x, number(d.x), number(d.stile)), stock));
  model.parts.push_back(
      part(right, "oak", upright, toSize(Axis::x, number(d.x + d.width), number(d.stile)), stock));
  model.parts.push_back(
      part(top, "oak", between, toSize(Axis::z, number(d.height), number(d.rail)), stock));
  model.parts.push_back(
      part(bottom, "oak", between, fromSize(Axis::z, number(0), number(d.rail)), stock));
  model.parts.push_back(part(panel, "ply",
                             fromTo(Axis::z, text(bottom + ".top"), text(top + ".bottom")), between,
                             {Axis::y, {}, {}, {}, number(d.y + 11)}));
  for (const std::string& rail : {top, bottom}) {
    for (const std::string& stile : {left, right}) {
      model.joints.push_back({rail + "_in" + stile.substr(d.name.size()),
                              "haunched-mortise-tenon",
                              {{"tenon", {rail}}, {"mortise", {stile}}},
                              {}});
    }
  }
  model.joints.push_back({panel + "_groove",
                          "panel-groove",
                          {{"panel", {panel}}, {"frame", {left, right, top, bottom}}},
                          {}});
}

}  // namespace

joinery::Model batchOfDoors(std::size_t parts) {
  joinery::Model model;
  model.name = "Batch of doors";
  model.materials = {material("oak", joinery::MaterialKind::solid, "white oak", number(22)),
                     material("ply", joinery::MaterialKind::sheet, "birch plywood", number(6))};
  const std::size_t doors = (parts + 4) / 5;
  const auto inARow = static_cast<std::size_t>(std::ceil(std::sqrt(static_cast<double>(doors))));
  std::mt19937 random(20);
  // Drawn by hand from the generator, whose numbers are the same in every library.
  const auto between = [&](int low, int high) {
    return low + static_cast<double>(random() % static_cast<unsigned>(high - low + 1));
  };
  for (std::size_t i = 0; i < doors; ++i) {
    const double x = 700.0 * static_cast<double>(i % inARow);
    const double y = 60.0 * static_cast<double>(i / inARow);
    addDoor(model, {"door" + std::to_string(i), x, y, between(300, 600), between(400, 2000),
                    between(50, 80), between(50, 110)});
  }
  return model;
}

joinery::Model dowelledShelves(int shelves) {
  joinery::Model model;
  model.name = "Shelves";
  model.materials.push_back(
      material("board", joinery::MaterialKind::solid, "white ash", number(20)));
  const Span depth = fromSize(Axis::y, number(0), number(240));
  const Span height = fromSize(Axis::z, number(0), number(300 * shelves));
  model.parts.push_back(part("left", "board", height, depth, {Axis::x, number(0), {}, {}, {}}));
  model.parts.push_back(part("right", "board", height, depth, {Axis::x, {}, number(800), {}, {}}));
  for (int i = 0; i < shelves; ++i) {
    const std::string name = "shelf_" + std::to_string(i);
    model.parts.push_back(part(name, "board",
                               fromTo(Axis::x, text("left.right"), text("right.left")), depth,
                               {Axis::z, number(100 + 290 * i), {}, {}, {}}));
    for (const char* side : {"left", "right"}) {
      model.joints.push_back(
          {name + "_" + side, "dowels", {{"end", {name}}, {"face", {side}}}, {}});
    }
  }
  return model;
}

}  // namespace dryfit::test
