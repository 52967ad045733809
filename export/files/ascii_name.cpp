#include "export/files/ascii_name.h"

#include <algorithm>
#include <array>

namespace dryfit::exporting {

namespace {

struct Spelling {
  std::string_view letter;
  std::string_view ascii;
};

constexpr std::array<Spelling, 62> kSpellings{{
    {"ä", "ae"}, {"ö", "oe"}, {"ü", "ue"}, {"Ä", "Ae"},  {"Ö", "Oe"},  {"Ü", "Ue"},  {"ß", "ss"},
    {"à", "a"},  {"á", "a"},  {"â", "a"},  {"ã", "a"},   {"å", "aa"},  {"æ", "ae"},  {"ç", "c"},
    {"è", "e"},  {"é", "e"},  {"ê", "e"},  {"ë", "e"},   {"ì", "i"},   {"í", "i"},   {"î", "i"},
    {"ï", "i"},  {"ñ", "n"},  {"ò", "o"},  {"ó", "o"},   {"ô", "o"},   {"õ", "o"},   {"ø", "oe"},
    {"ù", "u"},  {"ú", "u"},  {"û", "u"},  {"ý", "y"},   {"ÿ", "y"},   {"À", "A"},   {"Á", "A"},
    {"Â", "A"},  {"Å", "Aa"}, {"Æ", "Ae"}, {"Ç", "C"},   {"È", "E"},   {"É", "E"},   {"Ê", "E"},
    {"Ñ", "N"},  {"Ó", "O"},  {"Ø", "Oe"}, {"Ú", "U"},   {"č", "c"},   {"š", "s"},   {"ž", "z"},
    {"ł", "l"},  {"ő", "o"},  {"ű", "u"},  {"–", "-"},   {"—", "-"},   {"‘", "'"},   {"’", "'"},
    {"“", "\""}, {"”", "\""}, {"×", "x"},  {"½", "1/2"}, {"¼", "1/4"}, {"¾", "3/4"},
}};

/// Bytes of the character that starts with `lead`; 1 for a stray byte.
std::size_t bytesOf(unsigned char lead) {
  return lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : lead >= 0xC0 ? 2 : 1;
}

}  // namespace

std::string asciiName(std::string_view utf8) {
  std::string name;
  while (!utf8.empty()) {
    const auto lead = static_cast<unsigned char>(utf8.front());
    const std::string_view letter = utf8.substr(0, bytesOf(lead));
    if (lead >= 0x20 && lead < 0x7F) {
      name += letter;
    } else {
      const auto it = std::find_if(kSpellings.begin(), kSpellings.end(),
                                   [letter](const Spelling& s) { return s.letter == letter; });
      name += it == kSpellings.end() ? "_" : it->ascii;
    }
    utf8.remove_prefix(letter.size());
  }
  return name;
}

}  // namespace dryfit::exporting
