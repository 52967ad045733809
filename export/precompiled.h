#pragma once

// Precompiled for this layer; every file still names what it needs.

#include <fmt/format.h>
#include <spdlog/logger.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>
#include <map>
#include <optional>
#include <ostream>
#include <string>
#include <vector>
