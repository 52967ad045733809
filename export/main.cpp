#include <iostream>
#include <string>
#include <vector>

#include "export/command_line.h"

int main(int argc, char** argv) {
  return dryfit::exporting::run(std::vector<std::string>(argv + 1, argv + argc), std::cout,
                                std::cerr);
}
