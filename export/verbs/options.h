#pragma once

#include <string>
#include <vector>

namespace CLI {
class App;
class Option;
}  // namespace CLI

namespace dryfit::exporting {

/// One option that was added; what is said of it is chained on.
class OptionRules {
 public:
  explicit OptionRules(CLI::Option& option) : option_(&option) {}
  const OptionRules& required() const;
  /// Only these words are taken.
  const OptionRules& oneOf(const std::vector<std::string>& words) const;
  /// Only numbers from `least` to `most` are taken.
  const OptionRules& within(int least, int most) const;
  /// The help shows the value that the bound member has now.
  const OptionRules& showDefault() const;
  /// An error where both are given.
  const OptionRules& notWith(const OptionRules& other) const;

 private:
  CLI::Option* option_;
};

/// The options of one verb: each names itself ("-o,--output", or "sizes" where it is told by its
/// place), the variable that it fills, what stands for its value in the help ("FILE"), and its
/// help. A thin layer over the parser, whose own header leaves seconds of code in each file that
/// sees it.
class VerbOptions {
 public:
  explicit VerbOptions(CLI::App& command) : command_(&command) {}
  OptionRules add(const std::string& names, std::string& value, const std::string& type,
                  const std::string& help) const;
  OptionRules add(const std::string& names, int& value, const std::string& type,
                  const std::string& help) const;
  /// Takes one value each time that it is given, so that it swallows nothing that follows it.
  OptionRules addRepeated(const std::string& names, std::vector<std::string>& values,
                          const std::string& type, const std::string& help) const;
  /// All that the command line names by place, after the model.
  OptionRules addPlaces(const std::string& name, std::vector<std::string>& values,
                        const std::string& type, const std::string& help) const;
  void flag(const std::string& names, bool& value, const std::string& help) const;
  /// Takes what no other option takes, as it was typed.
  void takeRest(std::vector<std::string>& words) const;
  /// Adds a line to the end of the verb's help.
  void footnote(const std::string& line) const;

 private:
  CLI::App* command_;
};

}  // namespace dryfit::exporting
