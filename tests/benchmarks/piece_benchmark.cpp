// What a whole piece costs: all numbers, all solids, all checks, against the same by general
// Boolean operations in the same run. Times are CPU time of the whole process, whatever the number
// of threads. Run tests/benchmarks/table.sh for the figures side by side.

#include <benchmark/benchmark.h>

#include <sys/resource.h>
#include <BRepAlgoAPI_Common.hxx>
#include <BRepGProp.hxx>
#include <GProp_GProps.hxx>

#include <stdexcept>
#include <string>
#include <vector>

#include "joinery/file/model_file.h"
#include "joinery/file/questions.h"
#include "joinery/fit/dry_fit.h"
#include "joinery/fit/live_fit.h"
#include "joinery/joints/evaluate.h"
#include "kernel/occt_bridge.h"
#include "kernel/recipe.h"
#include "tests/support/batch_model.h"

namespace dryfit {
namespace {

using joinery::Basis;
using joinery::Model;
using joinery::Piece;

joinery::ModelFile cupboard() {
  return joinery::ModelFile::load(DRYFIT_MODELS "/periodicals-cupboard.dryfit").value();
}

/// The cupboard with its cherry measured at `mm`.
Model measuredCupboard(const std::string& mm) {
  using joinery::Measurement;
  joinery::ModelFile file = cupboard();
  const auto taken = file.setMeasurement(
      {Measurement::Scope::material, "cherry", joinery::SizeName::thickness, {mm, true}});
  if (!taken) throw std::runtime_error(taken.error().line());
  return file.model();
}

/// Every part by one library cut or fuse a step, none shared.
std::vector<TopoDS_Shape> generalParts(const Piece& piece) {
  std::vector<TopoDS_Shape> shapes;
  for (const joinery::PlacedPart& part : piece.parts) {
    shapes.push_back(
        kernel::shapeOf(kernel::buildGeneral(part.recipe()).value().placed(part.frame)));
  }
  return shapes;
}

/// The wood shared by all pairs of parts, by the library's common of each pair.
double commonsOfAllPairs(const std::vector<TopoDS_Shape>& shapes) {
  double shared = 0;
  for (std::size_t i = 0; i < shapes.size(); ++i) {
    for (std::size_t j = i + 1; j < shapes.size(); ++j) {
      BRepAlgoAPI_Common common(shapes[i], shapes[j]);
      GProp_GProps sums;
      BRepGProp::VolumeProperties(common.Shape(), sums);
      shared += sums.Mass();
    }
  }
  return shared;
}

void cupboardCold(benchmark::State& state) {
  const Model model = cupboard().model();
  for (auto run : state) benchmark::DoNotOptimize(joinery::dryFit(model, Basis::drawn).value());
}
BENCHMARK(cupboardCold)->MeasureProcessCPUTime()->Unit(benchmark::kMillisecond)->Repetitions(9);

void cupboardByGeneralCuts(benchmark::State& state) {
  const Model model = cupboard().model();
  for (auto run : state) {
    benchmark::DoNotOptimize(generalParts(joinery::evaluate(model, Basis::drawn).value()));
  }
}
BENCHMARK(cupboardByGeneralCuts)
    ->MeasureProcessCPUTime()
    ->Unit(benchmark::kMillisecond)
    ->Iterations(1)
    ->Repetitions(5);

/// The cherry is measured anew, over and over.
void cupboardSizeChanged(benchmark::State& state) {
  joinery::LiveFit live;
  double mm = 19.3;
  for (auto run : state) {
    // Each size is new, so that nothing but what does not depend on it can be taken over.
    state.PauseTiming();
    mm += 0.0001;
    const Model model = measuredCupboard(std::to_string(mm));
    state.ResumeTiming();
    benchmark::DoNotOptimize(live.update(model, Basis::measured).value());
  }
}
BENCHMARK(cupboardSizeChanged)
    ->MeasureProcessCPUTime()
    ->Unit(benchmark::kMillisecond)
    ->Repetitions(9);

void cupboardByAllPairs(benchmark::State& state) {
  const Model model = measuredCupboard("19.3");
  for (auto run : state) {
    const Piece piece = joinery::evaluate(model, Basis::measured).value();
    benchmark::DoNotOptimize(commonsOfAllPairs(generalParts(piece)));
  }
}
BENCHMARK(cupboardByAllPairs)
    ->MeasureProcessCPUTime()
    ->Unit(benchmark::kMillisecond)
    ->Iterations(1)
    ->Repetitions(3);

/// A shelf unit with 8 dowelled shelves: square work but for its round holes.
void dowelledCold(benchmark::State& state) {
  const Model model = test::dowelledShelves(8);
  for (auto run : state) benchmark::DoNotOptimize(joinery::dryFit(model, Basis::drawn).value());
}
BENCHMARK(dowelledCold)->MeasureProcessCPUTime()->Unit(benchmark::kMillisecond)->Repetitions(9);

void dowelledByGeneralCuts(benchmark::State& state) {
  const Model model = test::dowelledShelves(8);
  for (auto run : state) {
    benchmark::DoNotOptimize(generalParts(joinery::evaluate(model, Basis::drawn).value()));
  }
}
BENCHMARK(dowelledByGeneralCuts)
    ->MeasureProcessCPUTime()
    ->Unit(benchmark::kMillisecond)
    ->Iterations(1)
    ->Repetitions(5);

void reportMemory(benchmark::State& state) {
  rusage used{};
  getrusage(RUSAGE_SELF, &used);
  state.counters["peak_MB"] = static_cast<double>(used.ru_maxrss) / 1024;
}

/// Peak memory is that of the process so far: run one size alone to learn its own.
void batch(benchmark::State& state) {
  const Model model = test::batchOfDoors(static_cast<std::size_t>(state.range(0)));
  std::size_t findings = 0;
  for (auto run : state) {
    const auto fit = joinery::dryFit(model, Basis::drawn);
    findings = fit.value().findings.size();
  }
  state.counters["findings"] = static_cast<double>(findings);
  reportMemory(state);
}
BENCHMARK(batch)
    ->MeasureProcessCPUTime()
    ->Unit(benchmark::kMillisecond)
    ->RangeMultiplier(10)
    ->Range(10, 10'000)
    ->Repetitions(5);

/// The checks alone, interference and clash among them.
void batchChecks(benchmark::State& state) {
  const Model model = test::batchOfDoors(static_cast<std::size_t>(state.range(0)));
  const Piece piece = joinery::evaluate(model, Basis::drawn).value();
  const auto solids = joinery::buildSolids(piece).value();
  for (auto run : state) benchmark::DoNotOptimize(joinery::checkPiece(piece, solids).value());
}
BENCHMARK(batchChecks)
    ->MeasureProcessCPUTime()
    ->Unit(benchmark::kMillisecond)
    ->RangeMultiplier(10)
    ->Range(10, 10'000)
    ->Repetitions(5);

void batchByAllPairs(benchmark::State& state) {
  const Model model = test::batchOfDoors(static_cast<std::size_t>(state.range(0)));
  const Piece piece = joinery::evaluate(model, Basis::drawn).value();
  const std::vector<TopoDS_Shape> shapes = generalParts(piece);
  for (auto run : state) benchmark::DoNotOptimize(commonsOfAllPairs(shapes));
}
BENCHMARK(batchByAllPairs)
    ->MeasureProcessCPUTime()
    ->Unit(benchmark::kMillisecond)
    ->Arg(10)
    ->Arg(20)
    ->Arg(40)
    ->Iterations(1)
    ->Repetitions(3);

/// A stile with a rail tenoned into it, 200 times: as copies of one sub-assembly.
std::string stilesAsCopies() {
  return R"json({"format": "dryfit-model", "version": 1, "name": "copies", "unit": "mm",
    "materials": {"wood": {"kind": "solid", "species": "white oak", "thickness": 24}},
    "assemblies": {"tee": {
      "parts": {
        "stile": {"material": "wood", "length": {"along": "z", "from": 0, "size": 600},
          "width": {"along": "x", "from": "opening.left", "size": 60},
          "thickness": {"along": "y", "from": 0}},
        "rail": {"material": "wood", "length": {"along": "x", "from": "stile.right", "size": 300},
          "width": {"along": "z", "from": 200, "size": 70}, "thickness": {"along": "y", "from": 0}}},
      "joints": {"corner": {"kind": "blind-mortise-tenon", "tenon": "rail", "mortise": "stile"}}}},
    "parts": {},
    "uses": {"tee": {"of": "tee", "repeat": 200,
      "opening": {"x": {"from": "400 * (copy - 1)", "size": 400}}}}})json";
}

/// The same written out part by part.
std::string stilesWrittenOut() {
  std::string parts, joints;
  for (int i = 0; i < 200; ++i) {
    const std::string n = std::to_string(i), comma = i == 0 ? "" : ",";
    parts += comma + "\"stile_" + n +
             R"(": {"material": "wood", "length": {"along": "z", "from": 0, "size": 600},
               "width": {"along": "x", "from": )" +
             std::to_string(400 * i) +
             R"(, "size": 60}, "thickness": {"along": "y", "from": 0}}, "rail_)" + n +
             R"(": {"material": "wood", "length": {"along": "x", "from": "stile_)" + n +
             R"(.right", "size": 300}, "width": {"along": "z", "from": 200, "size": 70},
               "thickness": {"along": "y", "from": 0}})";
    joints += comma + "\"corner_" + n + R"(": {"kind": "blind-mortise-tenon", "tenon": "rail_)" +
              n + R"(", "mortise": "stile_)" + n + "\"}";
  }
  return R"({"format": "dryfit-model", "version": 1, "name": "flat", "unit": "mm", "materials":
    {"wood": {"kind": "solid", "species": "white oak", "thickness": 24}}, "parts": {)" +
         parts + "}, \"joints\": {" + joints + "}}";
}

void fromText(benchmark::State& state, const std::string& text) {
  for (auto run : state) {
    const auto file = joinery::ModelFile::parse(text, "stiles").value();
    benchmark::DoNotOptimize(joinery::dryFit(file.model(), Basis::drawn).value());
  }
}
void copiesCold(benchmark::State& state) {
  fromText(state, stilesAsCopies());
}
void copiesWrittenOut(benchmark::State& state) {
  fromText(state, stilesWrittenOut());
}
BENCHMARK(copiesCold)->MeasureProcessCPUTime()->Unit(benchmark::kMillisecond)->Repetitions(9);
BENCHMARK(copiesWrittenOut)->MeasureProcessCPUTime()->Unit(benchmark::kMillisecond)->Repetitions(9);

/// One answer of the largest starter changes: bounds, numbers, solids, all checks.
void answerChanged(benchmark::State& state) {
  const auto starter = joinery::ModelFile::load(DRYFIT_MODELS "/starters/sideboard.dryfit").value();
  joinery::LiveFit live;
  double mm = 1400;
  for (auto run : state) {
    mm += 0.001;
    const auto file =
        joinery::answered(starter, {{"width", std::to_string(mm)}}, joinery::Unit::mm).value();
    benchmark::DoNotOptimize(live.update(file.model(), Basis::drawn).value());
  }
}
/// The same with nothing kept.
void answerCold(benchmark::State& state) {
  const auto starter = joinery::ModelFile::load(DRYFIT_MODELS "/starters/sideboard.dryfit").value();
  for (auto run : state) {
    const auto file = joinery::answered(starter, {{"width", "1400"}}, joinery::Unit::mm).value();
    benchmark::DoNotOptimize(joinery::dryFit(file.model(), Basis::drawn).value());
  }
}
BENCHMARK(answerChanged)->MeasureProcessCPUTime()->Unit(benchmark::kMillisecond)->Repetitions(9);
BENCHMARK(answerCold)->MeasureProcessCPUTime()->Unit(benchmark::kMillisecond)->Repetitions(9);

}  // namespace
}  // namespace dryfit

BENCHMARK_MAIN();
