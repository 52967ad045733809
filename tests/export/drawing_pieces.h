#pragma once

#include <random>
#include <string>
#include <utility>
#include <vector>

#include "joinery/piece/part_list.h"
#include "joinery/piece/piece.h"
#include "kernel/solid.h"

namespace dryfit::test {

/// A piece with its solids and part groups, ready to be drawn.
struct DrawnPiece {
  joinery::Piece piece;
  std::vector<kernel::Solid> solids;
  std::vector<joinery::PartGroup> groups;
};

/// Builds the solids. Throws where a part cannot be built.
[[nodiscard]] DrawnPiece makeDrawable(joinery::Piece piece);

/// A frame-and-panel door, 600 high and 400 wide: stiles with mortises, haunch sockets and a
/// groove, rails with haunched tenons and a groove, a panel with tongues all round.
[[nodiscard]] joinery::Piece doorPiece();

/// A table frame: legs mortised from two sides, aprons with tenons.
[[nodiscard]] joinery::Piece tablePiece();

/// A bookcase: sides with housings and a rebate at the back, shelves.
[[nodiscard]] joinery::Piece bookcasePiece();

/// One board, called "board", without joints; face side in front, face edge on top.
[[nodiscard]] joinery::Piece plainPiece(double length, double width, double thickness);

/// "board", 400 × 100 × 20, with one housing 12 wide and 6 deep in its face side, turned by 30
/// degrees about the middle of the board's width at half its length.
[[nodiscard]] joinery::Piece slopedHousingPiece();
/// A board 700 x 100 x 20 with housings 12 wide, each crossing its 200 mm from `first` at `second`
/// degrees.
[[nodiscard]] joinery::Piece slopedHousingPiece(
    const std::vector<std::pair<double, double>>& housings);
/// A slat with an equal tongue on both edges, starting at these places.
[[nodiscard]] joinery::Piece tonguesPiece(double left, double right);

/// "board", 700 × 340 × 18, with a stopped housing in each face and a notch in each edge.
[[nodiscard]] joinery::Piece housedBothSidesPiece();

/// A box of six boards, all different, with a shelf inside.
[[nodiscard]] joinery::Piece closedBoxPiece();

/// A part with a random set of cuts and tenons, all of them box-shaped or bored.
[[nodiscard]] joinery::Piece randomDrawnPiece(std::mt19937_64& random);

}  // namespace dryfit::test
