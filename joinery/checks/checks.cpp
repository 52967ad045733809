#include "joinery/checks/checks.h"

#include <array>

#include "joinery/checks/all.h"

namespace dryfit::joinery {

Result<void> CheckInput::stopIfAsked() const {
  if (!goOn || goOn()) return {};
  return fail(ErrorCode::cancelled, "stopped");
}

std::span<const CheckRow> checks() {
  static constexpr std::array kRows{
      CheckRow{"interference", checking::interference},
      CheckRow{"clash", checking::clash},
      CheckRow{"breakout", checking::breakout},
      CheckRow{"gap", checking::gap},
      CheckRow{"not cut", checking::notCut},
      CheckRow{"unsupported", checking::unsupported},
      CheckRow{"meeting", checking::meeting},
      CheckRow{"swing", checking::swing},
      CheckRow{"fit", checking::fit},
      CheckRow{"grain", checking::grain},
      CheckRow{"envelope", checking::envelope},
      CheckRow{"proportion", checking::proportion},
      CheckRow{"taper", checking::taper},
      CheckRow{"locked", checking::locked},
      CheckRow{"set aside", checking::setAside},
      CheckRow{"joint kinds", checking::jointKinds},
      CheckRow{"unsuited", checking::unsuited},
      CheckRow{"mends", checking::mends},
  };
  return kRows;
}

}  // namespace dryfit::joinery
