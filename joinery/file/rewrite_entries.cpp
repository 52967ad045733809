#include "joinery/file/rewrite_entries.h"

#include <string_view>

#include "joinery/file/copies.h"

namespace dryfit::joinery {
namespace {

using Type = JsonNode::Type;

void rewriteAll(JsonNode* node, const Scope& scope) {
  if (node == nullptr) return;
  for (JsonMember& member : node->members) scope.rewrite(&member.value);
}

void rewriteRepeat(JsonNode* repeat, const Scope& scope) {
  if (repeat == nullptr) return;
  scope.rewrite(repeat);
  scope.rewrite(repeat->find("count"));
  if (JsonNode* spread = repeat->find("spread")) {
    for (const char* key : {"from", "to", "between"}) scope.rewrite(spread->find(key));
  }
  rewriteAll(repeat->find("mirrored"), scope);
}

/// A spread is written into the part first: a mirror image of copy 2 is copy 2 of the image.
void placePart(JsonNode& part, const MirrorPlacing& placing) {
  if (placing.plain()) return;
  JsonNode* repeat = part.find("repeat");
  if (JsonNode* spread = repeat == nullptr ? nullptr : repeat->find("spread")) {
    if (spreadCopies(part, *spread, "")) repeat->erase("spread");
  }
  placing.placePart(part);
}

void rewriteOpening(JsonNode& opening, const Scope& scope) {
  for (JsonMember& span : opening.members) {
    if (span.value.is(Type::object) && opening.is(Type::list)) {
      rewriteOpening(span.value, scope);
    } else {
      rewriteAll(&span.value, scope);
    }
  }
}

void rewriteEach(JsonNode& node, const Scope& scope) {
  scope.rewrite(&node);
  rewriteAll(&node, scope);
}

void renameMaterials(JsonNode& node, const Scope& scope) {
  if (node.is(Type::text)) node.text = scope.materialName(node.text);
  for (JsonMember& member : node.members) renameMaterials(member.value, scope);
}

}  // namespace

void rewriteTurn(JsonNode* turn, const Scope& scope) {
  if (turn == nullptr) return;
  scope.rewrite(turn->find("angle"));
  if (JsonNode* at = turn->find("at")) {
    for (JsonMember& coordinate : at->members) scope.rewrite(&coordinate.value);
  }
}

void rewritePart(JsonNode& part, const Scope& scope) {
  for (const char* key : {"length", "width", "thickness"}) {
    JsonNode* span = part.find(key);
    if (span == nullptr) continue;
    for (const char* end : {"from", "to", "size", "centre"}) scope.rewrite(span->find(end));
  }
  rewriteTurn(part.find("turn"), scope);
  scope.rewrite(part.find("when"));
  rewriteRepeat(part.find("repeat"), scope);
  rewriteAll(part.find("mirror"), scope);
  if (JsonNode* material = part.find("material"); material != nullptr) {
    if (material->is(Type::text)) material->text = scope.materialName(material->text);
  }
  placePart(part, scope.placing());
}

void renameParts(JsonNode* node, const Scope& scope) {
  if (node == nullptr) return;
  if (node->is(Type::text)) node->text = scope.partName(node->text);
  for (JsonMember& member : node->members) renameParts(&member.value, scope);
}

/// A use within a description, in the names of the piece; its coordinates stay those of the
/// description.
void rewriteUse(JsonNode& use, const Scope& scope) {
  scope.rewrite(use.find("when"));
  rewriteRepeat(use.find("repeat"), scope);
  rewriteAll(use.find("mirror"), scope);
  rewriteTurn(use.find("turn"), scope);
  if (JsonNode* opening = use.find("opening")) rewriteOpening(*opening, scope);
  for (const char* key : {"values", "neighbours", "materials"}) {
    JsonNode* section = use.find(key);
    if (section == nullptr) continue;
    for (JsonMember& member : section->members) {
      if (key == std::string_view("values")) rewriteEach(member.value, scope);
      if (key == std::string_view("neighbours")) renameParts(&member.value, scope);
      if (key == std::string_view("materials")) renameMaterials(member.value, scope);
    }
  }
}

}  // namespace dryfit::joinery
