#include "export/verbs/options.h"

#include <CLI/CLI.hpp>

namespace dryfit::exporting {

const OptionRules& OptionRules::required() const {
  option_->required();
  return *this;
}

const OptionRules& OptionRules::oneOf(const std::vector<std::string>& words) const {
  option_->check(CLI::IsMember(words));
  return *this;
}

const OptionRules& OptionRules::within(int least, int most) const {
  option_->check(CLI::Range(least, most));
  return *this;
}

const OptionRules& OptionRules::showDefault() const {
  option_->capture_default_str();
  return *this;
}

const OptionRules& OptionRules::notWith(const OptionRules& other) const {
  option_->excludes(other.option_);
  return *this;
}

OptionRules VerbOptions::add(const std::string& names, std::string& value, const std::string& type,
                             const std::string& help) const {
  return OptionRules(*command_->add_option(names, value, help)->type_name(type));
}

OptionRules VerbOptions::add(const std::string& names, int& value, const std::string& type,
                             const std::string& help) const {
  return OptionRules(*command_->add_option(names, value, help)->type_name(type));
}

OptionRules VerbOptions::addRepeated(const std::string& names, std::vector<std::string>& values,
                                     const std::string& type, const std::string& help) const {
  return OptionRules(
      *command_->add_option(names, values, help)->type_name(type)->allow_extra_args(false));
}

OptionRules VerbOptions::addPlaces(const std::string& name, std::vector<std::string>& values,
                                   const std::string& type, const std::string& help) const {
  return OptionRules(*command_->add_option(name, values, help)->type_name(type));
}

void VerbOptions::flag(const std::string& names, bool& value, const std::string& help) const {
  command_->add_flag(names, value, help);
}

void VerbOptions::takeRest(std::vector<std::string>& words) const {
  command_->allow_extras();
  command_->parse_complete_callback([command = command_, &words] { words = command->remaining(); });
}

void VerbOptions::footnote(const std::string& line) const {
  command_->footer(command_->get_footer() + "\n" + line);
}

}  // namespace dryfit::exporting
