#include "export/drawing/view_memory.h"

#include <algorithm>

namespace dryfit::exporting {
namespace {

bool sameSolids(std::span<const kernel::Solid> a, std::span<const kernel::Solid> b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](const kernel::Solid& p, const kernel::Solid& q) { return p.isSameAs(q); });
}

bool sameEye(const kernel::Viewpoint& a, const kernel::Viewpoint& b) {
  return a.right == b.right && a.up == b.up;
}

}  // namespace

Result<Projection> ViewMemory::ask(std::span<const kernel::Solid> solids,
                                   const kernel::Viewpoint& eye,
                                   const std::optional<SectionPlane>& section, const Work& work) {
  const void* key = solids.empty() ? nullptr : solids.front().body();
  {
    const std::scoped_lock lock(mutex_);
    const auto [first, last] = entries_.equal_range(key);
    for (auto entry = first; entry != last; ++entry) {
      Entry& known = entry->second;
      if (!sameEye(known.eye, eye) || known.section != section) continue;
      if (!sameSolids(known.solids, solids)) continue;
      known.used = true;
      return known.picture;
    }
  }
  auto picture = work();
  if (!picture) return picture;
  const std::scoped_lock lock(mutex_);
  ++worked_;
  entries_.emplace(key, Entry{{solids.begin(), solids.end()}, eye, section, *picture, true});
  return picture;
}

void ViewMemory::forgetUnused() {
  const std::scoped_lock lock(mutex_);
  std::erase_if(entries_, [](const auto& entry) { return !entry.second.used; });
  for (auto& [key, entry] : entries_) entry.used = false;
}

int ViewMemory::worked() const {
  const std::scoped_lock lock(mutex_);
  return worked_;
}

Result<Projection> projectOnce(ViewMemory* memory, std::span<const kernel::Solid> solids,
                               const kernel::Viewpoint& eye) {
  if (memory == nullptr) return project(solids, eye);
  return memory->ask(solids, eye, std::nullopt, [&] { return project(solids, eye); });
}

Result<Projection> projectSectionOnce(ViewMemory* memory, const kernel::Solid& solid,
                                      const SectionPlane& plane, const kernel::Viewpoint& eye) {
  const auto work = [&] { return projectSection(solid, plane.axis, plane.at, eye); };
  if (memory == nullptr) return work();
  return memory->ask(std::span(&solid, 1), eye, plane, work);
}

}  // namespace dryfit::exporting
