#include "joinery/trade/machines.h"

#include <algorithm>
#include <array>
#include <vector>

#include "joinery/base/plain_text.h"

namespace dryfit::joinery {
namespace {

constexpr std::string_view kMemory = "common practice, from memory";
constexpr std::optional<double> kNot;

constexpr std::array kMachines{
    MachineRow{Machine::handPlane, "hand_plane", "hand plane", 0, 2, 3, 3, 1, kMemory},
    MachineRow{Machine::handSaw, "hand_saw", "handsaw", 1.5, 10, kNot, kNot, kNot, kMemory},
    MachineRow{Machine::jointerAndThicknesser, "thicknesser", "jointer and thickness planer", 0,
               kNot, 5, 4, kNot, kMemory},
    MachineRow{Machine::tableSaw, "table_saw", "table saw", 3.2, 25, 4, kNot, 0,
               "common practice, from memory: kerf 1/8 in"},
    MachineRow{Machine::slidingTableSaw, "sliding_table_saw", "sliding table saw", 4.2, 25, 6, kNot,
               0, kMemory},
    MachineRow{Machine::bandSaw, "band_saw", "band saw", 1, kNot, kNot, kNot, kNot, kMemory},
    MachineRow{Machine::router, "router", "router", 8, 10, 6, 3, 6,
               "common practice, from memory: the kerf is the cutter's diameter"},
};

constexpr bool inOrder() {
  for (std::size_t i = 0; i < kMachines.size(); ++i) {
    if (static_cast<std::size_t>(kMachines[i].machine) != i) return false;
  }
  return true;
}
static_assert(inOrder(), "one row a Machine, in their order");

}  // namespace

std::span<const MachineRow> machines() {
  return kMachines;
}

const MachineRow& machine(Machine which) {
  return kMachines[static_cast<std::size_t>(which)];
}

std::optional<double> leftFor(Machine which, WorkedSide side, bool timber) {
  const MachineRow& row = machine(which);
  if (!timber) return side == WorkedSide::faces ? std::nullopt : row.sheet;
  switch (side) {
    case WorkedSide::ends:
      return row.ends;
    case WorkedSide::edges:
      return row.edges;
    case WorkedSide::faces:
      break;
  }
  return row.faces;
}

bool saws(Machine which) {
  return machine(which).kerf > 0;
}

std::string machineWords(const std::function<bool(Machine)>& does) {
  std::vector<std::string> words;
  for (const MachineRow& row : machines()) {
    if (does(row.machine)) words.emplace_back(row.word);
  }
  return listed(words);
}

std::optional<Machine> machineNamed(std::string_view word) {
  // Its word in older files; in Britain it is a handsaw, in America a saw that stands upright.
  if (word == "panel_saw") return Machine::slidingTableSaw;
  const auto row = std::find_if(kMachines.begin(), kMachines.end(),
                                [&](const MachineRow& one) { return one.word == word; });
  return row == kMachines.end() ? std::nullopt : std::optional(row->machine);
}

}  // namespace dryfit::joinery
