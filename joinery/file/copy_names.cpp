#include "joinery/file/copy_names.h"

#include <algorithm>
#include <iterator>

namespace dryfit::joinery {

Copies CopyNames::copiesOf(const std::string& part) const {
  const auto found = copies_.find(part);
  return found == copies_.end() ? Copies{} : found->second;
}

std::vector<std::string> CopyNames::step(const std::string& whole, bool last) const {
  if (isLeftOut(whole)) return {};
  if (last) return copiesOf(whole).names(whole);
  const auto uses = flat_.copiesOf.find(whole);
  return uses == flat_.copiesOf.end() ? std::vector<std::string>{whole} : uses->second;
}

std::vector<std::string> CopyNames::standsFor(const std::string& name) const {
  std::vector<std::string> all{""};
  for (std::size_t start = 0; start <= name.size();) {
    const std::size_t dot = std::min(name.find('.', start), name.size());
    std::vector<std::string> next;
    for (const std::string& before : all) {
      const std::string whole =
          (before.empty() ? "" : before + ".") + name.substr(start, dot - start);
      std::ranges::move(step(whole, dot == name.size()), std::back_inserter(next));
    }
    all = std::move(next);
    start = dot + 1;
  }
  return all;
}

bool CopyNames::isRepeated(const std::string& name) const {
  if (copiesOf(name).repeated) return true;
  for (std::size_t dot = name.find('.'); dot != std::string::npos; dot = name.find('.', dot + 1)) {
    if (flat_.copiesOf.contains(name.substr(0, dot))) return true;
  }
  return false;
}

bool CopyNames::isLeftOut(const std::string& name) const {
  for (std::size_t dot = name.find('.'); dot != std::string::npos; dot = name.find('.', dot + 1)) {
    if (isLeftOutItself(name.substr(0, dot))) return true;
  }
  return isLeftOutItself(name);
}

bool CopyNames::isLeftOutItself(const std::string& name) const {
  if (flat_.leftOut.contains(name)) return true;
  if (const auto own = copies_.find(name); own != copies_.end()) return own->second.count == 0;
  const std::size_t cut = name.rfind('_');
  if (cut == std::string::npos) return false;
  const std::string number = name.substr(cut + 1), whole = name.substr(0, cut);
  const bool digits = !number.empty() && number.size() <= 6 &&
                      std::ranges::all_of(number, [](char c) { return c >= '0' && c <= '9'; });
  if (!digits) return false;
  if (flat_.leftOut.contains(whole)) return true;
  if (const auto uses = flat_.copiesOf.find(whole); uses != flat_.copiesOf.end()) {
    return std::stoul(number) > uses->second.size();
  }
  const auto of = copies_.find(whole);
  return of != copies_.end() && (of->second.repeated || of->second.count == 0) &&
         std::stoi(number) > of->second.count;
}

}  // namespace dryfit::joinery
