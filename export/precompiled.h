#pragma once

// Precompiled for this layer; every file still names what it needs. The command line parser stays
// out: its header leaves seconds of code in every file that sees it.

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>
#include <map>
#include <optional>
#include <ostream>
#include <string>
#include <vector>
