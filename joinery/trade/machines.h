#pragma once

#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace dryfit::joinery {

enum class Machine {
  handPlane,
  handSaw,
  jointerAndThicknesser,
  tableSaw,
  slidingTableSaw,
  bandSaw,
  router,
};

/// What a rough part is worked on.
enum class WorkedSide {
  ends,
  edges,
  faces,
};

/// What a machine takes away, and what must be left on for it. Lengths in mm.
struct MachineRow {
  Machine machine;
  std::string_view word;  ///< in files and on the command line: "table_saw"
  std::string_view name;  ///< for people: "table saw"
  double kerf = 0;        ///< wood that one cut turns to dust; 0: it does not saw
  /// Over the finished size of timber, both sides together, where this machine brings a part to
  /// it; nothing: it does not do that.
  std::optional<double> ends, edges, faces;
  /// The same, over length and width of a sheet part.
  std::optional<double> sheet;
  std::string_view source;
};

/// The whole table, in the order of Machine.
[[nodiscard]] std::span<const MachineRow> machines();
[[nodiscard]] const MachineRow& machine(Machine which);

/// What the machine needs on that side of timber, or of a sheet part; nothing: it cannot do that.
[[nodiscard]] std::optional<double> leftFor(Machine which, WorkedSide side, bool timber);
/// Whether it saws boards and sheets through.
[[nodiscard]] bool saws(Machine which);

/// The machine of this word; "panel_saw" is still read for the sliding table saw.
[[nodiscard]] std::optional<Machine> machineNamed(std::string_view word);
/// "table_saw, sliding_table_saw and band_saw": the words of all machines for which `does` holds.
[[nodiscard]] std::string machineWords(const std::function<bool(Machine)>& does);

/// More than any saw or cutter takes, mm: a wider kerf is a slip of the pen, or of the unit.
inline constexpr double kWidestKerf = 20;

}  // namespace dryfit::joinery
