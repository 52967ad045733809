#include "joinery/file/model_file.h"

#include "joinery/joints/joint_kinds.h"

#include <algorithm>

#include "joinery/base/atomic_write.h"
#include "joinery/base/plain_text.h"
#include "joinery/base/read_whole.h"
#include "joinery/file/joint_reader.h"
#include "joinery/file/json_document.h"
#include "joinery/file/marks_reader.h"
#include "joinery/file/model_reader.h"
#include "joinery/file/reader_names.h"
#include "joinery/file/unfold.h"
#include "joinery/making/marks.h"
#include "joinery/piece/made_size.h"
#include "kernel/tolerance.h"

namespace dryfit::joinery {
namespace {

/// Text that is a plain number is written as a number.
JsonNode nodeOf(const std::string& value) {
  const std::string text = trimmed(value);
  return isPlainNumber(text) ? JsonNode::ofNumber(text) : JsonNode::ofText(text);
}

tl::unexpected<Error> unknown(const std::string& kind, const std::string& name,
                              const std::vector<std::string>& known, const std::string& where) {
  FirstError errors;
  const JsonNode none;
  JsonPlace(none, where, errors)
      .unknown("there is no " + kind + " " + inQuotes(name), name, known, ErrorCode::unknownName);
  return tl::unexpected(*errors.error());
}

template <class Things>
bool has(const Things& things, const std::string& name) {
  return std::any_of(things.begin(), things.end(), [&](const auto& t) { return t.name == name; });
}

std::string sectionOf(Measurement::Scope scope) {
  return scope == Measurement::Scope::part    ? "parts"
         : scope == Measurement::Scope::batch ? "batches"
                                              : "materials";
}

std::string keyOf(SizeName size) {
  return size == SizeName::length ? "length" : size == SizeName::width ? "width" : "thickness";
}

/// Takes the record away, and the objects that become empty by that.
void eraseMeasurement(JsonNode& root, const std::string& section, const std::string& name,
                      const std::string& size) {
  JsonNode* measured = root.find("measured");
  JsonNode* list = measured == nullptr ? nullptr : measured->find(section);
  JsonNode* sizes = list == nullptr ? nullptr : list->find(name);
  if (sizes == nullptr) return;
  sizes->erase(size);
  if (sizes->members.empty()) list->erase(name);
  if (list->members.empty()) measured->erase(section);
  if (measured->members.empty()) root.erase("measured");
}

Result<void> checkTarget(const Model& model, const Measurement& m, const std::string& where) {
  if (m.scope != Measurement::Scope::part && m.size != SizeName::thickness) {
    return fail(ErrorCode::badMeasurement, "only the thickness of it can be measured", where,
                "measure length and width part by part");
  }
  if (m.scope == Measurement::Scope::part && !has(model.parts, m.name)) {
    return unknown("part", m.name, namesOf(model.parts), where);
  }
  if (m.scope == Measurement::Scope::material && !has(model.materials, m.name)) {
    return unknown("material", m.name, namesOf(model.materials), where);
  }
  if (m.scope == Measurement::Scope::batch) {
    std::vector<std::string> batches;
    for (const Part& part : model.parts) batches.push_back(part.batch);
    std::sort(batches.begin(), batches.end());
    batches.erase(std::unique(batches.begin(), batches.end()), batches.end());
    std::erase(batches, "");
    if (std::find(batches.begin(), batches.end(), m.name) == batches.end()) {
      return unknown("batch", m.name, batches, where);
    }
  }
  return {};
}

/// The mark of a made part that a size was read off anew, with that size: a part is as wide as it
/// is, whatever it was marked with. Batches and materials leave made parts as they are.
std::optional<Mark> markReadAgain(const Model& model, const Measurement& m, double mm) {
  if (m.scope != Measurement::Scope::part) return std::nullopt;
  const Mark* mark = markOf(model, m.name);
  const auto axis = static_cast<PartAxis>(m.size);
  if (mark == nullptr || !madeSize(*mark, axis)) return std::nullopt;
  Mark again = *mark;
  const int i = indexOf(axis);
  again.overall.set(i,
                    again.overall[i] + mm - again.blank[i]);  // what stands beyond it is as before
  again.blank.set(i, mm);
  // What was made at the far side lies where that side is now.
  const double old = mark->blank[i];
  for (MadeFeature& feature : again.features) {
    auto& [joint, purpose, extent] = feature;
    if (extent.max[i] < old - kernel::kContact) continue;
    if (extent.min[i] > kernel::kContact) extent.min.set(i, extent.min[i] + mm - old);
    extent.max.set(i, extent.max[i] + mm - old);
  }
  return again;
}

}  // namespace

struct ModelFile::Impl {
  JsonNode document;
  Model model;

  std::map<std::string, std::string> authored;  ///< see Unfolded

  /// Takes a changed document if it still reads as a model; otherwise nothing changes.
  Result<void> accept(JsonNode changed) {
    auto unfolded = unfold(changed);
    if (!unfolded) return tl::unexpected(unfolded.error());
    Result<Model> read = readModel(*unfolded ? (*unfolded)->document : changed);
    if (!read) {
      Error error = read.error();
      if (*unfolded) error.where = (*unfolded)->authoredPlace(error.where);
      return tl::unexpected(std::move(error));
    }
    document = std::move(changed);
    model = std::move(*read);
    authored.clear();
    if (*unfolded) authored = std::move((*unfolded)->authored);
    return {};
  }

  /// The name by which the author's document has what the model has under this one: of a copy that
  /// of what is repeated.
  [[nodiscard]] std::string authoredName(const std::string& section,
                                         const std::string& name) const {
    const auto found = authored.find(section + "." + name);
    return found == authored.end() ? name : found->second.substr(section.size() + 1);
  }
};

ModelFile::ModelFile(std::unique_ptr<Impl> impl) : impl_(std::move(impl)) {}
ModelFile::ModelFile(ModelFile&&) noexcept = default;
ModelFile& ModelFile::operator=(ModelFile&&) noexcept = default;
ModelFile::ModelFile(const ModelFile& other) : impl_(std::make_unique<Impl>(*other.impl_)) {}
ModelFile& ModelFile::operator=(const ModelFile& other) {
  if (this != &other) impl_ = std::make_unique<Impl>(*other.impl_);
  return *this;
}
ModelFile::~ModelFile() = default;

Result<ModelFile> ModelFile::load(const std::filesystem::path& path) {
  const Result<std::string> text = readWhole(path, "model");
  if (!text) return tl::unexpected(text.error());
  return parse(*text, path.string());
}

Result<ModelFile> ModelFile::parse(const std::string& text, const std::string& where) {
  if (text.size() > kLargestFile) {
    return fail(ErrorCode::badModel, "the text is larger than 20 MB", where);
  }
  Result<JsonNode> document = parseJson(text);
  if (!document) return tl::unexpected(document.error().within(where));
  auto impl = std::make_unique<Impl>();
  if (Result<void> accepted = impl->accept(std::move(*document)); !accepted) {
    return tl::unexpected(accepted.error().within(where));
  }
  return ModelFile(std::move(impl));
}

const Model& ModelFile::model() const {
  return impl_->model;
}

std::string ModelFile::text() const {
  return jsonText(impl_->document);
}

Result<void> ModelFile::save(const std::filesystem::path& path) const {
  return writeAtomically(path, text());
}

Result<void> ModelFile::setDimension(const std::string& name, const std::string& value) {
  const std::string where = "dimensions." + oneLine(name);
  if (!has(impl_->model.dimensions, name)) {
    return unknown("dimension", name, namesOf(impl_->model.dimensions), where);
  }
  JsonNode changed = impl_->document;
  JsonNode& old = *changed.find("dimensions")->find(name);
  if (old.is(JsonNode::Type::object)) {
    old.set("value", nodeOf(value));
  } else {
    old = nodeOf(value);
  }
  return impl_->accept(std::move(changed));
}

Result<void> ModelFile::setMeasurement(const Measurement& m) {
  const std::string section = sectionOf(m.scope);
  const std::string size = keyOf(m.size);
  const std::string where = "measured." + section + "." + oneLine(m.name) + "." + size;
  if (Result<void> known = checkTarget(impl_->model, m, where); !known) return known;
  JsonNode changed = impl_->document;
  if (trimmed(m.value.text).empty()) {
    eraseMeasurement(changed, section, m.name, size);
  } else {
    JsonNode value = nodeOf(m.value.text);
    const Expression read{value.text, value.is(JsonNode::Type::number)};
    const auto fine = checkMeasuredValue(read, impl_->model.unit);
    if (!fine) return fail(fine.error().code, fine.error().what, where, fine.error().mend);
    changed.objectAt("measured").objectAt(section).objectAt(m.name).set(size, std::move(value));
    if (const auto mark = markReadAgain(impl_->model, m, *fine)) {
      changed.objectAt("marks").set(mark->part, markNode(*mark, impl_->model.unit));
    }
  }
  return impl_->accept(std::move(changed));
}

Result<void> ModelFile::setMoisture(Measurement::Scope scope, const std::string& name,
                                    const std::string& percent) {
  const std::string section = sectionOf(scope);
  const std::string where = "measured." + section + "." + oneLine(name) + ".moisture";
  const Measurement target{scope, name, SizeName::thickness, {}};
  if (Result<void> known = checkTarget(impl_->model, target, where); !known) return known;
  JsonNode changed = impl_->document;
  if (trimmed(percent).empty()) {
    eraseMeasurement(changed, section, name, "moisture");
  } else {
    changed.objectAt("measured").objectAt(section).objectAt(name).set("moisture", nodeOf(percent));
  }
  return impl_->accept(std::move(changed));
}

Result<void> ModelFile::setMark(const Mark& mark) {
  const std::string where = "marks." + oneLine(mark.part);
  const Model& model = impl_->model;
  if (!has(model.parts, mark.part)) {
    return unknown("part", mark.part, namesOf(model.parts), where);
  }
  JsonNode changed = impl_->document;
  changed.objectAt("marks").set(mark.part, markNode(mark, model.unit));
  return impl_->accept(std::move(changed));
}

Result<void> ModelFile::eraseMark(const std::string& part) {
  const std::string where = "marks." + oneLine(part);
  if (!has(impl_->model.parts, part)) {
    return unknown("part", part, namesOf(impl_->model.parts), where);
  }
  JsonNode changed = impl_->document;
  JsonNode* marks = changed.find("marks");
  if (marks == nullptr || marks->find(part) == nullptr) {
    return fail(ErrorCode::unknownName, "this part is not marked", where,
                "there is no mark to remove");
  }
  marks->erase(part);
  if (marks->members.empty()) changed.erase("marks");
  return impl_->accept(std::move(changed));
}

Result<void> ModelFile::setJointParameter(const std::string& joint, const std::string& parameter,
                                          const std::string& value) {
  const std::string where = "joints." + oneLine(joint);
  const auto& joints = impl_->model.joints;
  const auto it =
      std::find_if(joints.begin(), joints.end(), [&](const Joint& j) { return j.name == joint; });
  if (it == joints.end()) return unknown("joint", joint, namesOf(joints), where);
  const std::vector<std::string> known = parameterNames(*jointKindNamed(it->kind));
  if (std::find(known.begin(), known.end(), parameter) == known.end()) {
    return unknown("parameter", parameter, known, where + "." + oneLine(parameter));
  }
  JsonNode changed = impl_->document;
  JsonNode& entry = *changed.find("joints")->find(impl_->authoredName("joints", joint));
  if (trimmed(value).empty()) {
    entry.erase(parameter);
  } else {
    entry.set(parameter, nodeOf(value));
  }
  return impl_->accept(std::move(changed));
}

}  // namespace dryfit::joinery
