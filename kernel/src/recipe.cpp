#include "kernel/recipe.h"

#include <algorithm>
#include <bit>
#include <limits>
#include <utility>

#include "kernel/square_work.h"
#include "kernel/src/bars_in_line.h"
#include "kernel/src/convert.h"
#include "kernel/src/solid_impl.h"
#include "kernel/src/square_turn.h"

namespace dryfit::kernel {
namespace {

template <class... Fs>
struct Cases : Fs... {
  using Fs::operator()...;
};
template <class... Fs>
Cases(Fs...) -> Cases<Fs...>;

/// FNV-1a over 64-bit words, each word spread by the finaliser of the splitmix64 generator (Steele,
/// Lea, Flood, "Fast Splittable Pseudorandom Number Generators", 2014) so that numbers with few set
/// bits, as round millimetres have, fill the key. The same on every machine with IEEE doubles.
class Hash {
 public:
  void add(std::uint64_t word) {
    word += 0x9e3779b97f4a7c15U;
    word = (word ^ (word >> 30)) * 0xbf58476d1ce4e5b9U;
    word = (word ^ (word >> 27)) * 0x94d049bb133111ebU;
    state_ = (state_ ^ (word ^ (word >> 31))) * 0x100000001b3U;
    state_ ^= state_ >> 29;
  }
  /// +0 and -0 are equal, so they count the same.
  void add(double number) { add(std::bit_cast<std::uint64_t>(number == 0 ? 0.0 : number)); }
  void add(Point3 p) { add(p.x), add(p.y), add(p.z); }
  void add(Vec3 v) { add(v.x), add(v.y), add(v.z); }
  void add(const Frame& f) { add(f.origin), add(f.x), add(f.y), add(f.z); }
  void add(const Tool& tool) {
    add(std::uint64_t{tool.index()});
    std::visit(
        Cases{[&](const Block& b) { add(b.box.min), add(b.box.max), add(b.frame); },
              [&](const Prism& p) {
                add(p.frame);
                add(std::uint64_t{p.outline.size()});
                for (const Point2& q : p.outline) add(q.x), add(q.y);
                add(p.height);
              },
              [&](const Cylinder& c) { add(c.base), add(c.axis), add(c.radius), add(c.height); }},
        tool);
  }
  [[nodiscard]] std::uint64_t value() const { return state_; }

 private:
  std::uint64_t state_ = 0xcbf29ce484222325U;
};

bool isPlain(const Tool& tool) {
  const Block* block = std::get_if<Block>(&tool);
  return block && block->frame == Frame{};
}

/// Two square turns can be taken one after the other without any rounding of directions.
Block placedBlock(const Block& block, const Frame& frame) {
  if (block.frame.isSquare() && frame.isSquare()) {
    return {cornersPlaced(snapped(frame), cornersPlaced(snapped(block.frame), block.box)), {}};
  }
  const Frame both = frame.after(block.frame);
  if (both.isSquare()) return {cornersPlaced(snapped(both), block.box), {}};
  return {block.box, both};
}

Box3 boundsOfPrism(const Prism& prism) {
  constexpr double far = std::numeric_limits<double>::infinity();
  Box3 box{{far, far, far}, {-far, -far, -far}};
  for (const Point2& p : prism.outline) {
    for (const double z : {0.0, prism.height}) {
      const Point3 corner = prism.frame.place({p.x, p.y, z});
      box = box.united({corner, corner});
    }
  }
  return box;
}

Box3 boundsOfCylinder(const Cylinder& c) {
  const Point3 end = c.base + c.axis * c.height;
  Box3 box = Box3{c.base, c.base}.united({end, end});
  for (int i = 0; i < 3; ++i) {
    // A disc reaches as far along an axis as its plane leans over: r·sin(angle to its normal).
    const double reach = c.radius * std::sqrt(std::fmax(0, 1 - c.axis[i] * c.axis[i]));
    box.min.set(i, box.min[i] - reach);
    box.max.set(i, box.max[i] + reach);
  }
  return box;
}

/// Makes the tools of a removal that may meet the part, or all the tools of an addition. `numbers`
/// are their places in the author's step.
Result<std::vector<Solid>> toolsOf(const Step& step, const std::vector<std::size_t>& numbers,
                                   const Solid& part) {
  std::vector<Solid> tools;
  for (std::size_t i = 0; i < step.tools.size(); ++i) {
    const Tool& tool = step.tools[i];
    const bool misses = step.kind == Step::Kind::remove && isPlain(tool) &&
                        boundsOf(tool).common(part.bounds()).empty() && !boundsOf(tool).empty();
    if (misses) continue;
    auto made = makeTool(tool);
    if (!made) {
      return tl::unexpected(made.error().within("tool " + std::to_string(numbers[i] + 1)));
    }
    tools.push_back(std::move(*made));
  }
  return tools;
}

Result<Solid> after(const Solid& part, const Step& step, const std::vector<std::size_t>& numbers) {
  const auto tools = toolsOf(step, numbers, part);
  if (!tools) return tl::unexpected(tools.error());
  return step.kind == Step::Kind::add ? fuse(part, *tools) : cut(part, *tools);
}

}  // namespace

bool Recipe::isSquareWork() const {
  return isPlain(blank) && std::all_of(steps.begin(), steps.end(), [](const Step& step) {
           return std::all_of(step.tools.begin(), step.tools.end(), isPlain);
         });
}

std::uint64_t contentKey(const Recipe& recipe) {
  Hash hash;
  hash.add(recipe.blank);
  for (const Step& step : recipe.steps) {
    hash.add(static_cast<std::uint64_t>(step.kind));
    hash.add(std::uint64_t{step.tools.size()});
    for (const Tool& tool : step.tools) hash.add(tool);
  }
  return hash.value();
}

Result<Solid> makeTool(const Tool& tool) {
  return std::visit(
      Cases{[](const Block& b) -> Result<Solid> {
              // Not placed first: placing would set an inside-out box right, unseen.
              if (b.box.empty()) return makeBox(b.box);
              if (!isRigid(b.frame)) {
                return fail(ErrorCode::badDimension, "the block's frame is not square in itself");
              }
              const Block plain = placedBlock(b, {});
              auto box = makeBox(plain.box);
              if (!box) return box;
              return box->placed(plain.frame);
            },
            [](const Prism& p) { return makePrism(p.frame, p.outline, Length::mm(p.height)); },
            [](const Cylinder& c) {
              return makeCylinder(c.base, c.axis, Length::mm(c.radius), Length::mm(c.height));
            }},
      tool);
}

Tool placed(const Tool& tool, const Frame& frame) {
  return std::visit(
      Cases{[&](const Block& b) -> Tool { return placedBlock(b, frame); },
            [&](const Prism& p) -> Tool {
              return Prism{frame.after(p.frame), p.outline, p.height};
            },
            [&](const Cylinder& c) -> Tool {
              return Cylinder{frame.place(c.base), frame.turn(c.axis), c.radius, c.height};
            }},
      tool);
}

Box3 boundsOf(const Tool& tool) {
  return std::visit(
      Cases{[](const Block& b) { return b.frame == Frame{} ? b.box : boundsOf(b.frame, b.box); },
            [](const Prism& p) { return boundsOfPrism(p); },
            [](const Cylinder& c) { return boundsOfCylinder(c); }},
      tool);
}

Result<Solid> buildGeneral(const Recipe& recipe) {
  auto part = makeTool(recipe.blank);
  if (!part) return tl::unexpected(part.error().within("blank"));
  const JoinedRecipe joined = withBarsJoined(recipe);
  for (std::size_t i = 0; i < recipe.steps.size(); ++i) {
    part = after(*part, joined.recipe.steps[i], joined.numbers[i]);
    if (!part) return tl::unexpected(part.error().within("step " + std::to_string(i + 1)));
  }
  return part;
}

Result<Solid> build(const Recipe& recipe) {
  // A refusal is no failure yet: the general way may manage, or else says what is wrong and where.
  auto work = recipe.isSquareWork() ? arrange(recipe) : arrangeBored(recipe);
  if (work) return squareSolid(std::move(*work));
  return buildGeneral(recipe);
}

}  // namespace dryfit::kernel
