#include "tests/export/drawing_pieces.h"

#include <cmath>
#include <stdexcept>

#include "kernel/recipe.h"
#include "tests/support/hand_made.h"

namespace dryfit::test {

using joinery::Axis;
using joinery::Face;
using joinery::JointId;
using joinery::PartId;
using joinery::Piece;
using joinery::Purpose;
using kernel::Box3;

namespace {

void setMarks(Piece& piece, PartId id, Face faceSide, Face faceEdge) {
  joinery::PlacedPart& part = piece.parts[id.index()];
  part.faceSide = part.local(faceSide);
  part.faceEdge = part.local(faceEdge);
}

/// A haunched tenon at one corner of the door. The haunch fills the groove's open end.
void addCorner(HandMade& h, PartId rail, PartId stile, bool left, bool top) {
  const JointId joint = h.joint(h.piece.part(rail).name + h.piece.part(stile).name, {rail, stile});
  const double inner = left ? 60 : 340;
  const auto across = [&](double reach) {
    return left ? std::pair(inner - reach, inner) : std::pair(inner, inner + reach);
  };
  const auto [tenonFrom, tenonTo] = across(38);
  const auto [mortiseFrom, mortiseTo] = across(40);
  const auto [haunchFrom, haunchTo] = across(9);
  const double low = top ? 549 : 20;
  const double high = top ? 580 : 51;
  const Box3 tenon{{tenonFrom, 7, low}, {tenonTo, 15, high}};
  const Box3 mortise{{mortiseFrom, 7, low}, {mortiseTo, 15, high}};
  const Box3 haunch{{haunchFrom, 7, top ? 580.0 : 0.0}, {haunchTo, 15, top ? 600.0 : 20.0}};
  const Face railEnd = left ? Face::left : Face::right;
  const Face stileEdge = left ? Face::right : Face::left;
  h.insert(joint, rail, Purpose::tenon, tenon, railEnd);
  h.insert(joint, rail, Purpose::haunch, haunch, railEnd);
  h.cut(joint, stile, Purpose::mortise, mortise, stileEdge);
  h.cut(joint, stile, Purpose::haunchSocket, haunch, stileEdge);
}

}  // namespace

DrawnPiece makeDrawable(Piece piece) {
  DrawnPiece drawn{std::move(piece), {}, {}};
  for (const joinery::PlacedPart& part : drawn.piece.parts) {
    const auto solid = kernel::build(part.recipe());
    if (!solid) throw std::runtime_error(solid.error().line());
    drawn.solids.push_back(*solid);
  }
  drawn.groups = joinery::groupParts(drawn.piece);
  return drawn;
}

Piece doorPiece() {
  HandMade h;
  h.piece.model.name = "Demo door";
  const PartId left = h.part("left_stile", {{0, 0, 0}, {60, 24, 600}}, Axis::z, Axis::x);
  const PartId right = h.part("right_stile", {{340, 0, 0}, {400, 24, 600}}, Axis::z, Axis::x);
  const PartId top = h.part("top_rail", {{60, 0, 540}, {340, 24, 600}}, Axis::x, Axis::z);
  const PartId bottom = h.part("bottom_rail", {{60, 0, 0}, {340, 24, 60}}, Axis::x, Axis::z);
  const PartId panel = h.part("panel", {{60, 8, 60}, {340, 14, 540}}, Axis::z, Axis::x, "ply");
  setMarks(h.piece, left, Face::front, Face::right);
  setMarks(h.piece, right, Face::front, Face::left);
  setMarks(h.piece, top, Face::front, Face::bottom);
  setMarks(h.piece, bottom, Face::front, Face::top);
  for (const bool onTop : {true, false}) {
    addCorner(h, onTop ? top : bottom, left, true, onTop);
    addCorner(h, onTop ? top : bottom, right, false, onTop);
  }
  const JointId groove = h.joint("panel_groove", {panel, left, right, top, bottom});
  h.cut(groove, left, Purpose::groove, {{51, 7, 0}, {60, 15, 600}}, Face::right);
  h.cut(groove, right, Purpose::groove, {{340, 7, 0}, {349, 15, 600}}, Face::left);
  h.cut(groove, top, Purpose::groove, {{60, 7, 540}, {340, 15, 549}}, Face::bottom);
  h.cut(groove, bottom, Purpose::groove, {{60, 7, 51}, {340, 15, 60}}, Face::top);
  h.insert(groove, panel, Purpose::tongue, {{53, 8, 53}, {60, 14, 547}}, Face::left);
  h.insert(groove, panel, Purpose::tongue, {{340, 8, 53}, {347, 14, 547}}, Face::right);
  h.insert(groove, panel, Purpose::tongue, {{60, 8, 53}, {340, 14, 60}}, Face::bottom);
  h.insert(groove, panel, Purpose::tongue, {{60, 8, 540}, {340, 14, 547}}, Face::top);
  return h.piece;
}

Piece tablePiece() {
  HandMade h;
  h.piece.model.name = "Demo map stand";
  std::vector<PartId> legs;
  for (const double y : {0.0, 360.0}) {
    for (const double x : {0.0, 460.0}) {
      const std::string name =
          std::string(y < 1 ? "front_" : "back_") + (x < 1 ? "left_leg" : "right_leg");
      legs.push_back(h.part(name, {{x, y, 0}, {x + 40, y + 40, 700}}, Axis::z, Axis::x));
      setMarks(h.piece, legs.back(), y < 1 ? Face::front : Face::back,
               x < 1 ? Face::left : Face::right);
    }
  }
  const auto apron = [&](const std::string& name, Box3 box, Axis length) {
    return h.part(name, box, length, Axis::z);
  };
  const PartId front = apron("front_apron", {{40, 6, 610}, {460, 26, 700}}, Axis::x);
  const PartId back = apron("back_apron", {{40, 374, 610}, {460, 394, 700}}, Axis::x);
  const PartId left = apron("left_apron", {{6, 40, 610}, {26, 360, 700}}, Axis::y);
  const PartId right = apron("right_apron", {{474, 40, 610}, {494, 360, 700}}, Axis::y);
  const auto join = [&](PartId rail, PartId leg, Box3 box, Face end) {
    h.mortiseAndTenon(h.piece.part(rail).name + "_" + h.piece.part(leg).name, rail, leg, box, end);
  };
  join(front, legs[0], {{20, 13, 625}, {40, 19, 685}}, Face::left);
  join(front, legs[1], {{460, 13, 625}, {480, 19, 685}}, Face::right);
  join(back, legs[2], {{20, 381, 625}, {40, 387, 685}}, Face::left);
  join(back, legs[3], {{460, 381, 625}, {480, 387, 685}}, Face::right);
  join(left, legs[0], {{13, 20, 625}, {19, 40, 685}}, Face::front);
  join(left, legs[2], {{13, 360, 625}, {19, 380, 685}}, Face::back);
  join(right, legs[1], {{481, 20, 625}, {487, 40, 685}}, Face::front);
  join(right, legs[3], {{481, 360, 625}, {487, 380, 685}}, Face::back);
  return h.piece;
}

Piece bookcasePiece() {
  HandMade h;
  h.piece.model.name = "Demo bookcase";
  const PartId left = h.part("left_side", {{0, 0, 0}, {20, 280, 900}}, Axis::z, Axis::y);
  const PartId right = h.part("right_side", {{580, 0, 0}, {600, 280, 900}}, Axis::z, Axis::y);
  setMarks(h.piece, left, Face::right, Face::front);
  setMarks(h.piece, right, Face::left, Face::front);
  int number = 0;
  for (const double z : {60.0, 340.0, 600.0, 880.0}) {
    const PartId shelf = h.part("shelf_" + std::to_string(++number),
                                {{20, 0, z}, {580, 270, z + 18}}, Axis::x, Axis::y);
    setMarks(h.piece, shelf, Face::top, Face::front);
    for (const bool atLeft : {true, false}) {
      const JointId joint = h.joint("housing_" + std::to_string(2 * number + (atLeft ? 0 : 1)),
                                    {shelf, atLeft ? left : right});
      const double from = atLeft ? 13 : 580;
      h.insert(joint, shelf, Purpose::tongue, {{from, 10, z}, {from + 7, 270, z + 18}},
               atLeft ? Face::left : Face::right);
      h.cut(joint, atLeft ? left : right, Purpose::housing,
            {{from, 10, z}, {from + 7, 270, z + 18}}, atLeft ? Face::right : Face::left);
      h.piece.parts[(atLeft ? left : right).index()].features.back().stopped = true;
    }
  }
  const PartId panel = h.part("back", {{10, 270, 0}, {590, 276, 900}}, Axis::z, Axis::x, "ply");
  const JointId rebate = h.joint("back_rebate", {panel, left, right});
  h.cut(rebate, left, Purpose::rebate, {{10, 270, 0}, {20, 280, 900}}, Face::back);
  h.cut(rebate, right, Purpose::rebate, {{580, 270, 0}, {590, 280, 900}}, Face::back);
  return h.piece;
}

Piece plainPiece(double length, double width, double thickness) {
  HandMade h;
  h.piece.model.name = "Demo board";
  const PartId board = h.part("board", {{0, 0, 0}, {length, thickness, width}}, Axis::x, Axis::z);
  setMarks(h.piece, board, Face::front, Face::top);
  return h.piece;
}

Piece slopedHousingPiece() {
  return slopedHousingPiece({{100, 30}});
}

Piece slopedHousingPiece(const std::vector<std::pair<double, double>>& housings) {
  HandMade h;
  h.piece.model.name = "Demo board";
  const PartId board = h.part("board", {{0, 0, 0}, {700, 100, 20}}, Axis::x, Axis::y);
  setMarks(h.piece, board, Face::top, Face::front);
  for (const auto& [from, degrees] : housings) {
    const std::string number = std::to_string(h.piece.joints.size());
    const PartId mate =
        h.part("ledge_" + number, {{from, 0, 20}, {from + 200, 14, 60}}, Axis::x, Axis::z);
    const JointId joint = h.joint("ledge_housing_" + number, {mate, board});
    h.cut(joint, board, Purpose::housing, {{from, 0, 14}, {from + 200, 100, 20}}, Face::top);
    joinery::Feature& f = h.piece.parts[board.index()].features.back();
    const double middle = from + 100;
    const kernel::Frame turn =
        kernel::Frame::rotation({middle, 50, 0}, {0, 0, 1}, Angle::degrees(degrees));
    f.tool = kernel::Block{{{middle - 6, -50, 14}, {middle + 6, 150, 21}}, turn};
  }
  return h.piece;
}

Piece tonguesPiece(double left, double right) {
  HandMade h;
  h.piece.model.name = "Demo slat";
  const PartId slat = h.part("slat", {{0, 0, 0}, {400, 60, 18}}, Axis::x, Axis::y);
  const PartId mate = h.part("mate", {{0, 0, 40}, {400, 60, 58}}, Axis::x, Axis::y);
  setMarks(h.piece, slat, Face::top, Face::front);
  h.insert(h.joint("front", {slat, mate}), slat, Purpose::tongue,
           {{left, -8, 6}, {left + 300, 0, 12}}, Face::front);
  h.insert(h.joint("back", {slat, mate}), slat, Purpose::tongue,
           {{right, 60, 6}, {right + 300, 68, 12}}, Face::back);
  return h.piece;
}

Piece housedBothSidesPiece() {
  HandMade h;
  h.piece.model.name = "Demo division";
  const PartId board = h.part("board", {{0, 0, 0}, {700, 340, 18}}, Axis::x, Axis::y);
  const PartId over = h.part("upper_shelf", {{340, 20, 18}, {358, 340, 400}}, Axis::z, Axis::y);
  const PartId under = h.part("lower_shelf", {{340, 20, -400}, {358, 340, 0}}, Axis::z, Axis::y);
  const PartId front = h.part("front_rail", {{680, 0, -400}, {700, 23, 400}}, Axis::z, Axis::y);
  const PartId back = h.part("back_rail", {{680, 317, -400}, {700, 340, 400}}, Axis::z, Axis::y);
  setMarks(h.piece, board, Face::top, Face::front);
  const auto cut = [&](const char* name, PartId mate, Box3 box, Face face) {
    h.cut(h.joint(name, {mate, board}), board, Purpose::housing, box, face);
  };
  cut("upper", over, {{340, 20, 12}, {358, 340, 18}}, Face::top);
  cut("lower", under, {{340, 20, 0}, {358, 340, 6}}, Face::bottom);
  cut("front", front, {{680, 0, 0}, {700, 23, 18}}, Face::front);
  cut("back", back, {{680, 317, 0}, {700, 340, 18}}, Face::back);
  return h.piece;
}

Piece closedBoxPiece() {
  HandMade h;
  h.piece.model.name = "Demo box";
  const auto board = [&](const std::string& name, Box3 box, Axis length, Axis width) {
    h.part(name, box, length, width);
  };
  board("front", {{0, 0, 0}, {300, 12, 200}}, Axis::x, Axis::z);
  board("back", {{0, 190, 0}, {300, 200, 200}}, Axis::x, Axis::z);
  board("left", {{0, 12, 0}, {14, 190, 200}}, Axis::z, Axis::y);
  board("right", {{288, 12, 0}, {300, 190, 200}}, Axis::z, Axis::y);
  board("bottom", {{14, 12, 0}, {288, 190, 9}}, Axis::x, Axis::y);
  board("shelf", {{14, 12, 90}, {288, 190, 98}}, Axis::x, Axis::y);
  board("top", {{14, 12, 190}, {288, 190, 200}}, Axis::x, Axis::y);
  return h.piece;
}

Piece randomDrawnPiece(std::mt19937_64& random) {
  HandMade h;
  h.piece.model.name = "Random piece";
  const auto pick = [&](double low, double high) {
    return std::round(std::uniform_real_distribution(low, high)(random) * 2) / 2;
  };
  const auto chance = [&](double share) { return std::bernoulli_distribution(share)(random); };
  const double length = pick(120, chance(0.3) ? 2000 : 700);
  const double width = pick(25, chance(0.2) ? 500 : 120);
  const double thick = pick(8, 50);
  const PartId part = h.part("random_part", {{0, 0, 0}, {length, width, thick}}, Axis::x, Axis::y);
  const PartId mate = h.part("mate", {{0, 0, -50}, {length, width, 0}}, Axis::x, Axis::y);
  setMarks(h.piece, part, chance(0.5) ? Face::bottom : Face::top,
           chance(0.5) ? Face::front : Face::back);
  const auto joint = [&](int i) { return h.joint("joint_" + std::to_string(i), {mate, part}); };
  int number = 0;
  for (const bool far : {false, true}) {
    if (!chance(0.5)) continue;
    const double out = pick(8, 60);
    h.insert(joint(number++), part, Purpose::tenon,
             {{far ? length : -out, width * 0.2, thick / 3},
              {far ? length + out : 0, width * 0.7, thick * 2 / 3}},
             far ? Face::right : Face::left);
  }
  if (chance(0.4)) {
    h.cut(joint(number++), part, Purpose::groove,
          {{0, 0, thick / 3}, {length, std::min(8.0, width / 3), thick * 2 / 3}}, Face::front);
  }
  const int cuts = std::uniform_int_distribution(0, 6)(random);
  for (int i = 0; i < cuts; ++i) {
    const double from = pick(0, length - 30);
    const double to = std::min(length, from + pick(6, 80));
    switch (std::uniform_int_distribution(0, 4)(random)) {
      case 0:
        h.cut(joint(number++), part, Purpose::mortise,
              {{from, 0, thick / 3}, {to, width * 0.6, thick * 2 / 3}}, Face::front);
        break;
      case 1:
        h.cut(joint(number++), part, Purpose::mortise,
              {{from, width * 0.5, thick / 3}, {to, width, thick * 2 / 3}}, Face::back);
        break;
      case 2:
        h.cut(joint(number++), part, Purpose::housing,
              {{from, 0, thick * 0.7}, {std::min(to, from + 20), width, thick}}, Face::top);
        break;
      case 3:
        h.cut(joint(number++), part, Purpose::lapSocket, {{from, 0, 0}, {to, width, thick * 0.4}},
              Face::bottom);
        break;
      default:
        h.bore(joint(number++), part,
               {{from, width / 2 - 4, thick / 2}, {from + 8, width / 2 + 4, thick}}, Face::top);
    }
  }
  return h.piece;
}

}  // namespace dryfit::test
