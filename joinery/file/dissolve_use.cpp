#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <map>
#include <set>

#include "joinery/base/plain_text.h"
#include "joinery/file/assemblies.h"
#include "joinery/file/assembly_edits.h"
#include "joinery/file/authored_part.h"
#include "joinery/file/choices.h"
#include "joinery/file/expression_words.h"
#include "joinery/file/name_steps.h"
#include "joinery/file/name_uses.h"
#include "joinery/file/taken_names.h"
#include "joinery/file/use_copies.h"
#include "joinery/file/uses.h"

namespace dryfit::joinery {
namespace {

using Type = JsonNode::Type;

constexpr const char* kSections[] = {"dimensions", "groups", "parts",
                                     "joints",     "tapers", "hardware"};

/// In brackets, but for a number or a single name, or where it has them.
std::string inBrackets(const std::string& text) {
  if (text.starts_with('(') && text.find(')') == text.size() - 1) {
    return text.find_first_of("+-*/ ,", 1) == std::string::npos ? text.substr(1, text.size() - 2)
                                                                : text;
  }
  return text.find_first_of("+-*/() ,?<>=&|") == std::string::npos ? text : "(" + text + ")";
}

/// Numbers as an author writes them: the mirror image of an angle of 0 is 0.
void tidyNumbers(JsonNode& node) {
  if (node.is(Type::number) && node.text == "-0") node.text = "0";
  for (JsonMember& member : node.members) tidyNumbers(member.value);
}

/// What a dissolved use leaves in the piece.
class Dissolving {
 public:
  Dissolving(JsonNode& document, const FlatDocument& flat, std::string use)
      : document_(document),
        flat_(flat),
        steps_(document),
        use_(std::move(use)),
        repeated_(isRepeated(*document.find("uses")->find(use_))) {
    document_.find("uses")->erase(use_);
  }

  Result<void> run() {
    taken_ = takenNames(document_);
    for (const char* section : kSections) name(section);
    for (const char* section : kSections) {
      if (auto done = write(section); !done) return done;
    }
    visitNames(document_, {[&](JsonNode& node, const std::string& place, const std::string& scope) {
                             if (isNew(place)) return;
                             node.text = withWords(node.text, [&](std::string_view word) {
                               return fromOutside(word, scope);
                             });
                           },
                           [&](JsonNode& node, const std::string& place, const std::string& scope) {
                             if (!isNew(place)) node.text = fromOutside(node.text, scope);
                           }});
    JsonNode* measured = document_.find("measured");
    for (JsonNode* list :
         {document_.find("marks"), measured == nullptr ? nullptr : measured->find("parts")}) {
      if (list == nullptr) continue;
      for (JsonMember& entry : list->members) entry.key = said(entry.key);
    }
    if (lost_.empty()) return {};
    return fail(ErrorCode::badModel, inQuotes(lost_) + " would have no name of its own",
                "uses." + use_, "name one copy there, or take out what names it, first");
  }

 private:
  /// True for what the use wrote out.
  [[nodiscard]] bool isIts(const char* section, const std::string& key) const {
    return flat_.authored.contains(fmt::format("{}.{}", section, key));
  }
  [[nodiscard]] std::string freeName(const std::string& key) {
    std::string own = key.substr(key.rfind('.') + 1);
    if (repeated_) {
      // The number comes last, so that "drawer_copy.front" has a name as well.
      const std::size_t dot = std::min(key.find('.'), key.size());
      const std::string number = key.substr(use_.size(), dot - use_.size());
      own = use_ + (dot == key.size() ? "" : "_" + key.substr(dot + 1)) + number;
      std::ranges::replace(own, '.', '_');
    } else if (taken_.contains(own)) {
      own = key;
      std::ranges::replace(own, '.', '_');
    }
    const std::string wish = own;
    for (char letter = 'a'; taken_.contains(own) && letter <= 'z'; ++letter) {
      own = fmt::format("{}_{}", wish, letter);
    }
    taken_.insert(own);
    return own;
  }

  void name(const char* section) {
    const JsonNode* list = flat_.document.find(section);
    if (list == nullptr || section == std::string_view("hardware")) return;
    for (const JsonMember& entry : list->members) {
      if (!isIts(section, entry.key)) continue;
      const bool isDimension = section == std::string_view("dimensions");
      const JsonNode* value =
          entry.value.is(Type::object) ? entry.value.find("value") : &entry.value;
      const bool plainName = isDimension && value != nullptr && value->is(Type::text) &&
                             value->text.find_first_not_of(
                                 "abcdefghijklmnopqrstuvwxyz_0123456789"
                                 ".") == std::string::npos;
      if (isDimension && (isOfPlace(entry.key) || plainName)) {
        inline_[entry.key] = value->text;
        continue;
      }
      Named& own = names_[section][entry.key];
      own = {freeName(entry.key), entry.value.find("repeat") != nullptr};
    }
  }

  struct Named {
    std::string name;
    bool repeated = false;
  };

  /// A name as it is once the use is gone.
  [[nodiscard]] std::string said(std::string_view word) const {
    std::string whole(word);
    if (const auto text = inline_.find(whole); text != inline_.end()) {
      return inBrackets(withWords(text->second, words()));
    }
    for (const char* section : {"dimensions", "parts"}) {
      const auto list = names_.find(section);
      if (list == names_.end()) continue;
      for (std::size_t end = whole.size(); end != std::string::npos && end > 0;
           end = whole.rfind('.', end - 1)) {
        const std::string head = whole.substr(0, end);
        const std::string rest = whole.substr(end);
        if (const auto own = list->second.find(head); own != list->second.end()) {
          return own->second.name + rest;
        }
        const std::size_t number = head.rfind('_');
        if (number == std::string::npos) continue;
        const auto own = list->second.find(head.substr(0, number));
        if (own != list->second.end() && own->second.repeated) {
          return own->second.name + head.substr(number) + rest;
        }
      }
    }
    return whole;
  }
  /// The same of a name that is written outside of what the use wrote out.
  [[nodiscard]] std::string fromOutside(std::string_view word, const std::string& scope) {
    const auto steps = steps_.of(word, scope);
    const bool its = !steps.empty() && steps.front().scope.empty() &&
                     steps.front().kind == NameStep::Kind::use && steps.front().name == use_;
    if (!its) return std::string(word);
    std::string done = said(word);
    if (done != word) return done;
    const std::size_t dot = std::min(word.find('.'), word.size());
    for (const std::string end : {"_copy", "_next"}) {
      if (word.substr(0, dot) != use_ + end) continue;
      const std::string first = use_ + "_1" + std::string(word.substr(dot));
      const std::size_t second = std::min(first.find('.', first.find('.') + 1), first.size());
      done = said(first);
      const std::size_t own = std::min(done.find('.'), done.size());
      const auto parts = names_.find("parts");
      const bool plain = parts != names_.end() && parts->second.contains(first.substr(0, second));
      if (plain && done.substr(0, own).ends_with("_1")) return done.replace(own - 2, 2, end);
    }
    lost_ = word;
    return std::string(word);
  }
  [[nodiscard]] std::function<std::string(std::string_view)> words() const {
    return [this](std::string_view word) { return said(word); };
  }

  [[nodiscard]] bool isNew(const std::string& place) const {
    const std::size_t dot = place.find('.');
    return new_.contains(place.substr(0, place.find('.', dot + 1)));
  }

  Result<void> write(const char* section) {
    const JsonNode* list = flat_.document.find(section);
    if (list == nullptr) return {};
    for (const JsonMember& entry : list->members) {
      if (!isIts(section, entry.key)) continue;
      if (section == std::string_view("hardware")) {
        if (auto done = addGoods(entry); !done) return done;
        continue;
      }
      const auto own = names_[section].find(entry.key);
      if (own == names_[section].end()) continue;
      JsonNode node = translated(section, own->second.name, entry.value);
      if (JsonNode* group = node.find("group")) group->text = groupName(group->text);
      if (JsonNode* within = node.find("within")) within->text = groupName(within->text);
      if (section == std::string_view("parts") && !repeated_) label(node, entry.key);
      document_.objectAt(section).set(own->second.name, std::move(node));
      new_.insert(fmt::format("{}.{}", section, own->second.name));
    }
    return {};
  }

  /// An entry with the names that the piece has from now on.
  [[nodiscard]] JsonNode translated(const char* section, const std::string& name,
                                    const JsonNode& entry) const {
    JsonNode wrapped = JsonNode::ofObject();
    wrapped.objectAt(section).set(name, entry);
    tidyNumbers(wrapped);
    visitNames(wrapped, {[&](JsonNode& node, const std::string&, const std::string&) {
                           node.text = withWords(node.text, words());
                         },
                         [&](JsonNode& node, const std::string&, const std::string&) {
                           node.text = said(node.text);
                         }});
    return *wrapped.find(section)->find(name);
  }
  [[nodiscard]] std::string groupName(const std::string& group) const {
    const auto list = names_.find("groups");
    if (list == names_.end()) return group;
    const auto own = list->second.find(group);
    return own == list->second.end() ? group : own->second.name;
  }
  /// A part that stands alone is called as its description calls it.
  void label(JsonNode& part, const std::string& key) const {
    const auto from = flat_.authored.find("parts." + key);
    const JsonNode* written = nodeAt(document_, from->second.place);
    const JsonNode* own = written == nullptr ? nullptr : written->find("label");
    if (written == nullptr) return;
    if (own == nullptr) {
      part.erase("label");
    } else {
      part.set("label", *own);
    }
  }

  /// Goods of one name are one row.
  Result<void> addGoods(const JsonMember& entry) {
    const std::string goods = entry.key.substr(entry.key.rfind('.') + 1);
    JsonNode own = translated("hardware", goods, entry.value);
    if (!own.is(Type::object)) {
      JsonNode whole = JsonNode::ofObject();
      whole.set("count", own);
      own = std::move(whole);
    }
    new_.insert("hardware." + goods);
    JsonNode& list = document_.objectAt("hardware");
    JsonNode* row = list.find(goods);
    if (row == nullptr) {
      list.set(goods, std::move(own));
      return {};
    }
    const JsonNode* more = own.find("count");
    JsonNode* count = row->is(Type::object) ? row->find("count") : row;
    if (count == nullptr || more == nullptr || own.find("when") != nullptr ||
        (row->is(Type::object) && row->find("when") != nullptr)) {
      return fail(ErrorCode::badModel, inQuotes(goods) + " cannot be one row with what is there",
                  "hardware." + goods, "give one of them another name");
    }
    *count = authoredNode(inBrackets(count->text) + " + " + inBrackets(more->text));
    JsonNode* held = row->find("holds");
    const JsonNode* holds = own.find("holds");
    if (holds == nullptr) return {};
    if (held == nullptr) {
      if (row->is(Type::object)) row->set("holds", *holds);
    } else {
      held->members.insert(held->members.end(), holds->members.begin(), holds->members.end());
    }
    return {};
  }

  JsonNode& document_;
  const FlatDocument& flat_;
  NameSteps steps_;
  std::string use_;
  bool repeated_;
  std::string lost_;  ///< a name that nothing has any more
  std::set<std::string> taken_, new_;
  std::map<std::string, std::string> inline_;
  std::map<std::string, std::map<std::string, Named>> names_;
};

/// A document of the piece with this use alone; without what lies in files of its own.
JsonNode withUseAlone(const JsonNode& document, const std::string& use) {
  JsonNode alone = document;
  JsonNode& uses = *alone.find("uses");
  std::erase_if(uses.members, [&](const JsonMember& other) { return other.key != use; });
  if (JsonNode* list = alone.find("assemblies")) {
    std::erase_if(list->members, [](const JsonMember& description) {
      return description.value.find("file") != nullptr;
    });
  }
  return alone;
}

bool isUsed(const JsonNode& document, const std::string& of) {
  const auto uses = [&](const JsonNode& node) {
    const JsonNode* list = node.find("uses");
    return list != nullptr && std::ranges::any_of(list->members, [&](const JsonMember& use) {
             const JsonNode* own = use.value.find("of");
             return own != nullptr && own->text == of;
           });
  };
  const JsonNode* list = document.find("assemblies");
  return uses(document) ||
         (list != nullptr &&
          std::ranges::any_of(list->members, [&](const auto& d) { return uses(d.value); }));
}

/// Tidies up behind a use that is gone.
void tidyAfter(JsonNode& document, const std::string& of) {
  if (document.find("uses")->members.empty()) document.erase("uses");
  JsonNode* list = document.find("assemblies");
  if (list == nullptr || isUsed(document, of)) return;
  list->erase(of);
  if (list->members.empty()) document.erase("assemblies");
}

}  // namespace

Result<void> dissolve(ModelFile& file, const std::string& use) {
  const JsonNode* uses = file.document().find("uses");
  const JsonNode* node = uses == nullptr ? nullptr : uses->find(use);
  if (node == nullptr) {
    return fail(ErrorCode::unknownName, "no sub-assembly stands in the piece as " + inQuotes(use),
                "uses." + oneLine(use));
  }
  const std::string of = node->find("of")->text;
  JsonNode alone = withUseAlone(file.document(), use);
  if (auto done = resolveChoices(alone); !done) return done;
  const auto table = AssemblyTable::of(alone, {});
  if (!table) return tl::unexpected(table.error());
  const auto flat = writeOutUses(alone, **table);
  if (!flat) return tl::unexpected(flat.error());
  return file.change([&](JsonNode& document) -> Result<void> {
    // Labels are looked up where they were written, so the description goes last.
    if (auto done = Dissolving(document, *flat, use).run(); !done) return done;
    tidyAfter(document, of);
    return {};
  });
}

}  // namespace dryfit::joinery
