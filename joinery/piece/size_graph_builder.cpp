#include "joinery/piece/size_graph_builder.h"

#include <algorithm>

#include "joinery/base/plain_text.h"
#include "joinery/formula/expression.h"
#include "joinery/piece/made_size.h"

namespace dryfit::joinery {
namespace {

constexpr std::array<SizeName, 3> kSizes{SizeName::length, SizeName::width, SizeName::thickness};

std::string wordFor(SizeName size) {
  return size == SizeName::length ? "length" : size == SizeName::width ? "width" : "thickness";
}
std::string wordFor(Measurement::Scope scope) {
  return scope == Measurement::Scope::part    ? "parts"
         : scope == Measurement::Scope::batch ? "batches"
                                              : "materials";
}
const Span& spanOf(const Part& part, SizeName size) {
  return size == SizeName::length  ? part.length
         : size == SizeName::width ? part.width
                                   : part.thickness;
}
std::string faceName(const Part& part, Axis axis, bool far) {
  return part.name + "." + std::string(nameOf(faceOf(axis, far)));
}
std::string placeOf(const Part& part, SizeName size) {
  return "parts." + part.name + "." + wordFor(size);
}
int given(const Span& span) {
  return int(span.from.has_value()) + int(span.to.has_value()) + int(span.size.has_value()) +
         int(span.centre.has_value());
}
/// True where the thickness is that of the material.
bool leftToMaterial(const Part& part) {
  return given(part.thickness) == 1;
}

}  // namespace

SizeGraphBuilder::SizeGraphBuilder(const Model& model, Basis basis, ExpressionCache& expressions)
    : model_(model), basis_(basis), expressions_(expressions) {
  sizes_.unit_ = model.unit;
  for (const Measurement& m : model.measurements) {
    measurements_[{wordFor(m.scope) + "." + m.name, wordFor(m.size)}] = &m;
  }
  for (const Mark& mark : model.marks) marks_.emplace(mark.part, &mark);
}

Result<SizeGraph> SizeGraphBuilder::build() {
  for (const Part& part : model_.parts) {
    if (Result<void> fine = checkSpans(part); !fine) return tl::unexpected(fine.error());
  }
  addNames();
  for (const Dimension& d : model_.dimensions) {
    const Result<void> fine = checkNames(d.value, "dimensions." + d.name);
    if (!fine) return tl::unexpected(fine.error());
  }
  for (const Material& m : model_.materials) {
    const Result<void> fine = checkNames(m.thickness, "materials." + m.name + ".thickness");
    if (!fine) return tl::unexpected(fine.error());
  }
  for (const Part& part : model_.parts) {
    for (const SizeName size : kSizes) {
      const Result<void> fine = checkSpanNames(spanOf(part, size), placeOf(part, size));
      if (!fine) return tl::unexpected(fine.error());
    }
  }
  defineDimensions();
  defineMaterials();
  for (const Part& part : model_.parts) definePart(part);
  return std::move(sizes_);
}

DependencyGraph::Id SizeGraphBuilder::add(const std::string& name, const std::string& place,
                                          bool isSize) {
  sizes_.formulas_.emplace_back();
  sizes_.isSize_.push_back(isSize);
  return sizes_.graph_.add(name, place);
}

void SizeGraphBuilder::addNames() {
  for (const Dimension& d : model_.dimensions) add(d.name, "dimensions." + d.name, false);
  for (const Material& m : model_.materials) {
    add(m.name + ".thickness", "materials." + m.name + ".thickness", true);
  }
  for (const Part& part : model_.parts) {
    for (const SizeName size : kSizes) {
      const Axis axis = spanOf(part, size).along;
      const std::string place = placeOf(part, size);
      add(faceName(part, axis, false), place, false);
      add(faceName(part, axis, true), place, false);
      add(part.name + "." + wordFor(size), place, true);
    }
  }
}

Result<void> SizeGraphBuilder::checkSpans(const Part& part) const {
  if (part.length.along == part.width.along || part.length.along == part.thickness.along ||
      part.width.along == part.thickness.along) {
    return fail(ErrorCode::spansUnfit, "two spans run along the same axis", "parts." + part.name,
                "give length, width and thickness an axis each: x, y and z");
  }
  for (const SizeName size : kSizes) {
    const Span& span = spanOf(part, size);
    const bool thickness = size == SizeName::thickness;
    const bool material = thickness && given(span) == 1 && !span.size;
    if (given(span) == 2 || material) continue;
    return fail(
        ErrorCode::spansUnfit,
        std::to_string(given(span)) + " of from, to, size and centre are given",
        placeOf(part, size),
        thickness
            ? "give two of them, or one of from, to and centre to use the material's thickness"
            : "give two of them");
  }
  return {};
}

Result<void> SizeGraphBuilder::checkNames(const Expression& expression,
                                          const std::string& place) const {
  const auto names = expressions_.namesIn(expression);
  if (!names) return tl::unexpected(names.error().within(place));
  for (const std::string& name : *names) {
    if (sizes_.graph_.find(name)) continue;
    const std::string mend = nearestMend(name, sizes_.graph_.names());
    return fail(
        ErrorCode::unknownName, "there is no size named " + inQuotes(name), place,
        mend.empty() ? "name a dimension, MATERIAL.thickness, or a part's face or size" : mend);
  }
  return {};
}

Result<void> SizeGraphBuilder::checkSpanNames(const Span& span, const std::string& place) const {
  const std::pair<const char*, const std::optional<Expression>*> all[] = {
      {".from", &span.from}, {".to", &span.to}, {".size", &span.size}, {".centre", &span.centre}};
  for (const auto& [key, expression] : all) {
    if (!*expression) continue;
    if (Result<void> fine = checkNames(**expression, place + key); !fine) return fine;
  }
  return {};
}

/// REQUIRES: every name in the formula is known.
void SizeGraphBuilder::define(Id id, SizeFormula formula) {
  if (formula.expression) {
    if (const auto names = expressions_.namesIn(*formula.expression)) {
      for (const std::string& name : *names) sizes_.graph_.connect(id, *sizes_.graph_.find(name));
    }
  }
  for (const auto& [factor, source] : formula.terms) sizes_.graph_.connect(id, source);
  sizes_.formulas_[id] = std::move(formula);
}

void SizeGraphBuilder::defineDimensions() {
  for (const Dimension& d : model_.dimensions) {
    define(*sizes_.graph_.find(d.name), {d.value, "dimensions." + d.name, 1, {}});
  }
}

void SizeGraphBuilder::defineMaterials() {
  for (const Material& m : model_.materials) {
    SizeGiven thickness{m.thickness, "materials." + m.name + ".thickness"};
    if (auto real = measured(Measurement::Scope::material, m.name, SizeName::thickness)) {
      thickness = std::move(*real);
    }
    define(*sizes_.graph_.find(m.name + ".thickness"), {thickness.value, thickness.place, 1, {}});
  }
}

void SizeGraphBuilder::definePart(const Part& part) {
  const DependencyGraph& graph = sizes_.graph_;
  for (const SizeName size : kSizes) {
    const Span& span = spanOf(part, size);
    const SpanIds ids{*graph.find(faceName(part, span.along, false)),
                      *graph.find(faceName(part, span.along, true)),
                      *graph.find(part.name + "." + wordFor(size))};
    std::optional<Id> material;
    if (size == SizeName::thickness && leftToMaterial(part)) {
      material = graph.find(part.material + ".thickness");
    }
    defineSpan(span, ids, placeOf(part, size), measuredSize(part, size), material);
  }
}

void SizeGraphBuilder::defineSpan(const Span& span, const SpanIds& ids, const std::string& place,
                                  std::optional<SizeGiven> measured, std::optional<Id> material) {
  if (measured) {
    define(ids.size, {measured->value, measured->place, 1, {}});
  } else if (span.size) {
    define(ids.size, {span.size, place + ".size", 1, {}});
  } else if (material) {
    define(ids.size, {std::nullopt, place, 1, {{1, *material}}});
  } else {
    defineEnds(span, ids, place);
    return;
  }
  // The size is known: one end follows from the other.
  if (span.centre) {
    define(ids.near, {span.centre, place + ".centre", 1, {{-0.5, ids.size}}});
  } else if (span.from) {
    define(ids.near, {span.from, place + ".from", 1, {}});
  } else {
    define(ids.far, {span.to, place + ".to", 1, {}});
    define(ids.near, {std::nullopt, place, 1, {{1, ids.far}, {-1, ids.size}}});
    return;
  }
  define(ids.far, {std::nullopt, place, 1, {{1, ids.near}, {1, ids.size}}});
}

/// The size follows from two of from, to and centre.
void SizeGraphBuilder::defineEnds(const Span& span, const SpanIds& ids, const std::string& place) {
  if (span.from) define(ids.near, {span.from, place + ".from", 1, {}});
  if (span.to) define(ids.far, {span.to, place + ".to", 1, {}});
  if (span.from && span.to) {
    define(ids.size, {std::nullopt, place, 1, {{1, ids.far}, {-1, ids.near}}});
  } else if (span.from) {
    define(ids.size, {span.centre, place + ".centre", 2, {{-2, ids.near}}});
    define(ids.far, {std::nullopt, place, 1, {{1, ids.near}, {1, ids.size}}});
  } else {
    define(ids.size, {span.centre, place + ".centre", -2, {{2, ids.far}}});
    define(ids.near, {std::nullopt, place, 1, {{1, ids.far}, {-1, ids.size}}});
  }
}

std::optional<SizeGraphBuilder::SizeGiven> SizeGraphBuilder::measuredSize(const Part& part,
                                                                          SizeName size) const {
  if (auto made = madeSizeOf(part, size)) return made;
  if (auto own = measured(Measurement::Scope::part, part.name, size)) return own;
  const bool material = size == SizeName::thickness && leftToMaterial(part);
  if (!material || part.batch.empty()) return std::nullopt;
  return measured(Measurement::Scope::batch, part.batch, size);
}

std::optional<SizeGraphBuilder::SizeGiven> SizeGraphBuilder::madeSizeOf(const Part& part,
                                                                        SizeName size) const {
  if (basis_ == Basis::drawn) return std::nullopt;
  const auto mark = marks_.find(part.name);
  if (mark == marks_.end()) return std::nullopt;
  const auto mm = madeSize(*mark->second, static_cast<PartAxis>(size));
  if (!mm) return std::nullopt;
  return SizeGiven{{numberText(*mm / millimetresIn(model_.unit)), true}, "marks." + part.name};
}

std::optional<SizeGraphBuilder::SizeGiven> SizeGraphBuilder::measured(Measurement::Scope scope,
                                                                      const std::string& name,
                                                                      SizeName size) const {
  if (basis_ == Basis::drawn) return std::nullopt;
  const auto it = measurements_.find({wordFor(scope) + "." + name, wordFor(size)});
  if (it == measurements_.end()) return std::nullopt;
  return SizeGiven{it->second->value,
                   "measured." + wordFor(scope) + "." + name + "." + wordFor(size)};
}

}  // namespace dryfit::joinery
