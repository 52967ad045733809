#include "joinery/base/plain_text.h"
#include "joinery/file/authored_part.h"
#include "joinery/file/name_uses.h"
#include "joinery/file/named_part.h"
#include "joinery/file/part_edits.h"
#include "joinery/file/taken_names.h"

namespace dryfit::joinery {
namespace {

/// The name with the part's own name in it exchanged.
std::string renamed(std::string word, const std::string& scope, const NamedPart& part,
                    const std::string& name) {
  if (const auto at = part.at(word, scope)) word.replace(*at, part.part().name.size(), name);
  return word;
}

/// True where the new name would be taken for something else, or something else for it: a
/// description sees the piece behind its own names.
bool wouldBeMistaken(JsonNode document, const NamedPart& part, const std::string& name) {
  const std::string& home = part.part().scope;
  bool mistaken = false;
  const auto look = [&](std::string_view word, const std::string& scope) {
    const std::string first(word.substr(0, word.find('.')));
    if (scope == home && !home.empty()) {
      mistaken = mistaken || isOf(first, name, part.part().repeated);
    }
    const bool fromWithin = home.empty() && !scope.empty() && part.at(word, scope) == 0U;
    const JsonNode* within = fromWithin ? scopeNode(document, scope) : nullptr;
    if (within != nullptr) mistaken = mistaken || takenNames(*within).contains(name);
  };
  visitNames(document, {[&](JsonNode& text, const std::string&, const std::string& scope) {
                          (void)withWords(text.text, [&](std::string_view word) {
                            look(word, scope);
                            return std::string(word);
                          });
                        },
                        [&](JsonNode& text, const std::string&, const std::string& scope) {
                          look(text.text, scope);
                        }});
  return mistaken;
}

}  // namespace

Result<void> renamePart(ModelFile& file, const std::string& old, const std::string& name) {
  const auto own = authored(file, old);
  if (!own) return tl::unexpected(own.error());
  if (own->name == name) return {};
  const NamedPart part(file.document(), *own);
  const JsonNode* home = scopeNode(file.document(), own->scope);
  const bool there = own->scope.empty() && hasPart(file, name);
  if (there || takenNames(*home).contains(name) || wouldBeMistaken(file.document(), part, name)) {
    return fail(ErrorCode::badModel, inQuotes(name) + " is taken", own->place(),
                "choose another name");
  }
  return file.change([&](JsonNode& document) -> Result<void> {
    visitNames(document, {[&](JsonNode& text, const std::string&, const std::string& scope) {
                            text.text = withWords(text.text, [&](std::string_view word) {
                              return renamed(std::string(word), scope, part, name);
                            });
                          },
                          [&](JsonNode& text, const std::string&, const std::string& scope) {
                            text.text = renamed(text.text, scope, part, name);
                          }});
    JsonNode* measured = document.find("measured");
    for (JsonNode* list :
         {document.find("marks"), measured == nullptr ? nullptr : measured->find("parts")}) {
      if (list == nullptr) continue;
      for (JsonMember& entry : list->members) entry.key = renamed(entry.key, "", part, name);
    }
    for (JsonMember& entry : scopeNode(document, own->scope)->find("parts")->members) {
      if (entry.key == own->name) entry.key = name;
    }
    return {};
  });
}

}  // namespace dryfit::joinery
