#include "joinery/file/model_file.h"

#include "joinery/joints/joint_kinds.h"

#include <algorithm>
#include <memory>

#include "joinery/base/atomic_write.h"
#include "joinery/base/plain_text.h"
#include "joinery/base/read_whole.h"
#include "joinery/file/authored_part.h"
#include "joinery/file/joint_reader.h"
#include "joinery/file/json_document.h"
#include "joinery/file/marks_reader.h"
#include "joinery/file/model_reader.h"
#include "joinery/file/reader_names.h"
#include "joinery/file/unfold.h"
#include "joinery/file/uses.h"
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

  AssemblyFiles files;  ///< that the document names, as they were read
  std::shared_ptr<const AuthoredPlaces> authored = std::make_shared<AuthoredPlaces>();

  /// Takes a changed document if it still reads as a model; otherwise nothing changes.
  Result<void> accept(JsonNode changed) {
    auto unfolded = unfold(changed, files);
    if (!unfolded) return tl::unexpected(unfolded.error());
    Result<Model> read = readModel(*unfolded ? (*unfolded)->document : changed);
    if (!read) {
      Error error = read.error();
      if (*unfolded) error.where = (*unfolded)->authoredPlace(error.where);
      return tl::unexpected(std::move(error));
    }
    document = std::move(changed);
    model = std::move(*read);
    AuthoredPlaces places;
    if (*unfolded) places = std::move((*unfolded)->authored);
    if (*unfolded) model.setAside = std::move((*unfolded)->setAside);
    authored = std::make_shared<const AuthoredPlaces>(std::move(places));
    if (!authored->empty()) {
      model.authoredPlace = [from = authored](const std::string& place) {
        return dryfit::joinery::authoredPlace(*from, place);
      };
    }
    return {};
  }

  /// Where its author wrote what the model has under this name.
  [[nodiscard]] AuthoredPlace placeOf(const std::string& section, const std::string& name) const {
    const auto found = authored->find(section + "." + name);
    if (found != authored->end()) return found->second;
    return {section + "." + name, {}, {}, {}};
  }
};

namespace {

/// The node at a place of an author's document, of something that is to be changed.
Result<JsonNode*> changedAt(JsonNode& document, const AuthoredPlace& from) {
  JsonNode* node = nodeAt(document, from.place);  // a file of its own is not in the document
  if (node != nullptr) return node;
  return fail(ErrorCode::unknownName, "this is described in a file of its own", from.place,
              "change it there, or give the use a value of its own");
}

/// The entry of a list that is that of the copy with this name: "drawer_2.front_height".
JsonNode* ofCopy(JsonNode* values, const std::string& name) {
  if (!values->is(JsonNode::Type::list)) return values;
  const std::string copy = name.substr(0, name.rfind('.'));
  const std::string number = copy.substr(copy.rfind('_') + 1);
  const bool digits = !number.empty() && number.size() < 5 &&
                      std::ranges::all_of(number, [](char c) { return c >= '0' && c <= '9'; });
  const std::size_t index = digits ? std::stoul(number) : 0;
  return index == 0 || index > values->members.size() ? values : &values->members[index - 1].value;
}

/// Reads the files of sub-assemblies that a document names, beside the model.
Result<AssemblyFiles> readFiles(const JsonNode& document, const std::filesystem::path& model) {
  AssemblyFiles files;
  const JsonNode* list = document.find("assemblies");
  const JsonNode* unit = document.find("unit");
  if (list == nullptr) return files;
  for (const JsonMember& assembly : list->members) {
    const JsonNode* name = assembly.value.find("file");
    if (name == nullptr || !name->is(JsonNode::Type::text) || files.contains(name->text)) continue;
    const std::filesystem::path path = model.parent_path() / name->text;
    const auto text = readWhole(path, "sub-assembly");
    if (!text) return tl::unexpected(text.error());
    auto read = parseAssemblyFile(*text, unit == nullptr ? "mm" : unit->text);
    if (!read) return tl::unexpected(read.error().within(path.string()));
    files.emplace(name->text, std::move(*read));
  }
  return files;
}

}  // namespace

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
  return parse(*text, path.string(), path);
}

Result<ModelFile> ModelFile::parse(const std::string& text, const std::string& where,
                                   const std::filesystem::path& beside) {
  if (text.size() > kLargestFile) {
    return fail(ErrorCode::badModel, "the text is larger than 20 MB", where);
  }
  Result<JsonNode> document = parseJson(text);
  if (!document) return tl::unexpected(document.error().within(where));
  auto impl = std::make_unique<Impl>();
  if (!beside.empty()) {
    auto files = readFiles(*document, beside);
    if (!files) return tl::unexpected(files.error());
    impl->files = std::move(*files);
  }
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

bool ModelFile::saysTheSame(const ModelFile& other) const {
  return impl_->document == other.impl_->document;
}

Result<void> ModelFile::save(const std::filesystem::path& path) const {
  return writeAtomically(path, text());
}

Result<void> ModelFile::setDimension(const std::string& name, const std::string& value) {
  return setAnswers({{name, value}});
}

Result<void> ModelFile::setAnswers(const std::vector<std::pair<std::string, std::string>>& values) {
  JsonNode changed = impl_->document;
  for (const auto& [name, value] : values) {
    if (has(impl_->model.choices, name)) {
      changed.find("choices")->find(name)->set("value", JsonNode::ofText(trimmed(value)));
      continue;
    }
    if (!has(impl_->model.dimensions, name) || isOfPlace(name)) {
      return unknown("dimension", name, namesOf(impl_->model.dimensions),
                     "dimensions." + oneLine(name));
    }
    const auto found = changedAt(changed, impl_->placeOf("dimensions", name));
    if (!found) return tl::unexpected(found.error());
    JsonNode& old = *ofCopy(*found, name);
    if (old.is(JsonNode::Type::object)) {
      old.set("value", nodeOf(value));
    } else {
      old = nodeOf(value);
    }
  }
  return impl_->accept(std::move(changed));
}

Result<void> ModelFile::setTitle(const std::string& title) {
  JsonNode changed = impl_->document;
  changed.set("name", JsonNode::ofText(title));
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
  const AuthoredPlace from = impl_->placeOf("joints", joint);
  const auto entry = changedAt(changed, from);
  if (!entry) return tl::unexpected(entry.error());
  // Written for the original of a mirror image.
  JsonNode own = nodeOf(value);
  const std::string key =
      from.mirror.placeParameter(parameter, own, *jointKindNamed(it->kind), from.thickness);
  if (trimmed(value).empty()) {
    (*entry)->erase(key);
  } else {
    (*entry)->set(key, std::move(own));
  }
  return impl_->accept(std::move(changed));
}

const JsonNode& ModelFile::document() const {
  return impl_->document;
}

std::string ModelFile::authoredPlace(const std::string& section, const std::string& name) const {
  return impl_->placeOf(section, name).place;
}

Result<void> ModelFile::change(const std::function<Result<void>(JsonNode& document)>& edit) {
  JsonNode changed = impl_->document;
  if (auto done = edit(changed); !done) return done;
  return impl_->accept(std::move(changed));
}

}  // namespace dryfit::joinery
