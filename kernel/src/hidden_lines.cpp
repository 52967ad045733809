#include "kernel/hidden_lines.h"
